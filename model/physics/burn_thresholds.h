#pragma once
// Burn thresholds of bare (uncoated) metal, skin in contact, by duration of contact: ISO 13732-1:2006. The figures are
// recalled, not read from the standard: verify before quoting them as authority. The standard gives thresholds for
// contact of 0.5 s and longer with a surface that keeps its temperature; it sets no limits. The metal row is the lowest
// of all surface materials, so it serves for every surface whose material is not recorded (domain reference 2.1).

#include "model/quantities/quantities.h"

#include <array>

namespace interlude::physics {

/// Below `low` no burn is expected; where only a band can be read off the curve, `high` is its upper end.
struct BurnThreshold {
    Seconds contact;
    Temperature low, high;
};

inline constexpr std::array<BurnThreshold, 5> burnThresholdsBareMetal{{
    {Seconds(1), Temperature::fromMilliCelsius(65000), Temperature::fromMilliCelsius(70000)},
    {Seconds(10), Temperature::fromMilliCelsius(55000), Temperature::fromMilliCelsius(60000)},
    {Seconds(60), Temperature::fromMilliCelsius(51000), Temperature::fromMilliCelsius(51000)},
    {Seconds(10 * 60), Temperature::fromMilliCelsius(48000), Temperature::fromMilliCelsius(48000)},
    {Seconds(8 * 3600), Temperature::fromMilliCelsius(43000), Temperature::fromMilliCelsius(43000)},
}};

/// Bare-hand work waits for this: the threshold of contact for hours (domain reference 2.2).
inline constexpr Temperature bareHandRelease = Temperature::fromMilliCelsius(43000);
/// Up to this a brief, accidental touch only; above it gloves rated for the temperature.
inline constexpr Temperature briefTouch = Temperature::fromMilliCelsius(51000);

} // namespace interlude::physics
