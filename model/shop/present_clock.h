#pragma once
// Moments that were recorded before the wall clock was set, as the wall clock of now would have shown them: jumps of the clock
// that were recorded in between are added. Only so can two recorded moments of a session be compared.

#include "model/shop/session_state.h"

namespace interlude {

/// A recorded moment moved into the present wall clock. `event` is the sequence of its event; 0 = not known, then the
/// moment is taken to be of before every jump that it does not lie behind.
Instant inPresentClock(const SessionState& session, Instant recorded, qint64 event);

/// The end of the session's interruption of that index; empty while it lasts. A jump during a pause stands before it in the list,
/// for the pause's end was recorded after the jump.
std::optional<Instant> endInPresentClock(const SessionState& session, qsizetype interruption);

} // namespace interlude
