#pragma once
// A field that takes the next key as it is pressed. Tab leaves it, Esc is the dialog's; Backspace or Delete take the key away.

#include <QKeySequence>
#include <QLineEdit>

namespace interlude {

class KeyField final : public QLineEdit {
    Q_OBJECT
public:
    explicit KeyField(QWidget* parent = nullptr);

Q_SIGNALS:
    /// Empty: to be without a key.
    void pressed(const QKeySequence& key);

protected:
    bool event(QEvent* event) override;
};

} // namespace interlude
