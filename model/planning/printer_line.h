#pragma once
// One printer alone, as if tools, nozzles and everybody on shift were always free for it: exact where printers do not
// touch each other (`Problem::printersApart`), an estimate that is hardly ever too late elsewhere (private to
// model/planning).

#include "model/planning/changeover_table.h"
#include "model/planning/free_stretches.h"
#include "model/planning/timetable/timetable.h"

namespace interlude::planning {

/// How far a printer is once a print has been planned on it.
struct LineState {
    int row = 0;           ///< what it wears after that print, see ChangeoverTable
    Minute printStart = 0; ///< since then the next preparation may be done
    Minute printEnd = 0;   ///< 0 for a printer without a previous print
    Minute ready = 0;      ///< the part is out: the changeover may begin
    bool operator==(const LineState&) const = default;
};

/// What a job adds to the goal, and the jobs that do not fit.
struct LineCost {
    std::int64_t value = 0;
    int missing = 0;
    Minute last = 0; ///< completion of the last job
    Minute waited = 0; ///< with everything done, for releases
};

class PrinterLine {
public:
    /// The table outlives the line.
    PrinterLine(ChangeoverTable& table, Goal goal);

    /// Where the printer stands when what runs on it has ended and its part is out.
    LineState begin(int printer);
    /// Where it stands after a print whose times are known.
    LineState after(int printer, int state, Minute printStart, Minute printEnd);
    /// Plans one job after `state`, which goes on; adds to `cost`. A job that cannot follow is missing and changes
    /// nothing.
    void append(int printer, int option, LineState& state, LineCost& cost) {
        const Brief& b = m_table.from(printer, state.row, option);
        if (!b.possible) {
            ++cost.missing;
            return;
        }
        appendPossible(printer, option, b, state, cost);
    }
    /// How long a changeover that needs people waits for them on the average, as they serve other printers too: makes
    /// the estimate likelier where people are short. 0 at first; not for printers apart.
    void setDelay(Minute minutes) { m_delay = minutes; }
    Minute delay() const { return m_delay; }
    ChangeoverTable& table() { return m_table; }
    Goal goal() const { return m_goal; }

private:
    void appendPossible(int printer, int option, const Brief& b, LineState& state, LineCost& cost) const;
    /// When the changeover is done; `never` where people never suffice.
    Minute changedOver(int printer, const Brief& b, const LineState& state) const;
    Minute worked(int printer, const std::vector<Work>& work, Minute from) const;
    const std::vector<Span>& down(int printer) const {
        return m_table.problem().printers[static_cast<std::size_t>(printer)].down;
    }

    ChangeoverTable& m_table;
    Goal m_goal;
    bool m_apart;
    Minute m_delay = 0;
    FreeStretches m_stretches;
};

} // namespace interlude::planning
