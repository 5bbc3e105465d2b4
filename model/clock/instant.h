#pragma once
// A moment in UTC, in milliseconds, and its named conversions. Local time exists only at the screen, on paper and in
// YAML, always through an explicit time zone.

#include <QDateTime>
#include <QString>
#include <QTimeZone>

#include <chrono>

namespace interlude {

using Milliseconds = std::chrono::milliseconds;
using Instant = std::chrono::sys_time<Milliseconds>;

inline Instant instantFromMs(qint64 ms) { return Instant(Milliseconds(ms)); }
inline qint64 toMs(Instant t) { return t.time_since_epoch().count(); }
inline QDateTime toUtc(Instant t) { return QDateTime::fromMSecsSinceEpoch(toMs(t), Qt::UTC); }
inline QDateTime toZone(Instant t, const QTimeZone& zone) { return QDateTime::fromMSecsSinceEpoch(toMs(t), zone); }
inline Instant instantOf(const QDateTime& t) { return instantFromMs(t.toMSecsSinceEpoch()); }
/// ISO 8601 in UTC with a Z, to the second.
inline QString iso(Instant t) { return toUtc(t).toString(Qt::ISODate); }

} // namespace interlude
