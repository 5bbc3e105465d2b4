#pragma once
// Is a changeover worth it? For one job: every variant on every printer, with the changeover there and back to what the
// printer wears now, and from which volume on it pays.

#include "model/planning/problem/shop_problem.h"
#include "model/planning/timetable/timetable.h"

namespace interlude::planning {

struct WorthRow {
    PrinterId printer;
    QString variant, setup;
    QString impossible;          ///< why not; empty when it can be done
    Minute print = 0, there = 0, back = 0; ///< minutes; the changeovers' internal segments
    bool cleanOutThere = false, cleanOutBack = false;
    bool noWayBack = false;      ///< nothing leads back to the present setup: `back` is 0 and counts nothing
    Cents printing = 0;          ///< hourly rate × print
    Cents changing = 0;          ///< hourly rate × both changeovers
    Cents material = 0;          ///< purged material and clean-out consumables, both ways
    Cents othersLate = 0;        ///< late cost of the other jobs, more than without this one, when it goes first here
    /// It, or another job because of it, would have no place in the plan, and why: then `othersLate` says nothing of that job, and
    /// the row is not the best.
    QString displaces;
    Cents total() const { return printing + changing + material + othersLate; }
    /// Volume of the part from which on this variant here costs less than the one with the least changing on the same
    /// printer, at the printing speeds stated. Empty: it is that one, or it never pays (then `neverPays`).
    std::optional<Volume> breakEven;
    bool neverPays = false;
    bool best = false;           ///< the least total
};

/// In the order of printers, then variants. `plan`: what the shop follows; the job is taken out of it first.
QList<WorthRow> worthOf(ShopProblem& problem, int job, const Orders& plan);

} // namespace interlude::planning
