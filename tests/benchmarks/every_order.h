#pragma once
// The optimum of a small shop by trying every plan, for the bench.

#include "model/planning/timetable/timetable.h"

namespace interlude::bench {

struct Proof {
    planning::Worth best;      ///< the optimum, or `known` if nothing is better
    bool complete = false;     ///< false: given up after `mostPlans`
    long long plans = 0;       ///< timed by the timetable
};

/// Branch and bound over all orders: printer after printer, job after job. What a beginning costs at least is told by
/// every printer alone, with everybody on shift at its service (valid where nothing makes a changeover shorter, as in
/// these shops), and by each job left printed at once. `known`: the value of some plan with every job placed.
Proof provedOptimum(const planning::Problem& problem, planning::Goal goal, planning::Worth known, long long mostPlans);

} // namespace interlude::bench
