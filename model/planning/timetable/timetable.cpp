#include "model/planning/timetable/timetable.h"

#include "model/planning/timetable/simulation.h"

#include <algorithm>
#include <cassert>

namespace interlude::planning {

bool Problem::printersApart() const {
    const bool crewFree =
        std::all_of(crew.begin(), crew.end(), [](const CrewFrom& c) { return c.crew >= unlimitedCrew; });
    const bool noDowntime =
        std::all_of(printers.begin(), printers.end(), [](const PrinterNumbers& p) { return p.down.empty(); });
    return crewFree && toolPieces.empty() && !scarceNozzles && noDowntime;
}

Cents perHour(Cents centsPerHour, Minute minutes) {
    // Half up; both factors are never negative.
    return (centsPerHour * minutes + 30) / 60;
}

Cents lateCost(const JobNumbers& job, Minute complete) {
    return job.due && complete > *job.due ? perHour(job.lateCostPerHour, complete - *job.due) : 0;
}

Cents holdingCost(const JobNumbers& job, Minute complete) {
    return perHour(job.holdingCostPerHour, std::max<Minute>(0, complete - job.release.value_or(0)));
}

std::int64_t Timetable::value(Goal goal) const {
    return worth(totals, goal).value;
}

Worth worth(const Totals& t, Goal goal) {
    switch (goal) {
    case Goal::Cost: return {t.notPlaced, t.cost};
    case Goal::Changeover: return {t.notPlaced, t.changeover};
    case Goal::Tardiness: return {t.notPlaced, t.weightedTardiness};
    case Goal::Makespan: return {t.notPlaced, t.makespan};
    }
    return {};
}

void addJob(Totals& t, const Problem& problem, const TimedJob& j) {
    if (j.complete >= never) return; // runs, and is not placed: it never comes out
    for (const TimedWork& w : j.work) t.handsOn += w.work->people * (w.end - w.start);
    t.turnaround += j.turnaround;
    t.changeover += j.changeoverMinutes;
    if (j.change) {
        t.cleanOuts += j.change->cleanOut ? 1 : 0;
        t.cost += j.change->material;
    }
    if (j.job < 0) return; // a part of no known job, or a session without one
    t.makespan = std::max(t.makespan, j.complete);
    const JobNumbers& job = problem.jobs[static_cast<std::size_t>(j.job)];
    const Minute late = job.due ? std::max<Minute>(0, j.complete - *job.due) : 0;
    t.lateJobs += late > 0 ? 1 : 0;
    t.weightedTardiness += job.lateCostPerHour * late;
    t.cost += lateCost(job, j.complete) + holdingCost(job, j.complete);
    t.cost += perHour(problem.printers[static_cast<std::size_t>(j.printer)].hourlyRate,
                      j.printEnd - j.printStart + j.turnaround);
}

namespace {

Totals totalsOf(const Problem& problem, const std::vector<std::vector<TimedJob>>& printers, std::size_t notPlaced) {
    Totals t;
    for (const auto& list : printers)
        for (const TimedJob& j : list) addJob(t, problem, j);
    t.notPlaced = static_cast<int>(notPlaced);
    return t;
}

/// Runs until everything that is left has a place.
std::vector<NotPlaced> settle(Simulation& simulation, const Problem& problem, const Orders& orders) {
    std::vector<char> without(problem.jobs.size(), 0);
    std::vector<NotPlaced> out;
    for (const int job : orders.leftOut) out.push_back({job, "left out of the plan"});
    for (;;) {
        const std::vector<NotPlaced> more = simulation.run(orders, without);
        if (more.empty()) break;
        for (const NotPlaced& n : more) {
            if (without[static_cast<std::size_t>(n.job)] != 0) continue;
            without[static_cast<std::size_t>(n.job)] = 1;
            out.push_back(n);
        }
    }
    out.insert(out.end(), simulation.neverOut().begin(), simulation.neverOut().end());
    std::sort(out.begin(), out.end(), [](const NotPlaced& a, const NotPlaced& b) { return a.job < b.job; });
    return out;
}

} // namespace

Timetable timetable(const Problem& problem, Changes& changes, const Orders& orders) {
    Simulation simulation(problem, changes);
    Timetable out;
    out.notPlaced = settle(simulation, problem, orders);
    out.printers = std::move(simulation.printers());
    out.totals = totalsOf(problem, out.printers, out.notPlaced.size());
    return out;
}

class Evaluator::Simulation {
public:
    Simulation(const Problem& problem, Changes& changes)
        : problem(problem), simulation(problem, changes, planning::Simulation::Memory::LastJobs) {}
    const Problem& problem;
    planning::Simulation simulation;
    Totals totals;
};

Evaluator::Evaluator(const Problem& problem, Changes& changes)
    : m_simulation(std::make_unique<Simulation>(problem, changes)) {}
Evaluator::~Evaluator() = default;

const Totals& Evaluator::evaluate(const Orders& orders) {
    const auto notPlaced = settle(m_simulation->simulation, m_simulation->problem, orders);
    m_simulation->totals = m_simulation->simulation.totals();
    m_simulation->totals.notPlaced = static_cast<int>(notPlaced.size());
    return m_simulation->totals;
}

} // namespace interlude::planning
