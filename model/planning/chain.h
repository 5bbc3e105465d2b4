#pragma once
// The search chains: each takes a plan and leaves the best that it found (private to model/planning).

#include "model/planning/line_plan.h"
#include "model/planning/random.h"
#include "model/planning/watch.h"

namespace interlude::planning {

/// What all chains work on.
struct ChainSetting {
    const Problem& problem;
    Changes& changes;
    PrinterLine& line;
    Watch& watch;
    Random& random;
    Goal goal;
};

/// The best plan so far, and how well the quick figures did.
struct Found {
    Orders orders;
    Worth worth;
    std::int64_t judged = 0, misjudged = 0;
};

/// Any shop, any goal: annealing over all moves. Where printers are apart the quick figures are exact; elsewhere they choose
/// the moves that the timetable judges.
void improveByMoves(ChainSetting& setting, Found& found);

} // namespace interlude::planning
