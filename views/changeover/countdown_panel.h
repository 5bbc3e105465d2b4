#pragma once
// One running countdown in large digits, with what it rests on. Arithmetic only: it never confirms anything.

#include "views/look/widgets.h"

#include "model/session/countdown.h"

namespace interlude {

class CountdownPanel final : public look::Panel {
    Q_OBJECT
public:
    /// Large: 72 px digits and the basis; small: for other printers.
    enum class Size { Large, Small };
    explicit CountdownPanel(Size size, QWidget* parent = nullptr);
    /// `heading` instead of the countdown's own title when not empty ("Bay 1 · purge").
    void show(const Countdown& c, Instant now, const QString& heading = {});
    StepId step() const { return m_step; }

Q_SIGNALS:
    /// Clicked, or Enter or Space on it.
    void chosen(const QString& step);

protected:
    void mouseReleaseEvent(QMouseEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;

private:
    Size m_size;
    StepId m_step;
    QLabel* m_heading;
    QLabel* m_digits;
    QLabel* m_basis;
};

/// The digits of a countdown: "18:40", "+02:10" when over, "measure" when there is no prediction.
QString countdownDigits(const Countdown& c, Instant now);
/// What stands under the digits.
QString countdownBasis(const Countdown& c, Instant now);

} // namespace interlude
