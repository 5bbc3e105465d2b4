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

/// Runs a chain while the watch may tell its best plan; that plan is what is found.
template <class Chain, class Plan> void runTelling(ChainSetting& setting, Found& found, Chain& chain, Plan plan) {
    Evaluator exact(setting.problem, setting.changes);
    Orders told;
    setting.watch.tellFrom([&] {
        told = plan();
        Progress p;
        p.best = worth(exact.evaluate(told), setting.goal);
        p.plan = &told;
        return p;
    });
    chain.run();
    setting.watch.tellFrom({});
    found.orders = plan();
}

/// One printer alone, table-like changeovers, goals Tardiness and Cost. False: not such a shop, nothing was done.
bool improveSequence(ChainSetting& setting, Found& found);

/// One printer alone, table-like changeovers, goals Changeover and (without releases that bind) Makespan. Likewise.
bool improveTour(ChainSetting& setting, Found& found);

/// Several printers apart, table-like changeovers, goal Makespan, no releases that bind. Likewise.
bool improveLoads(ChainSetting& setting, Found& found);

/// Any shop, any goal: annealing over all moves. Where printers are apart the quick figures are exact; elsewhere they
/// choose the moves that the timetable judges.
void improveByMoves(ChainSetting& setting, Found& found);

} // namespace interlude::planning
