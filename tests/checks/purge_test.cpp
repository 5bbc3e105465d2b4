// Outside checks of purging: published limits, tables, and a quadrature of the velocity profile that shares no formula
// with the closed form under test.

#include "model/physics/purge.h"
#include "tests/harness/run_tests.h"

#include <QTest>

#include <boost/math/quadrature/tanh_sinh.hpp>

#include <cmath>

using namespace interlude::physics;

namespace {

bool within(double value, double published, double tolerance) {
    if (std::abs(value - published) <= tolerance) return true;
    qWarning("computed %.12g, published %.12g, tolerance %.3g", value, published, tolerance);
    return false;
}

/// u/ubar of a power-law fluid in a tube at relative radius x, straight from the momentum balance: the shear stress is
/// proportional to x, so −du/dx ∝ x^(1/n); integrated from the wall and divided by its own mean over the section.
class Profile {
public:
    explicit Profile(double n) : m_exponent(1 / n + 1) {
        m_mean = m_integrator.integrate([this](double x) { return 2 * x * raw(x); }, 0.0, 1.0);
    }
    double at(double x) const { return raw(x) / m_mean; }
    /// Radius outside which the fluid needs longer than theta: bisected on the profile.
    double slowerThan(double theta) const {
        double inside = 0, wall = 1;
        for (int i = 0; i < 200; ++i) {
            const double x = (inside + wall) / 2;
            (at(x) * theta > 1 ? inside : wall) = x;
        }
        return wall;
    }
    /// Old material in what leaves at theta: the flow through the annulus whose residence time is longer.
    double outlet(double theta) const {
        return m_integrator.integrate([this](double x) { return 2 * x * at(x); }, slowerThan(theta), 1.0);
    }
    /// Old material still inside: at each radius the part 1 − theta·u of the length has not left yet.
    double volume(double theta) const {
        const double from = theta * at(0) > 1 ? slowerThan(theta) : 0.0;
        return m_integrator.integrate([&](double x) { return 2 * x * (1 - theta * at(x)); }, from, 1.0);
    }

private:
    double raw(double x) const { return 1 - std::pow(x, m_exponent); }
    double m_exponent;
    double m_mean = 1;
    mutable boost::math::quadrature::tanh_sinh<double> m_integrator;
};

} // namespace

class PurgeCheck : public QObject {
    Q_OBJECT
private Q_SLOTS:
    // Levenspiel, Chemical Reaction Engineering, 3rd ed.: laminar (Newtonian) flow in a tube, F = 1 − 1/(4 theta²) for
    // theta >= 1/2, nothing before.
    void levenspielTube() {
        for (const double theta : {0.0, 0.1, 0.3, 0.4999, 0.5}) {
            QCOMPARE(tubeOutletFraction(theta, 1.0), 1.0);
            QVERIFY(within(tubeVolumeFraction(theta, 1.0), 1 - theta, 1e-12));
        }
        for (const double theta : {0.5001, 0.6, 1.0, 2.0, 5.0, 9.99, 10.01, 50.0, 1e3, 1e6}) {
            const double w = 1 / (4 * theta * theta);
            QVERIFY(within(tubeOutletFraction(theta, 1.0), w, 1e-12 * std::max(w, 1e-6)));
            QVERIFY(within(tubeVolumeFraction(theta, 1.0), 1 / (4 * theta), 1e-12));
        }
    }
    // The same book: one mixed tank, exp(−theta); N tanks in a row by their defining sum.
    void levenspielTanks() {
        for (const double theta : {0.0, 0.2, 1.0, 3.0, 10.0, 30.0}) {
            QVERIFY(within(tanksOutletFraction(theta, 1), std::exp(-theta), 1e-12));
            QVERIFY(within(tanksVolumeFraction(theta, 1), std::exp(-theta), 1e-12));
            for (const int tanks : {2, 3, 5, 20}) {
                double term = 1, outlet = 0, volume = 0; // (N theta)^i/i!
                for (int i = 0; i < tanks; term *= tanks * theta / ++i) {
                    outlet += term;
                    volume += term * (tanks - i) / tanks;
                }
                QVERIFY(within(tanksOutletFraction(theta, tanks), outlet * std::exp(-tanks * theta), 1e-12));
                QVERIFY(within(tanksVolumeFraction(theta, tanks), volume * std::exp(-tanks * theta), 1e-12));
            }
        }
    }
    // Power-law index: quadrature of the radial profile (no published table exists; see domain reference 15).
    void powerLawQuadrature() {
        for (const double n : {0.2, 0.3, 0.4, 0.5, 0.7, 0.9, 1.0}) {
            const Profile profile(n);
            const double least = 1 / profile.at(0);
            for (const double relative : {1.0001, 1.01, 1.2, 1.6, 2.5, 5.0, 20.0, 200.0}) {
                const double theta = least * relative;
                QVERIFY(within(tubeOutletFraction(theta, n), profile.outlet(theta), 1e-6));
                QVERIFY(within(tubeVolumeFraction(theta, n), profile.volume(theta), 1e-6));
            }
            QVERIFY(within(tubeVolumeFraction(0.7 * least, n), profile.volume(0.7 * least), 1e-6));
            QCOMPARE(tubeOutletFraction(0.999 * least, n), 1.0);
        }
    }
    // Domain reference 3, values for n = 0.4 and n = 1 (computed there in two independent ways).
    void listedValues() {
        const double theta[] = {0.75, 1, 1.5, 2, 3, 5, 10};
        const double w[] = {0.494907, 0.235018, 0.093717, 0.050480, 0.021588, 0.007557, 0.001852};
        for (int i = 0; i < 7; ++i) QVERIFY(within(tubeOutletFraction(theta[i], 0.4), w[i], 1e-6));
        QVERIFY(within(tubeVolumeFraction(1, 0.4), 0.203995, 1e-6));
        QVERIFY(within(tubeVolumeFraction(2, 0.4), 0.095600, 1e-6));
        QVERIFY(within(tubeVolumeFraction(5, 0.4), 0.037057, 1e-6));
    }
    // Domain reference 3, the table of thetas (computed there in two independent ways).
    void thetaTable_data() {
        QTest::addColumn<double>("n");
        QTest::addColumn<QList<double>>("outlet"); // 10, 5, 1, 0.1 %
        QTest::addColumn<QList<double>>("volume");
        using L = QList<double>;
        QTest::newRow("0.3") << 0.3 << L{1.40470, 1.91662, 4.10332, 12.69052} << L{1.71409, 3.28649, 15.91338, 158.0177};
        QTest::newRow("0.4") << 0.4 << L{1.45619, 2.00903, 4.35955, 13.57631} << L{1.91669, 3.73086, 18.27342, 181.9092};
        QTest::newRow("0.5") << 0.5 << L{1.49238, 2.07430, 4.54196, 14.20976} << L{2.07158, 4.06900, 20.06712, 200.0667};
        QTest::newRow("0.7") << 0.7 << L{1.53999, 2.16073, 4.78556, 15.05954} << L{2.29234, 4.54935, 22.61309, 225.8387};
        QTest::newRow("1.0") << 1.0 << L{1.58114, 2.23607, 5.0, 15.81139} << L{2.5, 5.0, 25.0, 250.0};
    }
    void thetaTable() {
        QFETCH(double, n);
        QFETCH(QList<double>, outlet);
        QFETCH(QList<double>, volume);
        const double fraction[] = {0.10, 0.05, 0.01, 0.001};
        for (int i = 0; i < 4; ++i) {
            QVERIFY(within(thetaForOutletFraction(fraction[i], n), outlet[i], 6e-6));
            QVERIFY(within(thetaForVolumeFraction(fraction[i], n), volume[i], volume[i] > 100 ? 6e-5 : 6e-6));
        }
    }
    void tankTable() {
        const double fraction[] = {0.10, 0.05, 0.01, 0.001};
        const double one[] = {2.302585, 2.995732, 4.605170, 6.907755};
        const double two[] = {1.94486, 2.37193, 3.31918, 4.61671};
        const double three[] = {1.77411, 2.09860, 2.80198, 3.74296};
        const double five[] = {1.59872, 1.83070, 2.32093, 2.95883};
        for (int i = 0; i < 4; ++i) {
            QVERIFY(within(tanksThetaForOutletFraction(fraction[i], 1), one[i], 1e-6));
            QVERIFY(within(tanksThetaForOutletFraction(fraction[i], 2), two[i], 6e-6));
            QVERIFY(within(tanksThetaForOutletFraction(fraction[i], 3), three[i], 6e-6));
            QVERIFY(within(tanksThetaForOutletFraction(fraction[i], 5), five[i], 6e-6));
        }
        // Volume fractions of N tanks, listed the other way round.
        const double v2[] = {1.63591, 2.05650, 2.99512, 4.28645}, v3[] = {1.40511, 1.72878, 2.43177, 3.37303},
                     v5[] = {1.21286, 1.45279, 1.95492, 2.60253};
        for (int i = 0; i < 4; ++i) {
            QVERIFY(within(tanksVolumeFraction(v2[i], 2), fraction[i], 1.5e-5 * fraction[i] + 1e-6));
            QVERIFY(within(tanksVolumeFraction(v3[i], 3), fraction[i], 1.5e-5 * fraction[i] + 1e-6));
            QVERIFY(within(tanksVolumeFraction(v5[i], 5), fraction[i], 1.5e-5 * fraction[i] + 1e-6));
        }
    }
    // Domain reference 3, the worked example (invented inputs): 400 mm³, n 0.4, no dead space.
    void workedExample() {
        QVERIFY(within(purgeVolumeMm3(0.05, 0.4, 400, 1), 803.61, 0.01));
        QVERIFY(within(purgeVolumeMm3(0.01, 0.4, 400, 1), 1743.82, 0.01));
        QVERIFY(within(purgeVolumeMm3(0.001, 0.4, 400, 1), 5430.52, 0.01));
        QVERIFY(within(purgeVolumeMm3(0.01, 0.4, 400, 2), 2 * 1743.82, 0.02));
        QVERIFY(within(purgeVolumeMm3(0.01, 0.4, 400, 1) / 8.0, 217.98, 0.01)); // s at 8 mm³/s
    }
};

INTERLUDE_TEST(PurgeCheck)
#include "purge_test.moc"
