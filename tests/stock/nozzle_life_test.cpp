#include "model/stock/nozzle.h"
#include "tests/harness/run_tests.h"

#include <QTest>

#include <cmath>

using namespace interlude;

namespace {
NozzleType type(double plain, double abrasive) {
    NozzleType t;
    t.ratedLife = Volume::fromCm3(plain);
    t.ratedLifeAbrasive = Volume::fromCm3(abrasive);
    return t;
}
Nozzle nozzle(double plain, double abrasive) {
    Nozzle n;
    n.run = {true, Volume::fromCm3(plain), Volume::fromCm3(abrasive)};
    return n;
}
} // namespace

class NozzleLifeTest : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void accountsAreAdded() {
        // 900 of 9000 and 500 of 2500: 0.1 + 0.2
        const auto used = lifeUsed(nozzle(900, 500), type(9000, 2500));
        QVERIFY(used && std::abs(*used - 0.3) < 1e-12);
        QCOMPARE(*lifeLeft(nozzle(900, 500), type(9000, 2500), false), Volume::fromCm3(6300)); // 0.7 · 9000
        QCOMPARE(*lifeLeft(nozzle(900, 500), type(9000, 2500), true), Volume::fromCm3(1750));  // 0.7 · 2500
    }
    void newAndWorn() {
        QCOMPARE(*lifeUsed(nozzle(0, 0), type(9000, 2500)), 0.0);
        QCOMPARE(*lifeLeft(nozzle(0, 0), type(9000, 2500), false), Volume::fromCm3(9000));
        QVERIFY(*lifeUsed(nozzle(9000, 500), type(9000, 2500)) > 1);
        QCOMPARE(*lifeLeft(nozzle(9000, 500), type(9000, 2500), true), Volume());
    }
    void noHistoryIsNeverZero() {
        Nozzle n = nozzle(0, 0);
        n.run.known = false;
        QVERIFY(!lifeUsed(n, type(9000, 2500)));
        QVERIFY(!lifeLeft(n, type(9000, 2500), false));
    }
    void withoutRatedLife() {
        QVERIFY(!lifeUsed(nozzle(10, 0), type(0, 0)));
        // Not rated for abrasive: fine while none ran; unknown once some did; nothing can be said of more.
        QVERIFY(lifeUsed(nozzle(10, 0), type(1000, 0)));
        QVERIFY(!lifeUsed(nozzle(10, 5), type(1000, 0)));
        QVERIFY(!lifeLeft(nozzle(10, 0), type(1000, 0), true));
        QCOMPARE(*lifeLeft(nozzle(10, 0), type(1000, 0), false), Volume::fromCm3(990));
    }
};

INTERLUDE_TEST(NozzleLifeTest)
#include "nozzle_life_test.moc"
