// The plain parts of the guide: pace of keys, what is missing, geometry of the curve, take-over, variants as typed.

#include "tests/harness/run_tests.h"

#include "views/asking/job_dialog.h"
#include "views/changeover/chart_frame.h"
#include "views/changeover/key_pace.h"
#include "views/changeover/pause_panel.h"
#include "views/changeover/step_entry.h"

#include <QtTest>

using namespace interlude;

namespace {

PlannedStep exchange() {
    PlannedStep p;
    p.step.id = QStringLiteral("mount");
    p.step.onlyBelow = Temperature::fromCelsius(60);
    p.step.confirm.scans = {ScanWanted{ScanTarget::NozzleInPart}};
    p.step.confirm.answers = {AnswerWanted{QStringLiteral("Is it immovable?"), true}};
    ReadingWanted x;
    x.name = QStringLiteral("X offset");
    x.unit = QStringLiteral("mm");
    x.min = -0.1;
    x.max = 0.1;
    x.times = 2;
    p.step.confirm.readings = {x};
    p.expectedScans = QStringList{QStringLiteral("N-118")};
    return p;
}

Instant at(int minute) {
    return instantFromMs(1770000000000 + minute * 60000LL);
}

} // namespace

class EntryTest final : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void scannerPace() {
        KeyPace pace;
        for (int i = 0; i < 5; ++i) pace.key(Milliseconds(i * 4));
        QVERIFY(pace.scanned(5));
        QVERIFY2(!pace.scanned(6), "a character came without a key: pasted");
        pace.edited();
        QVERIFY(!pace.scanned(5));
    }
    void fingersPace() {
        KeyPace pace;
        // One slow gap is enough, wherever it is.
        for (const int ms : {0, 5, 10, 10 + static_cast<int>(KeyPace::scannerGap.count()) + 1, 60}) pace.key(Milliseconds(ms));
        QVERIFY(!pace.scanned(5));
        pace.clear();
        pace.key(Milliseconds(0));
        QVERIFY2(!pace.scanned(1), "one character has no pace");
        pace.key(KeyPace::scannerGap);
        QVERIFY(pace.scanned(2));
    }
    void missingInOrder() {
        StepEntry e(7, exchange());
        const MeasuredNow none;
        QCOMPARE(e.missing(none).size(), 5); // measure, scan, answer, two readings
        QCOMPARE(e.confirmText(none), QStringLiteral("Done: measure the chamber first"));
        const MeasuredNow hot{true, Temperature::fromCelsius(61), at(0)};
        QCOMPARE(e.confirmText(hot), QStringLiteral("Done: chamber at or below 60 °C first"));
        const MeasuredNow stale{false, Temperature::fromCelsius(50), at(0)};
        QCOMPARE(e.missing(stale).first().what, Missing::What::Measure);
        const MeasuredNow good{true, Temperature::fromCelsius(60), at(0)};
        QCOMPARE(e.confirmText(good), QStringLiteral("Done: scan N-118 first"));
        e.scan(0, QStringLiteral("N-118"), true);
        e.wantUseOf(QStringLiteral("N-118"));
        QCOMPARE(e.confirmText(good), QStringLiteral("Done: state the use so far of N-118 first"));
        e.state(RunVolume{false, {}, {}});
        e.answer(0, false);
        QCOMPARE(e.confirmText(good), QStringLiteral("Done: “Is it immovable?” must be yes first"));
        e.answer(0, true);
        e.read(0, 0, 0.05, at(1));
        QCOMPARE(e.missing(good).size(), 1);
        e.read(0, 1, 0.1, at(1));
        QVERIFY(e.missing(good).isEmpty());
        QCOMPARE(e.confirmText(good), QStringLiteral("Done"));
        QVERIFY2(!e.outside(0, 1), "the limit itself is inside");
        e.read(0, 1, 0.101, at(1));
        QVERIFY(e.outside(0, 1));
        QCOMPARE(e.confirmText(good), QStringLiteral("Done: X offset outside its limits"));
    }
    void confirmationCarriesAll() {
        StepEntry e(7, exchange());
        e.scan(0, QStringLiteral("N-118"), true);
        e.answer(0, true);
        e.read(0, 0, -0.05, at(1));
        e.read(0, 1, 0.02, at(2));
        const act::StepConfirmed c = e.confirmation({true, Temperature::fromCelsius(55), at(0)});
        QCOMPARE(c.session, 7);
        QCOMPARE(c.step, QStringLiteral("mount"));
        QCOMPARE(c.scans.size(), 1);
        QVERIFY(c.scans.first().typed);
        QCOMPARE(c.readings.size(), 2);
        QCOMPARE(c.readings.first().thousandths, -50);
        QVERIFY(c.readings.last().at == at(2));
        QCOMPARE(c.measured->celsius(), 55.0);
        QVERIFY(!c.useSoFar);
    }
    void frameHoldsEverything() {
        Countdown c;
        c.title = QStringLiteral("Chamber below 60 °C");
        c.sensor = Sensor::Chamber;
        c.target = Temperature::fromCelsius(60);
        c.expected = at(40);
        c.due = at(45);
        const QList<CurvePoint> band{{at(0), 124, 124, 124}, {at(45), 57, 55, 60}};
        const QList<SensorReading> readings{{Sensor::Chamber, Temperature::fromCelsius(131), at(-5), {}, {}},
                                            {Sensor::Head, Temperature::fromCelsius(300), at(1), {}, {}},
                                            {Sensor::Chamber, Temperature::fromCelsius(84), at(20), {}, {}}};
        const ChartFrame f = chartFrame(band, readings, c, at(21));
        QVERIFY(f.from == at(-5));
        QVERIFY(f.to == at(45));
        QCOMPARE(f.lowC, 50.0);  // floor of 55 in tens
        QCOMPARE(f.highC, 140.0); // ceiling of 131 in tens
        QCOMPARE(f.readings.size(), 2);
        const QString s = chartSentence(band, f, c, QTimeZone(QByteArrayLiteral("UTC")));
        QVERIFY2(s.contains(QStringLiteral("readings: 2, the last 84 °C")), qPrintable(s));
        const ChartFrame empty = chartFrame({}, {}, Countdown(), at(0));
        QVERIFY(empty.to - empty.from >= Minutes(10));
        QVERIFY(empty.highC - empty.lowC >= 20.0);
    }
    void takeOverAsksForWhatIsMounted() {
        PrinterNow p;
        p.part.nozzle = QStringLiteral("N-1");
        TakeOver t(p, true);
        QCOMPARE(t.next(), QStringLiteral("part"));
        QVERIFY(!t.give(QStringLiteral("N-2"), false));
        QCOMPARE(t.next(), QStringLiteral("part"));
        QVERIFY(t.give(QStringLiteral("N-1"), false));
        QCOMPARE(t.next(), QString());
        QCOMPARE(t.mounted().value(QStringLiteral("part")), QStringLiteral("N-1"));
        QVERIFY(TakeOver(p, false).next().isEmpty());
    }
    void takeOverIsNeededByAnotherPerson() {
        SessionState s;
        QVERIFY(!takeOverNeeded(s, QStringLiteral("ML")));
        Interruption i;
        i.who = QStringLiteral("ML");
        s.interruptions = {i};
        QVERIFY(!takeOverNeeded(s, QStringLiteral("ML")));
        QVERIFY(takeOverNeeded(s, QStringLiteral("TO")));
        s.interruptions.last().handOver = true;
        QVERIFY(takeOverNeeded(s, QStringLiteral("ML")));
    }
    void variantsAsTyped() {
        Catalogue c;
        Material abs;
        abs.id = QStringLiteral("abs");
        c.materials = {abs};
        NozzleType h;
        h.id = QStringLiteral("h04");
        c.nozzleTypes = {h};
        VariantText t{QStringLiteral("fine"), QStringLiteral("abs"), {}, QStringLiteral("h04"), {},
                      QStringLiteral("90.2"), QStringLiteral("12,5"), {}, {}};
        auto v = variantFrom(t, {}, c);
        QVERIFY(v);
        QCOMPARE(v->print.count(), 91); // rounded up
        QCOMPARE(v->partVolume, Volume::fromCm3(12.5));
        QVERIFY(!v->setup.chamber);
        const auto refused = [&](QString VariantText::* field, const char* value) {
            VariantText bad = t;
            bad.*field = QString::fromUtf8(value);
            return !variantFrom(bad, {}, c).has_value();
        };
        QVERIFY(refused(&VariantText::name, " "));
        QVERIFY(refused(&VariantText::part, ""));
        QVERIFY(refused(&VariantText::part, "nothing"));
        QVERIFY(refused(&VariantText::support, "abs"));
        QVERIFY(refused(&VariantText::partNozzle, ""));
        QVERIFY(refused(&VariantText::minutes, "0"));
        QVERIFY(refused(&VariantText::minutes, "soon"));
        QVERIFY(refused(&VariantText::partCm3, "-1"));
        QVERIFY(refused(&VariantText::chamberC, "900"));
    }
};
INTERLUDE_TEST(EntryTest)
#include "entry_test.moc"
