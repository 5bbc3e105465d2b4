#include "model/session/evidence.h"

#include <algorithm>

namespace interlude {

namespace {

constexpr Milliseconds grace{60000};

Instant startOf(const SessionState& session, const StepProgress& p) {
    return inPresentClock(session, *p.started, p.startEvent);
}

/// The head that a prediction of this subject follows: the chamber's is the part head, which is always there.
Sensor headOf(Subject subject) {
    return sensorOf(subject) == Sensor::SupportHead ? Sensor::SupportHead : Sensor::Head;
}

bool wasBegun(const StepProgress& p) {
    return p.started && (p.state == StepState::Started || p.state == StepState::Done);
}

/// Start of the last heating of the subject before `before`, if any.
std::optional<Instant> lastHeating(const SessionState& session, Subject subject, Instant before) {
    std::optional<Instant> last;
    for (const PlannedStep& s : session.changeover.steps) {
        const StepProgress& p = session.progress(s.step.id);
        if (s.step.duration != DurationKind::Heat || s.step.subject != subject || !wasBegun(p)) continue;
        const Instant at = startOf(session, p);
        if (at <= before && (!last || at > *last)) last = at;
    }
    return last;
}

/// When the heater of the subject went off for the cooling that runs at `before`.
std::optional<Instant> heaterOff(const SessionState& session, Subject subject, Instant before) {
    const std::optional<Instant> heated = lastHeating(session, subject, before);
    std::optional<Instant> first;
    for (const PlannedStep& s : session.changeover.steps) {
        const StepProgress& p = session.progress(s.step.id);
        if (s.step.duration != DurationKind::Cool || s.step.subject != subject || !wasBegun(p)) continue;
        const Instant at = startOf(session, p);
        if (at <= before && (!heated || at > *heated) && (!first || at < *first)) first = at;
    }
    return first;
}

/// The set-point at the start of a step: what the printer had before the session, or what heating steps begun since ask
/// for. Of a heating that is not done the hotter of the two, so that a prediction is never too short.
std::optional<double> setPoint(const SessionState& session, const PlannedStep& step, bool chamber, Instant at) {
    std::optional<double> set;
    const PrinterNow& before = session.printerBefore;
    const std::optional<Temperature>& had = chamber ? before.chamberSet : before.nozzleSet;
    // After long idleness the last set-points say nothing.
    if (had && !session.changeover.transition.has(fact::longIdle)) set = had->celsius();
    for (const PlannedStep& s : session.changeover.steps) {
        const StepProgress& p = session.progress(s.step.id);
        const Sensor wanted = chamber ? Sensor::Chamber : headOf(step.step.subject);
        if (s.step.duration != DurationKind::Heat || sensorOf(s.step.subject) != wanted) continue;
        if (s.step.id == step.step.id || !s.target || !wasBegun(p) || startOf(session, p) > at) continue;
        const double target = s.target->celsius();
        set = p.state == StepState::Done && chamber ? target : std::max(set.value_or(target), target);
    }
    return set;
}

/// What the body had before this heating, if somebody knows: the end of its last cooling, or the set-point that nothing in
/// this session took away.
std::optional<double> heldBefore(const SessionState& session, const PlannedStep& step, Instant at) {
    const Subject subject = step.step.subject;
    if (sensorOf(subject) == Sensor::Platform) return {};
    std::optional<double> held = setPoint(session, step, sensorOf(subject) == Sensor::Chamber, at);
    const bool cooled = heaterOff(session, subject, at).has_value();
    for (const PlannedStep& s : session.changeover.steps) {
        const StepProgress& p = session.progress(s.step.id);
        if (!wasBegun(p) || startOf(session, p) > at) continue;
        if (s.step.power == Power::Off || s.step.power == Power::Isolated) return {};
        if (cooled && s.step.duration == DurationKind::Cool && s.step.subject == subject && s.target)
            held = std::min(held.value_or(s.target->celsius()), s.target->celsius());
    }
    return held;
}

} // namespace

QList<SensorReading> allReadings(const SessionState& session) {
    QList<SensorReading> all;
    for (SensorReading r : session.readings) {
        r.at = inPresentClock(session, r.at, r.event);
        all.append(r);
    }
    std::stable_sort(all.begin(), all.end(), [](const SensorReading& a, const SensorReading& b) { return a.at < b.at; });
    return all;
}

Evidence evidenceFor(const SessionState& session, const PlannedStep& step, Instant now) {
    const Instant started = startOf(session, session.progress(step.step.id));
    Evidence out;
    out.from = started;
    Instant chamberFrom = started;
    if (step.step.duration == DurationKind::Cool) {
        out.from = heaterOff(session, step.step.subject, started).value_or(started);
        // The chamber may have been cooling, and been read, for longer than the head.
        chamberFrom = std::min(out.from, heaterOff(session, Subject::Chamber, out.from).value_or(out.from));
    }
    out.chamberSet = setPoint(session, step, true, out.from);
    out.headSet = setPoint(session, step, false, out.from);
    if (step.step.duration == DurationKind::Heat) out.heldBefore = heldBefore(session, step, out.from);
    for (SensorReading r : allReadings(session)) {
        const Instant since = r.sensor == Sensor::Chamber ? chamberFrom : out.from;
        if (r.at > now || r.at < since - grace) continue;
        r.at = std::max(r.at, out.from);
        out.readings.append(r);
    }
    return out;
}

} // namespace interlude
