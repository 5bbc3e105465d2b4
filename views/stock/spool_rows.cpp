#include "views/stock/spool_rows.h"

#include "views/look/look.h"

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

lists::Cell text(const QString& s) {
    lists::Cell c;
    c.text = s;
    return c;
}

lists::Cell dryCell(const SpoolRow& r) {
    lists::Cell c = text(dryWord(r.dry));
    c.sort = urgency(r.dry);
    if (r.dry == DryState::Overdue) c.tone = QStringLiteral("alarm");
    c.tip = r.dry == DryState::Overdue ? Said::tr("Exposed for longer than the material allows, or the drying entry is missing.")
                                       : QString();
    return c;
}

lists::Cell exposedCell(const SpoolRow& r) {
    lists::Cell c = text(hours(r.exposed));
    c.sort = static_cast<qlonglong>(r.exposed.count());
    c.tip = r.spool.exposedFrom ? Said::tr("In the open now.") : Said::tr("Not in the open now.");
    return c;
}

lists::Cell materialCell(const SpoolRow& r) {
    lists::Cell c = text(r.material);
    c.family = r.family;
    c.chip = r.familyInitials;
    return c;
}

lists::Cell leftCell(const SpoolRow& r) {
    lists::Cell c = text(r.left);
    c.sort = r.spool.left ? QVariant(r.spool.left->milligrams()) : lists::sortLast();
    if (!r.spool.left) c.tone = QStringLiteral("muted");
    return c;
}

lists::Cell expiresCell(const SpoolRow& r) {
    lists::Cell c = text(r.expired ? Said::tr("▲ %1 past").arg(r.expires) : r.expires);
    c.sort = timeOrLast(r.spool.expires);
    if (r.expired) c.tone = QStringLiteral("warning");
    return c;
}

} // namespace

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

QString whereOf(const Catalogue& catalogue, const Spool& spool) {
    if (spool.where == SpoolWhere::Retired) return Said::tr("retired");
    if (spool.where == SpoolWhere::Loaded) {
        const Printer* p = catalogue.printer(spool.place);
        const QString name = p && !p->name.isEmpty() ? p->name : spool.place;
        return spool.position == Role::Part ? Said::tr("%1, part").arg(name) : Said::tr("%1, support").arg(name);
    }
    const Place* place = catalogue.place(spool.place);
    return place && !place->name.isEmpty() ? place->name : spool.place;
}

SpoolRow spoolRow(const Bench& bench, const Spool& spool) {
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
    row.left = spool.left ? Said::tr("%1 ± %2").arg(spool.left->grams(), 0, 'f', 0).arg(spool.leftSe.grams(), 0, 'f', 0)
                          : Said::tr("unknown");
    row.opened = day(spool.opened);
    row.expires = day(spool.expires);
    row.expired = spool.expires && *spool.expires < bench.now();
    return row;
}

QList<SpoolRow> spoolRows(const Bench& bench, bool withRetired) {
    QList<SpoolRow> rows;
    for (const Spool& spool : bench.shop().stock().spools)
        if (withRetired || spool.where != SpoolWhere::Retired) rows.append(spoolRow(bench, spool));
    return rows;
}

QList<lists::Column<SpoolRow>> spoolColumns() {
    using Row = const SpoolRow&;
    return {{Said::tr("Drying"), dryCell, false, 11},
            {Said::tr("Exposed"), exposedCell, true, 9},
            {Said::tr("Spool"), [](Row r) { return text(r.spool.id); }, false, 9},
            {Said::tr("Left, g"), leftCell, true, 12},
            {Said::tr("Material"), materialCell, false, 24},
            {Said::tr("Where"), [](Row r) { return text(r.where); }, false, 19},
            {Said::tr("Lot"), [](Row r) { return text(r.spool.lot); }, false, 10},
            {Said::tr("Opened"),
             [](Row r) {
                 lists::Cell c = text(r.opened);
                 c.sort = timeOrLast(r.spool.opened);
                 return c;
             },
             false, 11},
            {Said::tr("Expires"), expiresCell, false, 16}};
}

} // namespace interlude
