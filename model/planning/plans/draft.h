#pragma once
// A plan being worked on: orders over a snapshot of the shop, with an undo stack of its own and the price of each move.
// A recorded fact is never undone here: publishing is an act of the ledger. One thread; a worker improves a copy.

#include "model/planning/plans/draft_moves.h"
#include "model/planning/plans/plan_report.h"

namespace interlude::planning {

/// How a plan would differ from the draft as it is.
struct Price {
    Cents cost = 0;
    Minute turnaround = 0;
    Minute changeover = 0;
    std::int64_t weightedTardiness = 0; ///< cents per hour × minutes
    int lateJobs = 0, notPlaced = 0;
    bool operator==(const Price&) const = default;
};
Price priceBetween(const Totals& before, const Totals& after);

class Draft {
public:
    Draft(const Shop& shop, Instant now, Goal goal, const WhatIf& whatIf = {});

    const ShopProblem& problem() const { return m_problem; }
    ShopProblem& problem() { return m_problem; }
    const Orders& orders() const { return m_current.orders; }
    const Timetable& timetable() const { return m_timetable; }
    const WhatIf& whatIf() const { return m_whatIf; }
    Goal goal() const { return m_goal; }
    void setGoal(Goal goal) { m_goal = goal; }

    /// Other orders, timed; the draft stays as it is.
    Timetable timed(const Orders& other) const { return planning::timetable(m_problem.problem, *m_problem.changes, other); }
    /// Takes other orders over, to be undone under that name. `again`: they take the place of those taken last, as one step.
    void take(const Orders& orders, const QString& what, bool again = false);

    bool canUndo() const { return !m_undo.isEmpty(); }
    bool canRedo() const { return !m_redo.isEmpty(); }
    QString undoText() const { return canUndo() ? m_current.what : QString(); }
    QString redoText() const { return canRedo() ? m_redo.last().what : QString(); }
    void undo();
    void redo();

    /// The same orders, and those of undo and redo, on the shop as it is now, or under other assumptions; printers and jobs
    /// are found again by id, variants by name; what has begun meanwhile, or is gone, falls out.
    void rebase(const Shop& shop, Instant now, const WhatIf& whatIf);
    /// Keeps what prints start within so many minutes where it is, by locking it; the rest is free.
    void keepFirst(Minute minutes);

private:
    struct Step {
        Orders orders;
        QString what; ///< that led to these orders
    };
    void retime();
    Orders moved(const Orders& orders, const ShopProblem& to) const;

    ShopProblem m_problem;
    Goal m_goal;
    WhatIf m_whatIf;
    Step m_current;
    QList<Step> m_undo, m_redo;
    Timetable m_timetable;
};

} // namespace interlude::planning
