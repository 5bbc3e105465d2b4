#include "views/window/message_bar.h"

#include "views/look/widgets.h"

#include <QAccessible>
#include <QHBoxLayout>
#include <QVBoxLayout>

namespace interlude {

MessageBar::MessageBar(QWidget* parent)
    : QFrame(parent), m_reason(look::label(look::Text::Detail, {}, true)), m_remedy(look::label(look::Text::Body)),
      m_close(look::button(tr("Close"))) {
    setProperty("surface", QStringLiteral("message"));
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(2 * look::unit, look::unit, look::unit, look::unit);
    row->setSpacing(2 * look::unit);
    auto* text = new QVBoxLayout;
    text->setSpacing(2);
    text->addWidget(m_reason);
    text->addWidget(m_remedy);
    row->addLayout(text, 1);
    row->addWidget(m_close, 0, Qt::AlignTop);
    m_close->setAccessibleName(tr("Close the message"));
    connect(m_close, &QPushButton::clicked, this, &MessageBar::dismiss);
    hide();
}

void MessageBar::showFinding(const Finding& finding) {
    const bool refused = finding.severity == Severity::Refusal;
    m_reason->setText(refused ? tr("■ Not recorded: %1").arg(finding.reason) : tr("● %1").arg(finding.reason));
    look::setTone(m_reason, refused ? QStringLiteral("alarm") : QString());
    m_remedy->setText(finding.remedy);
    m_remedy->setVisible(!finding.remedy.isEmpty());
    setAccessibleName(text());
    show();
    QAccessibleEvent event(this, QAccessible::Alert);
    QAccessible::updateAccessibility(&event);
}

void MessageBar::dismiss() {
    hide();
}

QString MessageBar::text() const {
    return m_remedy->text().isEmpty() ? m_reason->text() : m_reason->text() + QStringLiteral(" ") + m_remedy->text();
}

} // namespace interlude
