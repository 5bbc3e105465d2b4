#pragma once
// People on shift as planning sees them: overlapping shifts add; a shift and `closed` belong to the day on which the shift
// begins; an absence takes people off; never below zero.

#include "model/catalogue/fleet.h"
#include "model/planning/problem/problem.h"

namespace interlude::planning {

struct Absence {
    Instant from, to;
    int people = 1;
    bool operator==(const Absence&) const = default;
};

/// From `now` on for so many days; afterwards nobody is there. Who is not there through a whole
/// minute, counted from `now`, does not count in it.
std::vector<CrewFrom> crewCalendar(const Fleet& fleet, const QList<Absence>& absences, Instant now, int days);
/// Minutes from `now`, rounded up and down.
Minute minutesUp(Instant t, Instant now);
Minute minutesDown(Instant t, Instant now);

} // namespace interlude::planning
