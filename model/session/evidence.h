#pragma once
// What is known of the temperatures behind one heating or cooling step of a session: when the heaters went off (or on),
// the set-points at that moment, and the readings since. All moments are in the wall clock of now: jumps of the clock
// that were recorded in between are added to what was recorded before them.

#include "model/shop/present_clock.h"

namespace interlude {

/// Every reading of the session in order of time.
QList<SensorReading> allReadings(const SessionState& session);

struct Evidence {
    Instant from; ///< heaters off (cooling) or on (heating)
    std::optional<double> chamberSet, headSet; ///< °C, at `from`
    std::optional<double> heldBefore; ///< of a heating: °C that the body is believed to have had at `from`
    QList<SensorReading> readings; ///< since `from` (60 s of grace, then moved to `from`), none later than now, by time
};
/// For a step that has started. Cooling counts from the first cooling step of the same subject since its last heating.
Evidence evidenceFor(const SessionState& session, const PlannedStep& step, Instant now);

} // namespace interlude
