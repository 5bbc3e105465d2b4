// The state machine of a session; what a confirmed step does to the printer is in effects.cpp.

#include "model/shop/fold/fold.h"
#include "model/shop/present_clock.h"

#include <algorithm>
#include <utility>

namespace interlude {

namespace {

QString sessionWord() {
    return QStringLiteral("session");
}

} // namespace

void Fold::touch(SessionState& s) {
    s.lastEvent = m_event.sequence;
    s.events.append(m_event.sequence);
}

void Fold::noteRuns(SessionState& s) {
    const auto note = [&](const NozzleSerial& serial) {
        const Nozzle* n = nozzle(serial);
        if (!n)
            return;
        if (!s.runBefore.contains(serial))
            s.runBefore.insert(serial, n->run);
        s.runAfter.insert(serial, n->run);
    };
    for (const NozzleChange& c : s.changeover.transition.nozzles) {
        note(c.out);
        note(c.in);
    }
    if (const PrinterNow* p = printer(s.printer)) {
        note(p->part.nozzle);
        note(p->support.nozzle);
    }
}

Fold::Trouble Fold::on(const act::SessionStarted& x) {
    PrinterNow* p = printer(x.printer);
    if (!p)
        return unknown(QStringLiteral("printer"), x.printer);
    if (session(x.session))
        return repeated(sessionWord(), QString::number(x.session));
    SessionState s;
    s.number = x.session;
    s.printer = x.printer;
    s.changeover = x.changeover;
    s.overrides = x.overrides;
    s.startedBy = m_event.who;
    s.started = m_at;
    s.enteredLate = x.enteredLate;
    s.printerBefore = *p;
    s.catalogueHash = x.changeover.catalogueHash.isEmpty() ? m_shop.m_catalogue->hash : x.changeover.catalogueHash;
    if (const auto job = m_shop.m_jobs.constFind(x.changeover.transition.request.job); job != m_shop.m_jobs.constEnd())
        s.jobThen = *job;
    s.firstEvent = m_event.sequence;
    touch(s);
    noteRuns(s);
    // External steps may go on beside a running print.
    if (p->activity != Activity::Printing)
        p->activity = Activity::InChangeover;
    m_shop.m_sessions.insert(s.number, s);
    m_shop.m_lastSession = std::max(m_shop.m_lastSession, s.number);
    return {};
}

Instant Fold::begunAt(const SessionState& s, const PlannedStep& step) const {
    // Nobody said when it began: a wait since the last step before it, work since the last thing that somebody did.
    Instant begun = inPresentClock(s, s.started, s.firstEvent);
    const auto later = [&](const std::optional<Instant>& t) {
        if (t && *t <= m_at)
            begun = std::max(begun, *t);
    };
    const auto laterThan = [&](const StepProgress& p) {
        if (p.ended)
            later(inPresentClock(s, *p.ended, p.event));
    };
    for (const StepId& id : step.after)
        laterThan(s.progress(id));
    if (step.step.handsOn()) {
        for (const PlannedStep& other : s.changeover.steps)
            if (other.step.handsOn())
                laterThan(s.progress(other.step.id));
        for (qsizetype i = 0; i < s.interruptions.size(); ++i)
            if (const QString& cause = s.interruptions[i].cause; cause == QStringLiteral("pause") || cause == QStringLiteral("hand-over"))
                later(endInPresentClock(s, i));
    }
    return std::min(begun, m_at);
}

Fold::Trouble Fold::on(const act::StepStarted& x) {
    SessionState* s = session(x.session);
    if (!s)
        return unknown(sessionWord(), QString::number(x.session));
    if (!s->changeover.step(x.step))
        return unknown(QStringLiteral("step"), x.step);
    StepProgress& progress = s->steps[x.step];
    progress.state = StepState::Started;
    if (!progress.started) {
        progress.started = m_at;
        progress.startEvent = m_event.sequence;
    }
    progress.who = m_event.who;
    touch(*s);
    return {};
}

Fold::Trouble Fold::on(const act::StepConfirmed& x) {
    SessionState* s = session(x.session);
    if (!s)
        return unknown(sessionWord(), QString::number(x.session));
    const PlannedStep* step = s->changeover.step(x.step);
    if (!step)
        return unknown(QStringLiteral("step"), x.step);
    if (!printer(s->printer))
        return unknown(QStringLiteral("printer"), s->printer);

    StepProgress& progress = s->steps[x.step];
    if (!progress.started) {
        progress.started = begunAt(*s, *step);
        progress.startEvent = m_event.sequence;
    }
    progress.state = StepState::Done;
    progress.ended = m_at;
    progress.who = m_event.who;
    progress.enteredLate = x.enteredLate || s->enteredLate;
    progress.confirmed = x;
    progress.skipped.reset();
    progress.event = m_event.sequence;
    s->confirmedOrder.append(x.step);
    touch(*s);
    if (x.measured)
        s->readings.append(SensorReading{
            step->step.measuredAt, *x.measured, x.measuredAt.value_or(m_at), m_event.who, {}, m_event.sequence});

    const Surroundings before = surroundings(*s, *step, x);
    effect(*s, *step, x);
    s->undo.append(Undo{x.step, before, surroundings(*s, *step, x)});
    noteRuns(*s);
    return {};
}

Fold::Trouble Fold::on(const act::StepSkipped& x) {
    SessionState* s = session(x.session);
    if (!s)
        return unknown(sessionWord(), QString::number(x.session));
    if (!s->changeover.step(x.step))
        return unknown(QStringLiteral("step"), x.step);
    StepProgress& progress = s->steps[x.step];
    progress.state = StepState::Skipped;
    progress.ended = m_at;
    progress.who = m_event.who;
    progress.skipped = x.because;
    progress.event = m_event.sequence;
    s->confirmedOrder.append(x.step);
    s->undo.append(Undo{x.step, {}, {}});
    touch(*s);
    return {};
}

Fold::Trouble Fold::on(const act::TakenBack& x) {
    SessionState* s = session(x.session);
    if (!s)
        return unknown(sessionWord(), QString::number(x.session));
    if (s->undo.isEmpty() || s->undo.last().step != x.step)
        return unknown(QStringLiteral("the last step"), x.step);
    const Surroundings before = s->undo.takeLast().before;
    if (!before.printer.id.isEmpty())
        m_shop.m_printers.insert(before.printer.id, before.printer);
    for (const Spool& spool : before.spools)
        m_shop.m_stock.spools.insert(spool.id, spool);
    for (const Nozzle& nozzle : before.nozzles)
        m_shop.m_stock.nozzles.insert(nozzle.serial, nozzle);
    for (const Job& job : before.jobs)
        m_shop.m_jobs.insert(job.id, job);

    StepProgress& progress = s->steps[x.step];
    m_shop.m_prints.remove(progress.event); // of a print that this step had started
    s->takenBack.append(TakenBackStep{x.step, x.why, m_event.who, m_at, progress.event});
    // Its clock goes on from the original start.
    const StepProgress taken = std::exchange(progress, StepProgress());
    progress.started = taken.started;
    progress.startEvent = taken.startEvent;
    progress.state = taken.started ? StepState::Started : StepState::Pending;
    s->confirmedOrder.removeLast();
    touch(*s);
    noteRuns(*s);
    return {};
}

Fold::Trouble Fold::on(const act::TemperatureRead& x) {
    SessionState* s = session(x.session);
    if (!s)
        return unknown(sessionWord(), QString::number(x.session));
    s->readings.append(SensorReading{x.sensor, x.value, m_at, m_event.who, x.instrument, m_event.sequence});
    touch(*s);
    return {};
}

Fold::Trouble Fold::on(const act::SessionPaused& x) {
    SessionState* s = session(x.session);
    if (!s)
        return unknown(sessionWord(), QString::number(x.session));
    Interruption i;
    i.from = m_at;
    i.note = x.note;
    i.who = m_event.who;
    i.handOver = x.handOver;
    i.event = m_event.sequence;
    i.cause = x.handOver ? QStringLiteral("hand-over") : QStringLiteral("pause");
    s->interruptions.append(i);
    s->phase = SessionPhase::Paused;
    touch(*s);
    return {};
}

Fold::Trouble Fold::on(const act::SessionResumed& x) {
    SessionState* s = session(x.session);
    if (!s)
        return unknown(sessionWord(), QString::number(x.session));
    for (Interruption& i : s->interruptions) {
        if (i.to)
            continue;
        i.to = m_at;
        i.by = m_event.who;
        i.mounted = x.mounted;
    }
    s->phase = SessionPhase::Open;
    touch(*s);
    return {};
}

Fold::Trouble Fold::on(const act::Corrected& x) {
    SessionState* s = session(x.session);
    if (!s)
        return unknown(sessionWord(), QString::number(x.session));
    s->corrections.append(Correction{x, m_event.who, m_at, m_event.sequence});
    touch(*s);
    return {};
}

Fold::Trouble Fold::on(const act::ProblemReported& x) {
    SessionState* s = session(x.session);
    if (!s)
        return unknown(sessionWord(), QString::number(x.session));
    s->problems.append(ProblemNote{x, m_event.who, m_at});
    touch(*s);
    return {};
}

void Fold::close(SessionState& s, SessionPhase phase) {
    s.phase = phase;
    s.ended = m_at;
    s.closedBy = m_event.who;
    touch(s);
    s.undo.clear();
    for (Interruption& i : s.interruptions)
        if (!i.to)
            i.to = m_at;
    noteRuns(s);
    PrinterNow* p = printer(s.printer);
    if (!p)
        return;
    if (!s.doneStep(Effect::StartPrint))
        p->open = s.leavesMixed() || (p->open && phase == SessionPhase::Stopped);
    if (p->activity == Activity::InChangeover)
        p->activity = restingActivity(*p);
}

Fold::Trouble Fold::on(const act::SessionStopped& x) {
    SessionState* s = session(x.session);
    if (!s)
        return unknown(sessionWord(), QString::number(x.session));
    s->closingNote = x.why;
    close(*s, SessionPhase::Stopped);
    return {};
}

Fold::Trouble Fold::on(const act::SessionFinished& x) {
    SessionState* s = session(x.session);
    if (!s)
        return unknown(sessionWord(), QString::number(x.session));
    s->disposition = x.disposition;
    s->closingNote = x.note;
    close(*s, SessionPhase::Finished);
    return {};
}

Fold::Trouble Fold::on(const act::RecordIssued& x) {
    SessionState* s = session(x.session);
    if (!s)
        return unknown(sessionWord(), QString::number(x.session));
    s->revision = x.revision;
    s->revisionEvent = m_event.sequence;
    touch(*s);
    return {};
}

} // namespace interlude
