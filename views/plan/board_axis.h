#pragma once
// The marks of the board's time axis: whole local hours and days of the shop's zone. Plain, tested.

#include "model/clock/instant.h"
#include "model/planning/problem/problem.h"

namespace interlude {

struct AxisTime {
    planning::Minute at = 0;
    QDate date;
    QTime time;
    bool midnight = false; ///< the first moment of that day, also where the zone skips 00:00
};

/// Every `step` minutes of local time from midnight on; a local time that the zone skips has no mark.
std::vector<AxisTime> axisTimes(Instant now, planning::Minute from, planning::Minute to, int step, const QTimeZone& zone);
/// The least step, of those that divide a day well, at which marks stand at least so many pixels apart.
int axisStep(double pxPerMinute, double leastPx = 44);

} // namespace interlude
