// People on shift: overlaps add, a shift belongs to the day on which it begins, closed days, absences, summer time.

#include "model/planning/problem/calendar.h"
#include "tests/harness/run_tests.h"

#include <QTest>

using namespace interlude;
using namespace interlude::planning;

class CalendarTest final : public QObject {
    Q_OBJECT
private:
    Fleet fleet;
    Instant local(const char* iso) const {
        return instantOf(QDateTime(QDate::fromString(QString::fromLatin1(iso).left(10), Qt::ISODate),
                                   QTime::fromString(QString::fromLatin1(iso).mid(11), QStringLiteral("HH:mm")), fleet.zone));
    }
    static int at(const std::vector<CrewFrom>& crew, Minute m) {
        int people = -1;
        for (const CrewFrom& c : crew)
            if (c.from <= m) people = c.crew;
        return people;
    }

private Q_SLOTS:
    void init() {
        fleet = Fleet();
        fleet.zone = QTimeZone(QByteArrayLiteral("Europe/Vienna"));
        fleet.crewUnlimited = false;
        fleet.shifts = {{QStringLiteral("early"), {1, 2, 3, 4, 5}, QTime(6, 0), QTime(14, 0), 2},
                        {QStringLiteral("late"), {1, 2, 3, 4, 5}, QTime(13, 0), QTime(22, 0), 1},
                        {QStringLiteral("night"), {5}, QTime(22, 0), QTime(6, 0), 1}};
    }
    void overlapsAdd() {
        const auto crew = crewCalendar(fleet, {}, local("2026-03-02T00:00"), 7); // a Monday
        QCOMPARE(at(crew, 0), 0);
        QCOMPARE(at(crew, 6 * 60 - 1), 0);
        QCOMPARE(at(crew, 6 * 60), 2);
        QCOMPARE(at(crew, 13 * 60), 3);
        QCOMPARE(at(crew, 14 * 60), 1);
        QCOMPARE(at(crew, 22 * 60), 0);
    }
    void aNightShiftBelongsToItsFirstDay() {
        // From Friday 22:00 to Saturday 06:00; Saturday itself has no shift.
        const auto crew = crewCalendar(fleet, {}, local("2026-03-06T21:00"), 7);
        QCOMPARE(at(crew, 60), 1);
        QCOMPARE(at(crew, 9 * 60 - 1), 1);
        QCOMPARE(at(crew, 9 * 60), 0);
        // Friday closed: its night shift does not begin, so nobody is there on Saturday morning either.
        fleet.closed = {QDate(2026, 3, 6)};
        QCOMPARE(at(crewCalendar(fleet, {}, local("2026-03-06T21:00"), 7), 9 * 60 - 1), 0);
        // Saturday closed: the shift that began on Friday goes on.
        fleet.closed = {QDate(2026, 3, 7)};
        QCOMPARE(at(crewCalendar(fleet, {}, local("2026-03-06T21:00"), 7), 9 * 60 - 1), 1);
    }
    void aShiftThatRunsAlreadyCountsFromNow() {
        QCOMPARE(at(crewCalendar(fleet, {}, local("2026-03-02T07:30"), 7), 0), 2);
    }
    void absencesTakeOffButNeverBelowNothing() {
        const QList<Absence> away{{local("2026-03-02T08:00"), local("2026-03-02T10:00"), 1},
                                  {local("2026-03-02T15:00"), local("2026-03-02T16:00"), 5}};
        const auto crew = crewCalendar(fleet, away, local("2026-03-02T00:00"), 7);
        QCOMPARE(at(crew, 8 * 60), 1);
        QCOMPARE(at(crew, 10 * 60), 2);
        QCOMPARE(at(crew, 15 * 60), 0);
        QCOMPARE(at(crew, 16 * 60), 1);
    }
    void summerTimeShortensTheNight() {
        // 2026-03-29 02:00 becomes 03:00: from Saturday noon to Monday 06:00 it is one hour less than the clock says.
        const auto crew = crewCalendar(fleet, {}, local("2026-03-28T12:00"), 7);
        const Minute monday = (12 + 24 + 6 - 1) * 60;
        QCOMPARE(at(crew, monday - 1), 0);
        QCOMPARE(at(crew, monday), 2);
    }
    void unlimitedCrewIsOneEntry() {
        fleet.crewUnlimited = true;
        const auto crew = crewCalendar(fleet, {}, local("2026-03-02T00:00"), 7);
        QCOMPARE(crew.size(), std::size_t(1));
        QVERIFY(crew.front().crew >= unlimitedCrew);
    }
};
INTERLUDE_TEST(CalendarTest)
#include "calendar_test.moc"
