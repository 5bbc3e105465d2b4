// All that runs in the shop, the next to end first; what cannot be foretold is said, and comes last.

#include "tests/harness/run_tests.h"
#include "tests/session/bench.h"

using namespace interlude;
using namespace interlude::tests;

namespace {
QStringList titles(const QList<Countdown>& all) {
    QStringList out;
    for (const Countdown& c : all) out.append(c.title);
    return out;
}
} // namespace

class AllCountdownsTest : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void theNextToEndComesFirst() {
        Bench b;
        b.type.purgeFlowMm3PerS = 0; // nobody knows it
        b.open();
        b.printing(QStringLiteral("bay-5"), 90, morning, Minutes(20));
        b.start({Step("rest").wait(30), Step("flush").purge(2), Step("dry").wait(10)}, morning, QStringLiteral("bay-1"));
        b.start({Step("soak").wait(15)}, morning, QStringLiteral("bay-2"));
        for (const char* step : {"rest", "flush", "dry"}) b.begin(QString::fromLatin1(step), morning);
        b.begin(QStringLiteral("soak"), morning, 2);
        // 10, 15, 20 and 30 min; the purge has no end that anybody could know
        const QList<Countdown> all = allCountdowns(b.shop, morning);
        QCOMPARE(titles(all), QStringList({"dry", "soak", "Print of job-bay-5 ends", "rest", "flush"}));
        QCOMPARE(all[1].printer, QStringLiteral("bay-2"));
        QVERIFY(near(secondsTo(morning, all[2].due), 20 * 60, 0.5));
        QVERIFY(!all[4].due);
        QVERIFY(all[4].needsReading); // somebody has to look
        QCOMPARE(all[4].basis, QStringLiteral("the volume or the flow of this purge is not known: watch the bead"));
    }

    void aPurgeWithItsFlow() {
        Bench b;
        b.type.purgeFlowMm3PerS = 10;
        b.open();
        b.start({Step("flush").purge(2)}, morning);
        b.begin(QStringLiteral("flush"), morning);
        const Countdown c = b.only(morning + 60s);
        QVERIFY(near(secondsTo(morning, c.due), 200, 0.5)); // 2000 mm³ at 10 mm³/s
        QVERIFY(!c.needsReading);
    }

    void aHeatingWithoutATarget() {
        Bench b;
        b.open();
        PlannedStep heat = Step("heat").heat(Subject::Chamber, 90);
        heat.target.reset(); // no set-point was known when the changeover was planned
        b.start({heat}, morning);
        b.begin(QStringLiteral("heat"), morning);
        const Countdown c = b.only(morning);
        QVERIFY(!c.due);
        QVERIFY(c.needsReading);
        QCOMPARE(c.basis, QStringLiteral("no temperature is stated for this step: measure"));
    }

    void aCoolingKeepsItsOwnEndWhereNoTargetWasPlanned() {
        Bench b;
        b.open();
        b.printed(QStringLiteral("bay-1"), 90, morning - 2h, morning);
        PlannedStep cool = Step("cool").cool(Subject::Chamber, 60);
        cool.target.reset();
        b.start({cool}, morning);
        b.begin(QStringLiteral("cool"), morning);
        const Countdown c = b.only(morning);
        // (2700 + 2·120) s · ln((90 − 25)/(60 − 25)): the upper end
        QVERIFY(near(secondsTo(morning, c.due), 2940 * std::log(65.0 / 35.0), 1.0));
    }

    void aPrinterWhoseTypeIsGone() {
        Bench b;
        b.open();
        b.catalogue.fleet.printers[0].type = QStringLiteral("gone");
        b.open();
        b.start({Step("cool").cool(Subject::Chamber, 60)}, morning);
        b.begin(QStringLiteral("cool"), morning);
        const Countdown c = b.only(morning);
        QVERIFY(!c.due);
        QCOMPARE(c.basis, QStringLiteral("this printer's type is not known: measure"));
    }

    void aHeadOfWhichNothingIsKnown() {
        Bench b;
        b.open();
        b.start({Step("cool").cool(Subject::HeadPart, 60)}, morning); // nothing was ever printed here
        b.begin(QStringLiteral("cool"), morning);
        const Countdown c = b.only(morning);
        QVERIFY(!c.due);
        QCOMPARE(c.basis, QStringLiteral("the temperatures of head and chamber are not both known: measure"));
    }

    void aHeatingOfMoreThanAWeekIsAFaultOfTheConstants() {
        Bench b;
        b.type.chamberHeat->tau = Seconds(1'000'000);
        b.open();
        b.start({Step("heat").heat(Subject::Chamber, 200)}, morning);
        b.begin(QStringLiteral("heat"), morning);
        const Countdown c = b.only(morning); // 10⁶ s · ln((260 − 25)/(260 − 200)) = 16 days
        QVERIFY(!c.due);
        QCOMPARE(c.basis, QStringLiteral("the prediction is longer than a week: check the constants"));
    }
};

INTERLUDE_TEST(AllCountdownsTest)
#include "all_countdowns_test.moc"
