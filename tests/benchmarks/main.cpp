// The bench: how good plans are on public instances, and how fast the program is. Not a test; run it alone on a quiet
// machine.
#include "tests/benchmarks/board_frames.h"
#include "tests/benchmarks/crew_shops.h"
#include "tests/benchmarks/ledger_bench.h"
#include "tests/benchmarks/plan_bench.h"
#include "tests/benchmarks/start_bench.h"
#include "tests/benchmarks/window_acts.h"

#include <cstdio>
#include <cstring>

namespace interlude::bench {

namespace {

struct Named {
    const char* word;
    int (*run)(int argc, char** argv);
    const char* words; ///< that follow; null: called by another bench only
};
constexpr Named benches[] = {
    {"plan", planBench, "FOLDER [--scale F] [--seed N] [--only NAME] [--cpu-time]"},
    {"crew", crewShops, "[--seconds S] [--seeds N] …"},
    {"board", boardFrames, "[FOLDER FOR PICTURES]"},
    {"ledger", ledgerBench, "[FOLDER FOR LEDGERS [EVENTS]]"},
    {"window", windowBench, "LEDGER"},
    {"start", startBench, "[LEDGER]"},
    {"start-once", startOnce, nullptr},
    {"ledger-opening", ledgerOpening, nullptr},
};

} // namespace

int main(int argc, char** argv) {
    for (const Named& bench : benches)
        if (argc >= 2 && std::strcmp(argv[1], bench.word) == 0)
            return bench.run(argc, argv);
    for (const Named& bench : benches)
        if (bench.words)
            std::fprintf(stderr, "usage: tests/bench %s %s\n", bench.word, bench.words);
    return 2;
}

} // namespace interlude::bench

int main(int argc, char** argv) {
    return interlude::bench::main(argc, argv);
}
