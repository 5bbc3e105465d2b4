// The band that the chart draws.

#include "tests/harness/run_tests.h"
#include "tests/session/bench.h"

#include <cmath>

using namespace interlude;
using namespace interlude::tests;

class CurveTest : public QObject {
    Q_OBJECT
private:
    /// The band is ordered, begins at `from` and `start`, and its upper edge meets the target at the countdown's end.
    static void checkCooling(const QList<CurvePoint>& points, const Countdown& c, Instant from, double start) {
        QCOMPARE(points.size(), 61);
        QCOMPARE(points.first().at, from);
        QVERIFY(near(points.first().highC, start, 1e-9) && near(points.first().lowC, start, 1e-9));
        QVERIFY(std::chrono::abs(points.last().at - *c.due) <= 2ms);
        QVERIFY(near(points.last().highC, c.target->celsius(), 1e-3));
        QVERIFY(points.last().expectedC < c.target->celsius());
        for (qsizetype i = 0; i < points.size(); ++i) {
            QVERIFY(points[i].lowC <= points[i].expectedC && points[i].expectedC <= points[i].highC);
            if (i > 0) QVERIFY(points[i].at > points[i - 1].at && points[i].highC < points[i - 1].highC);
        }
    }
private Q_SLOTS:
    void chamber() {
        Bench b;
        b.open();
        b.printed("bay-1", 90, morning - 2h, morning);
        b.start({Step("cool").cool(Subject::Chamber, 43)}, morning);
        b.begin("cool", morning);
        checkCooling(curve(b.shop, b.session(), b.only(morning)), b.only(morning), morning, 90);
        b.read(Sensor::Chamber, 70, morning + 10min);
        checkCooling(curve(b.shop, b.session(), b.only(morning + 20min)), b.only(morning + 20min), morning + 10min, 70);
        // A third of the way: one node, by hand.
        const CurvePoint p = curve(b.shop, b.session(), b.only(morning + 20min)).at(20);
        const double s = secondsTo(morning + 10min, p.at);
        QVERIFY(near(p.expectedC, 25 + 45 * std::exp(-s / 2700), 1e-4));
        QVERIFY(near(p.lowC, 25 + 45 * std::exp(-s / 2460), 1e-4));
    }
    void head() {
        Bench b;
        b.catalogue.materials[0].nozzle = degrees(300);
        b.open();
        b.printed("bay-1", 90, morning - 2h, morning);
        b.start({Step("head").cool(Subject::HeadPart, 43)}, morning);
        b.begin("head", morning);
        checkCooling(curve(b.shop, b.session(), b.only(morning)), b.only(morning), morning, 300);
    }
    void heating() {
        Bench b;
        b.open();
        b.printed("bay-1", 90, morning - 2h, morning);
        b.start({Step("heat").heat(Subject::Chamber, 200)}, morning);
        b.begin("heat", morning);
        const Countdown c = b.only(morning);
        const QList<CurvePoint> points = curve(b.shop, b.session(), c);
        QCOMPARE(points.size(), 61);
        QVERIFY(near(points.first().lowC, 25, 1e-9) && near(points.first().highC, 90, 1e-9));
        QVERIFY(near(points.last().lowC, 200, 1e-9) && near(points.last().highC, 200, 1e-9));
        for (const CurvePoint& p : points) QVERIFY(p.lowC <= p.expectedC && p.expectedC <= p.highC && p.highC <= 200);
    }
    void alreadyThereStillDraws() {
        Bench b;
        b.open();
        b.start({Step("cool").cool(Subject::Chamber, 43)}, morning);
        b.begin("cool", morning);
        b.read(Sensor::Chamber, 40, morning);
        const QList<CurvePoint> points = curve(b.shop, b.session(), b.only(morning));
        QCOMPARE(points.size(), 61);
        QVERIFY(points.last().at > points.first().at);
    }
    void nothingToDraw() {
        Bench b;
        b.open();
        b.start({Step("soak").wait(20), Step("cool").cool(Subject::Chamber, 43)}, morning);
        b.begin("soak", morning);
        QVERIFY(curve(b.shop, b.session(), b.only(morning)).isEmpty()); // no temperature
        Countdown invented;
        invented.step = "cool";
        invented.due = morning;
        QVERIFY(curve(b.shop, b.session(), invented).isEmpty()); // not begun
        invented.step = "no such step";
        QVERIFY(curve(b.shop, b.session(), invented).isEmpty());
    }
};

INTERLUDE_TEST(CurveTest)
#include "curve_test.moc"
