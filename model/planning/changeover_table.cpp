#include "model/planning/changeover_table.h"

#include "model/planning/timetable/timetable.h"

namespace interlude::planning {

namespace {

/// Where states depend on the whole past there may be very many: then the rows are forgotten and asked anew.
constexpr std::size_t mostHeld = 4'000'000;

const Change notOnThisPrinter;

} // namespace

ChangeoverTable::ChangeoverTable(const Problem& problem, Changes& changes) : m_problem(problem), m_changes(changes) {
    for (int j = 0; j < static_cast<int>(problem.jobs.size()); ++j) {
        m_first.push_back(options());
        const auto& variants = problem.jobs[static_cast<std::size_t>(j)].variants;
        for (int v = 0; v < static_cast<int>(variants.size()); ++v)
            m_places.push_back({j, v});
    }
    m_printers.resize(problem.printers.size());
}

int ChangeoverTable::rowOf(int printer, int state) {
    PrinterRows& p = m_printers[static_cast<std::size_t>(printer)];
    const auto [at, isNew] = p.rowOfState.try_emplace(state, static_cast<int>(p.states.size()));
    if (isNew) {
        p.states.push_back(state);
        p.rows.emplace_back();
    }
    return at->second;
}

void ChangeoverTable::open(std::vector<Brief>& row) {
    if (m_held > mostHeld) {
        for (PrinterRows& p : m_printers)
            for (auto& list : p.rows)
                std::vector<Brief>().swap(list);
        m_held = 0;
    }
    row.resize(m_places.size());
    m_held += m_places.size();
}

const Brief& ChangeoverTable::ask(int printer, int row, int option) {
    Brief brief;
    brief.change = &notOnThisPrinter;
    if (printable(printer, option)) {
        const Place& p = place(option);
        const Change& change = m_changes.from(printer, stateOf(printer, row), p.job, p.variant, {});
        brief.change = &change;
        brief.possible = change.possible;
        if (change.possible) {
            brief.next = rowOf(printer, change.next);
            brief.minutes = change.minutes;
            brief.preparation = change.preparation ? change.preparation->minutes : 0;
            brief.print = m_problem.jobs[static_cast<std::size_t>(p.job)]
                              .variants[static_cast<std::size_t>(p.variant)]
                              .print[static_cast<std::size_t>(printer)];
            for (const Work& w : m_changes.removal(printer, change.next))
                brief.removal += w.minutes;
            brief.material = change.material;
            brief.work = change.material + perHour(m_problem.printers[static_cast<std::size_t>(printer)].hourlyRate,
                                                   brief.print + change.minutes);
        }
    }
    auto& list = m_printers[static_cast<std::size_t>(printer)].rows[static_cast<std::size_t>(row)];
    return list[static_cast<std::size_t>(option)] = brief;
}

} // namespace interlude::planning
