#pragma once
// The predicted course of one temperature, from what is known of it. Plain evidence in, numbers out.

#include "model/catalogue/fleet.h"
#include "model/physics/heat.h"
#include "model/session/evidence.h"

#include <functional>

namespace interlude {

/// Temperatures at one moment of the course, °C.
struct CourseBand {
    double expected, low, high;
};

struct Prediction {
    Instant from;                           ///< start, or the reading that it was last based on
    std::optional<physics::TimeBand> band;  ///< seconds from `from`; empty: see `why`
    bool nearLimit = false;
    QString why;                            ///< without a band: the reason; with one: what it assumes
    std::function<CourseBand(double seconds)> course; ///< empty without a band
};

Prediction predictCooling(const Evidence& evidence, const PrinterType& type, Temperature room, Subject subject,
                          Temperature target);
/// The settle times of the printer type and of the step are part of the band.
Prediction predictHeating(const Evidence& evidence, const PrinterType& type, Temperature room, const PlannedStep& step,
                          Temperature target);

} // namespace interlude
