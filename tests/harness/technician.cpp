#include "tests/harness/technician.h"

#include "model/catalogue/reader.h"
#include "model/session/evidence.h"

namespace interlude::tests {

namespace {

const QString printerId = QStringLiteral("bay-3"); // ended a print twenty minutes ago: still hot

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

} // namespace

CataloguePtr sampleFleet() {
    static const CatalogueReading reading = readFleetFolder(QStringLiteral(INTERLUDE_SOURCE_DIR "/sample-fleet"));
    for (const Problem& p : reading.problems)
        if (!p.warning) qWarning("%s", qPrintable(p.text()));
    return reading.catalogue;
}

const QString& Technician::initials() {
    static const QString who = QStringLiteral("ML");
    return who;
}

const SessionState* Technician::session() const {
    const auto& all = m_bench.shop().sessions();
    return all.isEmpty() ? nullptr : &all.last();
}

bool Technician::isDone() const {
    return session() && !session()->isOpen();
}

std::optional<Happening> Technician::atALoss(const QString& why) {
    m_lost = why;
    return std::nullopt;
}

std::optional<Happening> Technician::next() {
    if (!session()) {
        const auto c = longestChangeover(m_bench);
        if (!c) return atALoss(QStringLiteral("no job fits ") + printerId);
        return act::SessionStarted{m_bench.shop().nextSession(), printerId, *c, {}, false};
    }
    const SessionState& s = *session();
    if (!s.isOpen()) return std::nullopt;
    const QStringList waits = startableWaits(m_bench.shop(), s);
    if (!waits.isEmpty()) return act::StepStarted{s.number, waits.first()};
    const Guide g = guide(m_bench.shop(), s, m_bench.now());
    if (g.finished) return act::SessionFinished{s.number, QStringLiteral("released"), {}};
    if (!g.current.isEmpty()) {
        m_clock.advance(Seconds(40));
        return confirmation(*s.changeover.step(g.current));
    }
    if (g.waits.isEmpty()) return atALoss(QStringLiteral("nothing to do and nothing to wait for"));
    return wait(s, g.waits.first());
}

/// Half of a long wait, then a reading in between; then the end.
std::optional<Happening> Technician::wait(const SessionState& s, const Countdown& c) {
    const Milliseconds left = c.left(m_bench.now()).value_or(Minutes(10));
    if (left > Minutes(10) && c.sensor && c.due) {
        m_clock.advance(left / 2);
        const auto points = curve(m_bench.shop(), s, c);
        double now = c.target->celsius();
        for (const CurvePoint& p : points)
            if (p.at <= m_bench.now()) now = p.expectedC;
        return act::TemperatureRead{s.number, *c.sensor, Temperature::fromCelsius(now), {}};
    }
    m_clock.advance(std::max(left, Milliseconds(1000)));
    return confirmation(*s.changeover.step(c.step));
}

act::StepConfirmed Technician::confirmation(const PlannedStep& p) const {
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

} // namespace interlude::tests
