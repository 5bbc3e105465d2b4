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
QString remarksOf(const SessionState& s) {
    QStringList out;
    qsizetype overrides = s.overrides.size(), skipped = 0;
    for (const StepProgress& p : s.steps) {
        overrides += p.confirmed.overrides.size();
        skipped += p.skipped ? 1 : 0;
    }
    if (s.enteredLate) out.append(tr("entered late"));
    if (overrides > 0) out.append(tr("overrides: %1").arg(overrides));
    if (skipped > 0) out.append(tr("skipped: %1").arg(skipped));
    if (!s.corrections.isEmpty()) out.append(tr("corrections: %1").arg(s.corrections.size()));
    if (!s.problems.isEmpty()) out.append(tr("problems: %1").arg(s.problems.size()));
    return out.join(QStringLiteral(", "));
}

QString polymer(const Catalogue& c, const MaterialId& id) {
    const Material* m = c.material(id);
    return m ? m->polymer : id;
}

} // namespace

QList<RecordRow> recordRows(const Bench& bench) {
    QList<RecordRow> out;
    for (const SessionState& s : bench.shop().sessions()) {
        const TransitionRequest& request = s.changeover.transition.request;
        RecordRow row;
        row.number = s.number;
        const Printer* printer = bench.catalogue().printer(s.printer);
        row.printer = printer ? printer->name : s.printer;
        row.job = request.job;
        row.change = tr("%1 → %2").arg(request.now.part.loaded.isEmpty() ? tr("nothing") : polymer(bench.catalogue(), request.now.part.loaded),
                                       polymer(bench.catalogue(), request.wanted.part));
        row.phase = phaseText(s.phase);
        row.begun = wording::localTime(s.started, bench.catalogue().fleet.zone);
        row.begunMs = toMs(s.started);
        if (s.ended) {
            row.minutesWorth = std::chrono::ceil<Minutes>(*s.ended - s.started).count();
            row.minutes = QString::number(row.minutesWorth);
        }
        row.by = s.startedBy;
        row.remarks = remarksOf(s);
        out.append(row);
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
            {tr("State"), plain(&RecordRow::phase), false, 13},
            {tr("Remarks"), plain(&RecordRow::remarks), false, 22},
            {tr("Job"), plain(&RecordRow::job), false, 6},
            {tr("Minutes"), [=](const RecordRow& r) { return valued(r.minutes, r.minutesWorth); }, true, 10},
            {tr("By"), plain(&RecordRow::by), false, 5}};
}

} // namespace interlude
