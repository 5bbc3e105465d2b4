#pragma once
// What a planner does to the orders of a draft: each move gives new orders, or says why not. Plain values, no undo here.

#include "model/findings/finding.h"
#include "model/planning/problem/shop_problem.h"

namespace interlude::planning {

/// Where jobs are dropped: before position `at` of a printer's order as it stands now, or out of the plan.
struct Drop {
    int printer = -1; ///< -1: left out of the plan
    std::size_t at = 0;
    std::optional<int> variant; ///< empty: as it is, else the first that fits there
};

/// Jobs in the order in which they shall stand there. Refused: a locked job, one that would push a locked job from its
/// position, a printer on which no variant fits (with the reason).
Outcome<Orders> moveJobs(const ShopProblem& problem, const Orders& orders, const std::vector<int>& jobs, const Drop& drop);
Outcome<Orders> changeVariant(const ShopProblem& problem, const Orders& orders, int job, int variant);
Orders setLocked(const Orders& orders, const std::vector<int>& jobs, bool locked);

/// A transparent rule: jobs stay on their printer, jobs left out go to the printer that can take them and has the least to
/// do; on each printer the family that it wears comes first, then hotter after cooler, then the cooler ones, again hotter
/// after cooler; within a family the earliest due first, then equal setups together. Locked jobs keep their positions.
/// What the timetable could not place so goes behind another run of its family or to the end of a printer, else (if it was
/// on none) back to those left out. What has a place in `orders` has one afterwards: where no such order is found, printers are
/// sorted one by one as long as that holds.
Orders groupByFamily(const ShopProblem& problem, const Orders& orders);

} // namespace interlude::planning
