#pragma once
// What a heating or cooling step waits for: one answer for the countdown and for whether the wait may end.

#include "model/changeover/changeover.h"

namespace interlude {

/// Empty for steps that are neither, and where the procedure states no temperature.
inline std::optional<Temperature> waitTarget(const PlannedStep& s) {
    if (s.target) return s.target;
    if (s.step.duration != DurationKind::Cool) return {};
    return s.step.to ? s.step.to : s.step.onlyBelow;
}

} // namespace interlude
