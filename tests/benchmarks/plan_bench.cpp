// How good plans are on public instances whose best known values lie beside them.
#include "tests/benchmarks/plan_bench.h"

#include "tests/benchmarks/bench_words.h"
#include "tests/benchmarks/fleet_folder.h"
#include "tests/benchmarks/public_instances.h"

#include <CLI/CLI.hpp>

#include <QTemporaryDir>

#include <algorithm>
#include <cstdio>
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
    result = searched(problem, instance.goal, seconds, o.cpuTime, o.seed);
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

} // namespace

int planBench(int argc, char** argv) {
    Options o;
    CLI::App words{"How good plans are on public instances."};
    words.add_option("FOLDER", o.folder, "holds the folders wtsds, upmsp-vallada-ruiz, tsplib-atsp")->required();
    words.add_option("--scale", o.scale, "of the seconds that each instance is given");
    words.add_option("--seed", o.seed, "another seed, another search");
    words.add_option("--only", o.only, "instances whose name has this in it");
    words.add_flag("--cpu-time", o.cpuTime, "seconds of the processor; the search is called without the program around it");
    int code = 0;
    return read(words, argc, argv, code) ? plan(o) : code;
}

} // namespace interlude::bench
