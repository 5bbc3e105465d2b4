#pragma once
// A changeover of the sample fleet, told as a technician would live it: for tests of what is said and printed about it.

#include "model/catalogue/reader.h"
#include "model/records/record.h"
#include "model/shop/workbench.h"

#include <QTest>

namespace interlude::tests {

class Told {
public:
    /// The sample fleet on Monday 2026-03-02, 06:30 in Vienna, nothing begun.
    Told() : m_clock(instantFromMs(1772433000000)) {
        const CatalogueReading reading = readFleetFolder(QStringLiteral(INTERLUDE_SOURCE_DIR "/sample-fleet"));
        if (!reading.catalogue) qFatal("the sample fleet cannot be read");
        auto opened = Workbench::open(reading.catalogue, makeMemoryStore(reading.catalogue->fleet.id), m_clock, QStringLiteral("bench-1"));
        if (!opened) qFatal("%s", qPrintable(sentence(opened.error())));
        m_bench = std::move(*opened);
    }

    Workbench& bench() { return *m_bench; }
    const Shop& shop() const { return m_bench->shop(); }
    const SessionState& session() const { return *shop().session(1); }
    Record record() const { return recordOf(shop(), session(), m_bench->now()); }
    void wait(int minutes) { m_clock.advance(Minutes(minutes)); }
    /// Somebody sets the wall clock, forward or back.
    void setClock(int minutes) { m_clock.setWall(m_clock.now() + Minutes(minutes)); }

    /// Performs it; a refusal ends the test program, for the story would be another one.
    Event tell(const Happening& h, const QString& who = QStringLiteral("ML"), std::optional<Instant> at = {}) {
        auto done = m_bench->perform(h, who, at);
        if (!done) qFatal("%s: %s", qPrintable(kindOf(h)), qPrintable(sentence(done.error())));
        return *done;
    }

    /// A changeover with both clean-out and a part nozzle exchange, the first that the sample fleet allows.
    Changeover usual() const {
        for (const PrinterNow& p : shop().printers())
            for (const Job& j : shop().jobs())
                for (const Variant& v : j.variants) {
                    if (p.activity == Activity::Printing || v.setup.part.isEmpty()) continue;
                    const Transition t = judgeTransition(shop().catalogue(), shop().stock(), requestFor(p, j, v), m_bench->now());
                    if (!t.possible() || !t.cleanOut || !t.has(fact::partNozzle)) continue;
                    if (auto c = planChangeover(shop().catalogue(), shop().stock(), t, m_bench->now())) return *c;
                }
        qFatal("no such changeover in the sample fleet");
    }

    /// The changeover with the most steps, but not more than that.
    std::optional<Changeover> longest(qsizetype atMost) const {
        std::optional<Changeover> best;
        for (const PrinterNow& p : shop().printers())
            for (const Job& j : shop().jobs())
                for (const Variant& v : j.variants) {
                    if (p.activity == Activity::Printing || v.setup.part.isEmpty()) continue;
                    const Transition t = judgeTransition(shop().catalogue(), shop().stock(), requestFor(p, j, v), m_bench->now());
                    if (!t.possible()) continue;
                    const auto c = planChangeover(shop().catalogue(), shop().stock(), t, m_bench->now());
                    if (c && c->steps.size() <= atMost && (!best || c->steps.size() > best->steps.size())) best = *c;
                }
        return best;
    }

    void begin(const QList<act::Override>& overrides = {}, bool late = false) { begin(usual(), overrides, late); }
    void begin(const Changeover& c, const QList<act::Override>& overrides = {}, bool late = false) {
        tell(act::SessionStarted{1, c.transition.request.now.id, c, overrides, late});
    }

    /// Everything that the step asks for, as a careful person would give it.
    act::StepConfirmed careful(const PlannedStep& s) const {
        act::StepConfirmed x;
        x.session = 1;
        x.step = s.step.id;
        for (qsizetype i = 0; i < s.step.confirm.scans.size(); ++i) {
            QString id = s.expectedScans.value(i);
            if (id.isEmpty() && s.step.confirm.scans[i].target == ScanTarget::Place) id = shop().catalogue().fleet.places.first().id;
            x.scans.append({id.isEmpty() ? QStringLiteral("cover") : id, false});
        }
        for (const AnswerWanted& a : s.step.confirm.answers) x.answers.append(act::AnswerDone{a.mustBe.value_or(true)});
        for (const ReadingWanted& r : s.step.confirm.readings)
            for (int i = 0; i < r.times; ++i) {
                const double value = r.min && r.max ? (*r.min + *r.max) / 2 : r.min.value_or(r.max.value_or(0));
                x.readings.append({r.name, std::llround(value * 1000), r.unit, r.instrument, m_bench->now()});
            }
        if (s.step.onlyBelow) {
            x.measured = s.step.onlyBelow;
            x.measuredAt = m_bench->now();
        }
        if (s.step.effect == Effect::MountNozzlePart || s.step.effect == Effect::MountNozzleSupport)
            for (const act::ScanDone& scan : x.scans)
                if (const auto n = shop().stock().nozzles.constFind(scan.value); n != shop().stock().nozzles.constEnd() && !n->run.known)
                    x.useSoFar = RunVolume{false, {}, {}};
        return x;
    }

    const PlannedStep& step(qsizetype i) const { return session().changeover.steps[i]; }
    qsizetype steps() const { return session().changeover.steps.size(); }
    /// First step for which this holds; its index.
    qsizetype find(const std::function<bool(const PlannedStep&)>& holds) const {
        for (qsizetype i = 0; i < steps(); ++i)
            if (holds(step(i))) return i;
        return -1;
    }
    qint64 confirm(qsizetype i, int minutes = 3) {
        wait(minutes);
        return tell(careful(step(i))).sequence;
    }

    /// All steps, with everything on the way that a record must show; then closed as released. Indices of the steps that
    /// it happened to are kept in the members below.
    void wholeStory(bool withSkip = false) {
        begin();
        if (withSkip) skipped = find([](const PlannedStep& s) { return s.step.effect == Effect::None && s.step.external && s.step.confirm.scans.isEmpty(); });
        typed = find([](const PlannedStep& s) { return !s.step.confirm.scans.isEmpty(); });
        align = find([](const PlannedStep& s) { return s.step.effect == Effect::Align && !s.step.confirm.readings.isEmpty(); });
        for (qsizetype i = 0; i < steps(); ++i) {
            if (i == skipped) {
                tell(act::StepSkipped{1, step(i).step.id, {QStringLiteral("skip"), QStringLiteral("lamp is out for repair"), QStringLiteral("JK")}});
                continue;
            }
            act::StepConfirmed x = careful(step(i));
            wait(3);
            if (x.measuredAt) x.measuredAt = m_bench->now();
            for (act::ReadingDone& r : x.readings) r.at = m_bench->now();
            if (i == typed) x.scans[0].typed = true;
            if (i == align) {
                x.note = QStringLiteral("second sheet taken");
            }
            const qint64 event = tell(x).sequence;
            if (i == 3) {
                tell(act::TakenBack{1, step(i).step.id, QStringLiteral("wrong row ticked")});
                wait(1);
                tell(careful(step(i)));
            }
            if (i == 4) {
                tell(act::ProblemReported{1, step(i).step.id, QStringLiteral("latch of the door is stiff"), false});
                tell(act::SessionPaused{1, QStringLiteral("end of shift"), true});
                wait(20);
                tell(act::SessionResumed{1, mounted()}, QStringLiteral("TO"));
            }
            if (i == 5) tell(act::TemperatureRead{1, Sensor::Chamber, Temperature::fromCelsius(71.5), QStringLiteral("ct-1")}, QStringLiteral("TO"));
            if (i == align) alignEvent = event;
        }
        tell(act::SessionFinished{1, QStringLiteral("released"), QStringLiteral("first layer good")}, QStringLiteral("TO"));
        wait(60);
        const act::ReadingDone first = session().progress(step(align).step.id).confirmed.readings.first();
        tell(act::Corrected{1, alignEvent, first.name, original(), QStringLiteral("0.03 ") + first.unit, QStringLiteral("misread the scale")}, QStringLiteral("RS"));
    }
    /// What the record said of the first alignment reading before it was corrected.
    QString original() const {
        const Record r = record();
        for (const RecordStep& s : r.steps)
            if (s.number == align + 1)
                for (const RecordEntry& e : s.entries)
                    if (e.field == step(align).step.confirm.readings.first().name) return e.value;
        return {};
    }

    qsizetype typed = -1, align = -1, skipped = -1;
    qint64 alignEvent = 0;

private:
    QMap<QString, QString> mounted() const {
        QMap<QString, QString> out;
        const PrinterNow& p = *shop().printer(session().printer);
        if (!p.part.nozzle.isEmpty()) out.insert(QStringLiteral("part"), p.part.nozzle);
        if (!p.support.nozzle.isEmpty()) out.insert(QStringLiteral("support"), p.support.nozzle);
        return out;
    }

    ManualClock m_clock;
    std::unique_ptr<Workbench> m_bench;
};

} // namespace interlude::tests
