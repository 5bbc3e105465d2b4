#pragma once
// Which steps of a session are open, ready, or can be replayed: the order of work, without a word about how it looks.
// Rule of design section 5: hands-on steps one at a time in file order once their `after` are done, waits at once.

#include "model/shop/session_state.h"

namespace interlude {

/// Everything that this step comes after is settled.
bool isFree(const SessionState& session, const PlannedStep& step);
/// The hands-on step to do now: one that was begun, else the first free one in file order; while the printer still prints
/// only external ones. Null when there is none.
const PlannedStep* currentStep(const SessionState& session, bool printing);
/// The hands-on step that comes then: free once `current` and the running waits are over.
const PlannedStep* nextStep(const SessionState& session, const PlannedStep* current);

/// When a running step ends, at the latest; for the others their planned minutes count.
using RunningEnds = QMap<StepId, Instant>;
/// When the last step is over, if one team works on from `now` without a break. Internal steps begin at
/// `printerStands`; a step that has begun ends as `ends` says, not before `now`.
Instant replayRemaining(const SessionState& session, const RunningEnds& ends, Instant now, Instant printerStands);
/// Σ people × planned minutes of the hands-on steps that are left.
Minutes handsOnLeft(const SessionState& session);

} // namespace interlude
