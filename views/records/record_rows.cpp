#include "views/records/record_rows.h"

#include "model/records/wording.h"

#include <QCoreApplication>

namespace interlude {

namespace {

QString tr(const char* text) {
    return QCoreApplication::translate("RecordsPage", text);
}

QString phaseText(SessionPhase p) {
    switch (p) {
    case SessionPhase::Open: return tr("open");
    case SessionPhase::Paused: return tr("paused");
    case SessionPhase::Finished: return tr("finished");
    case SessionPhase::Stopped: return tr("stopped half way");
    }
    return {};
}

/// What an auditor looks for first.
QString remarksOf(const SessionSummary& s) {
    QStringList out;
    if (s.enteredLate) out.append(tr("entered late"));
    if (s.overrides > 0) out.append(tr("overrides: %1").arg(s.overrides));
    if (s.skipped > 0) out.append(tr("skipped: %1").arg(s.skipped));
    if (s.corrections > 0) out.append(tr("corrections: %1").arg(s.corrections));
    if (s.problems > 0) out.append(tr("problems: %1").arg(s.problems));
    return out.join(QStringLiteral(", "));
}

QString polymer(const Catalogue& c, const MaterialId& id) {
    const Material* m = c.material(id);
    return m ? m->polymer : id;
}

RecordRow rowOf(const Catalogue& c, const SessionSummary& s) {
    RecordRow row;
    row.number = s.number;
    row.printer = c.printerName(s.printer);
    row.job = s.job;
    row.change = tr("%1 → %2").arg(s.from.isEmpty() ? tr("nothing") : polymer(c, s.from), polymer(c, s.to));
    row.phase = phaseText(s.phase);
    row.begun = wording::localTime(s.started, c.fleet.zone);
    row.begunMs = toMs(s.started);
    if (s.ended) {
        row.minutesWorth = std::chrono::ceil<Minutes>(*s.ended - s.started).count();
        row.minutes = QString::number(row.minutesWorth);
    }
    row.by = s.startedBy;
    row.remarks = remarksOf(s);
    return row;
}

} // namespace

QList<RecordRow> RecordRows::of(const Bench& bench) {
    if (m_catalogue != bench.shop().cataloguePtr()) m_known.clear();
    m_catalogue = bench.shop().cataloguePtr();
    QList<RecordRow> out;
    for (const SessionSummary& s : bench.shop().sessionList()) {
        auto known = m_known.find(s.number);
        if (known == m_known.end() || known->first != s) known = m_known.insert(s.number, {s, rowOf(bench.catalogue(), s)});
        out.append(known->second);
    }
    return out;
}

QList<lists::Column<RecordRow>> recordColumns() {
    using lists::Cell;
    const auto plain = [](QString RecordRow::*field) {
        return [field](const RecordRow& r) {
            Cell c;
            c.text = r.*field;
            return c;
        };
    };
    const auto valued = [](const QString& text, qint64 value) {
        Cell c;
        c.text = text;
        c.sort = value < 0 ? lists::sortLast() : QVariant(value);
        return c;
    };
    // In the order in which one looks: which, when, where, what, how it stands, what is unusual. The number is a name and
    // stands left, where no sort arrow covers its heading.
    return {{tr("No."), [=](const RecordRow& r) { return valued(QString::number(r.number), r.number); }, false, 6},
            {tr("Begun"), [=](const RecordRow& r) { return valued(r.begun, r.begunMs); }, false, 17},
            {tr("Printer"), plain(&RecordRow::printer), false, 7},
            {tr("Part material"), plain(&RecordRow::change), false, 12},
            {tr("State"), plain(&RecordRow::phase), false, 10},
            {tr("Remarks"), plain(&RecordRow::remarks), false, 12},
            {tr("Job"), plain(&RecordRow::job), false, 6},
            {tr("Minutes"), [=](const RecordRow& r) { return valued(r.minutes, r.minutesWorth); }, true, 6},
            {tr("By"), plain(&RecordRow::by), false, 5}};
}

} // namespace interlude
