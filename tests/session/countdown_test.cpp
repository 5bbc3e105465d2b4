// Countdowns as arithmetic on what was recorded. Room 25 °C; chamber tau 2700 s ± 120 s.

#include "model/physics/heat.h"
#include "tests/harness/run_tests.h"
#include "tests/session/bench.h"

#include <cmath>

using namespace interlude;
using namespace interlude::tests;

namespace {
const Step coolChamber = Step("cool").cool(Subject::Chamber, 43);
} // namespace

class CountdownTest : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void chamberFromItsSetPoint() {
        Bench b;
        b.open();
        b.printed("bay-1", 90, morning - 2h, morning);
        b.start({coolChamber}, morning + 5min);
        QVERIFY(countdowns(b.shop, b.session(), morning + 5min).isEmpty()); // not begun: nothing counts
        b.begin("cool", morning + 5min);
        const Countdown c = b.only(morning + 6min);
        // 90 → 43 in a room of 25: 2700 s · ln(65/18), and with tau + 2 se = 2940 s
        QVERIFY(near(secondsTo(morning + 5min, c.expected), 2700 * std::log(65.0 / 18), 0.002));
        QVERIFY(near(secondsTo(morning + 5min, c.due), 2940 * std::log(65.0 / 18), 0.002));
        QCOMPARE(c.title, QStringLiteral("Chamber below 43 °C"));
        QCOMPARE(c.basis, QStringLiteral("upper end of the prediction · air sensor · room 25 °C"));
        QCOMPARE(*c.sensor, Sensor::Chamber);
        QCOMPARE(*c.target, degrees(43));
        QCOMPARE(c.session, 1);
        QVERIFY(!c.nearLimit);
        QVERIFY(!c.needsReading);
    }
    void eachReadingReBases() {
        Bench b;
        b.open();
        b.printed("bay-1", 90, morning - 2h, morning);
        b.start({coolChamber}, morning);
        b.begin("cool", morning);
        b.read(Sensor::Chamber, 70, morning + 10min);
        b.read(Sensor::Head, 200, morning + 11min); // another sensor: no matter
        const Countdown c = b.only(morning + 12min);
        QVERIFY(near(secondsTo(morning + 10min, c.due), 2940 * std::log(45.0 / 18), 0.002));
        b.read(Sensor::Chamber, 42.5, morning + 30min);
        QCOMPARE(*b.only(morning + 31min).due, morning + 30min); // there already
        b.read(Sensor::Chamber, 60, morning + 32min);            // somebody had measured the door
        QVERIFY(near(secondsTo(morning + 32min, b.only(morning + 33min).due), 2940 * std::log(35.0 / 18), 0.002));
    }
    void readingsOfBeforeDoNotCount() {
        Bench b;
        b.open();
        b.printed("bay-1", 90, morning - 2h, morning);
        b.start({coolChamber}, morning);
        b.read(Sensor::Chamber, 44, morning + 1min); // then the heater was on for another ten minutes
        b.begin("cool", morning + 11min);
        QVERIFY(near(secondsTo(morning + 11min, b.only(morning + 12min).due), 2940 * std::log(65.0 / 18), 0.002));
        b.read(Sensor::Chamber, 80, morning + 12min);
        QCOMPARE(secondsTo(morning, b.only(morning + 12min).due) > 0, true);
    }
    void secondCoolingGoesOnFromTheFirst() {
        Bench b;
        b.open();
        b.printed("bay-1", 90, morning - 2h, morning);
        b.start({Step("warm").cool(Subject::Chamber, 60), Step("cool").cool(Subject::Chamber, 43).after({"warm"})}, morning);
        b.begin("warm", morning);
        b.confirm("warm", morning + 30min);
        b.begin("cool", morning + 30min);
        QVERIFY(near(secondsTo(morning, b.only(morning + 31min).due), 2940 * std::log(65.0 / 18), 0.002));
    }
    // Domain reference 1.4: head 300, chamber 90, room 25, to 43: 2873.130 s; the upper end lowers both conductances.
    void headNeedsTwoNodes() {
        Bench b;
        b.catalogue.materials[0].nozzle = degrees(300);
        b.open();
        b.printed("bay-1", 90, morning - 2h, morning);
        b.start({Step("head").cool(Subject::HeadPart, 43)}, morning);
        b.begin("head", morning);
        const Countdown c = b.only(morning + 1min);
        QVERIFY(near(secondsTo(morning, c.expected), 2873.130, 0.01));
        const auto upper = physics::twoNodeTimeTo({60, 12000, 0.23, 5.4}, 25, {300, 90}, 43, physics::Node::Head);
        QVERIFY(near(secondsTo(morning, c.due), *upper, 0.002));
        QVERIFY(*c.due > *c.expected + 3min);
        QCOMPARE(c.basis, QStringLiteral("upper end of the prediction · part head sensor · room 25 °C"));
        QCOMPARE(c.title, QStringLiteral("Part head below 43 °C"));
    }
    void headReBasesOnEitherSensor() {
        Bench b;
        b.catalogue.materials[0].nozzle = degrees(300);
        b.open();
        b.printed("bay-1", 90, morning - 2h, morning);
        b.start({Step("head").cool(Subject::HeadPart, 43)}, morning);
        b.begin("head", morning);
        const Instant before = *b.only(morning + 10min).due;
        b.read(Sensor::Chamber, 60, morning + 10min); // the model says 74 °C: the door stood open
        const Instant chamberRead = *b.only(morning + 11min).due;
        QVERIFY(chamberRead < before);
        b.read(Sensor::Head, 150, morning + 10min); // the model says 97 °C
        QVERIFY(*b.only(morning + 11min).due > chamberRead);
        // Both read at one moment: nothing of the history is left.
        const auto upper = physics::twoNodeTimeTo({60, 12000, 0.23, 5.4}, 25, {150, 60}, 43, physics::Node::Head);
        QVERIFY(near(secondsTo(morning + 10min, b.only(morning + 11min).due), *upper, 0.002));
    }
    /// A printer with two heads: a reading of one says nothing of the other.
    void eachHeadHasItsSensor() {
        Bench b;
        b.open();
        b.printed("bay-1", 90, morning - 2h, morning);
        b.start({Step("part").cool(Subject::HeadPart, 43), Step("support").cool(Subject::HeadSupport, 43)}, morning);
        b.begin("part", morning);
        b.begin("support", morning);
        const auto both = [&](Instant now) { return countdowns(b.shop, b.session(), now); };
        const QList<Countdown> before = both(morning + 9min);
        QCOMPARE(before[0].title, QStringLiteral("Part head below 43 °C"));
        QCOMPARE(before[1].title, QStringLiteral("Support head below 43 °C"));
        QVERIFY(before[0].sensor == Sensor::Head && before[1].sensor == Sensor::SupportHead);
        QVERIFY(before[1].basis.contains("support head sensor"));
        b.read(Sensor::SupportHead, 200, morning + 10min); // hotter than the model says
        const QList<Countdown> after = both(morning + 11min);
        QCOMPARE(*after[0].due, *before[0].due);
        QVERIFY(*after[1].due > *before[1].due);
    }
    void aPrinterWithOneHeadDoesNotSayWhich() {
        Bench b;
        b.type.supportPosition = false;
        b.open();
        b.printed("bay-1", 90, morning - 2h, morning);
        b.start({Step("head").cool(Subject::HeadPart, 43)}, morning);
        b.begin("head", morning);
        QCOMPARE(b.only(morning).title, QStringLiteral("Head below 43 °C"));
        QVERIFY(b.only(morning).basis.contains("· head sensor ·"));
    }
    // Domain reference 1.2: 25 → 200 at a ceiling of 260, tau 1500: 2047.861 s; settling 8 + 3 minutes.
    void heatingFromTheRoom() {
        Bench b;
        b.open();
        b.start({Step("heat").heat(Subject::Chamber, 200).settle(3)}, morning, "bay-1");
        b.begin("heat", morning);
        const Countdown c = b.only(morning);
        QVERIFY(near(secondsTo(morning, c.due), 2047.861 + 11 * 60, 0.01));
        QCOMPARE(*c.due, *c.expected);
        QCOMPARE(c.title, QStringLiteral("Chamber at 200 °C"));
        QVERIFY(c.basis.contains("room 25 °C"));
        b.read(Sensor::Chamber, 120, morning + 5min);
        QVERIFY(near(secondsTo(morning + 5min, b.only(morning + 5min).due), 1500 * std::log(140.0 / 60) + 660, 0.002));
    }
    void heatingExpectsTheWarmthThatIsThere() {
        Bench b;
        b.open();
        b.printed("bay-1", 90, morning - 2h, morning);
        b.start({Step("heat").heat(Subject::Chamber, 200)}, morning);
        b.begin("heat", morning);
        const Countdown c = b.only(morning);
        QVERIFY(near(secondsTo(morning, c.expected), 1500 * std::log(170.0 / 60) + 480, 0.002)); // from 90
        QVERIFY(near(secondsTo(morning, c.due), 1500 * std::log(235.0 / 60) + 480, 0.002));      // from 25
    }
    void powerOffForgetsTheWarmth() {
        Bench b;
        b.open();
        b.printed("bay-1", 90, morning - 2h, morning);
        b.start({Step("off").hands(1).power(Power::Off), Step("heat").heat(Subject::Chamber, 200)}, morning);
        b.confirm("off", morning);
        b.begin("heat", morning + 1min);
        const Countdown c = b.only(morning + 1min);
        QCOMPARE(*c.expected, *c.due);
    }
    void tooNearTheLimit() {
        Bench b;
        b.type.chamberHeat->ceiling = degrees(205); // 5 of 180 K left: 2.8 %
        b.open();
        b.start({Step("heat").heat(Subject::Chamber, 200)}, morning);
        b.begin("heat", morning);
        Countdown c = b.only(morning);
        QVERIFY(c.nearLimit);
        QVERIFY(!c.due && !c.left(morning));
        QVERIFY(c.needsReading);
        QVERIFY(c.basis.contains("not predictable") && c.basis.contains("door seal"));
        QVERIFY(curve(b.shop, b.session(), c).isEmpty());
        // 1500·ln(180/5) = 5375 s = 90 min, rounded up
        QVERIFY2(c.basis.contains("90 min"), qPrintable(c.basis));
    }
    void neverReached() {
        Bench b;
        b.type.chamberHeat->ceiling = degrees(195);
        b.open();
        b.start({Step("heat").heat(Subject::Chamber, 200)}, morning);
        b.begin("heat", morning);
        const Countdown c = b.only(morning);
        QVERIFY(c.nearLimit && !c.due);
        QVERIFY(c.basis.contains("195 °C"));
    }
    void withoutConstantsOnlyMeasure() {
        Bench b;
        b.type.chamberCool.reset();
        b.type.headCool.reset();
        b.type.headHeat.reset();
        b.open();
        b.printed("bay-1", 90, morning - 2h, morning);
        b.start({coolChamber, Step("head").cool(Subject::HeadPart, 43), Step("warm").heat(Subject::HeadSupport, 250),
                 Step("bed").heat(Subject::Platform, 100)},
                morning);
        for (const char* id : {"cool", "head", "warm", "bed"}) b.begin(id, morning);
        const QList<Countdown> all = countdowns(b.shop, b.session(), morning);
        QCOMPARE(all.size(), 4);
        for (const Countdown& c : all) {
            QVERIFY(!c.due && !c.expected);
            QVERIFY(c.needsReading);
            QVERIFY(c.basis.contains("no ") && c.basis.contains("constants"));
        }
    }
    void roomTooWarm() {
        Bench b;
        b.catalogue.fleet.room = degrees(43);
        b.open();
        b.printed("bay-1", 90, morning - 2h, morning);
        b.start({coolChamber}, morning);
        b.begin("cool", morning);
        const Countdown c = b.only(morning);
        QVERIFY(!c.due);
        QVERIFY(c.basis.contains("room, 43 °C") && c.basis.contains("measure"));
    }
    void unknownStartTemperature() {
        Bench b;
        b.open();
        b.start({coolChamber}, morning); // nothing is known of this printer
        b.begin("cool", morning);
        QVERIFY(!b.only(morning).due);
        QVERIFY(b.only(morning).basis.contains("not known"));
        b.read(Sensor::Chamber, 80, morning + 1min);
        QVERIFY(near(secondsTo(morning + 1min, b.only(morning + 1min).due), 2940 * std::log(55.0 / 18), 0.002));
    }
    void afterLongIdlenessOldSetPointsSayNothing() {
        Bench b;
        b.open();
        b.printed("bay-1", 90, morning - 30 * 24h, morning - 29 * 24h);
        b.start({coolChamber}, morning, "bay-1", {fact::longIdle});
        b.begin("cool", morning);
        QVERIFY(!b.only(morning).due);
    }
    void uselessConstants() {
        Bench b;
        b.type.headCool->g12Se = 0.2; // 2 se beyond the conductance itself
        b.type.chamberCool->tau = Seconds(1000000000);
        b.open();
        b.printed("bay-1", 90, morning - 2h, morning);
        b.start({coolChamber, Step("head").cool(Subject::HeadPart, 43)}, morning);
        b.begin("cool", morning);
        b.begin("head", morning);
        for (const Countdown& c : countdowns(b.shop, b.session(), morning)) QVERIFY(!c.due && c.basis.contains("measure"));
    }
    void fixedAndPurge() {
        Bench b;
        b.open();
        b.start({Step("soak").wait(20), Step("purge").purge(1.744), Step("odd").purge(0)}, morning);
        b.begin("soak", morning + 1min);
        b.begin("purge", morning + 2min);
        const QList<Countdown> all = countdowns(b.shop, b.session(), morning + 3min);
        QCOMPARE(all.size(), 2);
        QCOMPARE(*all[0].due, morning + 21min);
        QCOMPARE(*all[0].left(morning + 3min), Milliseconds(18min));
        QCOMPARE(*all[0].left(morning + 22min), Milliseconds(-1min));
        QCOMPARE(*all[1].due, morning + 2min + 218s); // 1744 mm³ at 8 mm³/s
        QVERIFY(all[1].basis.contains("1.74 cm³") && all[1].basis.contains("8 mm³/s"));
    }
    void onlyBelowNeedsAReading() {
        Bench b;
        b.open();
        b.printed("bay-1", 90, morning - 2h, morning);
        b.start({Step("cool").cool(Subject::Chamber, 43).onlyBelow(43)}, morning);
        b.begin("cool", morning);
        QVERIFY(b.only(morning).needsReading);
    }
    void overWhenDone() {
        Bench b;
        b.open();
        b.start({Step("soak").wait(20), Step("rest").wait(5)}, morning);
        b.begin("soak", morning);
        b.begin("rest", morning);
        b.confirm("soak", morning + 20min);
        QCOMPARE(b.only(morning + 20min).step, QStringLiteral("rest"));
        QVERIFY(b.happen(act::SessionStopped{1, "enough"}, morning + 21min));
        QVERIFY(countdowns(b.shop, b.session(), morning + 21min).isEmpty());
    }
    void ofTheWholeShop() {
        Bench b;
        b.type.chamberCool.reset();
        b.open();
        b.printing("bay-2", 90, morning - 1h, Minutes(80)); // ends 20 min from now
        b.start({Step("soak").wait(30), Step("rest").wait(5), coolChamber}, morning);
        for (const char* id : {"soak", "rest", "cool"}) b.begin(id, morning);
        const QList<Countdown> all = allCountdowns(b.shop, morning);
        QCOMPARE(all.size(), 4);
        QCOMPARE(all[0].step, QStringLiteral("rest"));
        QCOMPARE(all[1].printer, QStringLiteral("bay-2"));
        QCOMPARE(all[1].session, 0);
        QCOMPARE(*all[1].due, morning + 20min);
        QCOMPARE(all[2].step, QStringLiteral("soak"));
        QVERIFY(!all[3].due); // without a prediction: last
    }
};

INTERLUDE_TEST(CountdownTest)
#include "countdown_test.moc"
