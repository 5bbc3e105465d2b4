#pragma once
// The small forms of a printer's card.

#include "views/asking/ask_dialog.h"
#include "views/bench/bench.h"

class QTableWidget;

namespace interlude {

/// Good, failed or stopped; whether a part lies there; what was extruded.
AskDialog* askPrintEnded(Bench& bench, const PrinterId& printer, QWidget* parent);
AskDialog* askDowntime(Bench& bench, const PrinterId& printer, QWidget* parent);
/// What is mounted, loaded, left over and laid on, whatever the program believed; with a reason.
AskDialog* askDeclare(Bench& bench, const PrinterId& printer, QWidget* parent);

/// The opening entry that says what a printer wears now; the form starts from it.
OpeningSetup setupOf(const PrinterNow& printer);

} // namespace interlude
