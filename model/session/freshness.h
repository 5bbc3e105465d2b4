#pragma once
// The breaks of a session after which a measured value is taken again.

#include "model/shop/session_state.h"

namespace interlude {

inline constexpr Milliseconds readingFreshFor{60000}; ///< older is unknown (domain reference 2.2)
inline constexpr Milliseconds longBreak{60000};       ///< after more than this a reading is taken again (design 7)

/// The longest break of more than a minute which this step's reading has not been taken since; null when there is none.
/// Only breaks that fell into the step or came after an earlier reading of its sensor.
const Interruption* breakWithoutReading(const SessionState& session, const StepId& step, Instant now);
/// How long it was; of a jump of the clock, by how much.
Milliseconds lengthOf(const Interruption& i, Instant now);

} // namespace interlude
