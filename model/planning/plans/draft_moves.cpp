#include "model/planning/plans/draft_moves.h"

#include <algorithm>

namespace interlude::planning {

namespace {

QString idOf(const ShopProblem& p, int job) {
    return p.jobs[job].id;
}

bool isLocked(const Orders& o, int job) {
    return o.locked[static_cast<std::size_t>(job)] != 0;
}

std::optional<Place> placeOf(const Orders& o, int job) {
    for (const auto& list : o.printers)
        for (const Place& p : list)
            if (p.job == job) return p;
    return {};
}

void leaveOut(Orders& o, int job) {
    const auto at = std::lower_bound(o.leftOut.begin(), o.leftOut.end(), job);
    if (at == o.leftOut.end() || *at != job) o.leftOut.insert(at, job);
}

/// The variant that it has, else the first that this printer can take.
Outcome<int> variantFor(const ShopProblem& problem, const Orders& orders, int job, const Drop& drop) {
    const auto& variants = problem.problem.jobs[static_cast<std::size_t>(job)].variants;
    const auto printer = static_cast<std::size_t>(drop.printer);
    const auto fits = [&](int v) { return variants[static_cast<std::size_t>(v)].print[printer] >= 0; };
    if (drop.variant && fits(*drop.variant)) return *drop.variant;
    if (const auto now = placeOf(orders, job); !drop.variant && now && fits(now->variant)) return now->variant;
    for (int v = 0; !drop.variant && v < static_cast<int>(variants.size()); ++v)
        if (fits(v)) return v;
    const int asked = drop.variant.value_or(0);
    const QString why = variants.empty() ? QStringLiteral("it has no variant")
                                         : QString::fromStdString(variants[static_cast<std::size_t>(asked)].whyNot[printer]);
    return refusal(QStringLiteral("does-not-fit"), QStringLiteral("Job %1 cannot go there: %2").arg(idOf(problem, job), why),
                   QStringLiteral("drop it on another printer"), idOf(problem, job));
}

/// The first locked job whose place is another one than before.
std::optional<int> pushedAside(const Orders& before, const Orders& after) {
    for (std::size_t p = 0; p < before.printers.size(); ++p)
        for (std::size_t i = 0; i < before.printers[p].size(); ++i) {
            const int job = before.printers[p][i].job;
            const bool stays = i < after.printers[p].size() && after.printers[p][i].job == job;
            if (isLocked(before, job) && !stays) return job;
        }
    return {};
}

} // namespace

Outcome<Orders> moveJobs(const ShopProblem& problem, const Orders& orders, const std::vector<int>& jobs, const Drop& drop) {
    Orders out = orders;
    std::vector<Place> moved;
    for (const int job : jobs) {
        if (isLocked(orders, job))
            return refusal(QStringLiteral("locked"), QStringLiteral("Job %1 is locked").arg(idOf(problem, job)),
                           QStringLiteral("unlock it first"), idOf(problem, job));
        if (drop.printer < 0) continue;
        const Outcome<int> variant = variantFor(problem, orders, job, drop);
        if (!variant) return tl::unexpected<Finding>(variant.error());
        moved.push_back({job, *variant});
    }
    std::size_t at = drop.at;
    const auto isMoved = [&](int job) { return std::find(jobs.begin(), jobs.end(), job) != jobs.end(); };
    for (std::size_t p = 0; p < out.printers.size(); ++p) {
        auto& list = out.printers[p];
        if (static_cast<int>(p) == drop.printer) {
            at = std::min(at, list.size());
            at -= static_cast<std::size_t>(std::count_if(list.begin(), list.begin() + static_cast<std::ptrdiff_t>(at),
                                                         [&](const Place& x) { return isMoved(x.job); }));
        }
        std::erase_if(list, [&](const Place& x) { return isMoved(x.job); });
    }
    std::erase_if(out.leftOut, isMoved);
    if (drop.printer >= 0) {
        auto& list = out.printers[static_cast<std::size_t>(drop.printer)];
        list.insert(list.begin() + static_cast<std::ptrdiff_t>(at), moved.begin(), moved.end());
    } else {
        for (const int job : jobs) leaveOut(out, job);
    }
    if (const auto pushed = pushedAside(orders, out))
        return refusal(QStringLiteral("locked"),
                       QStringLiteral("This would push job %1 from its place, and it is locked").arg(idOf(problem, *pushed)),
                       QStringLiteral("drop it behind the locked job, or unlock that"), idOf(problem, *pushed));
    return out;
}

Outcome<Orders> changeVariant(const ShopProblem& problem, const Orders& orders, int job, int variant) {
    Orders out = orders;
    for (std::size_t p = 0; p < out.printers.size(); ++p)
        for (Place& place : out.printers[p]) {
            if (place.job != job) continue;
            const auto fitting = variantFor(problem, orders, job, {static_cast<int>(p), 0, variant});
            if (!fitting) return tl::unexpected<Finding>(fitting.error());
            place.variant = *fitting;
            return out;
        }
    return refusal(QStringLiteral("not-placed"), QStringLiteral("Job %1 is on no printer").arg(idOf(problem, job)),
                   QStringLiteral("drop it on a printer first"), idOf(problem, job));
}

Orders setLocked(const Orders& orders, const std::vector<int>& jobs, bool locked) {
    Orders out = orders;
    for (const int job : jobs) out.locked[static_cast<std::size_t>(job)] = locked ? 1 : 0;
    return out;
}

} // namespace interlude::planning
