#include "views/changeover/reading_field.h"

#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLineEdit>
#include <QStyle>
#include <QVBoxLayout>

namespace interlude {

ReadingField::ReadingField(const QString& name, const QString& caption, const QString& unit, const QString& limits,
                           QWidget* parent)
    : QWidget(parent) {
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(look::unit / 2);
    column->addWidget(look::label(look::Text::Body, caption, true));
    m_row = new QHBoxLayout;
    m_row->setSpacing(look::unit);
    m_line = new QLineEdit;
    m_line->setObjectName(name);
    m_line->setFont(look::font(look::Text::Detail));
    m_line->setFixedWidth(18 * look::unit);
    m_line->setAccessibleName(limits.isEmpty() ? caption : QStringLiteral("%1, %2").arg(caption, limits));
    m_line->installEventFilter(this);
    m_row->addWidget(m_line);
    if (!unit.isEmpty()) {
        auto* u = look::label(look::Text::Detail, unit);
        u->setWordWrap(false);
        m_row->addWidget(u);
    }
    if (!limits.isEmpty()) {
        auto* l = look::mutedLabel(look::Text::Body, limits);
        l->setWordWrap(false);
        m_row->addWidget(l);
    }
    m_row->addStretch();
    column->addLayout(m_row);
    m_state = look::mutedLabel(look::Text::Body);
    m_state->setObjectName(name + QStringLiteral("State"));
    column->addWidget(m_state);
}

void ReadingField::setState(const QString& state, bool wrong, bool inHand) {
    m_state->setText(state.isEmpty() ? QStringLiteral(" ") : wrong ? QStringLiteral("▲ ") + state : state);
    look::setTone(m_state, wrong ? QStringLiteral("alarm") : QStringLiteral("muted"));
    m_line->setPlaceholderText(inHand ? tr("type it") : QString());
    if (m_line->property("wrong").toBool() == wrong) return;
    m_line->setProperty("wrong", wrong);
    m_line->style()->unpolish(m_line);
    m_line->style()->polish(m_line);
}

void ReadingField::setValue(const QString& value) {
    if (!m_line->hasFocus()) m_line->setText(value);
}

QPushButton* ReadingField::addAlternative(const QString& name, const QString& text) {
    auto* b = look::button(text);
    b->setObjectName(name);
    b->setFocusPolicy(Qt::TabFocus);
    auto* or_ = look::mutedLabel(look::Text::Body, tr("or"));
    or_->setWordWrap(false);
    m_row->insertWidget(m_row->count() - 1, or_);
    m_row->insertWidget(m_row->count() - 1, b);
    return b;
}

bool ReadingField::eventFilter(QObject* watched, QEvent* event) {
    if (watched == m_line && event->type() == QEvent::KeyPress) {
        const int key = static_cast<QKeyEvent*>(event)->key();
        if (key == Qt::Key_Return || key == Qt::Key_Enter) {
            const QString text = m_line->text();
            Q_EMIT left();
            if (!text.trimmed().isEmpty()) Q_EMIT given(text);
            return true;
        }
        if (key == Qt::Key_Escape) {
            m_line->clear();
            Q_EMIT left();
            return true;
        }
    }
    return QWidget::eventFilter(watched, event);
}

} // namespace interlude
