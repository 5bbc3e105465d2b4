#pragma once
// One physical package of feedstock. In spools.yaml and in CSV with the same names as columns:
//
//   spools:
//     - {id: S-12, material: pc-ivory, lot: L2207, grams: 640, grams-se: 15, tare-grams: 260, place: cabinet-1,
//        received: 2026-01-12, opened: 2026-02-20T08:00, dried: 2026-03-01T18:00, expires: 2027-01-12}

#include "model/catalogue/material.h"
#include "model/clock/instant.h"

#include <QDate>

namespace interlude {

using SpoolId = QString;

enum class SpoolWhere { Shelf, Loaded, Retired };

/// Why grams changed; stock changes only by signed entries, never by overwriting.
struct StockEntry {
    Instant at;
    QString why; ///< received, weighed, used by job, purged, scrapped, correction
    Mass change;
    QString reference; ///< job, session; may be empty
};

struct Spool {
    SpoolId id;
    MaterialId material;
    QString lot;
    std::optional<Mass> left; ///< empty: unknown (weighed with an unknown tare), never zero
    Mass leftSe;              ///< standard error of `left`
    std::optional<Mass> tare;
    SpoolWhere where = SpoolWhere::Shelf;
    QString place; ///< place id, or the printer's id when loaded
    QString home;  ///< while loaded: the place that it came from
    Role position = Role::Part;
    std::optional<Instant> received, opened, expires;
    std::optional<Instant> dried;       ///< end of the last drying
    std::optional<Instant> exposedFrom; ///< start of the present exposure; empty while sealed or in a dry place
    Milliseconds exposedBefore{0};      ///< exposure since the last drying, before `exposedFrom`
    QList<StockEntry> entries;
    QString retiredWhy;
    int order = 0;
};

/// Hours in the open since the last drying (or since opening).
Milliseconds exposure(const Spool& s, Instant now);

enum class DryState { NoRule, Sealed, Dry, Overdue, Unknown };
/// *Overdue* by exposure time or by a missing drying entry, never by a computed moisture.
DryState dryState(const Spool& s, const Material& m, Instant now);

} // namespace interlude
