#pragma once
// A second, slow timetable, written minute by minute from the text of design section 6 and from nothing else, so that
// the quick one has something to be compared with. Obvious before fast: arrays over minutes, everything looked at every
// minute.

#include "model/planning/timetable/timetable.h"

namespace interlude::tests {

/// What `planning::timetable` should say. Reasons of jobs not placed are left empty.
planning::Timetable minuteTwin(const planning::Problem& problem, planning::Changes& changes,
                               const planning::Orders& orders);

} // namespace interlude::tests
