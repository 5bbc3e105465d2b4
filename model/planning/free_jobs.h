#pragma once
// What a plan may decide: which jobs are still to be planned, and what of a draft is fixed (private to model/planning).

#include "model/planning/problem/problem.h"

namespace interlude::planning {

struct FreeJobs {
    /// The fixed beginning of every printer's order: up to its last locked job. `leftOut` and `locked` as in the draft.
    Orders fixed;
    std::vector<int> jobs;     ///< to be planned after it, in file order
    std::vector<int> hopeless; ///< no printer prints any variant of them, in file order
};

FreeJobs freeJobs(const Problem& problem, const Orders* draft);

/// Orders that hold every job exactly once: what the draft does not name is appended by nothing but file order on a
/// printer that can print it; jobs without hope stand last on the first printer, so that the timetable says why.
Orders completed(const Problem& problem, Orders orders);

/// Whether a job is printing, lying on a printer, or of an open session.
std::vector<char> runningJobs(const Problem& problem);

} // namespace interlude::planning
