#include "model/records/record_steps.h"

#include "model/records/record_entries.h"
#include "model/records/wording.h"
#include "model/shop/present_clock.h"

namespace interlude {

namespace {

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

QString unsettled(const SessionState& s, StepState state) {
    if (state == StepState::Done) return {};
    if (state == StepState::Skipped) return QStringLiteral("skipped");
    return s.isOpen() ? QStringLiteral("not yet done") : QStringLiteral("not done");
}

void addProgress(RecordStep& line, const Catalogue& c, const SessionState& s, const PlannedStep& planned) {
    const StepProgress& p = s.progress(planned.step.id);
    const auto clock = [&](Instant t) { return wording::dayTime(t, s.started, c.fleet.zone); };
    if (p.started) line.begun = clock(*p.started);
    if (p.ended) line.ended = clock(*p.ended);
    if (p.started && p.ended) // whatever the clock was set to meanwhile
        line.actual = QString::number(std::chrono::ceil<Minutes>(inPresentClock(s, *p.ended, p.event) -
                                                                 inPresentClock(s, *p.started, p.startEvent)).count());
    line.who = p.who;
    line.late = p.enteredLate;
    line.skipped = p.state == StepState::Skipped;
    line.state = unsettled(s, p.state);
    line.event = p.event;
    if (p.state == StepState::Done) line.entries = entriesOf(c, planned, p);
    if (p.skipped) line.overrides.append(QStringLiteral("skipped; %1").arg(overrideText(c, *p.skipped, p.who)));
    for (const act::Override& o : p.confirmed.overrides)
        line.overrides.append(QStringLiteral("%1; %2").arg(o.rule, overrideText(c, o, p.who)));
    for (const TakenBackStep& t : s.takenBack)
        if (t.step == planned.step.id)
            line.takenBack.append(QStringLiteral("an earlier confirmation (event %1) was taken back %2 by %3: %4")
                                      .arg(t.event).arg(clock(t.at), t.who, t.why.isEmpty() ? QStringLiteral("no reason given") : t.why));
    QList<qint64> events;
    for (const qint64 event : {p.event, p.startEvent})
        if (event != 0 && !events.contains(event)) events.append(event);
    const auto column = [](const char* field, const QString& value) {
        return RecordEntry{QString::fromLatin1(field), value, {}, QString::fromLatin1(field), 0, {}};
    };
    addCorrections(line.entries, s.corrections, events,
                   {column("begun", line.begun), column("ended", line.ended), column("who", line.who)}, c);
}

/// What must hold before hands go in, for those who work from paper.
QString beforehand(const PlannedStep& planned) {
    QStringList out;
    const StepTemplate& step = planned.step;
    if (step.power == Power::Off || step.power == Power::Isolated) out += QStringLiteral("power %1").arg(word(step.power));
    if (!step.protection.isEmpty()) {
        QStringList worn = step.protection;
        worn.replaceInStrings(QStringLiteral("-"), QStringLiteral(" "));
        out += QStringLiteral("wear %1").arg(worn.join(QStringLiteral(", ")));
    }
    if (step.people > 1) out += QStringLiteral("%1 people").arg(step.people);
    if (step.external) out += QStringLiteral("before the printer stops");
    if (!step.handsOn()) out += QStringLiteral("waiting");
    return out.join(QStringLiteral("; "));
}

QStringList toFill(const PlannedStep& planned) {
    QStringList out;
    const auto& confirm = planned.step.confirm;
    for (qsizetype i = 0; i < confirm.scans.size(); ++i) {
        const QString expected = planned.expectedScans.value(i);
        out.append(wording::scanned(confirm.scans[i].target) +
                   (expected.isEmpty() ? QString() : QStringLiteral(", expected %1").arg(expected)));
    }
    for (const AnswerWanted& a : confirm.answers) {
        const QString must = !a.mustBe ? QString() : *a.mustBe ? QStringLiteral(" (must be yes)") : QStringLiteral(" (must be no)");
        out.append(QStringLiteral("%1 yes / no%2").arg(a.question, must));
    }
    for (const ReadingWanted& r : confirm.readings)
        for (int i = 0; i < r.times; ++i)
            out.append(QStringLiteral("%1, %2%3").arg(r.name, wording::limits(r),
                                                      r.instrument.isEmpty() ? QString() : QStringLiteral(", with %1").arg(r.instrument)));
    if (planned.step.onlyBelow)
        out.append(QStringLiteral("%1 measured, at or below %2").arg(wording::sensor(planned.step.measuredAt),
                                                                     wording::celsius(*planned.step.onlyBelow)));
    return out;
}

} // namespace

QString overrideText(const Catalogue& catalogue, const act::Override& o, const QString& who) {
    const QString reason = o.reason.isEmpty() ? QStringLiteral("no reason given") : QStringLiteral("reason: %1").arg(o.reason);
    // The second person has not signed in: that they agree is what the first one says.
    return o.approver.isEmpty() ? reason + QStringLiteral("; not approved by a second person")
                                : reason + QStringLiteral("; approved by %1, as %2 states").arg(wording::person(catalogue, o.approver), who);
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

QList<RecordStep> blankStepLines(const Changeover& changeover) {
    QList<RecordStep> out;
    int number = 0;
    for (const PlannedStep& planned : changeover.steps) {
        RecordStep line = plannedLine(planned, ++number);
        line.toFill = toFill(planned);
        line.before = beforehand(planned);
        out.append(line);
    }
    return out;
}

QList<RecordLine> calibrationLines(const Catalogue& catalogue, const SessionState& session) {
    QList<RecordLine> out;
    for (const PlannedStep& planned : session.changeover.steps) {
        const StepProgress& p = session.progress(planned.step.id);
        if (p.state != StepState::Done || planned.step.effect != Effect::Align) continue;
        QList<RecordEntry> entries = entriesOf(catalogue, planned, p);
        addCorrections(entries, session.corrections, {p.event}, {}, catalogue);
        for (const RecordEntry& e : entries) {
            const bool reading = e.kind == RecordEntry::Reading && std::any_of(p.confirmed.readings.begin(), p.confirmed.readings.end(),
                                             [&](const act::ReadingDone& r) { return e.field.startsWith(r.name); });
            if (!reading) continue;
            // The result is what holds now; the step's row shows the original beside its correction.
            const QString value = e.corrections.isEmpty() ? e.value : QStringLiteral("%1 (corrected)").arg(e.corrections.last().corrected);
            out.append({e.label, e.remark.isEmpty() ? value : QStringLiteral("%1; %2").arg(value, e.remark)});
        }
    }
    return out;
}

} // namespace interlude
