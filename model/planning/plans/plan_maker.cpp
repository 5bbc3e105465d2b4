#include "model/planning/plans/plan_maker.h"

#include "model/planning/bounds.h"
#include "model/planning/yardsticks.h"

namespace interlude::planning {

std::optional<std::int64_t> boundOf(ShopProblem& problem, Goal goal, const Timetable& timetable) {
    return lowerBound(problem.problem, *problem.changes, goal, timetable);
}

PlanReport reportOn(const Shop& shop, ShopProblem& problem, const Orders& orders, Goal goal) {
    PlanReport r;
    r.goal = goal;
    r.orders = orders;
    r.timetable = timetable(problem.problem, *problem.changes, orders);
    r.bound = boundOf(problem, goal, r.timetable);
    r.firstInFirstOut =
        timetable(problem.problem, *problem.changes, firstInFirstOut(problem.problem, *problem.changes)).totals;
    r.sameSetupFirst =
        timetable(problem.problem, *problem.changes, sameSetupFirst(problem.problem, *problem.changes)).totals;
    r.reservations = reservationsOf(shop, problem, r.timetable);
    return r;
}

PlanReport makePlan(const Shop& shop, ShopProblem& problem, const SearchOptions& options) {
    const SearchResult found = improve(problem.problem, *problem.changes, options);
    PlanReport r = reportOn(shop, problem, found.orders, options.goal);
    // With a number of iterations the clock has no say, so nothing of it is told either: same input, same bytes.
    if (!options.iterations) r.seconds = found.seconds;
    r.iterations = found.iterations;
    r.seed = options.seed;
    return r;
}

} // namespace interlude::planning
