#pragma once
// Improves a plan (design section 6): anytime, from nothing or from a draft, judged by the timetable. One thread; run
// it in a worker with a `Changes` of its own. Same problem, seed and iterations: same plan, byte for byte.

#include "model/planning/timetable/timetable.h"

#include <functional>

namespace interlude::planning {

/// What a search tells while it runs, about ten times a second.
struct Progress {
    double seconds = 0;
    std::int64_t iterations = 0;
    Worth best;
    const Orders* plan = nullptr; ///< the best plan so far; good only during the call
};

struct SearchOptions {
    Goal goal = Goal::Cost;
    /// Where both are given the first one reached ends the search; without either it ends by `stop` alone, or when
    /// nothing is left to try. With `iterations` the clock has no say in what is tried.
    std::optional<double> seconds;
    std::optional<std::int64_t> iterations; ///< moves tried
    std::uint64_t seed = 1;
    std::function<bool()> stop; ///< true: end soon (asked about every millisecond)
    std::function<void(const Progress&)> progress;
    /// A draft to improve. Its locked jobs keep printer and position; a locked job that it leaves out stays out; jobs
    /// that it does not name are planned too.
    std::optional<Orders> start;
    /// Seconds since any fixed moment; the steady clock where none is given.
    std::function<double()> clock;
};

struct SearchResult {
    Orders orders;
    Worth worth; ///< of `orders`, by the timetable
    std::int64_t iterations = 0;
    double seconds = 0;
    /// Moves that the timetable judged, and those of them whose direction (better or worse) a quick estimate had wrong.
    /// 0 where printers do not touch each other: then the quick figures are exact.
    std::int64_t judged = 0, misjudged = 0;
};

/// Never worse than the given start or the dispatcher's plan. Orders of the start that name a job twice or out of range
/// are the caller's fault (asserted).
SearchResult improve(const Problem& problem, Changes& changes, const SearchOptions& options);

} // namespace interlude::planning
