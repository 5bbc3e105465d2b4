// A run that goes on from the middle of another.
#include "model/planning/timetable/simulation.h"

#include <cassert>

namespace interlude::planning {

void Simulation::keepSnapshots(std::vector<Snapshot>* kept, int everyStarts) {
    assert(!kept || m_memory == Memory::LastJobs);
    m_kept = kept;
    m_everyStarts = everyStarts;
}

void Simulation::keepValues(std::vector<std::int64_t>* byJob, Goal goal) {
    m_values = byJob;
    m_valueGoal = goal;
}

void Simulation::addUp(const TimedJob& job) {
    const Goal goal = m_limit ? m_limit->goal : m_valueGoal;
    const std::int64_t before = worth(m_totals, goal).value;
    addJob(m_totals, m_problem, job);
    if (job.job < 0) return;
    const auto j = static_cast<std::size_t>(job.job);
    const std::int64_t now = worth(m_totals, goal).value;
    if (m_values) (*m_values)[j] = now - before;
    if (!m_limit) return;
    m_limit->expected -= m_limit->share * static_cast<double>((*m_limit->byJob)[j]);
    if (static_cast<double>(now) + m_limit->expected > m_limit->most) m_ended = true;
}

void Simulation::snap(Minute next) {
    m_startsSince = 0;
    m_kept->push_back({next, m_lines, m_idle, m_timed, m_events, m_crew.uses(), m_nozzles, m_totals});
}

/// Orders are looked at one job at a time, when the print before it starts.
bool Simulation::reaches(const Snapshot& snapshot, int printer, std::size_t from) {
    const Line& line = snapshot.lines[static_cast<std::size_t>(printer)];
    return line.next <= from && !line.orderEnded;
}

std::vector<NotPlaced> Simulation::resume(const Snapshot& snapshot, const Orders& orders) {
    assert(m_memory == Memory::LastJobs);
    m_order = orders.printers;
    m_lines = snapshot.lines;
    m_idle = snapshot.idle;
    m_timed = snapshot.last;
    m_events = snapshot.events;
    m_crew.setUses(snapshot.uses);
    m_nozzles.backTo(snapshot.nozzles);
    m_totals = snapshot.totals;
    m_impossible.clear();
    m_neverOut.clear();
    m_startsSince = 0;
    return play(snapshot.next);
}

} // namespace interlude::planning
