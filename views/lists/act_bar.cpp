#include "views/lists/act_bar.h"

#include "views/bench/keys.h"
#include "views/look/widgets.h"

#include <QHBoxLayout>

namespace interlude::lists {

ActBar::ActBar(const QString& name, QWidget* parent)
    : QWidget(parent), m_row(new QHBoxLayout), m_note(look::mutedLabel(look::Text::Body)) {
    setAccessibleName(name);
    setLayout(m_row);
    m_row->setContentsMargins(0, 0, 0, 0);
    m_row->setSpacing(look::unit);
    m_row->addWidget(m_note, 1);
}

QPushButton* ActBar::add(const QString& text, Needs needs, std::function<void()> act) {
    QPushButton* button = m_entries.isEmpty() ? look::primaryButton(text) : look::button(text);
    m_row->insertWidget(m_row->count() - 1, button);
    m_entries.append({button, needs});
    connect(button, &QPushButton::clicked, this, [act = std::move(act)] { act(); });
    return button;
}

void ActBar::update(bool signedIn, const QString& row) {
    for (const Entry& e : m_entries) {
        QString why;
        if (e.needs != Needs::Nothing && !signedIn) why = tr("Sign in first: the window is read-only.");
        else if (e.needs == Needs::PersonAndRow && row.isEmpty()) why = tr("Choose a row in the list first.");
        e.button->setEnabled(why.isEmpty());
        e.button->setToolTip(why);
        e.button->setAccessibleDescription(why);
    }
    m_signedIn = signedIn;
    say(m_said);
}

void ActBar::say(const QString& text) {
    m_said = text;
    m_note->setText(m_signedIn ? (text.isEmpty() ? QStringLiteral(" ") : text)
                               : tr("Read-only: sign in%1 to record anything.").arg(keyHint(QStringLiteral("sign-in"))));
}

QString ActBar::said() const {
    return m_note->text();
}

} // namespace interlude::lists
