#include "views/today/outlook.h"

#include "views/words/words.h"

#include "model/session/evidence.h"
#include "model/session/work.h"

#include <QCoreApplication>

namespace interlude {

namespace {

QString tr(const char* text) {
    return QCoreApplication::translate("outlook", text);
}

/// The steps left of one session, laid out from now on: one team, hands-on one at a time in file order, waits at once.
class Replay {
public:
    Replay(const Shop& shop, const SessionState& session, Instant now, Instant stands)
        : m_session(session), m_now(now), m_stands(stands) {
        for (const Countdown& c : countdowns(shop, session, now))
            if (c.due) m_due.insert(c.step, std::max(*c.due, now));
    }

    QList<Stretch> run() {
        Instant t = m_now;
        for (int guard = 0; guard < 2 * static_cast<int>(m_session.changeover.steps.size()) + 4; ++guard) {
            startWaits(t);
            if (const PlannedStep* next = nextHandsOn(t)) {
                const Instant from = std::max(t, next->step.external ? t : m_stands);
                t = from + next->planned;
                add(Stretch::Kind::HandsOn, *next, from, t);
                m_end.insert(next->step.id, t);
                continue;
            }
            const std::optional<Instant> later = nextEnd(t);
            if (!later) break;
            t = *later;
        }
        std::stable_sort(m_out.begin(), m_out.end(),
                         [](const Stretch& a, const Stretch& b) { return a.from < b.from; });
        return m_out;
    }

private:
    bool settled(const StepId& id, Instant t) const {
        if (m_session.settled(id)) return true;
        const auto end = m_end.constFind(id);
        return end != m_end.cend() && *end <= t;
    }
    bool free(const PlannedStep& s, Instant t) const {
        if (!s.step.external && t < m_stands) return false;
        return std::all_of(s.after.begin(), s.after.end(), [&](const QString& id) { return settled(id, t); });
    }
    bool open(const PlannedStep& s) const {
        return !m_session.settled(s.step.id) && !m_end.contains(s.step.id);
    }
    void startWaits(Instant t) {
        for (const PlannedStep& s : m_session.changeover.steps) {
            if (s.step.handsOn() || !open(s) || !free(s, t)) continue;
            const Instant end = m_due.value(s.step.id, t + s.planned);
            m_end.insert(s.step.id, end);
            add(Stretch::Kind::Waiting, s, t, end);
        }
    }
    const PlannedStep* nextHandsOn(Instant t) const {
        for (const PlannedStep& s : m_session.changeover.steps)
            if (s.step.handsOn() && open(s) && free(s, t)) return &s;
        return nullptr;
    }
    std::optional<Instant> nextEnd(Instant t) const {
        std::optional<Instant> out;
        for (const Instant end : m_end)
            if (end > t && (!out || end < *out)) out = end;
        if (t < m_stands && (!out || m_stands < *out)) out = m_stands;
        return out;
    }
    void add(Stretch::Kind kind, const PlannedStep& s, Instant from, Instant to) {
        Stretch out;
        out.kind = kind;
        out.from = from;
        out.to = to;
        out.text = s.step.title;
        out.people = s.step.people;
        out.firstStep = s.step.id;
        m_out.append(out);
    }

    const SessionState& m_session;
    Instant m_now, m_stands;
    QMap<StepId, Instant> m_due, m_end;
    QList<Stretch> m_out;
};

void addPrint(QList<Stretch>& out, const Shop& shop, const PrinterNow& p, Instant now) {
    if (p.activity != Activity::Printing) return;
    Stretch s;
    s.kind = Stretch::Kind::Print;
    s.from = p.printStarted.value_or(now);
    s.to = std::max(p.printExpectedEnd.value_or(now), now);
    s.open = !p.printExpectedEnd || *p.printExpectedEnd < now;
    s.text = tr("Print of %1").arg(p.job);
    s.material = p.part.loaded;
    out.append(s);
    static_cast<void>(shop);
}

/// The print that a changeover is for, once it is done and the job released.
void addPrintAfter(QList<Stretch>& out, const Shop& shop, const SessionState& session, Instant now) {
    const TransitionRequest& request = session.changeover.transition.request;
    const Job* job = shop.job(request.job);
    if (!job || request.print.count() <= 0) return;
    for (const PlannedStep& step : session.changeover.steps)
        if (step.step.effect == Effect::StartPrint && session.settled(step.step.id)) return; // it runs already, or has run
    Stretch s;
    s.kind = Stretch::Kind::Print;
    s.from = std::max(now, job->release.value_or(now));
    for (const Stretch& before : out) s.from = std::max(s.from, before.to);
    s.to = s.from + request.print;
    s.text = tr("Print of %1").arg(request.job);
    s.material = request.wanted.part;
    out.append(s);
}

} // namespace

QList<Stretch> outlook(const Shop& shop, const PrinterNow& p, Instant now) {
    QList<Stretch> out;
    addPrint(out, shop, p, now);
    if (p.activity == Activity::Down) {
        Stretch s;
        s.kind = Stretch::Kind::Down;
        s.from = p.downSince.value_or(now);
        s.to = std::max(p.downUntil.value_or(now), now);
        s.open = !p.downUntil || *p.downUntil <= now;
        s.text = p.downWhy;
        out.append(s);
    }
    if (const SessionState* session = shop.openSession(p.id)) {
        const Instant stands = out.isEmpty() ? now : std::max(now, out.last().to);
        out.append(Replay(shop, *session, now, stands).run());
        addPrintAfter(out, shop, *session, now);
    }
    return out;
}

} // namespace interlude
