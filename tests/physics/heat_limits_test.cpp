// Heating and cooling at their edges: bad input, already there, never there, a head that first warms up.

#include "model/physics/heat.h"
#include "tests/harness/run_tests.h"

#include <QTest>

#include <cmath>
#include <limits>
#include <random>

using namespace interlude::physics;

namespace {
const double notANumber = std::numeric_limits<double>::quiet_NaN();
const double inf = std::numeric_limits<double>::infinity();
const TwoNodes body{60, 12000, 0.25, 6.0};
} // namespace

class HeatLimitsTest : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void oneNodeRefusesNonsense() {
        for (const double bad : {notANumber, inf, -inf}) {
            QVERIFY(!oneNodeTimeTo(bad, 23, 43, 100));
            QVERIFY(!oneNodeTimeTo(90, bad, 43, 100));
            QVERIFY(!oneNodeTimeTo(90, 23, bad, 100));
            QVERIFY(!oneNodeTimeTo(90, 23, 43, bad));
            QVERIFY(std::isnan(oneNodeTemperature(bad, 23, 100, 5)));
        }
        QVERIFY(!oneNodeTimeTo(90, 23, 43, 0));
        QVERIFY(!oneNodeTimeTo(90, 23, 43, -1));
        QVERIFY(std::isnan(oneNodeTemperature(90, 23, 0, 5)));
        QVERIFY(std::isnan(oneNodeTemperature(90, 23, 100, -5)));
    }
    void oneNodeNeverThere() {
        QVERIFY(!oneNodeTimeTo(90, 23, 23, 100)); // only after ever
        QVERIFY(!oneNodeTimeTo(90, 23, 20, 100));
        QVERIFY(!oneNodeTimeTo(90, 23, 95, 100));
        QVERIFY(!oneNodeTimeTo(20, 80, 80, 100));
        QCOMPARE(*oneNodeTimeTo(43, 23, 43, 100), 0.0);
        QVERIFY(*oneNodeTimeTo(20, 80, 60, 100) > 0); // warming works as well
    }
    void coolingBand() {
        QVERIFY(!oneNodeCooling(90, 43, 43, 100, 1)); // room >= target: no countdown
        QVERIFY(!oneNodeCooling(40, 50, 43, 100, 1)); // it would warm up above it again
        QCOMPARE(oneNodeCooling(40, 23, 43, 100, 1)->upper, 0.0);
        QVERIFY(!oneNodeCooling(90, 23, 43, 100, -1));
        QVERIFY(!oneNodeCooling(90, 23, 43, 100, notANumber));
        const auto sure = oneNodeCooling(90, 23, 43, 100, 0);
        QCOMPARE(sure->upper, sure->expected);
        QVERIFY(oneNodeCooling(90, 23, 43, 100, 5)->upper > sure->upper);
    }
    void twoNodesRefuseNonsense() {
        QVERIFY(!twoNodeTimeTo({0, 12000, 0.25, 6}, 25, {300, 90}, 43, Node::Head));
        QVERIFY(!twoNodeTimeTo({60, -1, 0.25, 6}, 25, {300, 90}, 43, Node::Head));
        QVERIFY(!twoNodeTimeTo({60, 12000, 0, 6}, 25, {300, 90}, 43, Node::Head));
        QVERIFY(!twoNodeTimeTo({60, 12000, 0.25, notANumber}, 25, {300, 90}, 43, Node::Head));
        QVERIFY(!twoNodeTimeTo({1e-300, 1e300, 1e300, 1e300}, 25, {300, 90}, 43, Node::Head));
        QVERIFY(!twoNodeTimeTo(body, 25, {300, 90}, 25, Node::Head));
        QVERIFY(!twoNodeTimeTo(body, 25, {notANumber, 90}, 43, Node::Head));
        QVERIFY(std::isnan(twoNodeTemperatures(body, 25, {300, 90}, -1).head));
        // A conductance that 2 se brings to zero gives no prediction.
        QVERIFY(!twoNodeCooling(body, 0.125, 0.1, 25, {300, 90}, 43, Node::Head));
        QVERIFY(!twoNodeCooling(body, 0.01, 3.0, 25, {300, 90}, 43, Node::Head));
        QVERIFY(!twoNodeCooling(body, -0.01, 0.1, 25, {300, 90}, 43, Node::Head));
        QVERIFY(twoNodeCooling(body, 0.01, 0.1, 25, {300, 90}, 43, Node::Head));
    }
    void alreadyThereIsZero() {
        QCOMPARE(*twoNodeTimeTo(body, 25, {40, 30}, 43, Node::Head), 0.0);
        QCOMPARE(*twoNodeTimeTo(body, 25, {43, 43}, 43, Node::Chamber), 0.0);
        QCOMPARE(*twoNodeTimeTo(body, 25, {25, 25}, 43, Node::Head), 0.0);
    }
    // A cold head in a warm chamber is below 43 now, rises above it and falls again: "for good" is the last crossing.
    void fallenForGood() {
        const TwoTemperatures start{30, 90};
        const auto time = twoNodeTimeTo(body, 25, start, 43, Node::Head);
        QVERIFY(time);
        QVERIFY(*time > 600);
        QVERIFY(std::abs(twoNodeTemperatures(body, 25, start, *time).head - 43) < 1e-5);
        QVERIFY(twoNodeTemperatures(body, 25, start, *time + 60).head < 43);
        QVERIFY(twoNodeTemperatures(body, 25, start, *time - 60).head > 43);
    }
    // A hot head in a chamber that was left open in the cold: falls below the room and comes back.
    void coldChamber() {
        const TwoTemperatures start{60, -20};
        const auto time = twoNodeTimeTo(body, 25, start, 43, Node::Head);
        QVERIFY(time);
        QVERIFY(std::abs(twoNodeTemperatures(body, 25, start, *time).head - 43) < 1e-5);
        QVERIFY(twoNodeTemperatures(body, 25, start, 900).head < 25);
    }
    // The closed form against a fourth-order Runge-Kutta integration of the two balances, on random bodies; and the time
    // to reach: above the level before it, not above it afterwards.
    void randomBodiesAgreeWithIntegration() {
        std::mt19937 random(20260302);
        const auto between = [&](double a, double b) { return std::uniform_real_distribution<>(a, b)(random); };
        for (int i = 0; i < (interlude::tests::longRun() ? 2000 : 200); ++i) {
            const TwoNodes b{between(20, 500), between(500, 40000), between(0.05, 3), between(0.5, 20)};
            const double room = between(5, 35);
            const TwoTemperatures start{between(-10, 400), between(-10, 250)};
            TwoTemperatures y = start;
            const double h = 0.25;
            for (int k = 0; k < 2400; ++k) {
                const auto slope = [&](TwoTemperatures v) {
                    const double flow = b.g12 * (v.head - v.chamber);
                    return TwoTemperatures{-flow / b.c1, (flow - b.g20 * (v.chamber - room)) / b.c2};
                };
                const auto plus = [](TwoTemperatures v, TwoTemperatures d, double f) {
                    return TwoTemperatures{v.head + f * d.head, v.chamber + f * d.chamber};
                };
                const auto k1 = slope(y), k2 = slope(plus(y, k1, h / 2)), k3 = slope(plus(y, k2, h / 2)),
                           k4 = slope(plus(y, k3, h));
                y.head += h / 6 * (k1.head + 2 * k2.head + 2 * k3.head + k4.head);
                y.chamber += h / 6 * (k1.chamber + 2 * k2.chamber + 2 * k3.chamber + k4.chamber);
            }
            const TwoTemperatures closed = twoNodeTemperatures(b, room, start, 600);
            QVERIFY(std::abs(closed.head - y.head) < 1e-6);
            QVERIFY(std::abs(closed.chamber - y.chamber) < 1e-6);
            const auto t43 = twoNodeTimeTo(b, room, start, 43, Node::Head);
            QVERIFY(t43);
            for (const double later : {1e-3, 1.0, 100.0, 5000.0})
                QVERIFY(twoNodeTemperatures(b, room, start, *t43 + later).head <= 43);
            if (*t43 > 1) QVERIFY(twoNodeTemperatures(b, room, start, *t43 - 1e-2).head > 43);
            const auto band = twoNodeCooling(b, b.g12 * 0.05, b.g20 * 0.05, room, start, 43, Node::Head);
            QVERIFY(band && band->upper >= band->expected);
        }
    }
    void heatingEdges() {
        QCOMPARE(powerLimitedHeating(25, 200, 200, 300).answer, HeatingAnswer::Unreachable);
        QCOMPARE(powerLimitedHeating(25, 200, 250, 300).answer, HeatingAnswer::Unreachable);
        QCOMPARE(powerLimitedHeating(25, 200, 100, 0).answer, HeatingAnswer::Unreachable);
        QCOMPARE(powerLimitedHeating(notANumber, 200, 100, 300).answer, HeatingAnswer::Unreachable);
        const Heating there = powerLimitedHeating(120, 200, 100, 300);
        QCOMPARE(there.answer, HeatingAnswer::Seconds);
        QCOMPARE(there.seconds, 0.0);
        // Exactly 5 % left is still predictable: ceiling 225, from 25, set 215 (10 of 200 K).
        QCOMPARE(powerLimitedHeating(25, 225, 215, 300).answer, HeatingAnswer::Seconds);
        QCOMPARE(powerLimitedHeating(25, 225, 215.01, 300).answer, HeatingAnswer::NotPredictable);
        QVERIFY(powerLimitedHeating(25, 225, 215.01, 300).seconds > 0);
    }
    void lumpedBodies() {
        QVERIFY(std::isnan(biot(10, 0.01, 0)));
        QVERIFY(std::isnan(lumpedTau(8000, 400, 0.01, 0)));
        QVERIFY(std::isnan(lumpedTau(notANumber, 400, 0.01, 10)));
    }
};

INTERLUDE_TEST(HeatLimitsTest)
#include "heat_limits_test.moc"
