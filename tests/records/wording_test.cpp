// How figures, limits and states are said on paper.

#include "model/records/wording.h"
#include "model/clock/length.h"
#include "tests/harness/run_tests.h"

#include <QTest>

using namespace interlude;

class WordingTest : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void figures() {
        QCOMPARE(wording::celsius(Temperature::fromCelsius(124)), QStringLiteral("124 °C"));
        QCOMPARE(wording::celsius(Temperature::fromCelsius(43.5)), QStringLiteral("43.5 °C"));
        QCOMPARE(wording::celsius(Temperature::fromCelsius(-0.04)), QStringLiteral("0 °C")); // no minus before a nought
        QCOMPARE(wording::celsius(Temperature::fromCelsius(-5)), QStringLiteral("−5 °C"));   // a minus, not a hyphen
        QCOMPARE(wording::cm3(Volume::fromCm3(1.66)), QStringLiteral("1.7 cm³"));
        QCOMPARE(wording::cm3(Volume::fromCm3(412.4)), QStringLiteral("412 cm³")); // from 100 on whole
        QCOMPARE(lengthText(Minutes(59)), QStringLiteral("59 min"));
        QCOMPARE(lengthText(Minutes(60)), QStringLiteral("1 h 00 min"));
        QCOMPARE(lengthText(Minutes(125)), QStringLiteral("2 h 05 min"));
        QCOMPARE(wording::elapsed(instantFromMs(0), instantFromMs(60'001)), QStringLiteral("2 min")); // rounded up
        QCOMPARE(wording::thousandths(-50), QStringLiteral("−0.05"));
        QCOMPARE(wording::thousandths(12'000), QStringLiteral("12"));
    }

    void times() {
        const QTimeZone vienna("Europe/Vienna");
        const Instant evening = instantFromMs(QDateTime(QDate(2026, 3, 4), QTime(22, 50), Qt::UTC).toMSecsSinceEpoch());
        QCOMPARE(wording::localTime(evening, vienna), QStringLiteral("2026-03-04 23:50"));
        QCOMPARE(wording::clockTime(evening, vienna), QStringLiteral("23:50"));
        QCOMPARE(wording::dayTime(evening + Minutes(9), evening, vienna), QStringLiteral("23:59"));
        // The day changes at the shop's midnight, not at Greenwich's.
        QCOMPARE(wording::dayTime(evening + Minutes(10), evening, vienna), QStringLiteral("Thu 00:00"));
    }

    // The night in which the clock goes back shows an hour twice: only then the offset tells which one is meant.
    void theHourThatComesTwice() {
        const QTimeZone vienna("Europe/Vienna");
        const Instant back = instantFromMs(QDateTime(QDate(2026, 10, 25), QTime(1, 0), Qt::UTC).toMSecsSinceEpoch()); // 03:00 → 02:00
        QCOMPARE(wording::clockTime(back - Minutes(61), vienna), QStringLiteral("01:59"));
        QCOMPARE(wording::clockTime(back - Minutes(60), vienna), QStringLiteral("02:00+02"));
        QCOMPARE(wording::clockTime(back - Minutes(1), vienna), QStringLiteral("02:59+02"));
        QCOMPARE(wording::clockTime(back, vienna), QStringLiteral("02:00+01"));
        QCOMPARE(wording::localTime(back + Minutes(59), vienna), QStringLiteral("2026-10-25 02:59+01"));
        QCOMPARE(wording::dayTime(back + Minutes(60), back, vienna), QStringLiteral("03:00"));
        const Instant forward = instantFromMs(QDateTime(QDate(2026, 3, 29), QTime(1, 0), Qt::UTC).toMSecsSinceEpoch());
        QCOMPARE(wording::clockTime(forward - Minutes(1), vienna), QStringLiteral("01:59"));
        QCOMPARE(wording::clockTime(forward, vienna), QStringLiteral("03:00"));
        QCOMPARE(wording::clockTime(back, QTimeZone("UTC")), QStringLiteral("01:00"));
        const QTimeZone half("Australia/Lord_Howe"); // set back by half an hour, from +11 to +10:30, on 2026-04-04 at 15:00 UTC
        const Instant there = instantFromMs(QDateTime(QDate(2026, 4, 4), QTime(15, 0), Qt::UTC).toMSecsSinceEpoch());
        QCOMPARE(wording::clockTime(there - Minutes(31), half), QStringLiteral("01:29"));
        QCOMPARE(wording::clockTime(there - Minutes(30), half), QStringLiteral("01:30+11"));
        QCOMPARE(wording::clockTime(there, half), QStringLiteral("01:30+10:30"));
        QCOMPARE(wording::clockTime(there + Minutes(30), half), QStringLiteral("02:00"));
    }

    void limits() {
        ReadingWanted r;
        QCOMPARE(wording::limits(r), QStringLiteral("no limits"));
        r.unit = QStringLiteral("mm");
        QCOMPARE(wording::limits(r), QStringLiteral("no limits, in mm"));
        r.min = -0.1;
        QCOMPARE(wording::limits(r), QStringLiteral("at least −0.1 mm"));
        r.max = 0.1;
        QCOMPARE(wording::limits(r), QStringLiteral("−0.1 to 0.1 mm"));
        r.min.reset();
        r.unit.clear();
        QCOMPARE(wording::limits(r), QStringLiteral("at most 0.1"));
    }

    void useSoFar() {
        QCOMPARE(wording::runVolume({false, {}, {}}), QStringLiteral("no history"));
        QCOMPARE(wording::runVolume({true, Volume::fromCm3(412), {}}), QStringLiteral("412 cm³"));
        QCOMPARE(wording::runVolume({true, Volume::fromCm3(332), Volume::fromCm3(80)}), QStringLiteral("412 cm³ (80 cm³ of it abrasive)"));
    }

    /// Every value has words of its own.
    void states() {
        QStringList severities, sensors, scans;
        for (const Severity s : {Severity::Notice, Severity::Advice, Severity::Warning, Severity::Mandatory, Severity::Refusal})
            severities.append(wording::severity(s));
        QCOMPARE(severities, QStringList({"notice", "advised", "warning", "mandatory", "refused"}));
        for (const Sensor s : {Sensor::Chamber, Sensor::Head, Sensor::SupportHead, Sensor::Platform}) sensors.append(wording::sensor(s));
        QCOMPARE(sensors, QStringList({"chamber", "part head", "support head", "platform"}));
        for (const ScanTarget t : {ScanTarget::Printer, ScanTarget::NozzleOutPart, ScanTarget::NozzleOutSupport, ScanTarget::NozzleInPart,
                                   ScanTarget::NozzleInSupport, ScanTarget::SpoolOutPart, ScanTarget::SpoolOutSupport, ScanTarget::SpoolInPart,
                                   ScanTarget::SpoolInSupport, ScanTarget::PlatformCover, ScanTarget::Place})
            scans.append(wording::scanned(t));
        QCOMPARE(scans, QStringList({"printer", "part nozzle removed", "support nozzle removed", "part nozzle mounted", "support nozzle mounted",
                                     "part spool unloaded", "support spool unloaded", "part spool loaded", "support spool loaded",
                                     "platform cover", "place"}));
    }

    void namesOfThings() {
        Catalogue c;
        Material m;
        m.id = QStringLiteral("pa-black");
        m.polymer = QStringLiteral("PA12");
        c.materials = {m};
        c.fleet.people = {{QStringLiteral("ML"), QStringLiteral("Mara Lind"), {}}, {QStringLiteral("JK"), QStringLiteral("JK"), {}}};
        QCOMPARE(wording::material(c, {}), QStringLiteral("none"));
        QCOMPARE(wording::material(c, QStringLiteral("pa-black")), QStringLiteral("PA12 (pa-black)"));
        QCOMPARE(wording::material(c, QStringLiteral("gone")), QStringLiteral("gone"));
        QCOMPARE(wording::person(c, QStringLiteral("ML")), QStringLiteral("Mara Lind (ML)"));
        QCOMPARE(wording::person(c, QStringLiteral("JK")), QStringLiteral("JK")); // not "JK (JK)"
        QCOMPARE(wording::person(c, QStringLiteral("XX")), QStringLiteral("XX"));
        Stock s;
        Nozzle n;
        n.serial = QStringLiteral("N-031");
        n.type = QStringLiteral("h04");
        s.nozzles.insert(n.serial, n);
        QCOMPARE(wording::nozzle(c, s, {}), QStringLiteral("none"));
        QCOMPARE(wording::nozzle(c, s, n.serial), QStringLiteral("N-031")); // its type is not known any more
        QCOMPARE(wording::nozzle(c, s, QStringLiteral("N-9")), QStringLiteral("N-9"));
        NozzleType t;
        t.id = QStringLiteral("h04");
        t.orifice = Length::fromMm(0.4);
        t.alloy = QStringLiteral("hardened steel");
        c.nozzleTypes = {t};
        QCOMPARE(wording::nozzle(c, s, n.serial), QStringLiteral("N-031 · 0.4 mm hardened steel"));
    }
};

INTERLUDE_TEST(WordingTest)
#include "wording_test.moc"
