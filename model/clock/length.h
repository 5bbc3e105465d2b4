#pragma once
// A stretch of time in plain words, on paper and where a plan is explained.

#include "model/quantities/quantities.h"

#include <QString>

namespace interlude {

/// "8 min", "2 h 05 min".
inline QString lengthText(Minutes m) {
    if (m < Minutes(60)) return QStringLiteral("%1 min").arg(m.count());
    return QStringLiteral("%1 h %2 min").arg(m.count() / 60).arg(m.count() % 60, 2, 10, QLatin1Char('0'));
}

} // namespace interlude
