#include "tests/benchmarks/bench_words.h"

#include <CLI/CLI.hpp>

#include <ctime>

namespace interlude::bench {

bool read(CLI::App& words, int argc, char** argv, int& code) {
    words.name(std::string("tests/bench ") + argv[1]);
    try {
        words.parse(argc - 1, argv + 1);
    } catch (const CLI::ParseError& e) {
        code = words.exit(e) == 0 ? 0 : 2;
        return false;
    }
    return true;
}

double cpuSeconds() {
    timespec t{};
    clock_gettime(CLOCK_THREAD_CPUTIME_ID, &t);
    return static_cast<double>(t.tv_sec) + 1e-9 * static_cast<double>(t.tv_nsec);
}

planning::SearchResult searched(const planning::Problem& problem, planning::Goal goal, double seconds, bool cpuTime,
                                std::uint64_t seed) {
    planning::SearchOptions options;
    options.goal = goal;
    options.seconds = seconds;
    options.seed = seed;
    if (cpuTime)
        options.clock = cpuSeconds;
    return improve(problem, *problem.changes, options);
}

} // namespace interlude::bench
