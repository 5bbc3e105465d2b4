#pragma once
// The published plan as orders to plan with, and orders as a plan to publish.

#include "model/planning/plans/reservations.h"

namespace interlude::planning {

/// What is left of the published plan: its jobs that still wait, in its order; everything else that waits is left out.
/// Without a published plan nothing is placed.
Orders publishedOrders(const Shop& shop, const ShopProblem& problem);
/// To be published: orders with the times foreseen and the feedstock reserved.
Plan planOf(const ShopProblem& problem, const Orders& orders, const Timetable& timetable, Goal goal,
            const QList<Reservation>& reservations);

/// The job is still to be printed (for the first time, or again after a failure) and no open session is for it.
bool stillWaits(const Shop& shop, const JobId& job);

/// The first job of the published plan that waits on that printer and is in no open session; empty when none is planned.
std::optional<PlannedJob> nextPlanned(const Shop& shop, const PrinterId& printer);

/// What came otherwise than the published plan foresaw, one line for each job of it that began or should have begun.
struct Departure {
    PrinterId printer;
    JobId job;
    enum class What { StartsLate, StartedLate, StartedElsewhere, Failed, NotStarted } what = What::StartsLate;
    Minutes by{0};  ///< how much later than foreseen; 0 where that says nothing
    QString reason; ///< in plain words
};
QList<Departure> departures(const Shop& shop, Instant now);

} // namespace interlude::planning
