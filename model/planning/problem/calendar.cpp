#include "model/planning/problem/calendar.h"

#include <algorithm>
#include <map>

namespace interlude::planning {

Minute minutesDown(Instant t, Instant now) {
    return std::chrono::floor<std::chrono::minutes>(t - now).count();
}

Minute minutesUp(Instant t, Instant now) {
    return std::chrono::ceil<std::chrono::minutes>(t - now).count();
}

std::vector<CrewFrom> crewCalendar(const Fleet& fleet, const QList<Absence>& absences, Instant now, int days) {
    if (fleet.crewUnlimited) return {{0, unlimitedCrew}};
    std::map<Minute, int> changes; // minute → people more or fewer from then on
    const auto add = [&](Instant from, Instant to, int people) {
        const Minute a = std::max<Minute>(0, minutesUp(from, now)), b = minutesDown(to, now);
        if (b <= a) return;
        changes[a] += people;
        changes[b] -= people;
    };
    const QDate today = toZone(now, fleet.zone).date();
    for (int d = -1; d <= days; ++d) {
        const QDate date = today.addDays(d);
        if (fleet.closed.contains(date)) continue;
        for (const Shift& s : fleet.shifts) {
            if (!s.days.contains(date.dayOfWeek())) continue;
            const QDate endDate = s.to <= s.from ? date.addDays(1) : date;
            add(instantOf(QDateTime(date, s.from, fleet.zone)), instantOf(QDateTime(endDate, s.to, fleet.zone)), s.crew);
        }
    }
    for (const Absence& a : absences) add(a.from, a.to, -a.people);
    std::vector<CrewFrom> out{{0, 0}};
    int crew = 0;
    for (const auto& [minute, change] : changes) {
        crew += change;
        const int there = std::max(0, crew);
        if (minute == 0) out.front().crew = there;
        else if (there != out.back().crew) out.push_back({minute, there});
    }
    return out;
}

} // namespace interlude::planning
