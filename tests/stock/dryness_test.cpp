#include "model/stock/spool.h"
#include "tests/harness/run_tests.h"

#include <QTest>

using namespace interlude;
using namespace std::chrono_literals;

namespace {
const Instant now = instantFromMs(1772433000000); // 2026-03-02T06:30Z
Material hygroscopic() {
    Material m;
    m.exposureLimit = Minutes(12 * 60);
    m.drying = Temperature::fromCelsius(80);
    m.dryingTime = Minutes(180);
    return m;
}
} // namespace

class DrynessTest : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void exposureAddsUp() {
        Spool s;
        QCOMPARE(exposure(s, now), Milliseconds(0));
        s.exposedBefore = 2h;
        QCOMPARE(exposure(s, now), Milliseconds(2h));
        s.exposedFrom = now - 90min;
        QCOMPARE(exposure(s, now), Milliseconds(210min));
        s.exposedFrom = now + 10min; // a wall clock set back never makes a spool drier
        QCOMPARE(exposure(s, now), Milliseconds(2h));
    }
    void overdueByExposure() {
        Spool s;
        s.dried = now - 48h;
        s.opened = now - 200h;
        s.exposedFrom = now - 12h;
        QCOMPARE(dryState(s, hygroscopic(), now), DryState::Dry); // exactly the limit is still allowed
        QCOMPARE(dryState(s, hygroscopic(), now + 1ms), DryState::Overdue);
        s.exposedFrom.reset(); // in the cabinet since drying
        QCOMPARE(dryState(s, hygroscopic(), now), DryState::Dry);
    }
    void overdueByMissingDrying() {
        Spool s;
        s.opened = now - 11h;
        QCOMPARE(dryState(s, hygroscopic(), now), DryState::Dry);
        s.opened = now - 13h;
        QCOMPARE(dryState(s, hygroscopic(), now), DryState::Overdue);
        s.dried = now - 1h;
        QCOMPARE(dryState(s, hygroscopic(), now), DryState::Dry);
    }
    void sealedUnknownAndNoRule() {
        Spool s;
        QCOMPARE(dryState(s, hygroscopic(), now), DryState::Sealed);
        s.where = SpoolWhere::Loaded; // loaded, yet nobody wrote down that it was opened
        QCOMPARE(dryState(s, hygroscopic(), now), DryState::Unknown);
        s.exposedFrom = now - 1h;
        QCOMPARE(dryState(s, hygroscopic(), now), DryState::Dry);
        QCOMPARE(dryState(s, hygroscopic(), now + 12h), DryState::Overdue);
        Material plain = hygroscopic();
        plain.exposureLimit.reset();
        QCOMPARE(dryState(s, plain, now + 1000h), DryState::NoRule);
    }
};

INTERLUDE_TEST(DrynessTest)
#include "dryness_test.moc"
