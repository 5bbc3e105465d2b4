// The last day of a spool, in the shop's zone.

#include "model/stock/expiry.h"
#include "tests/harness/run_tests.h"

#include <QTest>

using namespace interlude;

class ExpiryTest : public QObject {
    Q_OBJECT

    static Instant at(const char* local, const QTimeZone& zone) {
        QDateTime t = QDateTime::fromString(QLatin1String(local), Qt::ISODate);
        t.setTimeZone(zone);
        return instantOf(t);
    }

private Q_SLOTS:
    void aDateCountsToItsEnd() {
        const QTimeZone vienna("Europe/Vienna");
        Spool s;
        QVERIFY(!expired(s, at("2030-01-01T00:00", vienna), vienna)); // no date
        s.expires = at("2026-03-29T00:00", vienna);                   // a day of 23 hours there
        QVERIFY(!expired(s, at("2026-03-28T23:59", vienna), vienna));
        QVERIFY(!expired(s, at("2026-03-29T00:00", vienna), vienna));
        QVERIFY(!expired(s, at("2026-03-29T23:59", vienna), vienna));
        QVERIFY(expired(s, at("2026-03-30T00:00", vienna), vienna));
    }
    void aTimeOfDayCountsItself() {
        const QTimeZone vienna("Europe/Vienna");
        Spool s;
        s.expires = at("2026-03-29T14:00", vienna);
        QVERIFY(!expired(s, at("2026-03-29T13:59", vienna), vienna));
        QVERIFY(expired(s, at("2026-03-29T14:00", vienna), vienna));
    }
};

INTERLUDE_TEST(ExpiryTest)
#include "expiry_test.moc"
