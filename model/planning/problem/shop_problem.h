#pragma once
// The shop as planning sees it at a moment, with what-ifs laid over it.

#include "model/planning/problem/calendar.h"
#include "model/planning/problem/shop_changes.h"
#include "model/shop/shop.h"

namespace interlude::planning {

struct Downtime {
    PrinterId printer;
    Instant from;
    std::optional<Instant> to; ///< empty: for good
    bool operator==(const Downtime&) const = default;
};

/// What is assumed for the length of one draft.
struct WhatIf {
    QList<Absence> absences;
    QList<Downtime> downtimes;
    QList<Job> rush; ///< jobs that the shop does not have (yet)
    bool isEmpty() const { return absences.isEmpty() && downtimes.isEmpty() && rush.isEmpty(); }
};

struct ShopProblem {
    Problem problem;
    std::shared_ptr<ShopChanges> changes; ///< the same as problem.changes
    Instant now;                  ///< on a whole minute of the clock
    QList<Job> jobs;              ///< parallel to problem.jobs
    std::vector<int> plannable;   ///< those that wait to be placed, ascending
    QHash<JobId, int> jobNumbers;
    QHash<PrinterId, int> printerNumbers;
    QStringList chamberFamilies;  ///< by VariantNumbers::family

    Instant at(Minute m) const { return now + std::chrono::minutes(m); }
    /// Nothing placed.
    Orders noOrders() const;
};

/// Planned from the next whole minute of the clock on: what is due or released, and a shift's border, then stand on a minute
/// of the plan, too, and lateness is what the clock times shown differ by.
ShopProblem shopProblem(const Shop& shop, Instant now, const WhatIf& whatIf = {});

/// "pc-ivory with acr-clear, h04 / s04", or the label.
QString setupText(const Setup& setup);

} // namespace interlude::planning
