#include "views/stock/spool_rows.h"

#include "views/look/look.h"
#include "views/words/words.h"

#include "model/planning/plans/reservations.h"
#include "model/shop/objections/asking.h"
#include "model/stock/expiry.h"

#include <QCoreApplication>

namespace interlude {

namespace {

struct Said {
    Q_DECLARE_TR_FUNCTIONS(SpoolRows)
};

/// Most urgent first.
int urgency(DryState s) {
    switch (s) {
    case DryState::Overdue: return 0;
    case DryState::Unknown: return 1;
    case DryState::Dry: return 2;
    case DryState::Sealed: return 3;
    case DryState::NoRule: break;
    }
    return 4;
}

QVariant timeOrLast(const std::optional<Instant>& t) {
    return t ? QVariant(toMs(*t)) : lists::sortLast();
}

using lists::textCell;

lists::Cell dryCell(const SpoolRow& r) {
    lists::Cell c = textCell(dryWord(r.dry));
    c.sort = urgency(r.dry);
    if (r.dry == DryState::Overdue) c.tone = QStringLiteral("alarm");
    c.tip = r.dry == DryState::Overdue ? Said::tr("Exposed for longer than the material allows, or the drying entry is missing.")
                                       : QString();
    return c;
}

lists::Cell exposedCell(const SpoolRow& r) {
    lists::Cell c = textCell(hours(r.exposed));
    c.sort = static_cast<qlonglong>(r.exposed.count());
    c.tip = r.spool.exposedFrom ? Said::tr("In the open now.") : Said::tr("Not in the open now.");
    return c;
}

lists::Cell materialCell(const SpoolRow& r) {
    lists::Cell c = textCell(r.material);
    c.family = r.family;
    c.chip = r.familyInitials;
    return c;
}

lists::Cell leftCell(const SpoolRow& r) {
    lists::Cell c = textCell(r.left);
    c.sort = r.spool.left ? QVariant(r.spool.left->milligrams()) : lists::sortLast();
    if (!r.spool.left) c.tone = QStringLiteral("muted");
    return c;
}

using Shares = QHash<SpoolId, QList<planning::SpoolShare>>;

/// Chosen by an open session, or in a print that runs; then the jobs of the published plan that it is to serve.
QString reservedFor(const Shop& shop, const Spool& spool, const Shares& planned) {
    if (const SessionState* s = reservedBy(shop, spool.id, 0)) {
        const JobId& job = s->changeover.transition.request.job;
        return job.isEmpty() ? Said::tr("session %1").arg(s->number) : job;
    }
    const PrinterNow* p = spool.where == SpoolWhere::Loaded ? shop.printer(spool.place) : nullptr;
    QStringList jobs;
    if (p && p->activity == Activity::Printing && !p->job.isEmpty()) jobs.append(p->job);
    for (const planning::SpoolShare& share : planned.value(spool.id)) jobs.append(share.job);
    return jobs.join(QStringLiteral(", "));
}

/// What ends its use first: the print that runs, or its date.
void sayRunsOut(SpoolRow& row, const Bench& bench) {
    const Spool& spool = row.spool;
    row.expired = expired(spool, bench.now(), bench.catalogue().fleet.zone);
    const std::optional<Instant> usedUp = usedUpAt(bench.shop(), spool);
    row.ends = usedUp && !(spool.expires && *spool.expires < *usedUp) ? usedUp : spool.expires;
    if (!row.ends) return;
    const QString day = toZone(*row.ends, bench.catalogue().fleet.zone).toString(QStringLiteral("yyyy-MM-dd"));
    row.usedUp = row.ends == usedUp;
    if (row.usedUp) row.runsOut = Said::tr("▲ %1 in print").arg(bench.shortTime(*row.ends));
    else row.runsOut = row.expired ? Said::tr("▲ %1 past").arg(day) : day;
}

lists::Cell runsOutCell(const SpoolRow& r) {
    lists::Cell c = textCell(r.runsOut);
    c.sort = timeOrLast(r.ends);
    if (r.expired || r.usedUp) c.tone = QStringLiteral("warning");
    if (r.usedUp) c.tip = Said::tr("The print that runs wants more than is left on it.");
    else if (r.ends) c.tip = r.expired ? Said::tr("Its date of expiry is past.") : Said::tr("Its date of expiry.");
    return c;
}

/// Without a stated uncertainty there is no ±: nobody has said that it is exact.
QString leftText(const Spool& spool) {
    if (!spool.left) return Said::tr("unknown");
    const QString grams = QString::number(spool.left->grams(), 'f', 0);
    return spool.leftSe > Mass() ? Said::tr("%1 ± %2").arg(grams, QString::number(spool.leftSe.grams(), 'f', 0)) : grams;
}

QString whereOf(const Catalogue& catalogue, const Spool& spool) {
    if (spool.where == SpoolWhere::Retired) return Said::tr("retired");
    if (spool.where == SpoolWhere::Loaded) return words::mountedIn(catalogue, spool.place, spool.position);
    return catalogue.placeName(spool.place);
}

SpoolRow spoolRow(const Bench& bench, const Spool& spool, const Shares& planned) {
    const Catalogue& catalogue = bench.catalogue();
    const QTimeZone& zone = catalogue.fleet.zone;
    const auto day = [&zone](const std::optional<Instant>& t) {
        return t ? toZone(*t, zone).toString(QStringLiteral("yyyy-MM-dd")) : QString();
    };
    SpoolRow row;
    row.spool = spool;
    row.exposed = exposure(spool, bench.now());
    if (const Material* m = catalogue.material(spool.material)) {
        row.dry = dryState(spool, *m, bench.now());
        row.family = look::familyIndex(catalogue, m->chamberFamily);
        row.familyInitials = look::familyInitials(m->chamberFamily);
    }
    row.material = materialName(catalogue, spool.material);
    row.where = whereOf(catalogue, spool);
    row.reserved = reservedFor(bench.shop(), spool, planned);
    row.left = leftText(spool);
    sayRunsOut(row, bench);
    row.opened = day(spool.opened);
    return row;
}

} // namespace

bool SpoolRow::operator==(const SpoolRow& o) const {
    const auto said = [](const SpoolRow& r) {
        return std::tie(r.spool.id, r.spool.lot, r.spool.left, r.spool.opened, r.spool.exposedFrom, r.dry, r.exposed, r.material, r.where,
                        r.reserved, r.left, r.opened, r.runsOut, r.ends, r.expired, r.usedUp, r.family, r.familyInitials);
    };
    return said(*this) == said(o);
}

QString dryWord(DryState state) {
    switch (state) {
    case DryState::Overdue: return Said::tr("▲ overdue");
    case DryState::Dry: return Said::tr("● dry");
    case DryState::Sealed: return Said::tr("■ sealed");
    case DryState::NoRule: return Said::tr("– no rule");
    case DryState::Unknown: break;
    }
    return Said::tr("? unknown");
}

QString hours(Milliseconds t) {
    return Said::tr("%1 h").arg(static_cast<double>(t.count()) / 3.6e6, 0, 'f', 1);
}

QString materialName(const Catalogue& catalogue, const MaterialId& id) {
    const Material* m = catalogue.material(id);
    return m ? (m->polymer + QLatin1Char(' ') + m->name).trimmed() : id;
}

SpoolRow spoolRow(const Bench& bench, const Spool& spool) {
    return spoolRow(bench, spool, planning::spoolsReserved(bench.shop(), bench.now()));
}

QList<SpoolRow> spoolRows(const Bench& bench, bool withRetired) {
    QList<SpoolRow> rows;
    const Shares planned = planning::spoolsReserved(bench.shop(), bench.now());
    // The retired ones may have been put away: they are fetched only when somebody wants to see them.
    const QList<Spool> all = withRetired ? bench.shop().allSpools() : bench.shop().stock().spools.values();
    for (const Spool& spool : all)
        if (withRetired || spool.where != SpoolWhere::Retired) rows.append(spoolRow(bench, spool, planned));
    return rows;
}

std::optional<Instant> usedUpAt(const Shop& shop, const Spool& spool) {
    const PrinterNow* p = spool.where == SpoolWhere::Loaded ? shop.printer(spool.place) : nullptr;
    const Material* m = shop.material(spool.material);
    const Job* job = p && p->activity == Activity::Printing ? shop.job(p->job) : nullptr;
    if (!job || !m || !spool.left || !p->printStarted || !p->printExpectedEnd) return {};
    for (const Variant& v : job->variants) {
        if (v.name != p->variant) continue;
        const double needs = massOf(spool.position == Role::Part ? v.partVolume : v.supportVolume, m->densityGPerCm3).grams();
        if (needs <= spool.left->grams()) return {};
        const double share = std::max(0.0, spool.left->grams()) / needs;
        const auto print = static_cast<double>(toMs(*p->printExpectedEnd) - toMs(*p->printStarted));
        return *p->printStarted + Milliseconds(static_cast<qint64>(share * print));
    }
    return {};
}

QList<lists::Column<SpoolRow>> spoolColumns() {
    using Row = const SpoolRow&;
    return {{Said::tr("Drying"), dryCell, false},
            {Said::tr("Exposed"), exposedCell, true},
            {Said::tr("Spool"), [](Row r) { return textCell(r.spool.id); }, false},
            {Said::tr("For job"),
             [](Row r) {
                 lists::Cell c = textCell(r.reserved);
                 c.tip = r.reserved; // may be a dozen jobs: cut before the other columns are
                 return c;
             },
             false, 14},
            {Said::tr("Left, g"), leftCell, true},
            {Said::tr("Material"), materialCell, false, 24},
            {Said::tr("Where"), [](Row r) { return textCell(r.where); }, false, 14},
            {Said::tr("Lot"), [](Row r) { return textCell(r.spool.lot); }, false},
            {Said::tr("Opened"),
             [](Row r) {
                 lists::Cell c = textCell(r.opened);
                 c.sort = timeOrLast(r.spool.opened);
                 return c;
             },
             false},
            {Said::tr("Runs out"), runsOutCell, false}};
}

} // namespace interlude
