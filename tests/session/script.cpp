#include "tests/session/script.h"

#include <cstdio>

namespace interlude::tests {

namespace {

const QString& who = Technician::initials();

void say(const QString& line) {
    std::fputs(qPrintable(line + QLatin1Char('\n')), stdout);
    std::fflush(stdout);
}

class Script {
public:
    Script(Workbench& bench, ManualClock& clock) : m_bench(bench), m_clock(clock), m_technician(bench, clock) {}

    int work() {
        while (!m_technician.isDone()) {
            const auto h = m_technician.next();
            if (!h) return fail(m_technician.lost());
            if (!act(*h)) return 1;
        }
        say(QStringLiteral("done"));
        return 0;
    }
    /// A reading that was taken before the program was started again must not close a step.
    QString tryStaleReading(Instant before) {
        const SessionState* s = m_technician.session();
        if (!s || !s->isOpen()) return QStringLiteral("none");
        for (const PlannedStep& step : s->changeover.steps) {
            if (!step.step.onlyBelow || s->settled(step.step.id)) continue;
            act::StepConfirmed c = m_technician.confirmation(step);
            c.measuredAt = before;
            for (const Finding& f : refusalsIn(m_bench.objections(c, who)))
                if (f.rule == QStringLiteral("measure")) return QStringLiteral("refused");
            return QStringLiteral("accepted");
        }
        return QStringLiteral("none");
    }

private:
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
                .arg(picture(m_bench.shop(), *m_technician.session(), m_bench.now())));
        return true;
    }

    Workbench& m_bench;
    ManualClock& m_clock;
    Technician m_technician;
};

} // namespace

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
    Script script(**bench, clock);
    const auto& sessions = (*bench)->shop().sessions();
    say(QStringLiteral("open %1 %2")
            .arg(script.tryStaleReading((*bench)->now() - Seconds(30)),
                 sessions.isEmpty() ? QString() : picture((*bench)->shop(), sessions.last(), (*bench)->now())));
    return script.work();
}

} // namespace interlude::tests
