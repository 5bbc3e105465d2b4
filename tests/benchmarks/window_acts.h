#pragma once
// How long an act of a person takes on a ledger of years, from the call until the window has painted what it changed, with each
// tab shown; how long the window is busy with it afterwards; and how long the program takes to its first picture.

#include <QString>

#include <memory>

namespace interlude {
class Catalogue;
class Clock;
class Workbench;
} // namespace interlude

namespace interlude::bench {

/// Opens the ledger with its snapshot; null (said on standard error) when it cannot be opened.
std::unique_ptr<Workbench> openedLedger(const std::shared_ptr<const Catalogue>& catalogue, const QString& file, const Clock& clock);

/// Prints one line for each act and place. Records a few hundred events.
void windowActs(Workbench& workbench);

/// `tests/bench window LEDGER`: the same alone, on a ledger that is there.
int windowBench(int argc, char** argv);

} // namespace interlude::bench
