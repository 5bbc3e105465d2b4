// Plain parts of the Today tab.

#include "tests/harness/run_tests.h"

#include "views/today/day_strip.h"
#include "views/today/outlook.h"
#include "views/today/strip_geometry.h"
#include "views/today/today_page.h"

#include <QtTest>

using namespace interlude;

namespace {

Instant utc(int day, int hour, int minute = 0) {
    return instantOf(QDateTime(QDate(2026, 3, day), QTime(hour, minute), Qt::UTC));
}

Fleet twoShifts() {
    Fleet f;
    f.crewUnlimited = false;
    f.shifts = {Shift{QStringLiteral("early"), {1, 2, 3, 4, 5}, QTime(6, 0), QTime(14, 0), 2},
                Shift{QStringLiteral("night"), {5}, QTime(22, 0), QTime(6, 0), 1},
                Shift{QStringLiteral("help"), {1}, QTime(8, 0), QTime(12, 0), 1}};
    f.closed = {QDate(2026, 3, 3)};
    return f;
}

} // namespace

class OutlookTest final : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void pixels() {
        const StripGeometry g{utc(2, 10), 16, 320.0};
        QCOMPARE(g.x(utc(2, 10)), 0.0);
        QCOMPARE(g.x(utc(2, 18)), 160.0); // half of 16 h
        QCOMPARE(g.x(utc(2, 2)), 0.0);    // before: held at the edge
        QCOMPARE(g.x(utc(3, 9)), 320.0);  // after: likewise
    }
    void marksAreWholeLocalHours() {
        const StripGeometry g{utc(2, 10, 42), 16, 320.0};
        const auto marks = g.marks(QTimeZone(QByteArrayLiteral("UTC")));
        QCOMPARE(marks.size(), 4); // 12, 16, 20, 00
        QVERIFY(marks.first() == utc(2, 12));
        // Vienna is an hour ahead in winter: local 12 is 11 UTC.
        QVERIFY(g.marks(QTimeZone(QByteArrayLiteral("Europe/Vienna"))).first() == utc(2, 11));
        // The night of 29 March 2026 has no local 02:00; hours after it still stand on whole local hours.
        const StripGeometry spring{utc(28, 20), 16, 320.0};
        for (const Instant t : spring.marks(QTimeZone(QByteArrayLiteral("Europe/Vienna"))))
            QCOMPARE(toZone(t, QTimeZone(QByteArrayLiteral("Europe/Vienna"))).time().hour() % 4, 0);
    }
    void crewAddsOverlapsAndKnowsNights() {
        const Fleet f = twoShifts();
        CrewNow c = crewAt(f, utc(2, 9)); // Monday: early 2 + help 1
        QCOMPARE(c.people, 3);
        QVERIFY(*c.until == utc(2, 12));
        c = crewAt(f, utc(7, 3)); // Saturday 03:00: the night shift that began on Friday
        QCOMPARE(c.people, 1);
        QVERIFY(*c.until == utc(7, 6));
        c = crewAt(f, utc(3, 9)); // closed on Tuesday
        QVERIFY(!c.present);
        QVERIFY(*c.until == utc(4, 6));
    }
    void cardsStandEvenly() {
        QCOMPARE(cardColumns(6, 962, 288), 3);  // 1366 wide
        QCOMPARE(cardColumns(6, 1520, 288), 3); // five would fit; three by three is even
        QCOMPARE(cardColumns(6, 400, 288), 1);
        QCOMPARE(cardColumns(1, 2000, 288), 1);
        QCOMPARE(cardColumns(0, 2000, 288), 1);
        QCOMPARE(cardColumns(24, 1520, 288), 5);
    }
    void sentenceOfAStrip() {
        const QTimeZone zone(QByteArrayLiteral("UTC"));
        QVERIFY(stripSentence({}, zone).contains(QStringLiteral("Nothing is known")));
        QList<Stretch> all(3);
        all[0].kind = all[1].kind = Stretch::Kind::HandsOn;
        all[0].from = utc(2, 10);
        all[0].to = all[1].from = utc(2, 10, 5);
        all[1].to = all[2].from = utc(2, 10, 20);
        all[2].kind = Stretch::Kind::Waiting;
        all[2].to = utc(2, 11);
        QCOMPARE(stripSentence(all, zone),
                 QStringLiteral("Next 16 hours: hands-on 10:00 to 10:20; waiting 10:20 to 11:00."));
    }
};
INTERLUDE_TEST(OutlookTest)
#include "outlook_test.moc"
