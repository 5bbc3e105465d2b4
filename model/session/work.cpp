#include "model/session/work.h"

#include <QSet>

#include <algorithm>

namespace interlude {

namespace {

bool isFreeGiven(const PlannedStep& step, const QSet<StepId>& over) {
    return std::all_of(step.after.begin(), step.after.end(), [&](const StepId& id) { return over.contains(id); });
}

QSet<StepId> settledSteps(const SessionState& session) {
    QSet<StepId> over;
    for (const PlannedStep& s : session.changeover.steps)
        if (session.settled(s.step.id)) over.insert(s.step.id);
    return over;
}

/// One team and a printer, replayed from one end of a step to the next.
class Replay {
public:
    Replay(const SessionState& session, const RunningEnds& ends, Instant now, Instant printerStands)
        : m_session(session), m_ends(ends), m_now(now), m_stands(printerStands), m_over(settledSteps(session)) {
        for (const PlannedStep& s : session.changeover.steps)
            if (!m_over.contains(s.step.id)) m_left.append(&s);
    }

    Instant finish() {
        while (!m_left.isEmpty() || !m_running.isEmpty()) {
            startWhatMay();
            if (m_running.isEmpty()) {
                if (m_now >= m_stands) break; // only steps that wait for each other are left: a folder's fault
                m_now = m_stands;
                continue;
            }
            endEarliest();
        }
        return m_now;
    }

private:
    bool mayStart(const PlannedStep& s) const {
        return isFreeGiven(s, m_over) && (s.step.external || m_now >= m_stands);
    }
    void start(const PlannedStep* s) {
        const bool begun = m_session.progress(s->step.id).state == StepState::Started;
        const Instant end = begun && m_ends.contains(s->step.id) ? m_ends.value(s->step.id) : m_now + s->planned;
        m_running.insert(s->step.id, std::max(m_now, end));
        m_left.removeOne(s);
    }
    bool teamIsBusy() const {
        for (auto it = m_running.keyBegin(); it != m_running.keyEnd(); ++it) {
            const PlannedStep* s = m_session.changeover.step(*it);
            if (s && s->step.handsOn()) return true;
        }
        return false;
    }
    void startWhatMay() {
        const QList<const PlannedStep*> candidates = m_left;
        for (const PlannedStep* s : candidates) {
            const bool begun = m_session.progress(s->step.id).state == StepState::Started;
            if (begun || (!s->step.handsOn() && mayStart(*s))) start(s);
        }
        for (const PlannedStep* s : candidates)
            if (s->step.handsOn() && m_left.contains(s) && mayStart(*s) && !teamIsBusy()) start(s);
    }
    void endEarliest() {
        auto earliest = m_running.begin();
        for (auto it = m_running.begin(); it != m_running.end(); ++it)
            if (*it < *earliest) earliest = it;
        // The printer may stand before that, which lets internal work begin.
        if (m_now < m_stands && m_stands < *earliest) {
            m_now = m_stands;
            return;
        }
        m_now = *earliest;
        m_over.insert(earliest.key());
        m_running.erase(earliest);
    }

    const SessionState& m_session;
    const RunningEnds& m_ends;
    Instant m_now, m_stands;
    QSet<StepId> m_over;
    QList<const PlannedStep*> m_left;
    QMap<StepId, Instant> m_running;
};

} // namespace

bool isFree(const SessionState& session, const PlannedStep& step) {
    return std::all_of(step.after.begin(), step.after.end(),
                       [&](const StepId& id) { return session.settled(id); });
}

const PlannedStep* currentStep(const SessionState& session, bool printing) {
    const PlannedStep* first = nullptr;
    for (const PlannedStep& s : session.changeover.steps) {
        if (!s.step.handsOn() || session.settled(s.step.id) || (printing && !s.step.external)) continue;
        if (!isFree(session, s)) continue;
        if (session.progress(s.step.id).state == StepState::Started) return &s;
        if (!first) first = &s;
    }
    return first;
}

const PlannedStep* nextStep(const SessionState& session, const PlannedStep* current) {
    QSet<StepId> over = settledSteps(session);
    if (current) over.insert(current->step.id);
    const PlannedStep* first = nullptr;
    // Waits that this sets free, and those that run, are over by then.
    for (const PlannedStep& s : session.changeover.steps)
        if (!s.step.handsOn() && isFreeGiven(s, over)) over.insert(s.step.id);
    for (const PlannedStep& s : session.changeover.steps) {
        if (!s.step.handsOn() || over.contains(s.step.id)) continue;
        if (isFreeGiven(s, over)) return &s;
        if (!first) first = &s;
    }
    return first;
}

Instant replayRemaining(const SessionState& session, const RunningEnds& ends, Instant now, Instant printerStands) {
    return Replay(session, ends, now, printerStands).finish();
}

Minutes handsOnLeft(const SessionState& session) {
    Minutes sum{0};
    for (const PlannedStep& s : session.changeover.steps)
        if (s.step.handsOn() && !session.settled(s.step.id)) sum += s.step.people * s.planned;
    return sum;
}

} // namespace interlude
