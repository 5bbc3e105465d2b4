#pragma once
// The cooling or heating curve: model band, expected line, readings as points, the temperature to reach as a dashed
// line. Geometry and its sentence come from chart_frame.

#include "views/changeover/chart_frame.h"

#include <QChartView>

namespace interlude {

class CurveChart final : public QChartView {
    Q_OBJECT
public:
    explicit CurveChart(QWidget* parent = nullptr);
    void show(const QList<CurvePoint>& band, const QList<SensorReading>& readings, const Countdown& c, Instant now,
              const QTimeZone& zone);

protected:
    void changeEvent(QEvent* event) override;

private:
    void redraw();
    ChartFrame m_frame;
    QList<CurvePoint> m_band;
    Countdown m_countdown;
    Instant m_now;
    QTimeZone m_zone;
};

} // namespace interlude
