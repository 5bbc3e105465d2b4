#include "tests/session/script.h"

#include "model/catalogue/reader.h"
#include "model/session/evidence.h"

#include <cstdio>

namespace interlude::tests {

namespace {

const QString printerId = QStringLiteral("bay-3"); // ended a print twenty minutes ago: still hot
const QString who = QStringLiteral("ML");

void say(const QString& line) {
    std::fputs(qPrintable(line + QLatin1Char('\n')), stdout);
    std::fflush(stdout);
}

/// The changeover with the most steps that some open job wants of this printer.
std::optional<Changeover> longestChangeover(const Workbench& bench) {
    std::optional<Changeover> longest;
    const Shop& shop = bench.shop();
    for (const Job& job : shop.jobs()) {
        if (job.state != JobState::Open || (!job.printers.isEmpty() && !job.printers.contains(printerId))) continue;
        for (const Variant& variant : job.variants) {
            const TransitionRequest request = requestFor(*shop.printer(printerId), job, variant);
            const Transition t = judgeTransition(shop.catalogue(), shop.stock(), request, bench.now());
            const auto c = planChangeover(shop.catalogue(), shop.stock(), t, bench.now());
            if (c && (!longest || c->steps.size() > longest->steps.size())) longest = *c;
        }
    }
    return longest;
}

class Technician {
public:
    Technician(Workbench& bench, ManualClock& clock) : m_bench(bench), m_clock(clock) {}

    int work() {
        if (!session()) {
            const auto c = longestChangeover(m_bench);
            if (!c) return fail(QStringLiteral("no job fits ") + printerId);
            if (!act(act::SessionStarted{m_bench.shop().nextSession(), printerId, *c, {}, false})) return 1;
        }
        while (session()->isOpen())
            if (!nextAct()) return 1;
        say(QStringLiteral("done"));
        return 0;
    }
    /// A reading that was taken before the program was started again must not close a step.
    QString tryStaleReading(Instant before) {
        const SessionState* s = session();
        if (!s || !s->isOpen()) return QStringLiteral("none");
        for (const PlannedStep& step : s->changeover.steps) {
            if (!step.step.onlyBelow || s->settled(step.step.id)) continue;
            act::StepConfirmed c = confirmation(step);
            c.measuredAt = before;
            for (const Finding& f : refusalsIn(m_bench.objections(c, who)))
                if (f.rule == QStringLiteral("measure")) return QStringLiteral("refused");
            return QStringLiteral("accepted");
        }
        return QStringLiteral("none");
    }

private:
    const SessionState* session() const {
        const auto& all = m_bench.shop().sessions();
        return all.isEmpty() ? nullptr : &all.last();
    }
    int fail(const QString& why) {
        std::fprintf(stderr, "%s\n", qPrintable(why));
        return 1;
    }
    bool act(const Happening& h) {
        const auto e = m_bench.perform(h, who);
        if (!e) return fail(kindOf(h) + QStringLiteral(": ") + sentence(e.error())), false;
        say(QStringLiteral("%1 %2 %3 %4")
                .arg(e->sequence)
                .arg(QString::fromLatin1(e->hash.toHex()))
                .arg(toMs(m_clock.now()))
                .arg(picture(m_bench.shop(), *session(), m_bench.now())));
        return true;
    }
    bool nextAct() {
        const SessionState& s = *session();
        const QStringList waits = startableWaits(m_bench.shop(), s);
        if (!waits.isEmpty()) return act(act::StepStarted{s.number, waits.first()});
        const Guide g = guide(m_bench.shop(), s, m_bench.now());
        if (g.finished) return act(act::SessionFinished{s.number, QStringLiteral("released"), {}});
        if (!g.current.isEmpty()) {
            m_clock.advance(Seconds(40));
            return act(confirmation(*s.changeover.step(g.current)));
        }
        if (g.waits.isEmpty()) return fail(QStringLiteral("nothing to do and nothing to wait for")), false;
        return wait(g.waits.first());
    }
    /// Half of a long wait, then a reading in between; then the end.
    bool wait(const Countdown& c) {
        const SessionState& s = *session();
        const Milliseconds left = c.left(m_bench.now()).value_or(Minutes(10));
        if (left > Minutes(10) && c.sensor && c.due) {
            m_clock.advance(left / 2);
            const auto points = curve(m_bench.shop(), s, c);
            double now = c.target->celsius();
            for (const CurvePoint& p : points)
                if (p.at <= m_bench.now()) now = p.expectedC;
            return act(act::TemperatureRead{s.number, *c.sensor, Temperature::fromCelsius(now), {}});
        }
        m_clock.advance(std::max(left, Milliseconds(1000)));
        return act(confirmation(*s.changeover.step(c.step)));
    }
    act::StepConfirmed confirmation(const PlannedStep& p) const {
        const SessionState& s = *session();
        act::StepConfirmed c;
        c.session = s.number;
        c.step = p.step.id;
        for (qsizetype i = 0; i < p.step.confirm.scans.size(); ++i) {
            const QString expected = p.expectedScans.value(i);
            c.scans.append({expected.isEmpty() ? m_bench.catalogue().fleet.places.first().id : expected, false});
        }
        for (const AnswerWanted& a : p.step.confirm.answers) c.answers.append(act::AnswerDone{a.mustBe.value_or(true)});
        for (const ReadingWanted& r : p.step.confirm.readings)
            for (int i = 0; i < std::max(1, r.times); ++i) {
                const double value = r.min && r.max ? (*r.min + *r.max) / 2 : r.min.value_or(r.max.value_or(0.0));
                c.readings.append({r.name, std::llround(value * 1000), r.unit, r.instrument, m_bench.now()});
            }
        if (p.step.onlyBelow) {
            c.measured = p.step.onlyBelow->plusKelvin(-1);
            c.measuredAt = m_bench.now();
        }
        const bool mounts = p.step.effect == Effect::MountNozzlePart || p.step.effect == Effect::MountNozzleSupport;
        for (const act::ScanDone& scan : c.scans) {
            const auto n = m_bench.shop().stock().nozzles.constFind(scan.value);
            if (mounts && n != m_bench.shop().stock().nozzles.constEnd()) c.useSoFar = n->run;
        }
        return c;
    }

    Workbench& m_bench;
    ManualClock& m_clock;
};

} // namespace

CataloguePtr sampleFleet() {
    static const CatalogueReading reading = readFleetFolder(QStringLiteral(INTERLUDE_SOURCE_DIR "/sample-fleet"));
    for (const Problem& p : reading.problems)
        if (!p.warning) qWarning("%s", qPrintable(p.text()));
    return reading.catalogue;
}

QString picture(const Shop& shop, const SessionState& session, Instant now) {
    const Guide g = guide(shop, session, now);
    QStringList parts{QStringLiteral("at=%1").arg(g.current), QStringLiteral("index=%1").arg(g.index)};
    for (const Countdown& c : g.waits) {
        parts.append(QStringLiteral("wait=%1:%2").arg(c.step).arg(c.due ? toMs(*c.due) : -1));
        if (needsFreshReading(session, c.step, now)) parts.append(QStringLiteral("owes=") + c.step);
    }
    return parts.join(QLatin1Char(' '));
}

int runScript(const QString& ledger, Instant machineNow) {
    const CataloguePtr catalogue = sampleFleet();
    if (!catalogue) return 2;
    ManualClock clock(machineNow);
    auto store = openSqliteStore(ledger, catalogue->fleet.id, QStringLiteral("bench-pc"));
    if (!store) return std::fprintf(stderr, "%s\n", qPrintable(sentence(store.error()))), 2;
    auto bench = Workbench::open(catalogue, std::move(*store), clock, QStringLiteral("bench-pc"));
    if (!bench) return std::fprintf(stderr, "%s\n", qPrintable(sentence(bench.error()))), 2;
    Technician technician(**bench, clock);
    const auto& sessions = (*bench)->shop().sessions();
    say(QStringLiteral("open %1 %2")
            .arg(technician.tryStaleReading((*bench)->now() - Seconds(30)),
                 sessions.isEmpty() ? QString() : picture((*bench)->shop(), sessions.last(), (*bench)->now())));
    return technician.work();
}

} // namespace interlude::tests
