#include "model/planning/timetable/growing_plan.h"

#include <algorithm>

namespace interlude::planning {

GrowingPlan::GrowingPlan(const Problem& problem, Changes& changes, Orders start)
    : m_problem(problem), m_changes(changes), m_orders(std::move(start)),
      m_simulation(problem, changes, Simulation::Memory::LastJobs) {
    playAnew();
}

/// The latest snapshot from which an order may differ from a position on; -1: none.
std::ptrdiff_t GrowingPlan::snapshotFor(int printer, std::size_t from) const {
    auto k = static_cast<std::ptrdiff_t>(m_snapshots.size());
    while (--k >= 0 && !Simulation::reaches(m_snapshots[static_cast<std::size_t>(k)], printer, from)) {
    }
    return k;
}

/// From the last snapshot that is kept.
void GrowingPlan::playAnew() {
    if (m_allPlaced) {
        m_simulation.keepSnapshots(&m_snapshots, std::max(1, static_cast<int>(m_problem.printers.size()) / 8));
        m_allPlaced = m_snapshots.empty()
                          ? m_simulation.run(m_orders, std::vector<char>(m_problem.jobs.size(), 0)).empty()
                          : m_simulation.resume(m_snapshots.back(), m_orders).empty();
        m_simulation.keepSnapshots(nullptr, 1);
        m_last = m_simulation.printers();
    }
    if (!m_allPlaced) {
        m_snapshots.clear();
        m_last = timetable(m_problem, m_changes, m_orders).printers;
    }
}

Minute GrowingPlan::completeWith(int printer, Place place) {
    const auto p = static_cast<std::size_t>(printer);
    auto& order = m_orders.printers[p];
    const std::ptrdiff_t k = snapshotFor(printer, order.size());
    order.push_back(place);
    const auto complete = [&](const std::vector<std::vector<TimedJob>>& timed) {
        order.pop_back();
        return timed[p].empty() || timed[p].back().job != place.job ? never : timed[p].back().complete;
    };
    if (!m_allPlaced)
        return complete(timetable(m_problem, m_changes, m_orders).printers);
    const std::vector<NotPlaced> without =
        k < 0 ? m_simulation.run(m_orders, std::vector<char>(m_problem.jobs.size(), 0))
              : m_simulation.resume(m_snapshots[static_cast<std::size_t>(k)], m_orders);
    if (without.empty())
        return complete(m_simulation.printers());
    // The new one alone: the timetable would leave it out.
    if (std::all_of(without.begin(), without.end(), [&](const NotPlaced& n) { return n.job == place.job; })) {
        order.pop_back();
        return never;
    }
    return complete(timetable(m_problem, m_changes, m_orders).printers);
}

void GrowingPlan::append(int printer, Place place) {
    auto& order = m_orders.printers[static_cast<std::size_t>(printer)];
    const std::ptrdiff_t still = snapshotFor(printer, order.size()) + 1;
    while (static_cast<std::ptrdiff_t>(m_snapshots.size()) > still)
        m_snapshots.pop_back();
    order.push_back(place);
    playAnew();
}

const TimedJob* GrowingPlan::last(int printer) const {
    const auto& list = m_last[static_cast<std::size_t>(printer)];
    return list.empty() ? nullptr : &list.back();
}

} // namespace interlude::planning
