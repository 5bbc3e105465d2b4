// Readings that must be taken (again) now, and waits that may start.

#include "model/session/freshness.h"

#include "model/session/evidence.h"
#include "model/session/guide.h"
#include "model/session/work.h"

#include <algorithm>

namespace interlude {

namespace {

/// Whether this break, by its index, came after the reading, whose moment is in the present clock. A reading taken during a
/// break does not outlast it; a jump of the clock has no "during".
bool isAfter(const SessionState& session, qsizetype interruption, const SensorReading& reading, Instant now) {
    const Interruption& i = session.interruptions[interruption];
    const Instant to = endInPresentClock(session, interruption).value_or(now);
    const bool ordered = reading.event > 0 && i.event > 0;
    if (ordered && reading.event < i.event) return true;
    if (i.cause == QStringLiteral("clock")) return !ordered && reading.at <= std::max(to, i.from);
    return reading.at < to;
}

bool isLong(const Interruption& i, Instant now) {
    return lengthOf(i, now) > longBreak;
}

bool interruptedSince(const SessionState& session, const SensorReading& reading, Instant now) {
    for (qsizetype i = 0; i < session.interruptions.size(); ++i)
        if (isLong(session.interruptions[i], now) && isAfter(session, i, reading, now)) return true;
    return false;
}

} // namespace

Milliseconds lengthOf(const Interruption& i, Instant now) {
    return std::chrono::abs(i.to.value_or(now) - i.from);
}

const Interruption* breakWithoutReading(const SessionState& session, const StepId& step, Instant now) {
    const PlannedStep* s = session.changeover.step(step);
    if (!s || !s->step.onlyBelow || session.settled(step)) return nullptr;
    const StepProgress& p = session.progress(step);
    QList<SensorReading> readings;
    for (const SensorReading& r : allReadings(session))
        if (r.sensor == s->step.measuredAt) readings.append(r);
    const Interruption* longest = nullptr;
    for (qsizetype index = 0; index < session.interruptions.size(); ++index) {
        const Interruption& i = session.interruptions[index];
        if (!isLong(i, now) || (longest && lengthOf(i, now) <= lengthOf(*longest, now))) continue;
        const Instant end = endInPresentClock(session, index).value_or(now);
        const bool fellIn = p.started && inPresentClock(session, *p.started, p.startEvent) <= end;
        const auto before = [&](const SensorReading& r) { return isAfter(session, index, r, now); };
        if (!std::all_of(readings.begin(), readings.end(), before)) continue; // taken again since
        if (fellIn || !readings.isEmpty()) longest = &i;
    }
    return longest;
}

bool needsFreshReading(const SessionState& session, const StepId& step, Instant now) {
    const PlannedStep* s = session.changeover.step(step);
    if (!s || !s->step.onlyBelow || session.settled(step)) return false;
    for (const SensorReading& r : allReadings(session)) {
        if (r.sensor != s->step.measuredAt) continue;
        if (r.at <= now && now - r.at <= readingFreshFor && !interruptedSince(session, r, now)) return false;
    }
    return true;
}

QStringList startableWaits(const Shop& shop, const SessionState& session) {
    QStringList out;
    if (session.phase != SessionPhase::Open) return out;
    const PrinterNow* printer = shop.printer(session.printer);
    const bool printing = printer && printer->activity == Activity::Printing;
    for (const PlannedStep& s : session.changeover.steps)
        if (!s.step.handsOn() && (!printing || s.step.external) &&
            session.progress(s.step.id).state == StepState::Pending && isFree(session, s))
            out.append(s.step.id);
    return out;
}

} // namespace interlude
