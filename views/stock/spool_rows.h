#pragma once
// What the list of spools says: plain values, worked out from the shop at one moment.

#include "views/bench/bench.h"
#include "views/lists/list_model.h"

namespace interlude {

struct SpoolRow {
    Spool spool;
    DryState dry = DryState::Unknown;
    Milliseconds exposed{0};
    QString material;    ///< "PC Ivory 3"
    QString where;       ///< place or printer and position, or "retired"
    QString reserved;    ///< the job (or session) that has chosen it, that is printed with it, those it is planned for; empty = none
    QString left;        ///< "640 ± 15", or "unknown"
    QString opened;
    QString runsOut;     ///< "2027-01-12", its date of expiry, or when the print that runs uses it up
    std::optional<Instant> ends; ///< the moment of `runsOut`
    bool expired = false, usedUp = false;
    int family = -1;     ///< of the chamber family's tint
    QString familyInitials;
    /// Says the same in the list.
    bool operator==(const SpoolRow& o) const;
};

/// When a print that runs evenly from its start to its expected end uses the spool up; empty when it lasts, when nothing
/// prints with it, or when grams, job or times are not known.
std::optional<Instant> usedUpAt(const Shop& shop, const Spool& spool);
QList<SpoolRow> spoolRows(const Bench& bench, bool withRetired);
SpoolRow spoolRow(const Bench& bench, const Spool& spool);
QList<lists::Column<SpoolRow>> spoolColumns();

/// "▲ overdue", "● dry", "■ sealed", "– no rule", "? unknown": word and shape.
QString dryWord(DryState state);
/// "5.2 h".
QString hours(Milliseconds t);
/// "PC Ivory 3": polymer and grade name; the id where the catalogue no longer knows it.
QString materialName(const Catalogue& catalogue, const MaterialId& id);

} // namespace interlude
