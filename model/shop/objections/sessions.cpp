#include "model/shop/objections/asking.h"

#include "model/shop/take_back.h"

#include <QRegularExpression>

#include <algorithm>

namespace interlude {

namespace {

/// What this printer's chamber or head can be heated to; empty where nothing says so.
std::optional<Temperature> reachedAtMost(const Asking& a, const SessionState& s, Sensor sensor) {
    const PrinterType* type = a.shop.catalogue().typeOf(s.printer);
    if (!type || sensor == Sensor::Platform) return std::nullopt;
    return sensor == Sensor::Chamber ? type->chamberMax : type->nozzleMax;
}

/// The changeover was computed from how the printer is dressed now; otherwise it would do the wrong things.
bool sameDress(const PrinterNow& then, const PrinterNow& now) {
    return then.part == now.part && then.support == now.support && then.residue == now.residue &&
           then.wiper == now.wiper && then.platformCover == now.platformCover && then.label == now.label;
}

void askReserved(Asking& a, const Changeover& c) {
    for (const NozzleChange& n : c.transition.nozzles)
        if (const SessionState* s = n.exchange ? reservedBy(a.shop, n.in, 0) : nullptr)
            a.refuse("reserved", QStringLiteral("Nozzle %1 is chosen for session %2").arg(n.in).arg(s->number),
                     QStringLiteral("choose another"), n.in);
    for (const SpoolChange& n : c.transition.spools)
        if (const SessionState* s = n.load ? reservedBy(a.shop, n.in, 0) : nullptr)
            a.refuse("reserved", QStringLiteral("Spool %1 is chosen for session %2").arg(n.in).arg(s->number),
                     QStringLiteral("choose another"), n.in);
}

void askVerdicts(Asking& a, const act::SessionStarted& x) {
    for (const Finding& f : refusalsIn(x.changeover.transition.verdicts)) {
        const auto o = std::find_if(x.overrides.begin(), x.overrides.end(),
                                    [&](const act::Override& each) { return each.rule == f.rule; });
        if (!f.overridable || o == x.overrides.end())
            a.found.append(f);
        else
            a.overrideHolds(*o, QStringLiteral("Going on in spite of `%1`").arg(f.rule));
    }
}

} // namespace

void object(Asking& a, const act::SessionStarted& x) {
    const PrinterNow* p = a.printer(x.printer);
    if (!p)
        return;
    if (x.session != a.shop.nextSession())
        a.refuse("session-number",
                 QStringLiteral("The next session is %1, not %2").arg(a.shop.nextSession()).arg(x.session));
    if (const SessionState* s = a.shop.openSession(x.printer))
        a.refuse("open-session", QStringLiteral("Session %1 is open on %2").arg(s->number).arg(a.named(x.printer)),
                 QStringLiteral("finish or stop it first"), x.printer);
    if (p->activity == Activity::Down)
        a.refuse("down", QStringLiteral("%1 is down: %2").arg(a.named(p->id), p->downWhy),
                 QStringLiteral("end the downtime first"), p->id);
    const TransitionRequest& r = x.changeover.transition.request;
    if (x.changeover.steps.isEmpty())
        a.refuse("changeover", QStringLiteral("The changeover has no steps"),
                 QStringLiteral("look at procedures.yaml"));
    if (r.now.id != x.printer)
        a.refuse("changeover", QStringLiteral("The changeover is for %1, not for %2").arg(a.named(r.now.id), a.named(x.printer)));
    else if (!sameDress(r.now, *p))
        a.refuse("changeover-stale", QStringLiteral("%1 has changed since the changeover was computed").arg(a.named(x.printer)),
                 QStringLiteral("compute it again"), x.printer);
    if (!x.changeover.catalogueHash.isEmpty() && x.changeover.catalogueHash != a.shop.catalogue().hash)
        a.refuse("changeover-stale",
                 QStringLiteral("The fleet folder was read again since the changeover was computed"),
                 QStringLiteral("compute it again"), x.printer);
    if (!r.job.isEmpty()) {
        const Job* j = a.job(r.job);
        if (j && j->state != JobState::Open && j->state != JobState::Failed)
            a.refuse("job-closed", QStringLiteral("Job %1 is not open").arg(r.job),
                     QStringLiteral("choose an open job"), r.job);
        if (const SessionState* s = sessionOfJob(a.shop, r.job))
            a.refuse(
                "open-session",
                QStringLiteral("Session %1 on %2 prepares job %3").arg(QString::number(s->number), a.named(s->printer), r.job),
                QStringLiteral("choose another job"), r.job);
    }
    askVerdicts(a, x);
    askReserved(a, x.changeover);
}

void object(Asking& a, const act::TemperatureRead& x) {
    const SessionState* s = a.runningSession(x.session);
    if (x.value.celsius() < -40 || x.value.celsius() > 600)
        a.refuse("implausible", QStringLiteral("%1 °C is no temperature of a printer").arg(x.value.celsius()),
                 QStringLiteral("read again, in °C"));
    // Ten degrees: a controller overshoots, and sensors differ. Common practice, no source.
    const auto most = s ? reachedAtMost(a, *s, x.sensor) : std::nullopt;
    if (most && x.value.celsius() > most->celsius() + 10)
        a.warn("implausible",
               QStringLiteral("%1 °C is more than the %2 of %3 reaches, %4 °C")
                   .arg(x.value.celsius())
                   .arg(x.sensor == Sensor::Chamber ? QStringLiteral("chamber") : QStringLiteral("head"), a.named(s->printer))
                   .arg(most->celsius()),
               QStringLiteral("read again: the newest reading counts"));
    a.knownInstrument(x.instrument, QStringLiteral("the temperature"));
}

void object(Asking& a, const act::SessionPaused& x) {
    if (!a.runningSession(x.session))
        return;
    if (x.handOver)
        a.stated(x.note, QStringLiteral("The note for whoever takes over"), "note");
}

void object(Asking& a, const act::SessionResumed& x) {
    const SessionState* s = a.session(x.session);
    if (!s)
        return;
    if (s->phase != SessionPhase::Paused)
        return a.refuse("not-paused", QStringLiteral("Session %1 is not paused").arg(x.session));
    const PrinterNow* p = a.shop.printer(s->printer);
    if (!p)
        return;
    const bool incoming =
        !s->interruptions.isEmpty() && (s->interruptions.last().handOver || s->interruptions.last().who != a.who);
    for (const Role role : {Role::Part, Role::Support}) {
        const NozzleSerial mounted = at(*p, role).nozzle;
        const QString key = role == Role::Part ? QStringLiteral("part") : QStringLiteral("support");
        if (x.mounted.contains(key) && x.mounted.value(key).trimmed() != mounted)
            a.refuse("mounted",
                     QStringLiteral("In the %1 is %2 on record, not %3")
                         .arg(positionWords(role), mounted.isEmpty() ? QStringLiteral("no nozzle") : mounted,
                              x.mounted.value(key)),
                     QStringLiteral("look again; if it is so, stop the session and declare the printer's state"), key);
        else if (incoming && !mounted.isEmpty() && !x.mounted.contains(key))
            a.refuse("mounted",
                     QStringLiteral("Whoever takes over confirms what is mounted in the %1").arg(positionWords(role)),
                     QStringLiteral("scan the nozzle there"), key);
    }
}

void object(Asking& a, const act::TakenBack& x) {
    const SessionState* s = a.runningSession(x.session);
    if (!s)
        return;
    const Outcome<StepId> step = takeBackable(a.shop, *s);
    if (!step)
        a.found.append(step.error());
    else if (*step != x.step)
        a.refuse("take-back", QStringLiteral("Only the last confirmation, `%1`, can be taken back").arg(*step),
                 QStringLiteral("record a correction instead"), x.step);
}

void object(Asking& a, const act::Corrected& x) {
    const SessionState* s = a.session(x.session);
    if (!s)
        return;
    a.stated(x.reason, QStringLiteral("The reason of the correction"), "reason");
    a.stated(x.field, QStringLiteral("What is corrected"), "field");
    if (!s->events.contains(x.event))
        a.refuse("unknown-id", QStringLiteral("Event %1 is not one of session %2").arg(x.event).arg(x.session),
                 QStringLiteral("choose what is to be corrected"), QString::number(x.event));
    if (x.original == x.corrected)
        a.refuse("correction", QStringLiteral("The correction changes nothing"), {}, x.field);
}

void object(Asking& a, const act::ProblemReported& x) {
    const SessionState* s = a.session(x.session);
    if (!s)
        return;
    if (!s->isOpen())
        a.refuse("session-closed", QStringLiteral("Session %1 is closed").arg(x.session));
    if (!x.step.isEmpty() && !s->changeover.step(x.step))
        a.refuse("unknown-id", QStringLiteral("Session %1 has no step %2").arg(x.session).arg(x.step), {}, x.step);
    a.stated(x.note, QStringLiteral("What the problem is"), "note");
    static const QRegularExpression sum(QStringLiteral("^[0-9a-f]{64}$"));
    for (const QString& photo : x.photos)
        if (!sum.match(photo).hasMatch() || x.photos.count(photo) > 1)
            a.refuse("photo", QStringLiteral("A photo is named by its SHA-256, each once"), {}, photo);
}

void object(Asking& a, const act::SessionStopped& x) {
    const SessionState* s = a.session(x.session);
    if (!s)
        return;
    if (!s->isOpen())
        a.refuse("session-closed", QStringLiteral("Session %1 is closed").arg(x.session));
    a.stated(x.why, QStringLiteral("Why the session is stopped"), "why");
}

void object(Asking& a, const act::SessionFinished& x) {
    const SessionState* s = a.runningSession(x.session);
    if (!s)
        return;
    for (const PlannedStep& step : s->changeover.steps)
        if (!s->settled(step.step.id))
            return a.refuse("steps-left", QStringLiteral("Step `%1` is not done").arg(step.step.title),
                            QStringLiteral("confirm it, skip it with a reason, or stop the session"), step.step.id);
}

void object(Asking& a, const act::RecordIssued& x) {
    const SessionState* s = a.session(x.session);
    if (!s)
        return;
    if (x.revision < 1 || x.revision < s->revision)
        a.refuse("revision", QStringLiteral("Revision %1 has been issued already").arg(s->revision));
    a.stated(x.sha256, QStringLiteral("The record's SHA-256"), "sha256");
}

} // namespace interlude
