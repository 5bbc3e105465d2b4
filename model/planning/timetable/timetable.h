#pragma once
// The only truth about times (design section 6): one pure function of problem and orders, used by search, board, Today,
// command line and JSON alike.

#include "model/planning/problem/problem.h"

namespace interlude::planning {

enum class Goal { Cost, Changeover, Tardiness, Makespan };

/// A piece of work with its times. `took`, `freed`: nozzle index or -1, by position.
struct TimedWork {
    const Work* work = nullptr; ///< owned by the problem or its changes
    Minute start = 0, end = 0;
    std::array<int, 2> took{-1, -1}, freed{-1, -1};
};

struct TimedJob {
    int job = -1;               ///< -1: a part of no known job that lies there
    int variant = -1;
    bool running = false;       ///< printing or lying there at `now`
    bool session = false;       ///< of an open session
    int printer = -1;
    const Change* change = nullptr; ///< null for what runs already
    std::vector<TimedWork> work; ///< preparation first if any, changeover, then the removal of its own part
    Minute changeoverMinutes = 0; ///< internal segments, without waits for crew, preparation and part removal
    Minute turnaround = 0;      ///< see design section 2; 0 for what runs already
    Minute changeoverDone = 0;
    Minute printStart = 0, printEnd = 0;
    Minute complete = 0;        ///< part out; `never` for what runs and is not placed (it then counts in no total)
};

struct NotPlaced {
    int job = -1;
    std::string reason;
};

struct Totals {
    Minute turnaround = 0, changeover = 0, handsOn = 0, makespan = 0;
    std::int64_t weightedTardiness = 0; ///< Σ late cost per hour × late minutes, in cents per hour × minutes
    int lateJobs = 0, cleanOuts = 0, notPlaced = 0;
    Cents cost = 0;
};

struct Timetable {
    std::vector<std::vector<TimedJob>> printers;
    /// In file order; a job left out by the planner says so. What runs or is in session is named here, too, where its part
    /// never comes out; the former stays on its printer as well.
    std::vector<NotPlaced> notPlaced;
    Totals totals;
    /// What the goal counts: cents, or minutes. Fewer jobs not placed rank before it.
    std::int64_t value(Goal goal) const;
};

/// Never throws; orders that name a job twice or out of range are the caller's fault (asserted).
Timetable timetable(const Problem& problem, Changes& changes, const Orders& orders);

/// Totals and value only, for the search: the same numbers as `timetable(...)`, without remembering the work. Keeps its
/// memory between calls.
class Evaluator {
public:
    explicit Evaluator(const Problem& problem, Changes& changes);
    ~Evaluator();
    const Totals& evaluate(const Orders& orders);

private:
    class Simulation;
    std::unique_ptr<Simulation> m_simulation;
};

/// Σ, in order: fewer not placed, then the goal's value, then cost.
struct Worth {
    int notPlaced = 0;
    std::int64_t value = 0;
    auto operator<=>(const Worth&) const = default;
};
Worth worth(const Totals& totals, Goal goal);

/// Late cost of a job complete at that minute; holding cost; money is rounded half up per term to whole cents.
Cents lateCost(const JobNumbers& job, Minute complete);
Cents holdingCost(const JobNumbers& job, Minute complete);
Cents perHour(Cents centsPerHour, Minute minutes);

} // namespace interlude::planning
