#pragma once
// Cuts laid-out steps into segments (design section 5; private to model/changeover). Stretches with someone working are
// hands-on, the rest waiting. A segment also ends where the number of people changes and before every nozzle removal or
// mounting; a segment of 0 minutes does not exist. A step of 0 minutes is listed in the hands-on segment that it begins
// or ends, else where it happens; a waiting step in the waiting segments that it spans, else in the one it begins in.

#include "model/changeover/changeover.h"

namespace interlude {

/// `steps` in the order in which they begin, with start and end set; from `from` to `to`.
QList<Segment> cutIntoSegments(const QList<PlannedStep>& steps, Minutes from, Minutes to);

/// The same for a block that is of one kind whatever happens in it (preparation, part removal): the kind is set, and
/// what needs nobody keeps 0 people.
QList<Segment> ofKind(QList<Segment> segments, SegmentKind kind);
/// Nobody is needed: everything waits; neighbours grow together.
QList<Segment> withoutPeople(const QList<Segment>& segments);

/// Sum over the segments of that kind.
Minutes lengthOf(const QList<Segment>& segments, SegmentKind kind);

} // namespace interlude
