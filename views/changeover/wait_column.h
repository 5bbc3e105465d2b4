#pragma once
// The right side of the guide: this printer's countdowns with their curve, a temperature to log, the other printers'
// countdowns, and what can be done meanwhile.

#include "views/changeover/countdown_panel.h"
#include "views/changeover/curve_chart.h"
#include "views/changeover/guide_desk.h"

#include <QScrollArea>

class QComboBox;
class QLineEdit;
class QVBoxLayout;

namespace interlude {

class WaitColumn final : public QScrollArea {
    Q_OBJECT
public:
    explicit WaitColumn(GuideDesk& desk, QWidget* parent = nullptr);
    /// Redraws the digits; the curve only when something was recorded (`whole`) or a quarter of a minute has passed.
    void refresh(bool whole);

Q_SIGNALS:
    void left(); ///< the field for a temperature is done with

private:
    void fill(QVBoxLayout* into, QList<CountdownPanel*>& panels, const QList<Countdown>& waits, bool own);
    void refreshCurve(bool whole);
    void addLog(QVBoxLayout* column);

    GuideDesk& m_desk;
    QVBoxLayout* m_own;
    QVBoxLayout* m_others;
    QList<CountdownPanel*> m_ownPanels, m_otherPanels;
    look::Panel* m_curvePanel;
    CurveChart* m_chart;
    QLabel* m_sentence;
    QComboBox* m_sensor;
    QLineEdit* m_value;
    look::Panel* m_meanwhilePanel;
    QLabel* m_meanwhile;
    look::Panel* m_quiet;
    std::optional<Instant> m_drawn;
    QString m_sensorFor; ///< session and wait that the sensor was proposed for
};

} // namespace interlude
