#include "model/planning/printer_line.h"

#include "model/planning/timetable/crew_profile.h"

#include <algorithm>

namespace interlude::planning {

PrinterLine::PrinterLine(ChangeoverTable& table, Goal goal)
    : m_table(table), m_goal(goal), m_apart(table.problem().printersApart()), m_stretches(table.problem()) {
}

Minute PrinterLine::worked(int printer, const std::vector<Work>& work, Minute from) const {
    for (const Work& w : work) {
        const Minute start = m_stretches.earliest(from, w.minutes, w.people, down(printer));
        if (start >= never)
            return never;
        from = start + w.minutes;
    }
    return from;
}

Minute PrinterLine::changedOver(int printer, const Brief& b, const LineState& state) const {
    if (m_apart)
        return std::max(state.ready, state.printStart + b.preparation) + b.minutes;
    Minute from = state.ready;
    if (b.change->preparation) {
        const Work& w = *b.change->preparation;
        const Minute start = m_stretches.earliest(state.printStart, w.minutes, w.people, down(printer));
        if (start >= never)
            return never;
        from = std::max(from, start + w.minutes);
    }
    return worked(printer, b.change->work, b.change->handsOn > 0 ? from + m_delay : from);
}

LineState PrinterLine::after(int printer, int state, Minute printStart, Minute printEnd) {
    LineState s;
    s.row = m_table.rowOf(printer, state);
    s.printStart = printStart;
    s.printEnd = printEnd;
    s.ready = worked(printer, m_table.changes().removal(printer, state), printEnd);
    return s;
}

LineState PrinterLine::begin(int printer) {
    const Problem& problem = m_table.problem();
    const PrinterNumbers& p = problem.printers[static_cast<std::size_t>(printer)];
    LineState s;
    s.row = m_table.rowOf(printer, p.session ? p.sessionState : p.state);
    const auto takeOut = [&] {
        s.ready = worked(printer, m_table.changes().removal(printer, m_table.stateOf(printer, s.row)), s.printEnd);
    };
    if (p.session) {
        s.ready = worked(printer, p.sessionWork, 0);
        s.printStart = s.ready;
        if (p.sessionJob < 0)
            return s;
        const JobNumbers& job = problem.jobs[static_cast<std::size_t>(p.sessionJob)];
        s.printStart = std::max(s.ready, job.release.value_or(0));
        s.printEnd = s.printStart +
                     job.variants[static_cast<std::size_t>(p.sessionVariant)].print[static_cast<std::size_t>(printer)];
        takeOut();
        return s;
    }
    if (!p.partLies)
        return s;
    s.printEnd = std::max<Minute>(p.runningEnd, 0);
    takeOut();
    return s;
}

void PrinterLine::appendPossible(int printer, int option, const Brief& b, LineState& state, LineCost& cost) const {
    const JobNumbers& job = m_table.problem().jobs[static_cast<std::size_t>(m_table.jobOf(option))];
    const Minute release = job.release.value_or(0);
    const Minute done = changedOver(printer, b, state);
    const Minute start = done < never ? outsideDowntime(std::max(done, release), b.print, down(printer)) : never;
    const Minute ready = start >= never ? never
                         : m_apart      ? start + b.print + b.removal
                                        : worked(printer, m_table.changes().removal(printer, m_table.stateOf(printer, b.next)), start + b.print);
    if (ready >= never) { // it never begins, or its part never comes out
        ++cost.missing;
        return;
    }
    const Minute unreleased = std::max<Minute>(0, release - std::max(done, state.printEnd));
    const Minute turnaround = start - state.printEnd - unreleased;
    state.row = b.next;
    state.printStart = start;
    state.printEnd = start + b.print;
    state.ready = ready;
    cost.last = state.ready;
    cost.waited += unreleased;
    switch (m_goal) {
    case Goal::Cost:
        cost.value +=
            b.material + lateCost(job, state.ready) + holdingCost(job, state.ready) +
            perHour(m_table.problem().printers[static_cast<std::size_t>(printer)].hourlyRate, b.print + turnaround);
        return;
    case Goal::Changeover:
        cost.value += b.minutes;
        return;
    case Goal::Tardiness:
        if (job.due && state.ready > *job.due)
            cost.value += job.lateCostPerHour * (state.ready - *job.due);
        return;
    case Goal::Makespan:
        return; // `last` says it
    }
}

} // namespace interlude::planning
