#include "views/plan/board_axis.h"

#include <cmath>

namespace interlude {

using planning::Minute;

std::vector<AxisTime> axisTimes(Instant now, Minute from, Minute to, int step, const QTimeZone& zone) {
    std::vector<AxisTime> out;
    const auto minuteOf = [now](const QDateTime& t) {
        return static_cast<Minute>(std::floor(static_cast<double>(t.toMSecsSinceEpoch() - toMs(now)) / 60000.0));
    };
    QDate day = toZone(now + std::chrono::minutes(from), zone).date();
    QDateTime start = day.startOfDay(zone);
    while (minuteOf(start) <= to) {
        const QDateTime next = day.addDays(1).startOfDay(zone);
        // Only the two days a year that are not 24 h long need the zone for every hour.
        const bool plain = start.msecsTo(next) == 24 * 60 * 60 * 1000 && start.time() == QTime(0, 0);
        for (int m = 0; m < 24 * 60; m += step) {
            const QTime time = QTime(0, 0).addSecs(m * 60);
            Minute at = minuteOf(start) + m;
            if (!plain && m > 0) {
                const QDateTime local(day, time, zone);
                if (!local.isValid() || local.time() != time) continue;
                at = minuteOf(local);
            }
            if (at >= from && at <= to) out.push_back({at, day, m == 0 ? start.time() : time, m == 0});
        }
        day = day.addDays(1);
        start = next;
    }
    return out;
}

int axisStep(double pxPerMinute, double leastPx) {
    for (const int step : {15, 30, 60, 120, 180, 240, 360, 720})
        if (step * pxPerMinute >= leastPx) return step;
    return 24 * 60;
}

} // namespace interlude
