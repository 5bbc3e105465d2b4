#include "model/planning/bounds.h"

#include "model/planning/assignment.h"
#include "model/planning/least_work.h"

#include <algorithm>
#include <cmath>

namespace interlude::planning {

namespace {

constexpr int largestAssignment = 700;
constexpr Minute noArc = 1'000'000'000'000;

/// Every job has one predecessor, a job or the beginning of a printer; every job and beginning has one successor at
/// most. The cheapest way to do that, without minding that no job may come before itself; on what it leaves, the
/// cheapest way to reach all jobs from the beginnings.
std::optional<Minute> cheapestOrder(const LeastWorks& works, bool withPrint) {
    const int n = static_cast<int>(works.jobs().size()), printers = works.printers();
    if (n == 0)
        return 0;
    if (n + printers > largestAssignment)
        return std::nullopt;
    const std::vector<Minute> arcs = works.arcs(withPrint);
    CostTable table;
    table.size = n + printers; // the last columns say that nothing follows
    table.cost.assign(static_cast<std::size_t>(table.size) * static_cast<std::size_t>(table.size), 0);
    const auto at = [&](int i, int j) {
        return static_cast<std::size_t>(i) * static_cast<std::size_t>(table.size) + static_cast<std::size_t>(j);
    };
    for (int i = 0; i < table.size; ++i)
        for (int j = 0; j < n; ++j) {
            const Minute m =
                arcs[static_cast<std::size_t>(i) * static_cast<std::size_t>(n) + static_cast<std::size_t>(j)];
            table.cost[at(i, j)] = m < 0 || i == j ? noArc : m;
        }
    const Assignment best = assigned(table);
    if (best.cost >= noArc)
        return std::nullopt;
    // All beginnings are one root of the arborescence.
    CostTable left;
    left.size = n + 1;
    left.cost.assign(static_cast<std::size_t>(n + 1) * static_cast<std::size_t>(n + 1), noArc);
    for (int i = 0; i < table.size; ++i)
        for (int j = 0; j < n; ++j) {
            const std::int64_t reduced =
                table.cost[at(i, j)] - best.row[static_cast<std::size_t>(i)] - best.column[static_cast<std::size_t>(j)];
            auto& c = left.cost[static_cast<std::size_t>(std::min(i, n)) * static_cast<std::size_t>(n + 1) +
                                static_cast<std::size_t>(j)];
            if (table.cost[at(i, j)] < noArc)
                c = std::min(c, reduced);
        }
    const std::int64_t more = arborescenceCost(left, n, noArc);
    return more < 0 ? std::nullopt : std::optional(best.cost + more);
}

/// No job is complete before its own work on the printer where that goes fastest.
Minute soonest(const LeastWorks& works, int index) {
    Minute out = never;
    works.each(index, [&](int p, const LeastWork& w) {
        const Minute start = std::max(works.begin(p).ready + w.changeover, works.job(index).release.value_or(0));
        out = std::min(out, start + w.print + w.removal);
    });
    return out;
}

/// The makespan is no less than any mean of the loads; for given shares of the printers every job goes where it weighs
/// least.
double shared(const LeastWorks& works, const std::vector<double>& share, std::vector<double>& load) {
    double sum = 0;
    for (int p = 0; p < works.printers(); ++p) {
        load[static_cast<std::size_t>(p)] = works.reachable(p) && works.counts(p) ? static_cast<double>(works.begin(p).ready) : 0;
        sum += share[static_cast<std::size_t>(p)] * load[static_cast<std::size_t>(p)];
    }
    for (int j = 0; j < static_cast<int>(works.jobs().size()); ++j) {
        double least = 1e300, minutes = 0;
        int chosen = -1;
        works.each(j, [&](int p, const LeastWork& w) {
            const double weighs = share[static_cast<std::size_t>(p)] * static_cast<double>(w.all());
            if (weighs < least) {
                least = weighs;
                minutes = static_cast<double>(w.all());
                chosen = p;
            }
        });
        if (chosen < 0)
            continue;
        sum += least;
        load[static_cast<std::size_t>(chosen)] += minutes;
    }
    return sum;
}

/// The best shares, by giving more to printers with more load.
Minute bestShared(const LeastWorks& works) {
    const auto printers = static_cast<std::size_t>(works.printers());
    std::vector<double> share(printers, 1.0 / static_cast<double>(printers)), load(printers, 0);
    double best = 0;
    for (int round = 1; round <= 300; ++round) {
        best = std::max(best, shared(works, share, load));
        const double most = std::max(1.0, *std::max_element(load.begin(), load.end()));
        double sum = 0;
        for (std::size_t p = 0; p < printers; ++p)
            sum += share[p] *= std::exp(load[p] / most / std::sqrt(static_cast<double>(round)));
        for (double& s : share)
            s /= sum;
    }
    return static_cast<Minute>(std::ceil(best * (1 - 1e-12) - 1e-6));
}

Minute makespanBound(const LeastWorks& works) {
    Minute out = bestShared(works);
    for (int p = 0; p < works.printers(); ++p)
        if (works.reachable(p) && works.counts(p))
            out = std::max(out, works.begin(p).ready);
    for (int j = 0; j < static_cast<int>(works.jobs().size()); ++j)
        if (const Minute m = soonest(works, j); m < never)
            out = std::max(out, m);
    if (works.printers() == 1 && works.reachable(0) && works.pairwise() && !works.jobs().empty())
        if (const auto order = cheapestOrder(works, true))
            out = std::max(out, works.begin(0).ready + *order);
    return out;
}

/// When so much work can be done at the earliest by all printers together.
Minute doneBy(const std::vector<Minute>& ready, Minute work) {
    // `ready` ascends: with the first k printers at work.
    Minute best = never, sum = 0;
    for (std::size_t k = 0; k < ready.size(); ++k) {
        sum += ready[k];
        const auto count = static_cast<Minute>(k + 1);
        best = std::min(best, std::max(ready[k], (work + sum + count - 1) / count));
    }
    return best;
}

/// The k-th completion of placed jobs, at the earliest.
std::vector<Minute> earliestCompletions(const LeastWorks& works) {
    std::vector<Minute> least, ready, out;
    for (int p = 0; p < works.printers(); ++p)
        if (works.reachable(p))
            ready.push_back(works.begin(p).ready);
    std::sort(ready.begin(), ready.end());
    for (int j = 0; j < static_cast<int>(works.jobs().size()); ++j) {
        Minute m = never;
        works.each(j, [&](int, const LeastWork& w) { m = std::min(m, w.all()); });
        least.push_back(m < never ? m : 0);
    }
    std::sort(least.begin(), least.end());
    Minute sum = 0;
    for (const Minute m : least) {
        sum += m;
        out.push_back(ready.empty() ? 0 : doneBy(ready, sum));
    }
    return out;
}

/// What a job adds to the goal if it is complete then.
std::int64_t costAt(Goal goal, const JobNumbers& job, Minute complete) {
    if (goal == Goal::Cost)
        return lateCost(job, complete) + holdingCost(job, complete);
    return job.due ? job.lateCostPerHour * std::max<Minute>(0, complete - *job.due) : 0;
}

std::int64_t completionsCost(const LeastWorks& works, Goal goal) {
    const int n = static_cast<int>(works.jobs().size());
    std::int64_t alone = 0;
    std::vector<Minute> own;
    for (int j = 0; j < n; ++j) {
        own.push_back(soonest(works, j));
        if (own.back() < never)
            alone += costAt(goal, works.job(j), own.back());
    }
    if (n > largestAssignment)
        return alone;
    const std::vector<Minute> completion = earliestCompletions(works);
    CostTable table;
    table.size = n;
    for (int j = 0; j < n; ++j)
        for (const Minute t : completion) {
            const Minute o = own[static_cast<std::size_t>(j)];
            table.cost.push_back(o < never ? costAt(goal, works.job(j), std::max(t, o)) : 0);
        }
    return std::max(alone, n > 0 ? assigned(table).cost : 0);
}

/// What printing and changing over cost at least, where everything else is free.
Cents workCost(const LeastWorks& works) {
    Cents out = 0;
    for (int j = 0; j < static_cast<int>(works.jobs().size()); ++j) {
        std::optional<Cents> least;
        works.each(j, [&](int p, const LeastWork& w) {
            const Cents c = w.material + perHour(works.problem().printers[static_cast<std::size_t>(p)].hourlyRate,
                                                 w.print + w.changeover);
            least = least ? std::min(*least, c) : c;
        });
        out += least.value_or(0);
    }
    return out;
}

/// What runs already, at the earliest.
std::int64_t runningCost(const LeastWorks& works, Goal goal) {
    std::int64_t out = 0;
    for (int p = 0; p < works.printers(); ++p) {
        const PrinterNumbers& printer = works.problem().printers[static_cast<std::size_t>(p)];
        const LineState& begin = works.begin(p);
        Minute session = 0;
        for (const Work& w : printer.sessionWork)
            if (w.kind == Kind::HandsOn || w.kind == Kind::Waiting)
                session += w.minutes;
        if (goal == Goal::Changeover) {
            out += printer.session && works.counts(p) ? session : 0;
            continue;
        }
        const int job = printer.session ? printer.sessionJob : printer.partLies ? printer.runningJob : -1;
        if (job < 0 || !works.reachable(p) || !works.counts(p))
            continue;
        out += costAt(goal, works.problem().jobs[static_cast<std::size_t>(job)], begin.ready);
        if (goal != Goal::Cost)
            continue;
        out += printer.session ? perHour(printer.hourlyRate, begin.printEnd - begin.printStart + session)
                               : perHour(printer.hourlyRate, printer.runningEnd - printer.runningStart);
    }
    return out;
}

} // namespace

std::optional<std::int64_t> lowerBound(const Problem& problem, Changes& changes, Goal goal,
                                       const std::vector<char>& placed) {
    if (problem.printers.empty())
        return 0;
    const LeastWorks works(problem, changes, placed);
    if (!works.known())
        return std::nullopt;
    switch (goal) {
    case Goal::Changeover: {
        const auto order = works.pairwise() ? cheapestOrder(works, false) : std::nullopt;
        return order ? std::optional(*order + runningCost(works, goal)) : std::nullopt;
    }
    case Goal::Makespan:
        return makespanBound(works);
    case Goal::Tardiness:
        return completionsCost(works, goal) + runningCost(works, goal);
    case Goal::Cost:
        return completionsCost(works, goal) + workCost(works) + runningCost(works, goal);
    }
    return std::nullopt;
}

std::optional<std::int64_t> lowerBound(const Problem& problem, Changes& changes, Goal goal,
                                       const Timetable& timetable) {
    std::vector<char> placed(problem.jobs.size(), 0);
    for (const auto& list : timetable.printers)
        for (const TimedJob& j : list)
            if (j.job >= 0 && j.complete < never)
                placed[static_cast<std::size_t>(j.job)] = 1;
    return lowerBound(problem, changes, goal, placed);
}

} // namespace interlude::planning
