#include "model/planning/free_jobs.h"

#include <algorithm>
#include <cassert>

namespace interlude::planning {

namespace {

bool fits(const JobNumbers& job, std::size_t printers) {
    for (const VariantNumbers& v : job.variants)
        for (std::size_t p = 0; p < printers && p < v.print.size(); ++p)
            if (v.print[p] >= 0)
                return true;
    return false;
}

void mark(std::vector<char>& seen, int job) {
    assert(job >= 0 && job < static_cast<int>(seen.size()) && !seen[static_cast<std::size_t>(job)]);
    seen[static_cast<std::size_t>(job)] = 1;
}

bool isLocked(const Orders& orders, int job) {
    return static_cast<std::size_t>(job) < orders.locked.size() && orders.locked[static_cast<std::size_t>(job)] != 0;
}

} // namespace

std::vector<char> runningJobs(const Problem& problem) {
    std::vector<char> out(problem.jobs.size(), 0);
    for (const PrinterNumbers& p : problem.printers) {
        if (p.partLies && p.runningJob >= 0)
            out[static_cast<std::size_t>(p.runningJob)] = 1;
        if (p.session && p.sessionJob >= 0)
            out[static_cast<std::size_t>(p.sessionJob)] = 1;
    }
    return out;
}

FreeJobs freeJobs(const Problem& problem, const Orders* draft) {
    FreeJobs out;
    out.fixed.printers.resize(problem.printers.size());
    out.fixed.locked.assign(problem.jobs.size(), 0);
    std::vector<char> seen = runningJobs(problem);
    if (draft) {
        assert(draft->printers.size() == problem.printers.size());
        std::copy_n(draft->locked.begin(), std::min(draft->locked.size(), problem.jobs.size()),
                    out.fixed.locked.begin());
        for (std::size_t p = 0; p < draft->printers.size(); ++p) {
            auto list = draft->printers[p];
            while (!list.empty() && !isLocked(*draft, list.back().job))
                list.pop_back();
            for (const Place& place : list)
                mark(seen, place.job);
            out.fixed.printers[p] = std::move(list);
        }
        for (const int job : draft->leftOut) {
            if (!isLocked(*draft, job))
                continue;
            mark(seen, job);
            out.fixed.leftOut.push_back(job);
        }
    }
    for (int j = 0; j < static_cast<int>(problem.jobs.size()); ++j) {
        if (seen[static_cast<std::size_t>(j)])
            continue;
        const bool any = fits(problem.jobs[static_cast<std::size_t>(j)], problem.printers.size());
        (any ? out.jobs : out.hopeless).push_back(j);
    }
    return out;
}

Orders completed(const Problem& problem, Orders orders) {
    std::vector<char> seen = runningJobs(problem);
    for (const auto& list : orders.printers)
        for (const Place& place : list)
            mark(seen, place.job);
    std::vector<int> out;
    for (const int job : orders.leftOut) {
        if (!isLocked(orders, job))
            continue;
        mark(seen, job);
        out.push_back(job);
    }
    orders.leftOut = std::move(out);
    orders.locked.resize(problem.jobs.size(), 0);
    for (int j = 0; j < static_cast<int>(problem.jobs.size()); ++j) {
        if (seen[static_cast<std::size_t>(j)])
            continue;
        const JobNumbers& job = problem.jobs[static_cast<std::size_t>(j)];
        std::size_t printer = 0;
        int variant = 0;
        for (std::size_t p = problem.printers.size(); p-- > 0;)
            for (std::size_t v = job.variants.size(); v-- > 0;)
                if (job.variants[v].print[p] >= 0) {
                    printer = p;
                    variant = static_cast<int>(v);
                }
        if (problem.printers.empty() || job.variants.empty())
            orders.leftOut.push_back(j);
        else
            orders.printers[printer].push_back({j, variant});
    }
    std::sort(orders.leftOut.begin(), orders.leftOut.end());
    return orders;
}

} // namespace interlude::planning
