#pragma once
// A plan that grows job by job at the ends of its orders, with its timetable (private to model/planning). A job more at
// the end of an order changes nothing before the print that was the last one there starts: the timetable goes on from
// a snapshot taken before that minute.

#include "model/planning/timetable/simulation.h"

namespace interlude::planning {

class GrowingPlan {
public:
    GrowingPlan(const Problem& problem, Changes& changes, Orders start);

    const Orders& orders() const { return m_orders; }
    /// When the timetable would complete a job appended there; `never` if it had no place.
    Minute completeWith(int printer, Place place);
    void append(int printer, Place place);
    /// The last job of a printer in the timetable; null where there is none.
    const TimedJob* last(int printer) const;

private:
    std::ptrdiff_t snapshotFor(int printer, std::size_t from) const;
    void playAnew();

    const Problem& m_problem;
    Changes& m_changes;
    Orders m_orders;
    Simulation m_simulation;
    std::vector<Simulation::Snapshot> m_snapshots; ///< of the plan as it is, in the order of time
    std::vector<std::vector<TimedJob>> m_last;
    bool m_allPlaced = true; ///< else the timetable is made anew each time, as it leaves jobs out step by step
};

} // namespace interlude::planning
