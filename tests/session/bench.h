#pragma once
// A small language for tests of sessions: a bench with three printers of one type, steps written in a line each, and a
// shop that moves by real events.

#include "model/session/guide.h"

#include <QTest>

namespace interlude::tests {

using namespace std::chrono_literals;

/// 2026-03-02T06:30Z
inline const Instant morning = instantFromMs(1772433000000);
/// So many minutes after it.
inline Instant minute(int m) { return morning + Minutes(m); }

inline Temperature degrees(double c) { return Temperature::fromCelsius(c); }

/// One planned step: Step("clean").hands(6).after({"cool"}).
class Step {
public:
    explicit Step(const QString& id) {
        m_step.step.id = id;
        m_step.step.title = id;
    }
    Step& hands(int minutes, int people = 1) {
        m_step.step.people = people;
        return lasts(minutes);
    }
    Step& wait(int minutes) {
        m_step.step.people = 0;
        return lasts(minutes);
    }
    Step& cool(Subject subject, double to, int planned = 0) { return thermal(DurationKind::Cool, subject, to, planned); }
    Step& heat(Subject subject, double to, int planned = 0) { return thermal(DurationKind::Heat, subject, to, planned); }
    Step& purge(double cm3) {
        m_step.step.people = 0;
        m_step.step.duration = DurationKind::Purge;
        m_step.purge = Volume::fromCm3(cm3);
        return *this;
    }
    Step& onlyBelow(double c, Sensor at = Sensor::Chamber) {
        m_step.step.onlyBelow = degrees(c);
        m_step.step.measuredAt = at;
        return *this;
    }
    Step& after(const QStringList& ids) {
        m_step.after = m_step.step.after = ids;
        return *this;
    }
    Step& external() {
        m_step.step.external = true;
        return *this;
    }
    Step& power(Power p) {
        m_step.step.power = p;
        return *this;
    }
    Step& settle(int minutes) {
        m_step.step.settle = Minutes(minutes);
        return *this;
    }
    Step& scan(ScanTarget target, const QString& expected) {
        m_step.step.confirm.scans.append(ScanWanted{target});
        m_step.expectedScans.append(expected);
        return *this;
    }
    Step& effect(Effect e) {
        m_step.step.effect = e;
        return *this;
    }
    operator PlannedStep() const { return m_step; } // NOLINT: reads as the step itself

private:
    Step& lasts(int minutes) {
        m_step.step.minutes = m_step.planned = Minutes(minutes);
        return *this;
    }
    Step& thermal(DurationKind kind, Subject subject, double to, int planned) {
        m_step.step.people = 0;
        m_step.step.duration = kind;
        m_step.step.subject = subject;
        m_step.step.to = degrees(to);
        m_step.target = degrees(to);
        m_step.planned = Minutes(planned);
        return *this;
    }
    PlannedStep m_step;
};

/// Printers bay-1, bay-2 and bay-5, room 25 °C; constants as in domain reference 1.2 to 1.4. Change `type` before `open`.
class Bench {
public:
    Bench() {
        catalogue.fleet.id = QStringLiteral("bench");
        catalogue.fleet.room = degrees(25);
        PrinterType& t = type;
        t.id = QStringLiteral("mid");
        t.partRemoval = Minutes(6);
        t.chamberCool = ChamberCooling{Seconds(2700), Seconds(120)};
        t.chamberHeat = HeatingConstants{Seconds(1500), degrees(260), Minutes(8)};
        t.headHeat = HeatingConstants{Seconds(300), degrees(420), Minutes(2)};
        t.headCool = HeadCooling{60, 12000, 0.25, 0.01, 6.0, 0.3};
        for (const char* id : {"bay-1", "bay-2", "bay-5"}) {
            Printer p;
            p.id = QString::fromLatin1(id);
            p.name = QStringLiteral("Bay ") + p.id.right(1);
            p.type = t.id;
            catalogue.fleet.printers.append(p);
        }
        catalogue.fleet.places = {{QStringLiteral("rack-a"), QStringLiteral("Rack A")}};
        catalogue.fleet.people = {{QStringLiteral("ML"), QStringLiteral("Mara Lind"), {}}};
        catalogue.materials = {material("abs", "ABS", Role::Part, 90, 265), material("acr", "ACR", Role::Support, 90, 250)};
        NozzleType n;
        n.id = QStringLiteral("h04");
        n.name = QStringLiteral("hardened 0.4");
        catalogue.nozzleTypes = {n};
    }

    void open() {
        catalogue.fleet.printerTypes = {type};
        shop = Shop(std::make_shared<Catalogue>(catalogue));
    }
    /// Folds one act in, done at `at` by ML.
    bool happen(const Happening& h, Instant at) {
        Event e;
        e.sequence = shop.lastSequence() + 1;
        e.recordedAt = e.happenedAt = at;
        e.who = QStringLiteral("ML");
        e.kind = kindOf(h);
        e.payload = toPayload(h);
        const auto done = shop.apply(e);
        if (!done) qWarning("%s", qPrintable(sentence(done.error())));
        return done.has_value();
    }
    /// That bay printed ABS (nozzle 265 °C unless changed before `open`) at this chamber set-point; its part lies there.
    void printed(const QString& printer, double chamber, Instant started, Instant ended) {
        printing(printer, chamber, started, Minutes(60));
        QVERIFY(happen(act::PrintEnded{printer, PrintOutcome::Good, true, {}, {}, {}}, ended));
    }
    void printing(const QString& printer, double chamber, Instant started, Minutes expected) {
        OpeningSetup worn;
        worn.printer = printer;
        worn.part = QStringLiteral("abs");
        QVERIFY(happen(act::SetupOpening{worn}, started));
        const Job j = job(QStringLiteral("job-") + printer, chamber, expected);
        QVERIFY(happen(act::JobAdded{j}, started));
        QVERIFY(happen(act::PrintStarted{printer, j.id, {}, expected}, started));
    }
    void start(const QList<PlannedStep>& steps, Instant at, const QString& printer = QStringLiteral("bay-1"),
               const QStringList& facts = {}) {
        Changeover c;
        c.steps = steps;
        c.transition.facts = facts;
        c.transition.request.now.id = printer;
        c.transition.request.wanted.part = QStringLiteral("abs");
        c.transition.request.wanted.partNozzle = QStringLiteral("h04");
        QVERIFY(happen(act::SessionStarted{shop.nextSession(), printer, c, {}, false}, at));
    }
    const SessionState& session(qint64 number = 1) const { return *shop.session(number); }
    void begin(const StepId& step, Instant at, qint64 session = 1) { QVERIFY(happen(act::StepStarted{session, step}, at)); }
    void confirm(const StepId& step, Instant at, qint64 session = 1) {
        act::StepConfirmed c;
        c.session = session;
        c.step = step;
        QVERIFY(happen(c, at));
    }
    void read(Sensor sensor, double c, Instant at) {
        QVERIFY(happen(act::TemperatureRead{1, sensor, degrees(c), {}}, at));
    }
    /// The only countdown of session 1.
    Countdown only(Instant now) const {
        const QList<Countdown> all = countdowns(shop, session(), now);
        if (all.size() != 1) qFatal("expected one countdown, got %lld", static_cast<long long>(all.size()));
        return all.first();
    }

    /// A part of ABS without support, printed at this chamber set-point.
    static Job job(const JobId& id, double chamber, Minutes print) {
        Job j;
        j.id = id;
        Variant v;
        v.setup.part = QStringLiteral("abs");
        v.setup.chamber = degrees(chamber);
        v.print = print;
        j.variants = {v};
        return j;
    }
    static Material material(const char* id, const char* polymer, Role role, double chamber, double nozzle) {
        Material m;
        m.id = QString::fromLatin1(id);
        m.polymer = QString::fromLatin1(polymer);
        m.name = QStringLiteral("Example ") + m.id;
        m.role = role;
        m.chamber = degrees(chamber);
        m.nozzle = degrees(nozzle);
        m.meltFamily = m.id;
        return m;
    }

    Catalogue catalogue;
    PrinterType type;
    Shop shop;
};

/// Seconds from one moment to another.
inline double secondsTo(Instant from, std::optional<Instant> to) {
    return to ? static_cast<double>((*to - from).count()) / 1000.0 : -1e9;
}
/// True within a tolerance, else says both.
inline bool near(double value, double expected, double tolerance) {
    if (std::abs(value - expected) <= tolerance) return true;
    qWarning("computed %.6f, expected %.6f", value, expected);
    return false;
}

} // namespace interlude::tests
