#pragma once
// What is left of a changeover that is being carried out, laid out anew from now on.

#include "model/changeover/changeover.h"

namespace interlude {

/// Segments of the steps that are not in `settled`, in order, starting at 0. `left` tells how much longer a step takes that
/// has begun already. External steps that are still open count as internal: the printer stands waiting. An unattended
/// printer needs nobody.
QList<Segment> remainingSegments(const Changeover& changeover, const QSet<StepId>& settled,
                                 const QMap<StepId, Minutes>& left, bool unattended);

} // namespace interlude
