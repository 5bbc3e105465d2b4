#include "views/today/strip_geometry.h"

#include <algorithm>

namespace interlude {

double StripGeometry::x(Instant t) const {
    const double share = static_cast<double>((t - from).count()) / static_cast<double>((to() - from).count());
    return std::clamp(share, 0.0, 1.0) * width;
}

QList<Instant> StripGeometry::marks(const QTimeZone& zone, int every) const {
    QList<Instant> out;
    // Steps of elapsed half hours, so that a change to summer time neither skips nor doubles the search.
    const qint64 step = 30 * 60 * 1000;
    const qint64 first = (toMs(from) / step + 1) * step;
    for (qint64 ms = first; instantFromMs(ms) < to(); ms += step) {
        const QTime local = toZone(instantFromMs(ms), zone).time();
        if (local.minute() == 0 && local.hour() % every == 0) out.append(instantFromMs(ms));
    }
    return out;
}

} // namespace interlude
