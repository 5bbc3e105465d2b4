#pragma once
// A first valid plan at once: every job in turn of urgency where it is expected to be done earliest with little
// changeover.

#include "model/planning/timetable/timetable.h"

namespace interlude::planning {

/// What a draft locks stays where it is (see `freeJobs`); everything else is planned afresh. A job that fits no printer
/// stands last on the first one, so that the timetable gives the reason.
Orders dispatch(const Problem& problem, Changes& changes, const Orders* draft = nullptr);

} // namespace interlude::planning
