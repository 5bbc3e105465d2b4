// Purging and feedstock at their edges: bad input, long tails, many tanks.

#include "model/physics/feedstock.h"
#include "model/physics/purge.h"
#include "tests/harness/run_tests.h"

#include <QTest>

#include <cmath>
#include <limits>

using namespace interlude::physics;

namespace {
const double notANumber = std::numeric_limits<double>::quiet_NaN();
const double inf = std::numeric_limits<double>::infinity();
} // namespace

class PurgeLimitsTest : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void nonsenseIsNaN() {
        for (const double n : {0.0, -0.4, 1.0001, notANumber, inf}) {
            QVERIFY(std::isnan(tubeOutletFraction(2, n)));
            QVERIFY(std::isnan(tubeVolumeFraction(2, n)));
            QVERIFY(std::isnan(thetaForOutletFraction(0.01, n)));
            QVERIFY(std::isnan(purgeVolumeMm3(0.01, n, 400, 2)));
        }
        for (const double f : {0.0, 1.0, -0.1, 1.5, notANumber}) {
            QVERIFY(std::isnan(thetaForOutletFraction(f, 0.4)));
            QVERIFY(std::isnan(thetaForVolumeFraction(f, 0.4)));
            QVERIFY(std::isnan(tanksThetaForOutletFraction(f, 3)));
        }
        for (const int tanks : {0, -3}) {
            QVERIFY(std::isnan(tanksOutletFraction(1, tanks)));
            QVERIFY(std::isnan(tanksVolumeFraction(1, tanks)));
            QVERIFY(std::isnan(tanksThetaForOutletFraction(0.1, tanks)));
        }
        QVERIFY(std::isnan(tubeOutletFraction(notANumber, 0.4)));
        QVERIFY(std::isnan(tanksOutletFraction(notANumber, 2)));
        QVERIFY(std::isnan(purgeVolumeMm3(0.01, 0.4, -1, 2)));
        QVERIFY(std::isnan(purgeVolumeMm3(0.01, 0.4, 400, 0)));
        QCOMPARE(purgeVolumeMm3(0.01, 0.4, 0, 2), 0.0);
    }
    void nothingFlowedYet() {
        for (const double theta : {-1.0, 0.0}) {
            QCOMPARE(tubeOutletFraction(theta, 0.4), 1.0);
            QCOMPARE(tubeVolumeFraction(theta, 0.4), 1.0);
            QCOMPARE(tanksOutletFraction(theta, 3), 1.0);
            QCOMPARE(tanksVolumeFraction(theta, 3), 1.0);
        }
        QCOMPARE(tubeOutletFraction(inf, 0.4), 0.0);
        QCOMPARE(tubeVolumeFraction(inf, 0.4), 0.0);
        QCOMPARE(tanksVolumeFraction(inf, 3), 0.0);
    }
    // The tail W → n/((3n+1)·theta²), Vres → n/((3n+1)·theta): lost in rounding by the closed form as it is written.
    void longTail() {
        for (const double n : {0.1, 0.4, 1.0}) {
            const double c = n / (3 * n + 1);
            for (const double theta : {1e5, 1e7, 1e9}) {
                QVERIFY(std::abs(tubeOutletFraction(theta, n) * theta * theta / c - 1) < 2e-5);
                QVERIFY(std::abs(tubeVolumeFraction(theta, n) * theta / c - 1) < 2e-5);
            }
        }
    }
    void monotonicAndInvertible() {
        for (const double n : {0.05, 0.2, 0.4, 0.8, 1.0}) {
            double before = 1;
            for (double theta = 0.4; theta < 200; theta *= 1.03) {
                const double w = tubeOutletFraction(theta, n);
                QVERIFY(w <= before && w > 0);
                QVERIFY(tubeVolumeFraction(theta, n) >= 0);
                before = w;
            }
            for (const double f : {0.9, 0.5, 0.1, 1e-3, 1e-8, 1e-14}) {
                const double theta = thetaForOutletFraction(f, n);
                QVERIFY(tubeOutletFraction(theta, n) <= f);              // enough …
                QVERIFY(tubeOutletFraction(theta * (1 - 1e-9), n) > f);  // … and not more than needed
                const double v = thetaForVolumeFraction(f, n);
                QVERIFY(tubeVolumeFraction(v, n) <= f);
                QVERIFY(tubeVolumeFraction(v * (1 - 1e-9), n) > f);
            }
        }
    }
    // Vres is the integral of W over the rest: dVres/dtheta = −W.
    void volumeFallsByWhatLeaves() {
        const double h = 1e-5;
        for (const double theta : {0.3, 0.9, 1.7, 6.0}) {
            const double tube = (tubeVolumeFraction(theta - h, 0.4) - tubeVolumeFraction(theta + h, 0.4)) / (2 * h);
            QVERIFY(std::abs(tube - tubeOutletFraction(theta, 0.4)) < 1e-6);
            for (const int tanks : {1, 4, 999, 1001, 100000}) {
                const double d = (tanksVolumeFraction(theta - h, tanks) - tanksVolumeFraction(theta + h, tanks)) / (2 * h);
                QVERIFY(std::abs(d - tanksOutletFraction(theta, tanks)) < 1e-5);
            }
        }
    }
    void manyTanksArePlugFlow() {
        QVERIFY(tanksOutletFraction(0.98, 1000000) > 0.999999);
        QVERIFY(tanksOutletFraction(1.02, 1000000) < 1e-6);
        QVERIFY(std::abs(tanksThetaForOutletFraction(0.01, 1000000) - 1) < 0.01);
        QVERIFY(std::abs(thetaForOutletFraction(0.01, 1e-9) - 1) < 1e-3); // n → 0 as well
    }
    void feedstockNonsense() {
        QVERIFY(std::isnan(strandAreaMm2(0)));
        QVERIFY(std::isnan(strandAreaMm2(-1)));
        QVERIFY(std::isnan(metresPerCm3(notANumber)));
        QVERIFY(std::isnan(gramsPerMetre(1.75, 0)));
        QVERIFY(std::isnan(probabilityShort(100, -1, 50, 1)));
        QVERIFY(std::isnan(probabilityShort(notANumber, 1, 50, 1)));
        QCOMPARE(probabilityShort(100, 0, 99, 0), 0.0);
        QCOMPARE(probabilityShort(100, 0, 100, 0), 0.0);
        QCOMPARE(probabilityShort(100, 0, 101, 0), 1.0);
    }
};

INTERLUDE_TEST(PurgeLimitsTest)
#include "purge_limits_test.moc"
