#pragma once
// Geometry and words of the cooling or heating curve: which stretch of time and temperature is shown, and the sentence
// that says the same. Plain values in, plain values out.

#include "model/session/guide.h"

namespace interlude {

struct ChartFrame {
    Instant from, to;
    double lowC = 0, highC = 100; ///< whole tens
    QList<SensorReading> readings; ///< of the sensor, within the frame
};

/// Frame around the band, the readings of that sensor, the target and now; at least ten minutes and twenty kelvin.
ChartFrame chartFrame(const QList<CurvePoint>& band, const QList<SensorReading>& readings, const Countdown& c,
                      Instant now);
/// "Chamber below 60 °C: from 124 °C at 10:12, expected to reach 60 °C at 10:58, at the latest 11:05; 3 readings,
/// the last 84 °C at 10:31." Times in `zone`.
QString chartSentence(const QList<CurvePoint>& band, const ChartFrame& frame, const Countdown& c,
                      const QTimeZone& zone);

} // namespace interlude
