#pragma once
// Lower bounds: no plan of the same placed jobs, on the same printers after what runs there, has a smaller value. Found
// by leaving out what makes planning hard: people, tools, nozzles, downtime, and which job comes before which.

#include "model/planning/timetable/timetable.h"

namespace interlude::planning {

/// `placed`: by job, whether it has a place in the plan; of what runs, whether its part comes out. Empty where nothing is known: for
/// `changeover` where a changeover depends on more than the last variant, for all goals where the shop is too large.
/// - changeover: cheapest assignment of predecessors, and on what it leaves the cheapest arborescence;
/// - makespan: the longest job, the work shared out among the printers in the best proportion, and for one printer the
/// same
///   as for changeover with the print times;
/// - tardiness, cost: the k-th completion is no earlier than the k smallest pieces of work allow, and no job is
/// complete
///   before its own work; jobs are assigned to completions as cheaply as possible.
std::optional<std::int64_t> lowerBound(const Problem& problem, Changes& changes, Goal goal,
                                       const std::vector<char>& placed);

/// For the jobs that have a place in a timetable.
std::optional<std::int64_t> lowerBound(const Problem& problem, Changes& changes, Goal goal, const Timetable& timetable);

} // namespace interlude::planning
