#pragma once
// Time to pixels for a strip of the next hours. Plain, tested.

#include "model/clock/instant.h"

#include <QList>
#include <QTimeZone>

namespace interlude {

struct StripGeometry {
    Instant from;
    int hours = 16;
    double width = 1;

    Instant to() const { return from + std::chrono::hours(hours); }
    /// Pixels from the left edge, held within the strip.
    double x(Instant t) const;
    /// Whole local hours divisible by `every`, within the strip.
    QList<Instant> marks(const QTimeZone& zone, int every = 4) const;
};

} // namespace interlude
