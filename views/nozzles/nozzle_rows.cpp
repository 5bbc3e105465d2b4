#include "views/nozzles/nozzle_rows.h"

#include "views/words/words.h"

#include <QCoreApplication>

namespace interlude {

namespace {

struct Said {
    Q_DECLARE_TR_FUNCTIONS(NozzleRows)
};

constexpr double nearlyWorn = 0.15; ///< share of life left below which the list warns; a habit of shops, no source

using lists::textCell;

QString whereOf(const Catalogue& catalogue, const Nozzle& n) {
    if (n.where == NozzleWhere::Retired) return Said::tr("retired");
    if (n.where == NozzleWhere::Mounted) return words::mountedIn(catalogue, n.place, n.position);
    const QString name = catalogue.placeName(n.place);
    return n.toBeCleaned ? Said::tr("%1, to be cleaned").arg(name) : name;
}

void sayLife(NozzleRow& row, const NozzleType* type) {
    if (!row.nozzle.run.known) {
        row.life = Said::tr("? no history");
        row.lifeTone = QStringLiteral("muted");
        return;
    }
    const std::optional<double> used = type ? lifeUsed(row.nozzle, *type) : std::nullopt;
    if (!used) {
        row.life = Said::tr("– not rated");
        row.lifeTone = QStringLiteral("muted");
        return;
    }
    row.left = std::max(0.0, 1.0 - *used);
    const int percent = static_cast<int>(std::floor(*row.left * 100.0));
    if (*used >= 1.0) {
        row.life = Said::tr("■ worn");
        row.lifeTone = QStringLiteral("alarm");
    } else if (*row.left < nearlyWorn) {
        row.life = Said::tr("▲ %1 % left").arg(percent);
        row.lifeTone = QStringLiteral("warning");
    } else {
        row.life = Said::tr("%1 % left").arg(percent);
    }
}

lists::Cell volumeCell(const NozzleRow& r, Volume v) {
    lists::Cell c = textCell(r.nozzle.run.known ? words::cm3(v) : Said::tr("no history"));
    c.sort = r.nozzle.run.known ? QVariant(v.mm3()) : lists::sortLast();
    if (!r.nozzle.run.known) c.tone = QStringLiteral("muted");
    return c;
}

lists::Cell lifeCell(const NozzleRow& r) {
    lists::Cell c = textCell(r.life);
    c.share = r.left;
    c.sort = r.left ? QVariant(*r.left) : lists::sortLast();
    c.tone = r.lifeTone;
    c.tip = r.left ? Said::tr("Share of the rated life; plain and abrasive use are added.") : QString();
    return c;
}

} // namespace

bool NozzleRow::operator==(const NozzleRow& o) const {
    const auto said = [](const NozzleRow& r) {
        return std::tie(r.nozzle.serial, r.nozzle.meltFamily, r.nozzle.run, r.type, r.where, r.use, r.life, r.lifeTone, r.left, r.measured);
    };
    return said(*this) == said(o);
}

NozzleRow nozzleRow(const Bench& bench, const Nozzle& nozzle) {
    const Catalogue& catalogue = bench.catalogue();
    const NozzleType* type = catalogue.nozzleType(nozzle.type);
    NozzleRow row;
    row.nozzle = nozzle;
    row.type = type ? Said::tr("%1 mm %2").arg(type->orifice.mm()).arg(type->alloy.isEmpty() ? type->name : type->alloy)
                    : nozzle.type;
    row.where = whereOf(catalogue, nozzle);
    row.use = nozzle.run.known ? Said::tr("%1 plain, %2 abrasive").arg(words::cm3(nozzle.run.plain), words::cm3(nozzle.run.abrasive))
                               : Said::tr("no history");
    sayLife(row, type);
    if (!nozzle.measurements.isEmpty()) {
        const NozzleMeasurement& last = nozzle.measurements.last();
        row.measured = Said::tr("%1 mm on %2").arg(last.orifice.mm(), 0, 'f', 3)
                           .arg(toZone(last.at, catalogue.fleet.zone).toString(QStringLiteral("yyyy-MM-dd")));
    }
    return row;
}

QList<NozzleRow> nozzleRows(const Bench& bench, bool withRetired) {
    QList<NozzleRow> rows;
    // The retired ones may have been put away: they are fetched only when somebody wants to see them.
    const QList<Nozzle> all = withRetired ? bench.shop().allNozzles() : bench.shop().stock().nozzles.values();
    for (const Nozzle& n : all)
        if (withRetired || n.where != NozzleWhere::Retired) rows.append(nozzleRow(bench, n));
    return rows;
}

QList<lists::Column<NozzleRow>> nozzleColumns() {
    using Row = const NozzleRow&;
    return {{Said::tr("Serial"), [](Row r) { return textCell(r.nozzle.serial); }, false},
            {Said::tr("Type"), [](Row r) { return textCell(r.type); }, false, 16},
            {Said::tr("Melt family"),
             [](Row r) {
                 lists::Cell c = textCell(r.nozzle.meltFamily.isEmpty() ? Said::tr("none yet") : words::plain(r.nozzle.meltFamily));
                 if (r.nozzle.meltFamily.isEmpty()) c.tone = QStringLiteral("muted");
                 return c;
             },
             false},
            {Said::tr("Where"), [](Row r) { return textCell(r.where); }, false, 14},
            {Said::tr("Plain use"), [](Row r) { return volumeCell(r, r.nozzle.run.plain); }, true},
            {Said::tr("Abrasive use"), [](Row r) { return volumeCell(r, r.nozzle.run.abrasive); }, true},
            {Said::tr("Life left"), lifeCell, false},
            {Said::tr("Measured"), [](Row r) { return textCell(r.measured); }, false, 12}};
}

} // namespace interlude
