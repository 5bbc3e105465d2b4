#pragma once
// The least that every job asks of a printer, whatever comes before it (private to model/planning, for the bounds).

#include "model/planning/printer_line.h"

namespace interlude::planning {

/// A variant on a printer.
struct LeastWork {
    bool possible = false;
    Minute changeover = 0; ///< least over all states that may come before it
    Cents material = 0;    ///< likewise
    Minute print = 0, removal = 0;
    Minute all() const { return changeover + print + removal; }
};

class LeastWorks {
public:
    /// False `known()` where there are too many changeovers to look at.
    LeastWorks(const Problem& problem, Changes& changes, const std::vector<char>& placed);

    bool known() const { return m_known; }
    bool pairwise() const { return m_pairwise; }
    int printers() const { return static_cast<int>(m_begin.size()); }
    /// Placed jobs that are not running, in file order.
    const std::vector<int>& jobs() const { return m_jobs; }
    const JobNumbers& job(int index) const { return m_problem.jobs[static_cast<std::size_t>(jobAt(index))]; }
    const Problem& problem() const { return m_problem; }
    /// Where a printer stands when what runs on it is out, at the earliest.
    const LineState& begin(int printer) const { return m_begin[static_cast<std::size_t>(printer)]; }
    /// Calls visit(printer, LeastWork) for everything that could be done with the job of that index.
    template <class Visit> void each(int index, Visit visit) const {
        const int first = m_table.optionOf({jobAt(index), 0});
        const int count = static_cast<int>(job(index).variants.size());
        for (int p = 0; p < printers(); ++p) {
            if (!reachable(p))
                continue;
            for (int o = first; o < first + count; ++o) {
                const LeastWork& w = m_least[static_cast<std::size_t>(p)][static_cast<std::size_t>(o)];
                if (w.possible)
                    visit(p, w);
            }
        }
    }
    /// False: what runs there never gets out, as there are never enough people.
    bool reachable(int printer) const { return begin(printer).ready < never; }
    /// What runs or is in session there counts: its job is placed. False: a part of no known job, a setup without one, or a
    /// part that never comes out.
    bool counts(int printer) const { return m_counts[static_cast<std::size_t>(printer)] != 0; }
    /// Least minutes of the changeover to every placed job (columns) from every other on any printer and, behind these
    /// rows, from the beginning of each printer; with `withPrint` the print and part removal of the second too. -1:
    /// impossible. Only where pairwise.
    std::vector<Minute> arcs(bool withPrint) const;

private:
    int jobAt(int index) const { return m_jobs[static_cast<std::size_t>(index)]; }
    void lookAt(int printer, int row, Changes& changes);
    void lookAtPrinter(int printer, Changes& changes);
    Minute minutes(int printer, int row, int option) const {
        return m_minutes[static_cast<std::size_t>(printer)][static_cast<std::size_t>(row)]
                        [static_cast<std::size_t>(option)];
    }

    const Problem& m_problem;
    mutable ChangeoverTable m_table;
    std::vector<int> m_jobs, m_options;
    std::vector<std::size_t> m_indexOf; ///< by job
    std::vector<LineState> m_begin;
    std::vector<char> m_counts; ///< by printer
    std::vector<std::vector<LeastWork>> m_least; ///< printer, option
    std::vector<std::vector<std::vector<Minute>>>
        m_minutes;                            ///< printer, row, option: least with nozzles worn or not; -1
    std::vector<std::vector<int>> m_rowAfter; ///< printer, option; -1: not met
    bool m_known = true, m_pairwise = true;
    std::size_t m_asked = 0;
};

} // namespace interlude::planning
