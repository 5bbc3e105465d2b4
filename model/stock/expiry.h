#pragma once
// When the date on a spool has passed.

#include "model/stock/spool.h"

#include <QTimeZone>

namespace interlude {

/// A date counts to its end, in the shop's zone: a spool that expires on the 12th may be used on the 12th. Where a time of
/// day is stated, that moment counts. False without a date. Common practice, no source.
bool expired(const Spool& spool, Instant now, const QTimeZone& zone);

} // namespace interlude
