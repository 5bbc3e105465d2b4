// Outside checks of feedstock arithmetic. The inch and the pound are exact by definition (NIST SP 811, recalled).

#include "model/physics/feedstock.h"
#include "model/quantities/quantities.h"
#include "tests/harness/run_tests.h"

#include <QTest>

#include <cmath>

using namespace interlude;
using namespace interlude::physics;

namespace {
bool within(double value, double published, double tolerance) {
    if (std::abs(value - published) <= tolerance) return true;
    qWarning("computed %.10g, published %.10g, tolerance %.3g", value, published, tolerance);
    return false;
}
constexpr double cm3PerCubicInch = 16.387064;
} // namespace

class FeedstockCheck : public QObject {
    Q_OBJECT
private Q_SLOTS:
    // Domain reference 4, first table.
    void strand() {
        QVERIFY(within(strandAreaMm2(1.75), 2.405281875, 5e-9));
        QVERIFY(within(strandAreaMm2(2.85), 6.379396582, 5e-9));
        QVERIFY(within(metresPerCm3(1.75), 0.4157517, 5e-8));
        QVERIFY(within(metresPerCm3(2.85), 0.1567546, 5e-8));
        QVERIFY(within(metresPerCm3(1.75) * cm3PerCubicInch, 6.812950, 5e-7));
        QVERIFY(within(metresPerCm3(2.85) * cm3PerCubicInch, 2.568748, 5e-7));
    }
    // Domain reference 4, second table: g/m and m/kg by density.
    void masses() {
        const double rho[] = {1.01, 1.04, 1.05, 1.07, 1.20, 1.24, 1.27, 1.29, 1.30};
        const double thin[] = {2.42933, 2.50149, 2.52555, 2.57365, 2.88634, 2.98255, 3.05471, 3.10281, 3.12687};
        const double thinPerKg[] = {411.635, 399.761, 395.954, 388.553, 346.460, 335.284, 327.364, 322.288, 319.809};
        const double thick[] = {6.44319, 6.63457, 6.69837, 6.82595, 7.65528, 7.91045, 8.10183, 8.22942, 8.29322};
        const double thickPerKg[] = {155.203, 150.726, 149.290, 146.500, 130.629, 126.415, 123.429, 121.515, 120.580};
        for (int i = 0; i < 9; ++i) {
            QVERIFY(within(gramsPerMetre(1.75, rho[i]), thin[i], 6e-6));
            QVERIFY(within(1000 / gramsPerMetre(1.75, rho[i]), thinPerKg[i], 6e-4));
            QVERIFY(within(gramsPerMetre(2.85, rho[i]), thick[i], 6e-6));
            QVERIFY(within(1000 / gramsPerMetre(2.85, rho[i]), thickPerKg[i], 6e-4));
        }
    }
    // Domain reference 4: 100 in³; 1.5 kg; the tolerance of the diameter.
    void conversions() {
        QVERIFY(within(100 * cm3PerCubicInch * metresPerCm3(1.75), 681.295, 6e-4));
        // A Volume is whole mm³: 1638.7064 cm³ is kept as 1638.706.
        QVERIFY(within(massOf(Volume::fromCm3(1638.7064), 1.04).grams(), 1704.255, 1.5e-3));
        QVERIFY(within(massOf(Volume::fromCm3(1638.7064), 1.29).grams(), 2113.931, 1.5e-3));
        const Volume spool = volumeOf(Mass::fromGrams(1500), 1.07);
        QVERIFY(within(spool.cm3(), 1401.869, 1e-3));
        QVERIFY(within(spool.cm3() * metresPerCm3(1.75), 582.829, 1e-3));
        QVERIFY(within(strandAreaMm2(1.78) / strandAreaMm2(1.75) - 1, 0.03458, 6e-6));
        QVERIFY(within(strandAreaMm2(1.72) / strandAreaMm2(1.75) - 1, -0.03399, 6e-6));
    }
    // Domain reference 4, run-out example (invented inputs): left 412 g (5 g and 1 %), need 355 g (5 %).
    void runOut() {
        const double leftSe = std::hypot(5.0, 4.12), needSe = 0.05 * 355;
        QVERIFY(within(leftSe, 6.4788, 5e-5));
        QVERIFY(within(probabilityShort(412, leftSe, 355, needSe), 1.278e-3, 5e-7));
        // Normal distribution, any table: one-sided 2.5 % at 1.959964.
        QVERIFY(within(probabilityShort(1.959963985, 1, 0, 0), 0.025, 1e-9));
        QVERIFY(within(probabilityShort(100, 3, 100, 4), 0.5, 1e-12));
    }
};

INTERLUDE_TEST(FeedstockCheck)
#include "feedstock_test.moc"
