#include "model/planning/plans/reservations.h"

#include "model/planning/plans/published.h"

#include "model/physics/feedstock.h"

#include <algorithm>
#include <cmath>

namespace interlude::planning {

namespace {

/// What is left of one material while reservations are made.
struct Holding {
    struct Piece {
        const Spool* spool = nullptr;
        Mass left;
    };
    QList<Piece> pieces; ///< those that may be used as they are first, then in the order of opening
    bool unknown = false;
};

/// What a running print still takes from the spool loaded there: as its variant says, less what spools replaced since gave. The
/// shop notes it when the print has ended.
Mass stillTaken(const Shop& shop, const PrinterNow& p, Role role, const Material& m) {
    const Job* job = shop.job(p.job);
    const Variant* v = job && p.activity == Activity::Printing ? job->variantNamed(p.variant) : nullptr;
    if (!v || !p.printStarted) return {};
    Mass need = massOf(role == Role::Part ? v->partVolume : v->supportVolume, m.densityGPerCm3);
    for (const Spool& s : shop.stock().spools)
        for (const StockEntry& e : s.entries)
            if (s.material == m.id && e.reference == p.job && e.at >= *p.printStarted) need = need + e.change;
    return std::max(need, Mass());
}

void takeRunning(const Shop& shop, const Material& m, QList<Holding::Piece>& pieces) {
    for (const PrinterNow& p : shop.printers())
        for (const Role role : {Role::Part, Role::Support})
            for (Holding::Piece& piece : pieces)
                if (piece.spool->id == at(p, role).spool)
                    piece.left = std::max(piece.left - stillTaken(shop, p, role, m), Mass());
}

Holding holdingOf(const Shop& shop, const Material& m, Instant now) {
    Holding h;
    for (const Spool& s : shop.stock().spools) {
        if (s.material != m.id || s.where == SpoolWhere::Retired) continue;
        if (!s.left) h.unknown = true;
        else h.pieces.append({&s, *s.left});
    }
    takeRunning(shop, m, h.pieces);
    const auto rank = [&](const Holding::Piece& p) {
        const DryState dry = dryState(*p.spool, m, now);
        return std::tuple(dry == DryState::Overdue || dry == DryState::Unknown,
                          p.spool->opened ? toMs(*p.spool->opened) : std::numeric_limits<qint64>::max(), p.spool->order);
    };
    std::sort(h.pieces.begin(), h.pieces.end(),
              [&](const Holding::Piece& a, const Holding::Piece& b) { return rank(a) < rank(b); });
    return h;
}

QString gramsText(Mass m) {
    return QStringLiteral("%1 g").arg(std::ceil(m.grams()), 0, 'f', 0);
}

/// What may be used together where one lot is wanted: spools of one lot; a spool without a lot's name only by itself.
QString batchOf(const Spool& s) { return s.lot.isEmpty() ? QStringLiteral("spool ") + s.id : QStringLiteral("lot ") + s.lot; }

/// The batch for a job that wants one lot: the first in the order of use that has enough, else the one that has most.
QString batchFor(const Holding& h, Mass need) {
    QHash<QString, Mass> sums;
    for (const Holding::Piece& p : h.pieces) sums[batchOf(*p.spool)] = sums[batchOf(*p.spool)] + p.left;
    QString most;
    for (const Holding::Piece& p : h.pieces) {
        const QString batch = batchOf(*p.spool);
        if (sums[batch] >= need) return batch;
        if (most.isEmpty() || sums[batch] > sums[most]) most = batch;
    }
    return most;
}

/// Takes so much from the pieces in their order, where `sameLot` from one batch only, and tells of each share; returns what is
/// missing.
template <typename Each>
Mass takeFrom(Holding& h, Mass need, bool sameLot, Each&& each) {
    const QString batch = sameLot ? batchFor(h, need) : QString();
    for (Holding::Piece& p : h.pieces) {
        if (need <= Mass()) break;
        if (sameLot && batchOf(*p.spool) != batch) continue;
        const Mass taken = std::min(need, p.left);
        if (taken <= Mass()) continue;
        each(*p.spool, taken);
        p.left = p.left - taken;
        need = need - taken;
    }
    return need;
}

Mass sumOf(const Holding& h) {
    Mass sum;
    for (const Holding::Piece& p : h.pieces) sum = sum + p.left;
    return sum;
}

Reservation reserve(Holding& h, const Material& m, const Job& job, Mass need, Instant now) {
    Reservation r{job.id, m.id, need, false, false, false, {}};
    const bool enoughInAll = sumOf(h) >= need;
    Mass wet;
    const Mass open = takeFrom(h, need, job.sameLot, [&](const Spool& spool, Mass taken) {
        const DryState dry = dryState(spool, m, now);
        if (dry == DryState::Overdue || dry == DryState::Unknown) wet = wet + taken;
    });
    r.unknown = open > Mass() && h.unknown;
    r.isShort = open > Mass() && !h.unknown;
    r.dryFirst = wet > Mass();
    QStringList why;
    if (r.isShort && enoughInAll)
        why.append(QStringLiteral("no lot of %1 has the %2 that are needed of one lot: %3 missing").arg(m.id, gramsText(need), gramsText(open)));
    else if (r.isShort)
        why.append(QStringLiteral("%1 of %2 missing: %3 needed").arg(gramsText(open), m.id, gramsText(need)));
    if (r.unknown)
        why.append(QStringLiteral("%1 of %2 needed; a spool of unknown weight may hold it: weigh it").arg(gramsText(need), m.id));
    if (r.dryFirst) why.append(QStringLiteral("%1 of %2 must be dried first").arg(gramsText(wet), m.id));
    r.reason = why.join(QStringLiteral("; "));
    return r;
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
    QHash<MaterialId, Holding> holdings;
    QList<Reservation> out;
    for (const TimedJob* j : jobs) {
        const Job& job = problem.jobs[j->job];
        const Variant& v = job.variants[j->variant];
        const auto take = [&](const MaterialId& id, Volume volume, int position) {
            const Material* m = shop.catalogue().material(id);
            if (!m) return;
            if (!holdings.contains(id)) holdings.insert(id, holdingOf(shop, *m, problem.now));
            if (j->change) volume += Volume::fromMm3(j->change->purge[static_cast<std::size_t>(position)]);
            const Mass need = massOf(volume, m->densityGPerCm3);
            out.append(reserve(holdings[id], *m, job, need, problem.now));
        };
        take(v.setup.part, v.partVolume, PartPosition);
        take(v.setup.support, v.supportVolume, SupportPosition);
    }
    return out;
}

QHash<SpoolId, QList<SpoolShare>> spoolsReserved(const Shop& shop, Instant now) {
    QHash<SpoolId, QList<SpoolShare>> out;
    if (!shop.plan()) return out;
    QHash<MaterialId, Holding> holdings;
    for (const ReservedFeedstock& r : shop.plan()->plan.reserved) {
        const Material* m = shop.catalogue().material(r.material);
        const Job* job = shop.job(r.job);
        if (!m || !job || !stillWaits(shop, r.job)) continue;
        if (!holdings.contains(r.material)) holdings.insert(r.material, holdingOf(shop, *m, now));
        takeFrom(holdings[r.material], r.need, job->sameLot, [&](const Spool& spool, Mass taken) { out[spool.id].append({r.job, taken}); });
    }
    return out;
}

} // namespace interlude::planning
