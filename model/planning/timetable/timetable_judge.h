#pragma once
// Changes of one plan judged by the timetable, each from the minute on in which it first makes a difference (private to
// model/planning).

#include "model/planning/timetable/simulation.h"

namespace interlude::planning {

class TimetableJudge {
public:
    TimetableJudge(const Problem& problem, Changes& changes, Goal goal);

    /// The plan that changes are judged against.
    Worth begin(const Orders& orders);

    /// From that position on a printer's order is another one; printer -1: none.
    struct Differs {
        int printer = -1;
        std::size_t from = 0;
    };
    /// What a changed plan is worth. Empty where its value is above `most`: that is found out before the end, mostly by
    /// what the jobs not yet complete cost in the plan it is judged against; where they would become very much cheaper
    /// it may be wrong. Also empty where a job has no place any more.
    std::optional<Worth> judge(const Orders& changed, Differs first, Differs second, double most);
    /// What every job adds to the goal in the plan judged against, as far as it is known.
    const std::vector<std::int64_t>& values() const { return m_values; }
    /// The sum over the printers of when the last part is out, in the plan judged against; empty where a job has no place.
    std::optional<Minute> loads() const;
    /// The plan judged last is the one to judge against from now on.
    void take(const Orders& judged);

private:
    void play();

    const Problem& m_problem;
    Goal m_goal;
    Evaluator m_exact;
    Simulation m_simulation;
    Orders m_base;
    Worth m_baseWorth, m_lastWorth;
    std::vector<Simulation::Snapshot> m_snapshots; ///< of the base, in the order of time
    std::vector<std::int64_t> m_values;            ///< of the base, by job
    std::vector<char> m_without;
    Minute m_loads = 0;
    std::size_t m_resumed = 0; ///< so many snapshots hold for the plan judged last, too
    bool m_allPlaced = false;  ///< but those left out, in the base; else every plan is timed from the beginning
};

} // namespace interlude::planning
