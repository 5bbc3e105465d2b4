#pragma once
// The line that scans and keys arrive in: always focused, ended by Enter. The keys for confirming, yes and no are those of
// views/bench/keys.h (an empty Enter, F2, F3 unless a person chose others), Esc cancels. What is wrong flashes and is explained underneath.

#include "views/changeover/key_pace.h"
#include "views/look/widgets.h"

#include "model/clock/clock.h"

class QLineEdit;

namespace interlude {

class ScanField final : public look::Panel {
    Q_OBJECT
public:
    /// `clock` is borrowed; its running side times the keys.
    explicit ScanField(const Clock& clock, QWidget* parent = nullptr);

    QLineEdit* line() const { return m_line; }
    /// What is expected now, as a hint in the empty field.
    void setHint(const QString& hint);
    void explainWrong(const QString& text);
    void explainRight(const QString& text);
    void clearMessage();
    void takeFocus();

Q_SIGNALS:
    /// Enter with text; `typed`: made by hand, not by a scanner.
    void entered(const QString& text, bool typed);
    void confirmAsked();
    void yes();
    void no();
    void cancelled();

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    bool key(class QKeyEvent& event);
    const Clock& m_clock;
    KeyPace m_pace;
    QLineEdit* m_line;
    QLabel* m_message;
};

} // namespace interlude
