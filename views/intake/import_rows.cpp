#include "views/intake/import_dialog.h"

#include "views/bench/bench.h"
#include "views/words/words.h"

#include <QCoreApplication>

namespace interlude {

namespace {

using lists::Cell;
using lists::textCell;

struct Said {
    Q_DECLARE_TR_FUNCTIONS(ImportRows)
};

Cell numberCell(const QString& text, const std::optional<qint64>& sort) {
    Cell c = textCell(text);
    c.sort = sort ? QVariant(*sort) : lists::sortLast();
    return c;
}

Cell timeCell(const Bench& bench, const std::optional<Instant>& t) {
    return numberCell(t ? bench.longTime(*t) : QString(), t ? std::optional(toMs(*t)) : std::nullopt);
}

QString printerNames(const Catalogue& c, const QStringList& ids) {
    QStringList names;
    for (const QString& id : ids) names << c.printerName(id);
    return names.isEmpty() ? Said::tr("any") : names.join(QStringLiteral(", "));
}

ImportRow rowOf(const Bench& bench, const Job& j) {
    QStringList variants;
    for (const Variant& v : j.variants)
        variants << QStringLiteral("%1 %2").arg(v.name, words::setupWanted(bench.catalogue(), v.setup)).trimmed();
    return {j.id,
            {textCell(Said::tr("new")), textCell(j.title), numberCell(QString::number(j.quantity), j.quantity), timeCell(bench, j.release),
             timeCell(bench, j.due), textCell(variants.join(QStringLiteral("; "))), textCell(printerNames(bench.catalogue(), j.printers))}};
}

ImportRow rowOf(const Bench& bench, const Spool& s) {
    return {s.id,
            {textCell(Said::tr("new")), textCell(words::material(bench.catalogue(), s.material)), textCell(s.lot),
             numberCell(s.left ? words::grams(*s.left) : Said::tr("unknown"), s.left ? std::optional(s.left->milligrams()) : std::nullopt),
             textCell(bench.catalogue().placeName(s.place)), timeCell(bench, s.opened), timeCell(bench, s.expires)}};
}

QString stateOf(const Nozzle& n) {
    if (n.where == NozzleWhere::Retired) return Said::tr("retired");
    if (n.toBeCleaned) return Said::tr("to be cleaned");
    return n.meltFamily.isEmpty() ? Said::tr("not yet used") : Said::tr("used");
}

ImportRow rowOf(const Bench& bench, const Nozzle& n) {
    return {n.serial,
            {textCell(Said::tr("new")), textCell(words::nozzleType(bench.catalogue(), n.type)), textCell(stateOf(n)), textCell(n.meltFamily),
             numberCell(words::runVolume(n.run), n.run.known ? std::optional(n.run.plain.mm3() + n.run.abrasive.mm3()) : std::nullopt),
             textCell(bench.catalogue().placeName(n.place))}};
}

} // namespace

QStringList importTitles(EntryKind kind) {
    switch (kind) {
    case EntryKind::Jobs:
        return {Said::tr("In the shop"), Said::tr("Title"), Said::tr("Quantity"), Said::tr("Release"), Said::tr("Due"), Said::tr("Variants"), Said::tr("Printers")};
    case EntryKind::Spools:
        return {Said::tr("In the shop"), Said::tr("Material"), Said::tr("Lot"), Said::tr("Left"), Said::tr("Place"), Said::tr("Opened"), Said::tr("Expires")};
    case EntryKind::Nozzles: break;
    }
    return {Said::tr("In the shop"), Said::tr("Type"), Said::tr("State"), Said::tr("Melt family"), Said::tr("Use so far"), Said::tr("Place")};
}

QList<ImportRow> importRows(const Bench& bench, const Intake& intake) {
    QList<ImportRow> out;
    for (const Job& j : intake.jobs) out.append(rowOf(bench, j));
    for (const Spool& s : intake.spools) out.append(rowOf(bench, s));
    for (const Nozzle& n : intake.nozzles) out.append(rowOf(bench, n));
    for (const KnownEntry& k : intake.known) {
        Cell state = textCell(k.differences.isEmpty() ? Said::tr("already there, unchanged")
                                                      : Said::tr("▲ already there, differs: %1").arg(k.differences.join(QStringLiteral("; "))));
        if (!k.differences.isEmpty()) state.tone = QStringLiteral("warning");
        state.tip = k.differences.join(QLatin1Char('\n'));
        out.append({k.id, {state}});
    }
    return out;
}

} // namespace interlude
