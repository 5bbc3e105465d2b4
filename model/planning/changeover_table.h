#pragma once
// Changeovers in brief, kept in flat arrays for the search: asked of `Changes` once, then a look-up (private to
// model/planning). An *option* is a variant of a job; options count through all jobs in file order.

#include "model/planning/problem/problem.h"

#include <unordered_map>

namespace interlude::planning {

/// From a printer's state to an option.
struct Brief {
    const Change* change = nullptr; ///< null: not asked yet
    bool possible = false;
    int next = 0; ///< row (see below) of the state after it
    Minute minutes = 0, preparation = 0;
    Minute print = 0;
    Minute removal = 0; ///< taking this part out again
    Cents material = 0;
    Cents work = 0; ///< what print and changeover cost if nothing waits: hourly rate and material
};

class ChangeoverTable {
public:
    /// Both outlive the table.
    ChangeoverTable(const Problem& problem, Changes& changes);

    int options() const { return static_cast<int>(m_places.size()); }
    int optionOf(const Place& place) const { return m_first[static_cast<std::size_t>(place.job)] + place.variant; }
    const Place& place(int option) const { return m_places[static_cast<std::size_t>(option)]; }
    int jobOf(int option) const { return m_places[static_cast<std::size_t>(option)].job; }

    /// Rows number the states that were met on a printer.
    int rowOf(int printer, int state);
    int stateOf(int printer, int row) const {
        return m_printers[static_cast<std::size_t>(printer)].states[static_cast<std::size_t>(row)];
    }
    const Brief& from(int printer, int row, int option) {
        PrinterRows& p = m_printers[static_cast<std::size_t>(printer)];
        auto& list = p.rows[static_cast<std::size_t>(row)];
        if (list.empty())
            open(list);
        const Brief& brief = list[static_cast<std::size_t>(option)];
        return brief.change ? brief : ask(printer, row, option);
    }
    bool printable(int printer, int option) const {
        const Place& p = place(option);
        return m_problem.jobs[static_cast<std::size_t>(p.job)]
                   .variants[static_cast<std::size_t>(p.variant)]
                   .print[static_cast<std::size_t>(printer)] >= 0;
    }
    const Problem& problem() const { return m_problem; }
    Changes& changes() { return m_changes; }

private:
    struct PrinterRows {
        std::vector<int> states;
        std::unordered_map<int, int> rowOfState;
        std::vector<std::vector<Brief>> rows;
    };
    void open(std::vector<Brief>& row);
    const Brief& ask(int printer, int row, int option);

    const Problem& m_problem;
    Changes& m_changes;
    std::vector<int> m_first;
    std::vector<Place> m_places;
    std::vector<PrinterRows> m_printers;
    std::size_t m_held = 0;
};

} // namespace interlude::planning
