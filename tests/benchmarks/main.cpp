// The bench: how good are plans on public instances, and how fast is planning. Not a test; run it alone on a quiet
// machine.
#include "model/planning/search.h"
#include "tests/benchmarks/board_frames.h"
#include "tests/benchmarks/crew_shops.h"
#include "tests/benchmarks/fleet_folder.h"
#include "tests/benchmarks/ledger_bench.h"
#include "tests/benchmarks/public_instances.h"
#include "tests/benchmarks/start_bench.h"
#include "tests/benchmarks/window_acts.h"

#include <QTemporaryDir>

#include <algorithm>
#include <cstdio>
#include <cstring>
#include <ctime>
#include <map>

namespace interlude::bench {

namespace {

using namespace interlude::planning;

struct Options {
    std::string folder, only;
    double scale = 1; ///< of the seconds
    std::uint64_t seed = 1;
    bool cpuTime = false; ///< for a machine shared with others; then the search is called without the program around it
};

const char* nameOf(Family f) {
    switch (f) {
    case Family::OnePrinterTardiness:
        return "one printer, weighted tardiness";
    case Family::SmallMakespan:
        return "several printers, makespan, <= 12 jobs";
    case Family::LargeMakespan:
        return "several printers, makespan, 50 and 100 jobs";
    case Family::Changeovers:
        return "changeovers of one printer";
    }
    return "";
}

double secondsFor(Family f) {
    return f == Family::SmallMakespan ? 1 : 10;
}

double cpuSeconds() {
    timespec t{};
    clock_gettime(CLOCK_THREAD_CPUTIME_ID, &t);
    return static_cast<double>(t.tv_sec) + 1e-9 * static_cast<double>(t.tv_nsec);
}

struct Tally {
    std::vector<double> gaps;
    int zeros = 0, zerosFound = 0, optimal = 0, count = 0;
};

/// The shipped program on the instance as a fleet folder.
Minute solveAsAShop(const Instance& instance, const Options& o, double seconds, SearchResult& result) {
    const QTemporaryDir dir;
    if (!writeFleetFolder(instance, dir.path())) return never;
    const Shipped s = runShipped(QStringLiteral(INTERLUDE_PROGRAM), instance, dir.path(), seconds, o.seed);
    result.worth.notPlaced = s.notPlaced;
    result.seconds = s.seconds;
    result.iterations = s.iterations;
    return s.ran ? s.value : never;
}

Minute solve(const Instance& instance, const Options& o, double seconds, SearchResult& result) {
    if (!o.cpuTime) return solveAsAShop(instance, o, seconds, result);
    const Problem problem = instance.problem();
    SearchOptions options;
    options.goal = instance.goal;
    options.seconds = seconds;
    options.seed = o.seed;
    if (o.cpuTime)
        options.clock = cpuSeconds;
    result = improve(problem, *problem.changes, options);
    return result.worth.value;
}

void tell(const std::map<Family, Tally>& all, double scale) {
    std::printf("\n%-46s %7s %8s %8s %8s %9s %9s\n", "family", "seconds", "mean %", "median %", "worst %", "best hit",
                "zeros");
    for (const auto& [family, t] : all) {
        std::vector<double> gaps = t.gaps;
        std::sort(gaps.begin(), gaps.end());
        double sum = 0;
        for (const double g : gaps)
            sum += g;
        const double mean = gaps.empty() ? 0 : sum / static_cast<double>(gaps.size());
        const std::size_t n = gaps.size();
        const double median = n == 0 ? 0 : (gaps[(n - 1) / 2] + gaps[n / 2]) / 2;
        std::printf("%-46s %7.3g %8.3f %8.3f %8.3f %5d/%-3d %5d/%-3d\n", nameOf(family), secondsFor(family) * scale,
                    mean, median, gaps.empty() ? 0.0 : gaps.back(), t.optimal, t.count, t.zerosFound, t.zeros);
    }
}

int plan(const Options& o) {
    std::map<Family, Tally> all;
    for (const Instance& instance : publicInstances(o.folder)) {
        if (!o.only.empty() && instance.name.find(o.only) == std::string::npos)
            continue;
        SearchResult result;
        const Minute value = solve(instance, o, secondsFor(instance.family) * o.scale, result);
        Tally& t = all[instance.family];
        ++t.count;
        if (value <= instance.best && result.worth.notPlaced == 0)
            ++t.optimal;
        double gap = 0;
        if (instance.best > 0) {
            gap = 100.0 * static_cast<double>(value - instance.best) / static_cast<double>(instance.best);
            t.gaps.push_back(gap);
        } else {
            ++t.zeros;
            if (value == 0)
                ++t.zerosFound;
        }
        std::printf("%-22s %9lld best %9lld  gap %7.3f %%  not placed %d  %.2f s  %lld moves\n", instance.name.c_str(),
                    static_cast<long long>(value), static_cast<long long>(instance.best), gap, result.worth.notPlaced,
                    result.seconds, static_cast<long long>(result.iterations));
        std::fflush(stdout);
    }
    if (all.empty()) {
        std::fprintf(stderr,
                     "%s: no instance found; it should hold the folders wtsds, upmsp-vallada-ruiz, tsplib-atsp\n",
                     o.folder.c_str());
        return 1;
    }
    tell(all, o.scale);
    return 0;
}

int usage() {
    std::fprintf(stderr, "usage: tests/bench plan FOLDER [--scale F] [--seed N] [--only NAME] [--cpu-time]\n"
                         "       tests/bench crew [--seconds S] [--seeds N] …\n"
                         "       tests/bench board [FOLDER FOR PICTURES]\n"
                         "       tests/bench ledger [FOLDER FOR LEDGERS [EVENTS]]\n"
                         "       tests/bench window LEDGER\n"
                         "       tests/bench start [LEDGER]\n");
    return 2;
}

} // namespace

int main(int argc, char** argv) {
    if (argc >= 2 && std::strcmp(argv[1], "board") == 0) return boardFrames(argc, argv, argc > 2 ? argv[2] : nullptr);
    if (argc >= 2 && std::strcmp(argv[1], "crew") == 0) return crewShops(argc - 2, argv + 2);
    if (argc >= 2 && std::strcmp(argv[1], "ledger") == 0) return ledgerBench(argc, argv);
    if (argc >= 2 && std::strcmp(argv[1], "start") == 0) return startBench(argc, argv);
    if (argc >= 2 && std::strcmp(argv[1], "start-once") == 0) return startOnce(argc, argv);
    if (argc >= 2 && std::strcmp(argv[1], "window") == 0) return windowBench(argc, argv);
    if (argc >= 2 && std::strcmp(argv[1], "ledger-opening") == 0) return ledgerOpening(argc, argv);
    if (argc < 3 || std::strcmp(argv[1], "plan") != 0) return usage();
    Options o;
    o.folder = argv[2];
    for (int i = 3; i < argc; ++i) {
        const std::string key = argv[i];
        if (key == "--cpu-time") {
            o.cpuTime = true;
            continue;
        }
        if (++i >= argc)
            return usage();
        if (key == "--scale")
            o.scale = std::atof(argv[i]);
        else if (key == "--seed")
            o.seed = std::strtoull(argv[i], nullptr, 10);
        else if (key == "--only")
            o.only = argv[i];
        else
            return usage();
    }
    return plan(o);
}

} // namespace interlude::bench

int main(int argc, char** argv) {
    return interlude::bench::main(argc, argv);
}
