#pragma once
// How quantities, times and states are said on paper: plain words, the shop's local time, one way everywhere.

#include "model/shop/shop.h"

namespace interlude::wording {

QString celsius(Temperature t);                  ///< "124 °C", one decimal only when it is not whole
QString cm3(Volume v);                           ///< "1.7 cm³"
QString elapsed(Instant from, Instant to);       ///< rounded up to minutes, as planned ones are
// In the night in which the clock goes back an hour comes twice: its times bear their offset, "02:10+01".
QString localTime(Instant t, const QTimeZone& zone); ///< "2026-03-04 10:42"
QString clockTime(Instant t, const QTimeZone& zone); ///< "10:42"
/// "10:42", with the day when it is another than that of `start`: "Thu 00:12".
QString dayTime(Instant t, Instant start, const QTimeZone& zone);
QString scanned(ScanTarget t); ///< "part nozzle mounted"
QString runVolume(const RunVolume& v);           ///< "412 cm³ (80 abrasive)" or "no history"
QString thousandths(qint64 value);               ///< "-0.05", "12"
QString material(const Catalogue& c, const MaterialId& id); ///< "PA12-CF (pa12-cf-black)", "none", "unknown"
QString nozzle(const Catalogue& c, const Stock& s, const NozzleSerial& serial); ///< "N-031 · 0.4 mm hardened steel"
QString position(Role role);                     ///< "part", "support"
QString person(const Catalogue& c, const QString& initials);
QString limits(const ReadingWanted& r);          ///< "−0.1 to 0.1 mm", "at most 43 °C"
QString sensor(Sensor s);
QString severity(Severity s);                    ///< "mandatory", "refused" …
/// "Two people side by side: 1 h 12 min instead of 1 h 40 min; it hangs on …."; empty where a second person saves nothing.
QString twoPeople(const Changeover& changeover, const Catalogue& catalogue);

} // namespace interlude::wording
