#pragma once
// Why a planned job costs a changeover, waits, or is late: in plain words, from the timetable alone. Asking never changes
// what was decided.

#include "model/planning/problem/shop_problem.h"
#include "model/planning/timetable/timetable.h"

namespace interlude::planning {

struct Why {
    QStringList changeover; ///< what changes and which rule asks for what
    QStringList waits;      ///< "2 h 10 min for people: nobody on shift until Mon 06:00"
    QStringList late;       ///< where the time went; empty when it is not late
};

Why whyOf(const ShopProblem& problem, const Timetable& timetable, const TimedJob& job);

} // namespace interlude::planning
