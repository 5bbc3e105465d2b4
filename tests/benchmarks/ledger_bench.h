#pragma once
// Years of use: how long opening and single acts take with 10^4 and 10^6 events, what memory they need, what an append costs
// beside a bare loop that writes and syncs the same bytes, and how lists of 10^5 rows behave.

#include <QString>

namespace interlude::bench {

/// Ledgers are made in `folder` (a fresh one under the system's folder for such things when empty) and kept there; those that
/// are there already are used. `events`: of the large one.
int ledgerBench(int argc, char** argv);
/// One opening in a process of its own, so that its memory can be told: prints one line of figures.
int ledgerOpening(int argc, char** argv);

/// Lists alone.
void listFrames();

} // namespace interlude::bench
