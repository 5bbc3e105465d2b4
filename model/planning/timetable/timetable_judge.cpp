#include "model/planning/timetable/timetable_judge.h"

#include <algorithm>

namespace interlude::planning {

namespace {

/// What jobs that are not complete yet are expected to cost at least, as a share of what they cost before the change.
/// Where there are few jobs one can become cheaper by more than that.
constexpr double hopedFor = 0.92;
constexpr std::size_t fewJobs = 16;

} // namespace

TimetableJudge::TimetableJudge(const Problem& problem, Changes& changes, Goal goal)
    : m_problem(problem), m_goal(goal), m_exact(problem, changes),
      m_simulation(problem, changes, Simulation::Memory::LastJobs), m_values(problem.jobs.size(), 0),
      m_without(problem.jobs.size(), 0) {
}

Worth TimetableJudge::begin(const Orders& orders) {
    m_base = orders;
    m_baseWorth = worth(m_exact.evaluate(orders), m_goal);
    m_allPlaced = m_baseWorth.notPlaced == static_cast<int>(orders.leftOut.size());
    m_snapshots.clear();
    if (m_allPlaced)
        play();
    return m_baseWorth;
}

/// The base, from its last snapshot on.
void TimetableJudge::play() {
    m_simulation.setLimit({});
    m_simulation.keepSnapshots(&m_snapshots, std::max(2, static_cast<int>(m_problem.printers.size()) / 4));
    m_simulation.keepValues(&m_values, m_goal);
    if (m_snapshots.empty())
        m_simulation.run(m_base, m_without);
    else
        m_simulation.resume(m_snapshots.back(), m_base);
    m_simulation.keepSnapshots(nullptr, 1);
    m_simulation.keepValues(nullptr, m_goal);
    m_loads = 0;
    for (const auto& list : m_simulation.printers())
        m_loads += list.empty() ? 0 : list.back().complete;
}

std::optional<Minute> TimetableJudge::loads() const {
    return m_allPlaced ? std::optional(m_loads) : std::nullopt;
}

std::optional<Worth> TimetableJudge::judge(const Orders& changed, Differs first, Differs second, double most) {
    if (!m_allPlaced)
        return m_lastWorth = worth(m_exact.evaluate(changed), m_goal);
    m_resumed = m_snapshots.size();
    const auto reaches = [](const Simulation::Snapshot& s, const Differs& d) {
        return d.printer < 0 || Simulation::reaches(s, d.printer, d.from);
    };
    while (m_resumed > 0 && !(reaches(m_snapshots[m_resumed - 1], first) && reaches(m_snapshots[m_resumed - 1], second)))
        --m_resumed;
    const Simulation::Snapshot* from = m_resumed > 0 ? &m_snapshots[m_resumed - 1] : nullptr;
    // The makespan is no sum.
    const double share = m_goal == Goal::Makespan || m_problem.jobs.size() <= fewJobs ? 0 : hopedFor;
    const std::int64_t left = m_baseWorth.value - (from ? worth(from->totals, m_goal).value : 0);
    m_simulation.setLimit(Simulation::Limit{m_goal, most, share * static_cast<double>(left), share, &m_values});
    const auto notPlaced = from ? m_simulation.resume(*from, changed) : m_simulation.run(changed, m_without);
    // A running print whose part never comes out has no place either.
    if (!notPlaced.empty() || !m_simulation.neverOut().empty() || m_simulation.ended())
        return std::nullopt;
    m_lastWorth = worth(m_simulation.totals(), m_goal);
    m_lastWorth.notPlaced = m_baseWorth.notPlaced;
    return m_lastWorth;
}

void TimetableJudge::take(const Orders& judged) {
    if (!m_allPlaced) {
        begin(judged);
        return;
    }
    m_base = judged;
    m_baseWorth = m_lastWorth;
    while (m_snapshots.size() > m_resumed)
        m_snapshots.pop_back();
    play();
}

} // namespace interlude::planning
