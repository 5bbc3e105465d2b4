#include "tests/benchmarks/crew_shops.h"

#include "model/planning/dispatch.h"
#include "model/planning/yardsticks.h"
#include "tests/benchmarks/bench_words.h"
#include "tests/benchmarks/every_order.h"
#include "tests/search/crew_shop.h"

#include <CLI/CLI.hpp>

#include <cstdio>
#include <map>

namespace interlude::bench {

namespace {

using namespace interlude::planning;

struct Options {
    double seconds = 10;
    int seeds = 10, firstSeed = 1, crew = 0; ///< crew 0: one, then two people
    Goal goal = Goal::Cost;
    std::string part;
    bool cpuTime = false;
};

struct Mean {
    double sum = 0;
    int count = 0;
    void add(double x) {
        sum += x;
        ++count;
    }
    double value() const { return count == 0 ? 0 : sum / count; }
};

/// Up to eight jobs on two or three printers.
CrewShopShape smallShape(int printers, int jobs, int crew, int seed) {
    CrewShopShape shape;
    shape.printers = printers;
    shape.jobs = jobs;
    shape.crew = crew;
    shape.materials = 4;
    shape.types = 2;
    shape.seed = static_cast<std::uint64_t>(seed);
    return shape;
}

void small(const Options& o, int crew) {
    const std::pair<int, int> sizes[] = {{2, 6}, {2, 8}, {3, 7}};
    for (const auto& [printers, jobs] : sizes) {
        Mean gap;
        int optimal = 0, proved = 0;
        long long plans = 0;
        for (int seed = o.firstSeed; seed < o.firstSeed + o.seeds; ++seed) {
            const Problem problem = crewShop(smallShape(printers, jobs, crew, seed));
            const SearchResult found = searched(problem, o.goal, std::min(1.0, o.seconds), o.cpuTime);
            const Proof proof = provedOptimum(problem, o.goal, found.worth, 3'000'000);
            plans += proof.plans;
            if (!proof.complete)
                continue;
            ++proved;
            optimal += found.worth == proof.best ? 1 : 0;
            const auto best = static_cast<double>(proof.best.value);
            if (found.worth.notPlaced == proof.best.notPlaced && best > 0)
                gap.add(100 * (static_cast<double>(found.worth.value) - best) / best);
        }
        std::printf("%d people, %d printers, %d jobs, %.3g s: optimal %d of %d proved (of %d); mean gap %.3f %%  "
                    "(%lld plans timed for the proofs)\n",
                    crew, printers, jobs, std::min(1.0, o.seconds), optimal, proved, o.seeds, gap.value(), plans);
        std::fflush(stdout);
    }
}

void large(const Options& o, int crew) {
    Mean toFifo, toSame, values, judged, wrong;
    for (int seed = o.firstSeed; seed < o.firstSeed + o.seeds; ++seed) {
        CrewShopShape shape;
        shape.crew = crew;
        shape.seed = static_cast<std::uint64_t>(seed);
        const Problem problem = crewShop(shape);
        Evaluator exact(problem, *problem.changes);
        const Worth fifo = worth(exact.evaluate(firstInFirstOut(problem, *problem.changes)), o.goal);
        const Worth same = worth(exact.evaluate(sameSetupFirst(problem, *problem.changes)), o.goal);
        const SearchResult found = searched(problem, o.goal, o.seconds, o.cpuTime);
        std::printf("%d people, seed %d: plan %lld (%d not placed)  first in, first out %lld (%d)  same setup first "
                    "%lld (%d)  %lld moves, %lld judged\n",
                    crew, seed, static_cast<long long>(found.worth.value), found.worth.notPlaced,
                    static_cast<long long>(fifo.value), fifo.notPlaced, static_cast<long long>(same.value),
                    same.notPlaced, static_cast<long long>(found.iterations), static_cast<long long>(found.judged));
        std::fflush(stdout);
        const auto value = static_cast<double>(found.worth.value);
        values.add(value);
        toFifo.add(100 * value / static_cast<double>(fifo.value));
        toSame.add(100 * value / static_cast<double>(same.value));
        judged.add(static_cast<double>(found.judged));
        wrong.add(100.0 * static_cast<double>(found.misjudged) / static_cast<double>(std::max<std::int64_t>(1, found.judged)));
    }
    std::printf("%d people, 8 printers, 60 jobs, %.3g s: mean of plans %.0f; in %% of first in, first out %.2f, of same "
                "setup first %.2f; judged %.0f, of these misjudged before %.1f %%\n",
                crew, o.seconds, values.value(), toFifo.value(), toSame.value(), judged.value(), wrong.value());
    std::fflush(stdout);
}

template <class Work> double took(Work work) {
    const double begin = cpuSeconds();
    work();
    return cpuSeconds() - begin;
}

void speed(int printers, int jobs, int crew) {
    CrewShopShape shape;
    shape.printers = printers;
    shape.jobs = jobs;
    shape.crew = crew;
    const Problem problem = crewShop(shape);
    Orders orders;
    const double first = took([&] { orders = dispatch(problem, *problem.changes); });
    Evaluator exact(problem, *problem.changes);
    int notPlaced = exact.evaluate(orders).notPlaced;
    int times = 0;
    const double evaluations = took([&] {
        for (const double end = cpuSeconds() + 0.5; cpuSeconds() < end; ++times)
            exact.evaluate(orders);
    });
    Orders fifo;
    const double fifoTook = took([&] { fifo = firstInFirstOut(problem, *problem.changes); });
    const double sameTook = took([&] { sameSetupFirst(problem, *problem.changes); });
    std::printf("%d jobs, %d printers, %d people: first plan %.1f ms (%d not placed), timetable %.3f ms, first in, first "
                "out %.3f s (%d not placed), same setup first %.3f s\n",
                jobs, printers, crew, 1e3 * first, notPlaced, 1e3 * evaluations / times, fifoTook,
                exact.evaluate(fifo).notPlaced, sameTook);
    std::fflush(stdout);
}

/// Something that any processor does, to compare figures of two machines by.
double referenceLoop() {
    return took([] {
        Random random(1);
        std::uint64_t sum = 0;
        for (int k = 0; k < 100'000'000; ++k)
            sum += random.next();
        if (sum == 1)
            std::printf("\n");
    });
}

const std::map<std::string, Goal> goals{
    {"cost", Goal::Cost}, {"changeover", Goal::Changeover}, {"tardiness", Goal::Tardiness}, {"makespan", Goal::Makespan}};

} // namespace

int crewShops(int argc, char** argv) {
    Options o;
    CLI::App words{"Plans of generated shops in which people, shifts and nozzles bind."};
    words.add_option("--seconds", o.seconds, "for each plan of a large shop; a small one has one at the most")
        ->check(CLI::PositiveNumber);
    words.add_option("--seeds", o.seeds, "so many shops of each kind")->check(CLI::PositiveNumber);
    words.add_option("--first-seed", o.firstSeed, "seed of the first shop");
    words.add_option("--crew", o.crew, "so many people; left out: one, then two");
    words.add_option("--goal", o.goal, "what is planned for")->transform(CLI::CheckedTransformer(goals));
    words.add_option("--part", o.part, "this part alone")->check(CLI::IsMember({"small", "large", "speed"}));
    words.add_flag("--cpu-time", o.cpuTime, "seconds of the processor");
    int code = 0;
    if (!read(words, argc, argv, code))
        return code;
    std::vector<int> crews{1, 2};
    if (o.crew > 0)
        crews = {o.crew};
    for (const int crew : crews) {
        if (o.part.empty() || o.part == "small")
            small(o, crew);
        if (o.part.empty() || o.part == "large")
            large(o, crew);
    }
    if (o.part.empty() || o.part == "speed") {
        std::printf("reference loop %.3f s\n", referenceLoop());
        speed(8, 60, 2);
        speed(40, 500, 4);
        speed(40, 500, 12);
    }
    return 0;
}

} // namespace interlude::bench
