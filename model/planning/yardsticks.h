#pragma once
// Two plans that any shop could make without a program, to measure a plan by (design section 6). Both are timed by the
// timetable. What a draft locks stays where it is. A job that has no place goes to an end, where the timetable says why; so do,
// when they are asked to stop, all that they have not looked at: nobody wants that plan any more.

#include "model/planning/timetable/timetable.h"

#include <stop_token>

namespace interlude::planning {

/// Jobs by release (none: now), then file order; each appended as the printer and variant where the timetable so far
/// completes it earliest; ties by printer, then variant.
Orders firstInFirstOut(const Problem& problem, Changes& changes, const Orders* draft = nullptr, std::stop_token stop = {});

/// The printer whose last planned print ends first gets, among the jobs released by then, else the earliest released,
/// the one with the least changeover; ties by due (none: last), then file order, then variant. A printer that none of
/// the jobs left can follow gets no more.
Orders sameSetupFirst(const Problem& problem, Changes& changes, const Orders* draft = nullptr, std::stop_token stop = {});

} // namespace interlude::planning
