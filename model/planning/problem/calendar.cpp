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

namespace {

/// `now` seldom stands on a whole minute, so people come and go within one: in that minute the fewest of it are there.
std::vector<CrewFrom> wholeMinutes(const std::map<Instant, int>& changes, Instant now) {
    std::map<Minute, int> from{{0, 0}};
    int people = 0;
    for (const auto& [at, change] : changes) {
        const int before = std::max(0, people);
        people += change;
        const int after = std::max(0, people);
        const Minute down = minutesDown(at, now), up = minutesUp(at, now);
        if (down < up && down >= 0) {
            int& fewest = from.try_emplace(down, before).first->second;
            fewest = std::min(fewest, after);
        }
        from[std::max<Minute>(0, up)] = after;
    }
    std::vector<CrewFrom> out;
    for (const auto& [minute, crew] : from)
        if (out.empty() || crew != out.back().crew) out.push_back({minute, crew});
    return out;
}

} // namespace

std::vector<CrewFrom> crewCalendar(const Fleet& fleet, const QList<Absence>& absences, Instant now, int days) {
    if (fleet.crewUnlimited) return {{0, unlimitedCrew}};
    std::map<Instant, int> changes; // people more or fewer from then on
    const auto add = [&](Instant from, Instant to, int people) {
        if (to <= from) return;
        changes[from] += people;
        changes[to] -= people;
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
    return wholeMinutes(changes, now);
}

} // namespace interlude::planning
