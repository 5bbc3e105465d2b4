#include "views/changeover/scan_field.h"

#include "views/bench/keys.h"

#include <QKeyEvent>
#include <QLineEdit>
#include <QTimer>
#include <QVBoxLayout>

namespace interlude {

namespace {
constexpr int flashMs = 900;
} // namespace

ScanField::ScanField(const Clock& clock, QWidget* parent) : Panel({}, parent), m_clock(clock) {
    m_line = new QLineEdit;
    m_line->setObjectName(QStringLiteral("scanField"));
    m_line->setAccessibleName(tr("Scan or type, then Enter"));
    m_line->setFont(look::font(look::Text::Detail));
    m_line->setMinimumHeight(look::buttonHeight);
    m_line->installEventFilter(this);
    m_message = look::label(look::Text::Body, {}, true);
    m_message->setObjectName(QStringLiteral("scanMessage"));
    m_message->hide();
    body()->setSpacing(look::unit / 2);
    body()->addWidget(m_line);
    body()->addWidget(m_message);
    setFocusProxy(m_line);
}

void ScanField::setHint(const QString& hint) {
    m_line->setPlaceholderText(hint);
    m_line->setAccessibleDescription(hint);
}

void ScanField::explainWrong(const QString& text) {
    m_message->setText(QStringLiteral("▲ ") + text);
    m_message->setAccessibleName(text);
    look::setTone(m_message, QStringLiteral("alarm"));
    m_message->show();
    setMark(Mark::Wrong);
    QTimer::singleShot(flashMs, this, [this] { setMark(Mark::None); });
}

void ScanField::explainRight(const QString& text) {
    m_message->setText(QStringLiteral("✓ ") + text);
    m_message->setAccessibleName(text);
    look::setTone(m_message, QString());
    m_message->show();
}

void ScanField::clearMessage() {
    m_message->clear();
    m_message->hide();
    setMark(Mark::None);
}

void ScanField::takeFocus() {
    m_line->setFocus(Qt::OtherFocusReason);
}

bool ScanField::eventFilter(QObject* watched, QEvent* event) {
    if (watched == m_line && event->type() == QEvent::KeyPress && key(static_cast<QKeyEvent&>(*event))) return true;
    return Panel::eventFilter(watched, event);
}

bool ScanField::key(QKeyEvent& event) {
    // A key that confirms is none that a scanner sends, see Keys; what was scanned half way stays in the line.
    if (keys().matches(QStringLiteral("guide.yes"), event)) return Q_EMIT yes(), true;
    if (keys().matches(QStringLiteral("guide.no"), event)) return Q_EMIT no(), true;
    const bool confirms = keys().matches(QStringLiteral("guide.confirm"), event);
    const bool enter = event.key() == Qt::Key_Return || event.key() == Qt::Key_Enter;
    if (confirms && !enter) {
        if (m_line->text().trimmed().isEmpty()) Q_EMIT confirmAsked();
        else explainWrong(tr("“%1” is not ended: press Enter, or Esc to clear it").arg(m_line->text()));
        return true;
    }
    switch (event.key()) {
    case Qt::Key_Return:
    case Qt::Key_Enter: {
        const QString text = m_line->text().trimmed();
        const bool typed = !m_pace.scanned(static_cast<int>(m_line->text().size()));
        m_line->clear();
        m_pace.clear();
        if (!text.isEmpty()) Q_EMIT entered(text, typed);
        else if (confirms) Q_EMIT confirmAsked();
        return true;
    }
    case Qt::Key_Escape:
        m_line->clear();
        m_pace.clear();
        clearMessage();
        Q_EMIT cancelled();
        return true;
    default: break;
    }
    if (m_line->text().isEmpty()) m_pace.clear();
    if (event.text().size() == 1 && event.text().at(0).isPrint())
        m_pace.key(m_clock.running());
    else if (event.key() == Qt::Key_Backspace || event.key() == Qt::Key_Delete)
        m_pace.edited();
    return false;
}

} // namespace interlude
