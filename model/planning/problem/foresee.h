#pragma once
// How a printer will stand when a changeover has been carried out and its print has ended: what the fold makes of the same
// steps (a test compares the two), told beforehand and without a ledger.

#include "model/changeover/changeover.h"

namespace interlude::planning {

/// `before` as the changeover found it; steps in `done` have happened already. The part then lies in the printer. Spools are
/// told by `loaded` only as far as the changeover's spool changes name them.
PrinterNow foreseePrinted(const Catalogue& catalogue, const Stock& stock, PrinterNow before, const Changeover& changeover,
                          const QSet<StepId>& done = {});

} // namespace interlude::planning
