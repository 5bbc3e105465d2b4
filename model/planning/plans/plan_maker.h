#pragma once
// From a shop to a plan with its figures: what the command line prints and the board shows.

#include "model/planning/plans/plan_report.h"
#include "model/planning/search.h"

namespace interlude::planning {

/// Searches, then tells everything about the result. The time of the yardsticks and of the bound is apart from the search's.
PlanReport makePlan(const Shop& shop, ShopProblem& problem, const SearchOptions& options);
/// A lower bound of the goal for the jobs that the timetable places; empty where none is known.
std::optional<std::int64_t> boundOf(ShopProblem& problem, Goal goal, const Timetable& timetable);
/// The same for orders as they are, without a search.
PlanReport reportOn(const Shop& shop, ShopProblem& problem, const Orders& orders, Goal goal);

} // namespace interlude::planning
