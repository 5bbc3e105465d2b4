#include "views/window/key_field.h"

#include "views/bench/keys.h"

#include <QKeyEvent>

namespace interlude {

namespace {

bool staysWithDialog(const QKeyEvent& key) {
    return key.key() == Qt::Key_Tab || key.key() == Qt::Key_Backtab || key.key() == Qt::Key_Escape;
}

} // namespace

KeyField::KeyField(QWidget* parent) : QLineEdit(parent) {
    setReadOnly(true);
    setAccessibleName(tr("Press the new key"));
    setPlaceholderText(accessibleName());
}

bool KeyField::event(QEvent* event) {
    const bool press = event->type() == QEvent::KeyPress || event->type() == QEvent::ShortcutOverride;
    if (!press) return QLineEdit::event(event);
    const auto& key = static_cast<QKeyEvent&>(*event);
    if (staysWithDialog(key)) return QLineEdit::event(event);
    event->accept(); // also of an underlined letter, while it is to become a key
    if (event->type() == QEvent::ShortcutOverride) return true;
    const bool away = (key.key() == Qt::Key_Backspace || key.key() == Qt::Key_Delete) && key.modifiers() == Qt::NoModifier;
    if (const QKeySequence chosen = keyOf(key); away || !chosen.isEmpty()) Q_EMIT pressed(away ? QKeySequence() : chosen);
    return true;
}

} // namespace interlude
