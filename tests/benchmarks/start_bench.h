#pragma once
// How long the program takes from the beginning of main to the first picture of its window, on the sample fleet.

namespace interlude::bench {

/// `tests/bench start [LEDGER]`: several starts in processes of their own, the middle one, beside a reference loop.
int startBench(int argc, char** argv);
/// One start, as `interlude FLEET` does it: prints one line of figures.
int startOnce(int argc, char** argv);

} // namespace interlude::bench
