#pragma once
// The shop's jobs, spools and nozzles as CSV, for whoever reads them without this program: the columns that the import reads,
// and after them what only the shop knows (`state`, `printer`), which the import passes over.

#include "model/intake/intake.h"

namespace interlude {

/// All of them, also those that are done or retired. Times are local; an empty cell is not known or not given.
QByteArray listCsv(EntryKind kind, const Shop& shop);

} // namespace interlude
