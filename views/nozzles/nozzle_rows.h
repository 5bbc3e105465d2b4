#pragma once
// What the list of nozzles says: plain values, worked out from the shop at one moment.

#include "views/bench/bench.h"
#include "views/lists/list_model.h"

namespace interlude {

struct NozzleRow {
    Nozzle nozzle;
    QString type;   ///< "0.4 mm hardened steel"
    QString where;
    QString use;    ///< "412 + 80 cm³", or "no history"
    QString life;   ///< "▮ 62 % left", "▲ 8 % left", "■ worn", or "? no history", "– not rated"
    QString lifeTone;
    std::optional<double> left; ///< share of the rated life, 0 … 1
    QString measured; ///< last measurement
    /// Says the same in the list.
    bool operator==(const NozzleRow& o) const;
};

NozzleRow nozzleRow(const Bench& bench, const Nozzle& nozzle);
QList<NozzleRow> nozzleRows(const Bench& bench, bool withRetired);
QList<lists::Column<NozzleRow>> nozzleColumns();

} // namespace interlude
