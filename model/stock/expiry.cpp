#include "model/stock/expiry.h"

namespace interlude {

bool expired(const Spool& spool, Instant now, const QTimeZone& zone) {
    if (!spool.expires) return false;
    const QDateTime stated = toZone(*spool.expires, zone);
    const bool wholeDay = stated == stated.date().startOfDay(zone);
    return wholeDay ? toZone(now, zone).date() > stated.date() : now >= *spool.expires;
}

} // namespace interlude
