#pragma once
// Small random shops in standard forms, and their optima by trying every plan. For the tests of search and bounds.

#include "model/planning/random.h"
#include "tests/search/label_shop.h"

#include "model/planning/timetable/timetable.h"

#include <algorithm>
#include <functional>

namespace interlude::planning {

enum class Form { DueDates, Makespan, Changeovers, Releases, Costs, VariantsAndRunning };

/// Up to seven jobs on one printer, six on two, five on three.
inline Problem smallShop(Form form, std::uint64_t seed) {
    Random random(seed * 977 + static_cast<std::uint64_t>(form));
    const int printers = form == Form::Makespan || form == Form::Costs ? 2 + random.below(2)
                         : form == Form::VariantsAndRunning            ? 2
                                                                       : 1;
    const int jobs = printers == 1 ? 4 + random.below(4) : printers == 2 ? 3 + random.below(3) : 3 + random.below(2);
    const int labels = std::max(2, jobs - random.below(3));
    LabelChanges::Table table(static_cast<std::size_t>(printers));
    for (auto& square : table) {
        square.resize(static_cast<std::size_t>(labels + 1));
        for (int i = 0; i <= labels; ++i)
            for (int j = 0; j <= labels; ++j)
                square[static_cast<std::size_t>(i)].push_back(i == j ? 0 : 1 + random.below(60));
    }
    std::vector<std::vector<int>> labelOf;
    for (int j = 0; j < jobs; ++j) {
        labelOf.push_back({j % labels});
        if (form == Form::VariantsAndRunning && random.below(2) == 0)
            labelOf.back().push_back((j + 1) % labels);
    }
    Problem out = labelProblem(printers, labels, std::move(table), std::move(labelOf));
    for (JobNumbers& job : out.jobs) {
        for (VariantNumbers& v : job.variants)
            for (Minute& m : v.print)
                m = 10 + random.below(90);
        job.lateCostPerHour = 60 * (1 + random.below(9));
        job.holdingCostPerHour = 60 * random.below(3);
        if (form == Form::DueDates || form == Form::Releases || form == Form::Costs || random.below(2) == 0)
            job.due = 20 + random.below(80 * jobs / printers);
        if (form == Form::Releases || (form == Form::VariantsAndRunning && random.below(2) == 0))
            job.release = random.below(200);
    }
    if (form == Form::VariantsAndRunning) {
        PrinterNumbers& p = out.printers[0];
        p.partLies = true;
        p.runningJob = 0;
        p.runningVariant = 0;
        p.runningStart = -30;
        p.runningEnd = 25 + random.below(60);
        p.state = 0;
    }
    for (PrinterNumbers& p : out.printers)
        p.hourlyRate = 600 + 60 * random.below(10);
    return out;
}

/// Calls `visit` with every plan that places all jobs which do not run.
inline void everyPlan(const Problem& problem, const std::function<void(const Orders&)>& visit) {
    std::vector<int> jobs;
    for (int j = 0; j < static_cast<int>(problem.jobs.size()); ++j) {
        bool runs = false;
        for (const PrinterNumbers& p : problem.printers)
            runs = runs || (p.partLies && p.runningJob == j);
        if (!runs)
            jobs.push_back(j);
    }
    Orders orders;
    orders.printers.resize(problem.printers.size());
    orders.locked.assign(problem.jobs.size(), 0);
    // Each job in turn is put into every place between those before it: every plan comes up once.
    const std::function<void(std::size_t)> put = [&](std::size_t k) {
        if (k == jobs.size())
            return visit(orders);
        const JobNumbers& job = problem.jobs[static_cast<std::size_t>(jobs[k])];
        for (std::size_t p = 0; p < orders.printers.size(); ++p)
            for (int v = 0; v < static_cast<int>(job.variants.size()); ++v) {
                if (job.variants[static_cast<std::size_t>(v)].print[p] < 0)
                    continue;
                for (std::size_t i = 0; i <= orders.printers[p].size(); ++i) {
                    auto& list = orders.printers[p];
                    list.insert(list.begin() + static_cast<std::ptrdiff_t>(i), Place{jobs[k], v});
                    put(k + 1);
                    list.erase(list.begin() + static_cast<std::ptrdiff_t>(i));
                }
            }
    };
    put(0);
}

inline Worth optimum(const Problem& problem, Goal goal) {
    Evaluator exact(problem, *problem.changes);
    Worth best{1 << 30, 0};
    everyPlan(problem, [&](const Orders& orders) { best = std::min(best, worth(exact.evaluate(orders), goal)); });
    return best;
}

} // namespace interlude::planning
