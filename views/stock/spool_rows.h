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
    QString left;        ///< "640 ± 15", or "unknown"
    QString opened, expires;
    bool expired = false;
    int family = -1;     ///< of the chamber family's tint
    QString familyInitials;
};

QList<SpoolRow> spoolRows(const Bench& bench, bool withRetired);
SpoolRow spoolRow(const Bench& bench, const Spool& spool);
QList<lists::Column<SpoolRow>> spoolColumns();

/// "▲ overdue", "● dry", "■ sealed", "– no rule", "? unknown": word and shape.
QString dryWord(DryState state);
/// "5.2 h".
QString hours(Milliseconds t);
/// "PC Ivory 3": polymer and grade name; the id where the catalogue no longer knows it.
QString materialName(const Catalogue& catalogue, const MaterialId& id);
/// Place name, or printer name with position.
QString whereOf(const Catalogue& catalogue, const Spool& spool);

} // namespace interlude
