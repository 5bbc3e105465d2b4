#include "model/records/record_steps.h"

#include "model/records/wording.h"

namespace interlude {

namespace {

QString instrumentText(const Catalogue& c, const QString& id) {
    if (id.isEmpty()) return QStringLiteral("no instrument stated");
    const Instrument* i = c.instrument(id);
    if (!i || !i->calibrated.isValid()) return QStringLiteral("%1, calibration not stated").arg(id);
    return QStringLiteral("%1, calibrated %2").arg(id, i->calibrated.toString(Qt::ISODate));
}

QString scanText(const PlannedStep& planned, qsizetype index, const act::ScanDone& scan) {
    const auto& wanted = planned.step.confirm.scans;
    const QString what = index < wanted.size() ? word(wanted[index].target).replace(QLatin1Char('-'), QLatin1Char(' '))
                                               : QStringLiteral("scan");
    return QStringLiteral("%1: %2%3").arg(what, scan.value, scan.typed ? QStringLiteral(" (typed)") : QString());
}

QString readingText(const Catalogue& c, const PlannedStep& planned, const act::ReadingDone& r) {
    QString limits;
    for (const ReadingWanted& wanted : planned.step.confirm.readings)
        if (wanted.name == r.name) limits = QStringLiteral(", limits %1").arg(wording::limits(wanted));
    return QStringLiteral("%1: %2 %3%4; %5")
        .arg(r.name, wording::thousandths(r.thousandths), r.unit, limits, instrumentText(c, r.instrument));
}

QStringList entriesOf(const Catalogue& c, const PlannedStep& planned, const StepProgress& p) {
    QStringList out;
    for (qsizetype i = 0; i < p.confirmed.scans.size(); ++i) out.append(scanText(planned, i, p.confirmed.scans[i]));
    const auto& questions = planned.step.confirm.answers;
    for (qsizetype i = 0; i < p.confirmed.answers.size(); ++i)
        out.append(QStringLiteral("%1 %2").arg(i < questions.size() ? questions[i].question : QStringLiteral("answer:"),
                                               p.confirmed.answers[i].yes ? QStringLiteral("yes") : QStringLiteral("no")));
    for (const act::ReadingDone& r : p.confirmed.readings) out.append(readingText(c, planned, r));
    if (p.confirmed.measured) {
        const QString limit = planned.step.onlyBelow
                                  ? QStringLiteral(", needed at or below %1").arg(wording::celsius(*planned.step.onlyBelow))
                                  : QString();
        const QString when = p.confirmed.measuredAt
                                 ? QStringLiteral(" at %1").arg(wording::clockTime(*p.confirmed.measuredAt, c.fleet.zone))
                                 : QString();
        out.append(QStringLiteral("%1 measured %2%3%4").arg(wording::sensor(planned.step.measuredAt),
                                                            wording::celsius(*p.confirmed.measured), when, limit));
    }
    if (p.confirmed.useSoFar) out.append(QStringLiteral("use so far: %1").arg(wording::runVolume(*p.confirmed.useSoFar)));
    if (!p.confirmed.note.isEmpty()) out.append(QStringLiteral("note: %1").arg(p.confirmed.note));
    return out;
}

QStringList cautionLines(const PlannedStep& planned) {
    QStringList out;
    for (const Caution& caution : planned.step.cautions)
        out.append(QStringLiteral("%1: %2").arg(word(caution.word).toUpper(), caution.text));
    return out;
}

RecordStep plannedLine(const PlannedStep& planned, int number) {
    RecordStep line;
    line.number = number;
    line.group = planned.step.group;
    line.title = planned.step.title;
    line.planned = planned.predictable ? QString::number(planned.planned.count()) : QStringLiteral("measure");
    line.cautions = cautionLines(planned);
    return line;
}

void addProgress(RecordStep& line, const Catalogue& c, const SessionState& s, const PlannedStep& planned) {
    const StepProgress& p = s.progress(planned.step.id);
    if (p.started) line.begun = wording::clockTime(*p.started, c.fleet.zone);
    if (p.ended) line.ended = wording::clockTime(*p.ended, c.fleet.zone);
    if (p.started && p.ended) line.actual = QString::number(std::chrono::ceil<Minutes>(*p.ended - *p.started).count());
    line.who = p.who;
    line.late = p.enteredLate;
    line.skipped = p.state == StepState::Skipped;
    if (p.state == StepState::Done) line.entries = entriesOf(c, planned, p);
    if (p.state == StepState::Pending || p.state == StepState::Started)
        line.entries.append(s.isOpen() ? QStringLiteral("not yet done") : QStringLiteral("not done"));
    if (p.skipped) line.overrides.append(QStringLiteral("skipped; %1").arg(overrideText(c, *p.skipped)));
    for (const act::Override& o : p.confirmed.overrides)
        line.overrides.append(QStringLiteral("%1; %2").arg(o.rule, overrideText(c, o)));
    for (const TakenBackStep& t : s.takenBack)
        if (t.step == planned.step.id)
            line.corrections.append(QStringLiteral("an earlier confirmation was taken back %1 by %2: %3")
                                        .arg(wording::localTime(t.at, c.fleet.zone), t.who, t.why));
    for (const Correction& k : s.corrections)
        if (p.event != 0 && k.what.event == p.event)
            line.corrections.append(QStringLiteral("%1: recorded “%2”, corrected to “%3” on %4 by %5, because %6")
                                        .arg(k.what.field, k.what.original, k.what.corrected,
                                             wording::localTime(k.at, c.fleet.zone), k.who, k.what.reason));
}

QStringList toFill(const Catalogue& c, const PlannedStep& planned) {
    QStringList out;
    const auto& confirm = planned.step.confirm;
    for (qsizetype i = 0; i < confirm.scans.size(); ++i) {
        const QString expected = i < planned.expectedScans.size() ? planned.expectedScans[i] : QString();
        out.append(QStringLiteral("%1%2").arg(word(confirm.scans[i].target).replace(QLatin1Char('-'), QLatin1Char(' ')),
                                              expected.isEmpty() ? QString() : QStringLiteral(" (expected %1)").arg(expected)));
    }
    for (const AnswerWanted& a : confirm.answers) out.append(QStringLiteral("%1  yes / no").arg(a.question));
    for (const ReadingWanted& r : confirm.readings)
        for (int i = 0; i < r.times; ++i)
            out.append(QStringLiteral("%1, %2%3").arg(r.name, wording::limits(r),
                                                      r.instrument.isEmpty() ? QString() : QStringLiteral(", with %1").arg(r.instrument)));
    if (planned.step.onlyBelow)
        out.append(QStringLiteral("%1 measured, at or below %2").arg(wording::sensor(planned.step.measuredAt),
                                                                     wording::celsius(*planned.step.onlyBelow)));
    static_cast<void>(c);
    return out;
}

} // namespace

QString overrideText(const Catalogue& catalogue, const act::Override& o) {
    const QString reason = o.reason.isEmpty() ? QStringLiteral("no reason given") : QStringLiteral("reason: %1").arg(o.reason);
    return o.approver.isEmpty() ? reason + QStringLiteral("; not approved by a second person")
                                : reason + QStringLiteral("; approved by %1").arg(wording::person(catalogue, o.approver));
}

QList<RecordStep> stepLines(const Catalogue& catalogue, const SessionState& session) {
    QList<RecordStep> out;
    int number = 0;
    for (const PlannedStep& planned : session.changeover.steps) {
        RecordStep line = plannedLine(planned, ++number);
        addProgress(line, catalogue, session, planned);
        out.append(line);
    }
    return out;
}

QList<RecordStep> blankStepLines(const Catalogue& catalogue, const Changeover& changeover) {
    QList<RecordStep> out;
    int number = 0;
    for (const PlannedStep& planned : changeover.steps) {
        RecordStep line = plannedLine(planned, ++number);
        line.toFill = toFill(catalogue, planned);
        out.append(line);
    }
    return out;
}

QList<RecordLine> calibrationLines(const Catalogue& catalogue, const SessionState& session) {
    QList<RecordLine> out;
    for (const PlannedStep& planned : session.changeover.steps) {
        const StepProgress& p = session.progress(planned.step.id);
        if (p.state != StepState::Done) continue;
        for (const act::ReadingDone& r : p.confirmed.readings)
            out.append({r.name, readingText(catalogue, planned, r).section(QStringLiteral(": "), 1)});
    }
    return out;
}

} // namespace interlude
