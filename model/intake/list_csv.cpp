#include "model/intake/list_csv.h"

#include "model/catalogue/csv.h"
#include "model/catalogue/csv_tree.h"

namespace interlude {

namespace {

using Cells = QMap<QString, QString>;

class Sheet {
public:
    explicit Sheet(const CsvLayout& layout) : m_columns(layout.columns + layout.partColumns + layout.told), m_bytes(csvLine(m_columns)) {}
    void add(const Cells& cells) {
        QStringList line;
        for (const QString& column : m_columns) line.append(cells.value(column));
        m_bytes += csvLine(line);
    }
    QByteArray bytes() const { return m_bytes; }

private:
    QStringList m_columns;
    QByteArray m_bytes;
};

QString local(const std::optional<Instant>& t, const QTimeZone& zone) {
    if (!t) return {};
    const QDateTime at = toZone(*t, zone);
    return at.toString(at.time().second() == 0 ? QStringLiteral("yyyy-MM-ddTHH:mm") : QStringLiteral("yyyy-MM-ddTHH:mm:ss"));
}
QString number(double v) { return QString::number(v, 'g', 12); }
QString grams(const std::optional<Mass>& m) { return m ? number(static_cast<double>(m->milligrams()) / 1000) : QString(); }
QString cm3(Volume v) { return v > Volume() ? number(v.cm3()) : QString(); }
QString money(Money m) { return QString::number(static_cast<double>(m.cents()) / 100, 'f', 2); }
QString envelope(const std::optional<Envelope>& e) {
    return e ? QStringLiteral("%1 x %2 x %3").arg(number(e->x.mm()), number(e->y.mm()), number(e->z.mm())) : QString();
}

QString stateOf(const Job& j) {
    switch (j.state) {
    case JobState::Open: return QStringLiteral("open");
    case JobState::Printing: return QStringLiteral("printing");
    case JobState::PartLying: return QStringLiteral("part lies there");
    case JobState::Done: return QStringLiteral("done");
    case JobState::Failed: return QStringLiteral("failed");
    case JobState::Withdrawn: return QStringLiteral("withdrawn");
    }
    return {};
}

Cells cellsOf(const Job& j, const QTimeZone& zone) {
    return {{"title", j.title}, {"part-number", j.partNumber}, {"revision", j.revision}, {"order", j.order},
            {"quantity", QString::number(j.quantity)}, {"build-file", j.buildFile}, {"build-sha256", j.buildSha256},
            {"release", local(j.release, zone)}, {"due", local(j.due, zone)}, {"late-cost-per-hour", money(j.lateCostPerHour)},
            {"holding-cost-per-hour", money(j.holdingCostPerHour)}, {"same-lot", j.sameLot ? QStringLiteral("true") : QStringLiteral("false")},
            {"printers", j.printers.join(QStringLiteral("; "))}, {"envelope-mm", envelope(j.envelope)}, {"state", stateOf(j)}};
}

QString minutesOf(const Variant& v) {
    if (v.printOn.empty()) return QString::number(v.print.count());
    QStringList each;
    for (const auto& [printer, minutes] : v.printOn) each.append(QStringLiteral("%1: %2").arg(printer).arg(minutes.count()));
    return each.join(QStringLiteral("; "));
}

void addTo(Cells& cells, const Variant& v) {
    const Setup& s = v.setup;
    cells.insert({{"name", v.name}, {"setup", s.label}, {"part", s.part}, {"support", s.support}, {"part-nozzle", s.partNozzle},
                  {"support-nozzle", s.supportNozzle}, {"chamber-c", s.chamber ? number(s.chamber->celsius()) : QString()},
                  {"print-minutes", minutesOf(v)}, {"part-cm3", cm3(v.partVolume)},
                  {"support-cm3", s.support.isEmpty() ? QString() : number(v.supportVolume.cm3())}});
}

/// A variant a row; what the job is stands in its first.
void add(Sheet& sheet, const Job& j, const QTimeZone& zone) {
    Cells cells = cellsOf(j, zone);
    for (const Variant& v : j.variants) {
        cells.insert(QStringLiteral("id"), j.id);
        addTo(cells, v);
        sheet.add(cells);
        cells.clear();
    }
}

void add(Sheet& sheet, const Spool& s, const QTimeZone& zone) {
    const bool loaded = s.where == SpoolWhere::Loaded;
    sheet.add({{"id", s.id}, {"material", s.material}, {"lot", s.lot}, {"grams", grams(s.left)},
               {"grams-se", s.left && s.leftSe > Mass() ? grams(s.leftSe) : QString()}, {"tare-grams", grams(s.tare)},
               {"place", loaded ? QString() : s.place}, {"received", local(s.received, zone)}, {"opened", local(s.opened, zone)},
               {"dried", local(s.dried, zone)}, {"expires", local(s.expires, zone)},
               {"state", loaded ? QStringLiteral("loaded") : s.where == SpoolWhere::Retired ? QStringLiteral("retired") : QStringLiteral("shelf")},
               {"printer", loaded ? s.place : QString()}});
}

QString stateOf(const Nozzle& n) {
    if (n.where == NozzleWhere::Retired) return QStringLiteral("retired");
    if (n.toBeCleaned) return QStringLiteral("to-be-cleaned");
    const bool ran = !n.run.known || n.run.plain > Volume() || n.run.abrasive > Volume() || !n.meltFamily.isEmpty();
    return ran ? QStringLiteral("used") : QStringLiteral("new");
}

void add(Sheet& sheet, const Nozzle& n) {
    const bool mounted = n.where == NozzleWhere::Mounted;
    sheet.add({{"serial", n.serial}, {"type", n.type}, {"state", stateOf(n)}, {"melt-family", n.meltFamily},
               {"run-cm3", n.run.known ? number(n.run.plain.cm3()) : QStringLiteral("no-history")},
               {"run-abrasive-cm3", n.run.known ? number(n.run.abrasive.cm3()) : QString()},
               {"place", mounted ? QString() : n.place}, {"printer", mounted ? n.place : QString()}});
}

} // namespace

QByteArray listCsv(EntryKind kind, const Shop& shop) {
    const QTimeZone& zone = shop.catalogue().fleet.zone;
    Sheet sheet(layoutOf(kind));
    switch (kind) {
    case EntryKind::Jobs:
        for (const Job& j : shop.allJobs()) add(sheet, j, zone);
        break;
    case EntryKind::Spools:
        for (const Spool& s : shop.allSpools()) add(sheet, s, zone);
        break;
    case EntryKind::Nozzles:
        for (const Nozzle& n : shop.allNozzles()) add(sheet, n);
        break;
    }
    return sheet.bytes();
}

} // namespace interlude
