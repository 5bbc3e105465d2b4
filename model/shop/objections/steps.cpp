// What may be done with one step of an open session.

#include "model/changeover/wait_target.h"
#include "model/shop/objections/asking.h"
#include "model/shop/present_clock.h"

#include <algorithm>

namespace interlude {

namespace {

constexpr Milliseconds freshFor = Seconds(60);

/// The step, ready to be worked on: not settled, everything before it settled, the printer standing unless external.
const PlannedStep* readyStep(Asking& a, const SessionState& s, const StepId& id) {
    const PlannedStep* step = s.changeover.step(id);
    if (!step) {
        a.refuse("unknown-id", QStringLiteral("Session %1 has no step %2").arg(s.number).arg(id), {}, id);
        return nullptr;
    }
    if (s.settled(id)) {
        a.refuse("step-done", QStringLiteral("`%1` is done already").arg(step->step.title),
                 QStringLiteral("take it back, or record a correction"), id);
        return nullptr;
    }
    for (const StepId& before : step->after)
        if (!s.settled(before)) {
            const PlannedStep* b = s.changeover.step(before);
            a.refuse("step-order",
                     QStringLiteral("`%1` comes before `%2`").arg(b ? b->step.title : before, step->step.title),
                     QStringLiteral("do that first"), id);
        }
    const PrinterNow* p = a.shop.printer(s.printer);
    if (p && p->activity == Activity::Printing && !step->step.external && !s.doneStep(Effect::StartPrint))
        a.refuse("printing", QStringLiteral("%1 is still printing").arg(a.named(p->id)),
                 QStringLiteral("only what can be done beside the print may be confirmed now"), id);
    if (const Instant began = inPresentClock(s, s.started, s.firstEvent); a.statedBefore(began))
        a.refuse("when", QStringLiteral("The session began at %1").arg(a.local(began)),
                 QStringLiteral("check the time"), id);
    return step;
}

void askScans(Asking& a, const SessionState& s, const PlannedStep& step, const act::StepConfirmed& x) {
    const auto& wanted = step.step.confirm.scans;
    if (x.scans.size() > wanted.size())
        a.refuse("scan", QStringLiteral("More was scanned than this step wants"), {}, x.step);
    for (qsizetype i = 0; i < wanted.size(); ++i) {
        const Outcome<QString> id =
            acceptScan(a.shop, s, step, static_cast<int>(i), i < x.scans.size() ? x.scans[i].value : QString());
        if (!id)
            a.found.append(id.error());
    }
}

void askAnswers(Asking& a, const PlannedStep& step, const act::StepConfirmed& x) {
    const auto& wanted = step.step.confirm.answers;
    if (x.answers.size() != wanted.size())
        return a.refuse("answer",
                        QStringLiteral("%1 answers are wanted, %2 are given").arg(wanted.size()).arg(x.answers.size()),
                        QStringLiteral("answer every question"), x.step);
    for (qsizetype i = 0; i < wanted.size(); ++i)
        if (wanted[i].mustBe && x.answers[i].yes != *wanted[i].mustBe)
            a.refuse("answer",
                     QStringLiteral("`%1` must be answered with %2")
                         .arg(wanted[i].question, *wanted[i].mustBe ? QStringLiteral("yes") : QStringLiteral("no")),
                     QStringLiteral("put it right first, or report a problem"), x.step);
}

/// Whether somebody overrides that rule here; the override is asked for its reason and second person.
bool isOverridden(Asking& a, const act::StepConfirmed& x, const QString& rule, const QString& what) {
    const auto o = std::find_if(x.overrides.begin(), x.overrides.end(), [&](const act::Override& each) { return each.rule == rule; });
    if (o == x.overrides.end())
        return false;
    a.overrideHolds(*o, what);
    return true;
}

void askOneReading(Asking& a, const ReadingWanted& w, const act::ReadingDone& r, const act::StepConfirmed& x) {
    if (r.name != w.name || r.unit != w.unit)
        return a.refuse("reading",
                        QStringLiteral("%1 in %2 is wanted, not %3 in %4").arg(w.name, w.unit, r.name, r.unit),
                        QStringLiteral("give the readings in their order"), w.name);
    if (!w.instrument.isEmpty() && r.instrument.trimmed().isEmpty())
        a.refuse("reading", QStringLiteral("%1 needs the instrument it was taken with").arg(w.name),
                 QStringLiteral("scan %1").arg(w.instrument), w.name);
    a.knownInstrument(r.instrument, w.name);
    a.dated(r.at, QStringLiteral("The reading %1").arg(w.name), "readings", 1);
    const double value = static_cast<double>(r.thousandths) / 1000.0;
    if ((!w.min || value >= *w.min) && (!w.max || value <= *w.max))
        return;
    if (isOverridden(a, x, QStringLiteral("reading-limits"), QStringLiteral("A reading outside its limits")))
        return;
    const QString least = w.min ? QString::number(*w.min) : QStringLiteral("any"),
                  most = w.max ? QString::number(*w.max) : QStringLiteral("any");
    a.refuse("reading-limits",
             QStringLiteral("%1 is %2 %3, outside %4 to %5").arg(w.name).arg(value).arg(w.unit, least, most),
             QStringLiteral("adjust and read again, or override with a reason"), w.name, true);
}

void askReadings(Asking& a, const PlannedStep& step, const act::StepConfirmed& x) {
    QList<ReadingWanted> wanted;
    for (const ReadingWanted& w : step.step.confirm.readings)
        for (int i = 0; i < std::max(1, w.times); ++i)
            wanted.append(w);
    if (x.readings.size() != wanted.size())
        return a.refuse(
            "reading", QStringLiteral("%1 readings are wanted, %2 are given").arg(wanted.size()).arg(x.readings.size()),
            QStringLiteral("take every reading"), x.step);
    for (qsizetype i = 0; i < wanted.size(); ++i)
        askOneReading(a, wanted[i], x.readings[i], x);
}

/// A step that wants a measured temperature closes only on one taken now, after any long interruption.
void askMeasured(Asking& a, const SessionState& s, const PlannedStep& step, const act::StepConfirmed& x) {
    if (!step.step.onlyBelow)
        return;
    const QString limit = QString::number(step.step.onlyBelow->celsius());
    if (!x.measured)
        return a.refuse("measure", QStringLiteral("`%1` wants a measured temperature").arg(step.step.title),
                        QStringLiteral("measure: at most %1 °C").arg(limit), x.step);
    if (*x.measured > *step.step.onlyBelow)
        a.refuse("measure", QStringLiteral("%1 °C is above %2 °C").arg(QString::number(x.measured->celsius()), limit),
                 QStringLiteral("wait and measure again"), x.step);
    if (s.enteredLate)
        return; // taken from a paper checklist, and marked so
    if (x.enteredLate || a.happened < a.now - freshFor)
        a.refuse("measure", QStringLiteral("`%1` cannot be entered late").arg(step.step.title),
                 QStringLiteral("measure now"), x.step);
    if (!x.measuredAt)
        return a.refuse("measure", QStringLiteral("When it was measured is missing"), QStringLiteral("measure now"),
                        x.step);
    if (a.now - *x.measuredAt > freshFor)
        a.refuse("measure", QStringLiteral("The reading is older than 60 s"), QStringLiteral("measure again"), x.step);
    if (*x.measuredAt > a.now + Seconds(5))
        a.refuse("measure", QStringLiteral("The reading lies in the future"), QStringLiteral("measure again"), x.step);
    for (qsizetype i = 0; i < s.interruptions.size(); ++i) {
        const Interruption& each = s.interruptions[i];
        if (each.to && std::chrono::abs(*each.to - each.from) > freshFor && *x.measuredAt < *endInPresentClock(s, i))
            return a.refuse("measure", QStringLiteral("The work was interrupted since that reading"),
                            QStringLiteral("measure again"), x.step);
    }
}

/// A wait for a temperature does not end against a reading of it that is still fresh: cooled that is not above the target,
/// heated that is not below it by more than a controller swings.
void askReached(Asking& a, const SessionState& s, const PlannedStep& step, const act::StepConfirmed& x) {
    constexpr double swing = 2.0; // K; common practice, no source
    const bool cooling = step.step.duration == DurationKind::Cool;
    if (s.enteredLate || step.step.handsOn() || step.step.onlyBelow || (!cooling && step.step.duration != DurationKind::Heat)) return;
    const std::optional<Temperature> target = waitTarget(step);
    const SensorReading* last = nullptr;
    for (const SensorReading& r : s.readings)
        if (r.sensor == sensorOf(step.step.subject) && r.event > s.progress(step.step.id).startEvent) last = &r;
    if (!target || !last || a.happened - inPresentClock(s, last->at, last->event) > freshFor) return;
    const double beyond = last->value.celsius() - target->celsius();
    if (cooling ? beyond <= 0 : beyond >= -swing) return;
    if (isOverridden(a, x, QStringLiteral("wait-not-over"), QStringLiteral("A wait that the last reading says is not over"))) return;
    a.refuse("wait-not-over",
             QStringLiteral("The last reading, %1 °C at %2, is %3 %4 °C")
                 .arg(QString::number(last->value.celsius()), a.local(last->at), cooling ? QStringLiteral("above") : QStringLiteral("below"),
                      QString::number(target->celsius())),
             QStringLiteral("read it again; or override with a reason"), x.step, true);
}

QString scanOf(const PlannedStep& step, const act::StepConfirmed& x, ScanTarget target) {
    for (qsizetype i = 0; i < step.step.confirm.scans.size() && i < x.scans.size(); ++i)
        if (step.step.confirm.scans[i].target == target)
            return x.scans[i].value.trimmed();
    return {};
}

void askMountStep(Asking& a, const SessionState& s, const PrinterNow& p, Role role, const PlannedStep& step,
                  const act::StepConfirmed& x) {
    const Transition& t = s.changeover.transition;
    NozzleSerial serial = scanOf(step, x, role == Role::Part ? ScanTarget::NozzleInPart : ScanTarget::NozzleInSupport);
    for (const NozzleChange& c : t.nozzles)
        if (c.role == role && serial.isEmpty())
            serial = c.in;
    askMount(a, p, role, serial, role == Role::Part ? t.request.wanted.part : t.request.wanted.support);
    const auto n = a.shop.stock().nozzles.constFind(serial);
    if (n == a.shop.stock().nozzles.constEnd())
        return;
    if (x.useSoFar)
        a.runVolume(*x.useSoFar, n->run);
    else if (!n->run.known)
        a.refuse("use-so-far", QStringLiteral("The use so far of nozzle %1 is not known").arg(serial),
                 QStringLiteral("state it: a number, zero, or no history"), serial);
}

void askLoadStep(Asking& a, const SessionState& s, const PrinterNow& p, Role role, const PlannedStep& step,
                 const act::StepConfirmed& x) {
    SpoolId id = scanOf(step, x, role == Role::Part ? ScanTarget::SpoolInPart : ScanTarget::SpoolInSupport);
    for (const SpoolChange& c : s.changeover.transition.spools)
        if (c.role == role && id.isEmpty())
            id = c.in;
    askLoad(a, p, role, id);
}

/// What the step does must be possible as the printer is now.
void askEffect(Asking& a, const SessionState& s, const PlannedStep& step, const act::StepConfirmed& x) {
    const PrinterNow* p = a.printer(s.printer);
    if (!p)
        return;
    const auto bare = [&](Role role) {
        if (at(*p, role).nozzle.isEmpty())
            a.refuse("no-nozzle", QStringLiteral("No nozzle is mounted in the %1").arg(positionWords(role)),
                     QStringLiteral("stop the session and declare the printer's state"), p->id);
    };
    const auto canPurge = [&](Role role) {
        bare(role);
        if (at(*p, role).loaded.isEmpty())
            a.refuse("not-loaded", QStringLiteral("Nothing is loaded in the %1").arg(positionWords(role)),
                     QStringLiteral("load a spool first"), p->id);
    };
    switch (step.step.effect) {
    case Effect::RemoveNozzlePart:
        return bare(Role::Part);
    case Effect::RemoveNozzleSupport:
        return bare(Role::Support);
    case Effect::MountNozzlePart:
        return askMountStep(a, s, *p, Role::Part, step, x);
    case Effect::MountNozzleSupport:
        return askMountStep(a, s, *p, Role::Support, step, x);
    case Effect::LoadPart:
        return askLoadStep(a, s, *p, Role::Part, step, x);
    case Effect::LoadSupport:
        return askLoadStep(a, s, *p, Role::Support, step, x);
    case Effect::PurgePart:
        return canPurge(Role::Part);
    case Effect::PurgeSupport:
        return canPurge(Role::Support);
    case Effect::StartPrint: {
        const TransitionRequest& r = s.changeover.transition.request;
        if (!r.job.isEmpty())
            askPrint(a, *p, r.job, r.variant);
        return;
    }
    default:
        return;
    }
}

} // namespace

void object(Asking& a, const act::StepStarted& x) {
    const SessionState* s = a.runningSession(x.session);
    if (!s || !readyStep(a, *s, x.step))
        return;
    if (s->progress(x.step).state == StepState::Started)
        a.refuse("step-started", QStringLiteral("This step has begun already"), {}, x.step);
}

void object(Asking& a, const act::StepConfirmed& x) {
    const SessionState* s = a.runningSession(x.session);
    if (!s)
        return;
    const PlannedStep* step = readyStep(a, *s, x.step);
    if (!step)
        return;
    askScans(a, *s, *step, x);
    askAnswers(a, *step, x);
    askReadings(a, *step, x);
    askMeasured(a, *s, *step, x);
    askReached(a, *s, *step, x);
    askEffect(a, *s, *step, x);
    if (x.useSoFar && step->step.effect != Effect::MountNozzlePart && step->step.effect != Effect::MountNozzleSupport)
        a.refuse("use-so-far", QStringLiteral("This step mounts no nozzle"), {}, x.step);
}

void object(Asking& a, const act::StepSkipped& x) {
    const SessionState* s = a.runningSession(x.session);
    if (!s)
        return;
    const PlannedStep* step = readyStep(a, *s, x.step);
    if (!step)
        return;
    if (step->step.mandatory || !step->mandatoryBecause.isEmpty())
        a.overrideHolds(x.because, QStringLiteral("Skipping `%1`").arg(step->step.title));
}

} // namespace interlude
