#include "app/rehearsal/session_driver.h"

namespace interlude::app {

namespace {

/// A plausible value inside the limits: their middle, or a little inside the only one.
double insideLimits(const ReadingWanted& r) {
    if (r.min && r.max) return (*r.min + *r.max) / 2.0;
    if (r.max) return *r.max - 1.0;
    if (r.min) return *r.min + 1.0;
    return 0.0;
}

} // namespace

SessionDriver::SessionDriver(Workbench& bench, ManualClock& clock, QString who)
    : m_bench(bench), m_clock(clock), m_who(std::move(who)) {}

Outcome<qint64> SessionDriver::start(const PrinterId& printer, const JobId& jobId, const QString& variantName) {
    const Shop& shop = m_bench.shop();
    const PrinterNow* now = shop.printer(printer);
    const Job* job = shop.job(jobId);
    if (!now || !job) return refusal(QStringLiteral("start"), QStringLiteral("no such printer or job: %1, %2").arg(printer, jobId));
    for (const Variant& variant : job->variants) {
        if (!variantName.isEmpty() && variant.name != variantName) continue;
        const Transition t = judgeTransition(shop.catalogue(), shop.stock(), requestFor(*now, *job, variant), m_bench.now());
        auto planned = planChangeover(shop.catalogue(), shop.stock(), t, m_bench.now());
        if (!planned) return tl::unexpected(planned.error());
        act::SessionStarted started;
        started.session = shop.nextSession();
        started.printer = printer;
        started.changeover = *planned;
        const auto done = m_bench.perform(started, m_who);
        if (!done) return tl::unexpected(done.error());
        return started.session;
    }
    return refusal(QStringLiteral("start"), QStringLiteral("job %1 has no variant %2").arg(jobId, variantName));
}

act::StepConfirmed SessionDriver::rightAnswers(const SessionState& session, const PlannedStep& step) const {
    act::StepConfirmed c;
    c.session = session.number;
    c.step = step.step.id;
    for (const QString& expected : step.expectedScans) c.scans.append({expected, false});
    for (const AnswerWanted& a : step.step.confirm.answers) c.answers.append(act::AnswerDone{a.mustBe.value_or(true)});
    for (const ReadingWanted& r : step.step.confirm.readings)
        for (int i = 0; i < r.times; ++i)
            c.readings.append({r.name, qRound64(insideLimits(r) * 1000.0), r.unit, r.instrument, m_bench.now()});
    if (step.step.onlyBelow) {
        c.measured = step.step.onlyBelow->plusKelvin(-1.0);
        c.measuredAt = m_bench.now();
    }
    const bool part = step.step.effect == Effect::MountNozzlePart;
    if (part || step.step.effect == Effect::MountNozzleSupport)
        for (const NozzleChange& n : session.changeover.transition.nozzles)
            if (n.role == (part ? Role::Part : Role::Support))
                if (const auto nozzle = m_bench.shop().stock().nozzles.constFind(n.in);
                    nozzle != m_bench.shop().stock().nozzles.constEnd())
                    c.useSoFar = nozzle->run;
    return c;
}

/// Watched as the window watches it: time that goes by at once would be a machine that slept.
void SessionDriver::letPass(Milliseconds time) {
    constexpr Milliseconds watched = Seconds(30);
    for (; time > Milliseconds(0); time -= watched) {
        m_clock.advance(std::min(time, watched));
        m_bench.watchClock();
    }
}

Outcome<bool> SessionDriver::confirm(const SessionState& session, const PlannedStep& step) {
    if (step.step.handsOn()) letPass(step.planned);
    const auto done = m_bench.perform(rightAnswers(session, step), m_who);
    if (!done) return tl::unexpected(done.error());
    return true;
}

Outcome<bool> SessionDriver::waitFor(const SessionState& session, const Guide& guide) {
    for (const StepId& id : startableWaits(m_bench.shop(), session)) {
        const auto begun = m_bench.perform(act::StepStarted{session.number, id}, m_who);
        if (!begun) return tl::unexpected(begun.error());
        return true;
    }
    if (guide.waits.isEmpty())
        return refusal(QStringLiteral("rehearsal"), QStringLiteral("nothing can go on: %1").arg(guide.blockedBecause));
    const Countdown* first = &guide.waits.front();
    for (const Countdown& c : guide.waits)
        if (c.due && (!first->due || *c.due < *first->due)) first = &c;
    if (first->due && *first->due > m_bench.now()) letPass(*first->due - m_bench.now());
    const PlannedStep* step = session.changeover.step(first->step);
    return confirm(session, *step);
}

Outcome<bool> SessionDriver::next(qint64 number) {
    const SessionState* session = m_bench.shop().session(number);
    if (!session || !session->isOpen()) return false;
    const Guide now = guide(m_bench.shop(), *session, m_bench.now());
    if (now.finished) return false;
    // Waits begin as soon as they can, as the window does it.
    const QStringList waits = startableWaits(m_bench.shop(), *session);
    if (!waits.isEmpty()) return waitFor(*session, now);
    if (!now.current.isEmpty()) return confirm(*session, *session->changeover.step(now.current));
    return waitFor(*session, now);
}

Outcome<qint64> SessionDriver::finish(qint64 number) {
    while (true) {
        const auto more = next(number);
        if (!more) return tl::unexpected(more.error());
        if (!*more) break;
    }
    act::SessionFinished finished;
    finished.session = number;
    finished.disposition = QStringLiteral("released for printing");
    const auto done = m_bench.perform(finished, m_who);
    if (!done) return tl::unexpected(done.error());
    return done->sequence;
}

} // namespace interlude::app
