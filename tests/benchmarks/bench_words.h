#pragma once
// What the benches have in common: their words on the command line, and the clock for a machine shared with others.

#include "model/planning/search.h"

namespace CLI {
class App;
}

namespace interlude::bench {

/// Reads the words behind the bench's name (argv[1]). False: `code` is what the program returns, and why has been said.
bool read(CLI::App& words, int argc, char** argv, int& code);

/// Seconds of the processor that this thread has used.
double cpuSeconds();

/// A search as the benches of plans run it. `cpuTime`: its seconds are those of `cpuSeconds`.
planning::SearchResult searched(const planning::Problem& problem, planning::Goal goal, double seconds, bool cpuTime,
                                std::uint64_t seed = 1);

} // namespace interlude::bench
