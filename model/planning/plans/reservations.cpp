#include "model/planning/plans/reservations.h"

#include "model/planning/plans/published.h"
#include "model/planning/plans/spool_book.h"

#include "model/physics/feedstock.h"

#include <algorithm>
#include <cmath>

namespace interlude::planning {

namespace {

QString gramsText(Mass m) {
    return QStringLiteral("%1 g").arg(std::ceil(m.grams()), 0, 'f', 0);
}

Reservation reserve(SpoolBook& book, const SpoolClaim& claim) {
    const SpoolsTaken taken = book.take(claim);
    const MaterialId& m = claim.material->id;
    Reservation r{claim.job->id, m, claim.need, taken.missing > Mass() && !taken.unknown, taken.wet > Mass(), taken.unknown, {}};
    QStringList why;
    if (r.isShort && taken.torn)
        why.append(QStringLiteral("no lot of %1 has the %2 that are needed of one lot: %3 missing")
                       .arg(m, gramsText(claim.need), gramsText(taken.missing)));
    else if (r.isShort)
        why.append(QStringLiteral("%1 of %2 missing: %3 needed").arg(gramsText(taken.missing), m, gramsText(claim.need)));
    if (r.unknown)
        why.append(QStringLiteral("%1 of %2 needed; a spool of unknown weight may hold it: weigh it").arg(gramsText(claim.need), m));
    if (r.dryFirst) why.append(QStringLiteral("%1 of %2 must be dried first").arg(gramsText(taken.wet), m));
    why += taken.elsewhere;
    r.reason = why.join(QStringLiteral("; "));
    return r;
}

/// When the work on the printer begins that ends in this print.
Minute beginOf(const TimedJob& j) {
    Minute first = j.printStart;
    for (const TimedWork& w : j.work)
        if (w.work->kind == Kind::HandsOn || w.work->kind == Kind::Waiting) first = std::min(first, w.start);
    return first;
}

/// What open sessions take: they come before everything that is planned.
void takeForSessions(const Shop& shop, SpoolBook& book, Instant now) {
    for (const SessionState& s : shop.sessions()) {
        const Transition& t = s.changeover.transition;
        const Job* job = s.isOpen() ? shop.job(t.request.job) : nullptr;
        for (const SpoolChange& c : t.spools) {
            const Spool* spool = shop.spool(c.in);
            const Material* m = spool ? shop.catalogue().material(spool->material) : nullptr;
            if (job && m) book.take({job, m, s.printer, c.role, c.need, now, now + s.changeover.internal + t.request.print});
        }
    }
}

/// Printer and hours of a job as published (later by as much as it is late); without them where the plan does not say.
SpoolClaim claimOf(const Plan& plan, const Job& job, const Material& m, Mass need, Instant now) {
    SpoolClaim claim{&job, &m, {}, m.role, need, now, now};
    for (const PrinterOrder& order : plan.printers)
        for (const PlannedJob& p : order.jobs)
            if (p.job == job.id) {
                claim.printer = order.printer;
                claim.from = std::max(p.changeover, now);
                claim.to = p.printEnd + (claim.from - p.changeover);
            }
    return claim;
}

} // namespace

QList<Reservation> reservationsOf(const Shop& shop, const ShopProblem& problem, const Timetable& timetable) {
    std::vector<const TimedJob*> jobs;
    for (const auto& list : timetable.printers)
        for (const TimedJob& j : list)
            if (!j.running && j.job >= 0) jobs.push_back(&j);
    std::sort(jobs.begin(), jobs.end(), [](const TimedJob* a, const TimedJob* b) {
        return std::tuple(a->printStart, a->printer) < std::tuple(b->printStart, b->printer);
    });
    SpoolBook book(shop, problem.now);
    QList<Reservation> out;
    for (const TimedJob* j : jobs) {
        const Job& job = problem.jobs[j->job];
        const Variant& v = job.variants[j->variant];
        const PrinterId printer = QString::fromStdString(problem.problem.printers[static_cast<std::size_t>(j->printer)].id);
        const auto take = [&](const MaterialId& id, Volume volume, Role role) {
            const Material* m = shop.catalogue().material(id);
            if (!m) return;
            if (j->change) volume += Volume::fromMm3(j->change->purge[role == Role::Part ? PartPosition : SupportPosition]);
            const Mass need = massOf(volume, m->densityGPerCm3);
            out.append(reserve(book, {&job, m, printer, role, need, problem.at(beginOf(*j)), problem.at(j->printEnd)}));
        };
        take(v.setup.part, v.partVolume, Role::Part);
        take(v.setup.support, v.supportVolume, Role::Support);
    }
    return out;
}

QList<SpoolKept> spoolsKept(const Shop& shop, Instant now) {
    QList<SpoolKept> out;
    if (!shop.plan()) return out;
    SpoolBook book(shop, now);
    takeForSessions(shop, book, now);
    const Plan& plan = shop.plan()->plan;
    for (const ReservedFeedstock& r : plan.reserved) {
        const Material* m = shop.catalogue().material(r.material);
        const Job* job = shop.job(r.job);
        if (!m || !job || !stillWaits(shop, r.job)) continue;
        for (const SpoolsTaken::Share& s : book.take(claimOf(plan, *job, *m, r.need, now)).shares)
            out.append({r.job, r.material, s.spool, s.mass});
    }
    return out;
}

QHash<SpoolId, QList<SpoolShare>> spoolsReserved(const Shop& shop, Instant now) {
    QHash<SpoolId, QList<SpoolShare>> out;
    for (const SpoolKept& k : spoolsKept(shop, now)) out[k.spool].append({k.job, k.mass});
    return out;
}

} // namespace interlude::planning
