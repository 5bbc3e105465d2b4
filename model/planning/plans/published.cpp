#include "model/planning/plans/published.h"

#include "model/clock/length.h"
#include "model/planning/plans/plan_report.h"

#include <algorithm>

namespace interlude::planning {

Orders publishedOrders(const Shop& shop, const ShopProblem& problem) {
    Orders out = problem.noOrders();
    if (!shop.plan()) return out;
    for (const PrinterOrder& order : shop.plan()->plan.printers) {
        const auto printer = problem.printerNumbers.constFind(order.printer);
        if (printer == problem.printerNumbers.cend()) continue;
        for (const PlannedJob& planned : order.jobs) {
            const int job = problem.jobNumbers.value(planned.job, -1);
            // Begun, done or withdrawn meanwhile: no longer to be planned.
            const auto waiting = std::find(out.leftOut.begin(), out.leftOut.end(), job);
            if (waiting == out.leftOut.end()) continue;
            const int variant = problem.jobs[job].variantNumber(planned.variant);
            if (variant < 0) continue;
            out.leftOut.erase(waiting);
            out.printers[static_cast<std::size_t>(*printer)].push_back({job, variant});
            out.locked[static_cast<std::size_t>(job)] = planned.locked ? 1 : 0;
        }
    }
    return out;
}

Plan planOf(const ShopProblem& problem, const Orders& orders, const Timetable& timetable, Goal goal,
            const QList<Reservation>& reservations) {
    Plan plan;
    plan.goal = word(goal);
    for (std::size_t p = 0; p < timetable.printers.size(); ++p) {
        PrinterOrder order;
        order.printer = QString::fromStdString(problem.problem.printers[p].id);
        for (const TimedJob& j : timetable.printers[p]) {
            if (j.running || j.session || j.job < 0) continue;
            PlannedJob planned;
            planned.job = problem.jobs[j.job].id;
            planned.variant = problem.jobs[j.job].variants[j.variant].name;
            planned.locked = orders.locked[static_cast<std::size_t>(j.job)] != 0;
            Minute first = j.printStart;
            for (const TimedWork& w : j.work)
                if (w.work->kind == Kind::HandsOn || w.work->kind == Kind::Waiting) first = std::min(first, w.start);
            planned.changeover = problem.at(first);
            planned.printStart = problem.at(j.printStart);
            planned.printEnd = problem.at(j.printEnd);
            order.jobs.append(planned);
        }
        plan.printers.append(order);
    }
    for (const Reservation& r : reservations) plan.reserved.append({r.job, r.material, r.need});
    return plan;
}

bool stillWaits(const Shop& shop, const JobId& id) {
    const Job* job = shop.job(id);
    if (!job || (job->state != JobState::Open && job->state != JobState::Failed)) return false;
    for (const SessionState& s : shop.sessions())
        if (s.isOpen() && s.changeover.transition.request.job == id) return false;
    return true;
}

std::optional<PlannedJob> nextPlanned(const Shop& shop, const PrinterId& printer) {
    if (!shop.plan()) return {};
    for (const PrinterOrder& order : shop.plan()->plan.printers)
        for (const PlannedJob& planned : order.jobs)
            if (order.printer == printer && stillWaits(shop, planned.job)) return planned;
    return {};
}

namespace {

Minutes lateBy(Instant foreseen, Instant came) {
    return std::chrono::floor<Minutes>(came - foreseen);
}

/// Less than this is not worth a word.
constexpr Minutes tolerance{5};

std::optional<Departure> departureOf(const Shop& shop, const PrinterId& printer, const PlannedJob& planned, Instant now) {
    const Job* job = shop.job(planned.job);
    if (!job) return {};
    Departure d{printer, planned.job, Departure::What::StartsLate, Minutes(0), {}};
    if (job->state == JobState::Failed) {
        d.what = Departure::What::Failed;
        d.reason = QStringLiteral("its print failed; it waits again");
        return d;
    }
    for (const PrinterNow& p : shop.printers()) {
        if (p.job != planned.job || p.activity != Activity::Printing || !p.printStarted) continue;
        d.by = lateBy(planned.printStart, *p.printStarted);
        if (p.id != printer) {
            d.what = Departure::What::StartedElsewhere;
            d.reason = QStringLiteral("prints on %1, planned on %2")
                           .arg(shop.catalogue().printerName(p.id), shop.catalogue().printerName(printer));
            return d;
        }
        if (d.by < tolerance) return {};
        d.what = Departure::What::StartedLate;
        d.reason = QStringLiteral("began %1 later than planned").arg(lengthText(d.by));
        return d;
    }
    if (job->state != JobState::Open) return {};
    d.by = lateBy(planned.printStart, now);
    if (d.by >= tolerance) {
        d.what = Departure::What::NotStarted;
        d.reason = QStringLiteral("should have begun to print %1 ago").arg(lengthText(d.by));
        return d;
    }
    const Minutes work = lateBy(planned.changeover, now);
    const SessionState* session = shop.openSession(printer);
    const JobId begun = session ? session->changeover.transition.request.job : JobId();
    if (work < tolerance || (session && (begun.isEmpty() || begun == planned.job))) return {};
    d.by = work;
    d.reason = QStringLiteral("its changeover should have begun %1 ago").arg(lengthText(work));
    return d;
}

} // namespace

QList<Departure> departures(const Shop& shop, Instant now) {
    QList<Departure> out;
    if (!shop.plan()) return out;
    for (const PrinterOrder& order : shop.plan()->plan.printers)
        for (const PlannedJob& planned : order.jobs)
            if (const auto d = departureOf(shop, order.printer, planned, now)) out.append(*d);
    return out;
}

} // namespace interlude::planning
