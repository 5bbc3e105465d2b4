// Burn thresholds of bare metal as data, ISO 13732-1:2006 (recalled, verify before quoting as authority), and a
// plausibility check against the damage integral of Henriques and Moritz (constants recalled).

#include "model/physics/burn_thresholds.h"
#include "tests/harness/run_tests.h"

#include <QTest>

#include <cmath>

using namespace interlude;
using namespace interlude::physics;

namespace {
/// Seconds of skin at `c` °C until a first-degree burn (damage 0.53): rate 3.1e98·exp(−6.27e5/(R·T)).
double secondsToBurn(double c) {
    return 0.53 / std::exp(std::log(3.1e98) - 6.27e5 / (8.314 * (c + 273.15)));
}
} // namespace

class BurnCheck : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void thresholds() {
        const auto at = [](Seconds contact) {
            for (const BurnThreshold& t : burnThresholdsBareMetal)
                if (t.contact == contact) return t;
            return BurnThreshold{Seconds(0), Temperature(), Temperature()};
        };
        QCOMPARE(at(Seconds(1)).low, Temperature::fromCelsius(65));
        QCOMPARE(at(Seconds(1)).high, Temperature::fromCelsius(70));
        QCOMPARE(at(Seconds(10)).low, Temperature::fromCelsius(55));
        QCOMPARE(at(Seconds(10)).high, Temperature::fromCelsius(60));
        QCOMPARE(at(Seconds(60)).low, Temperature::fromCelsius(51));
        QCOMPARE(at(Seconds(600)).low, Temperature::fromCelsius(48));
        QCOMPARE(at(Seconds(8 * 3600)).low, Temperature::fromCelsius(43));
        QCOMPARE(bareHandRelease, Temperature::fromCelsius(43));
        QCOMPARE(briefTouch, Temperature::fromCelsius(51));
    }
    void longerContactLowerThreshold() {
        for (size_t i = 1; i < burnThresholdsBareMetal.size(); ++i) {
            QVERIFY(burnThresholdsBareMetal[i].contact > burnThresholdsBareMetal[i - 1].contact);
            QVERIFY(burnThresholdsBareMetal[i].high < burnThresholdsBareMetal[i - 1].low);
            QVERIFY(burnThresholdsBareMetal[i].low <= burnThresholdsBareMetal[i].high);
        }
    }
    // Henriques & Moritz: the standard is on the safe side by 2.35, 2.75 and 3.13 times (domain reference 2.1).
    void safeSideOfHenriquesMoritz() {
        const double factor[] = {3.13, 2.75, 2.35};
        for (size_t i = 2; i < 5; ++i) {
            const BurnThreshold& t = burnThresholdsBareMetal[i];
            const double ratio = secondsToBurn(t.low.celsius()) / static_cast<double>(t.contact.count());
            QVERIFY2(std::abs(ratio - factor[i - 2]) < 0.02, qPrintable(QString::number(ratio)));
        }
    }
};

INTERLUDE_TEST(BurnCheck)
#include "burn_test.moc"
