// People on shift: overlaps add, a shift belongs to the day on which it begins, closed days, absences, summer time.

#include "model/planning/problem/calendar.h"
#include "tests/harness/run_tests.h"

#include <QTest>

#include <random>

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
    /// People on shift (more) and away (less), each from one moment to another, from the meaning alone.
    struct Stretch {
        Instant from, to;
        int people;
    };
    std::vector<Stretch> stretches(const QList<Absence>& away, QDate first, int days) const {
        std::vector<Stretch> out;
        for (int d = -1; d <= days; ++d)
            for (const Shift& s : fleet.shifts) {
                const QDate date = first.addDays(d);
                out.push_back({instantOf(QDateTime(date, s.from, fleet.zone)),
                               instantOf(QDateTime(s.to <= s.from ? date.addDays(1) : date, s.to, fleet.zone)), s.crew});
            }
        for (const Absence& a : away) out.push_back({a.from, a.to, -a.people});
        return out;
    }
    static int thereAt(const std::vector<Stretch>& all, Instant t) {
        int people = 0;
        for (const Stretch& s : all)
            if (s.from <= t && t < s.to) people += s.people;
        return std::max(0, people);
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
    /// The clock seldom stands on a whole minute. One shift goes over into the next all the same.
    void shiftsMeetWithinAMinute() {
        fleet.shifts = {{QStringLiteral("early"), {1}, QTime(6, 0), QTime(14, 0), 2}, {QStringLiteral("late"), {1}, QTime(14, 0), QTime(22, 0), 1}};
        const Instant now = local("2026-03-02T12:00") + Milliseconds(30'000);
        const auto crew = crewCalendar(fleet, {}, now, 7);
        QCOMPARE(at(crew, 118), 2); // 13:58:30 to 13:59:30
        QCOMPARE(at(crew, 119), 1); // the one in which two go and one comes
        QCOMPARE(at(crew, 120), 1);
    }
    /// In every minute so many are counted as are there through all of it: reckoned second by second.
    void peopleCountedSecondBySecond() {
        std::mt19937 random(20260302);
        const auto below = [&](int n) { return static_cast<int>(random() % static_cast<unsigned>(n)); };
        const Instant midnight = local("2026-03-28T00:00"); // the night in which summer time begins comes
        for (int round = 0; round < 40; ++round) {
            fleet.shifts.clear();
            for (int i = 0; i < 3; ++i)
                fleet.shifts.append({QString(), {1, 2, 3, 4, 5, 6, 7}, QTime(below(24), 5 * below(12)), QTime(below(24), 5 * below(12)), 1 + below(2)});
            QList<Absence> away;
            for (int i = 0; i < 3; ++i) {
                const Instant from = midnight + Milliseconds(1000LL * below(48 * 3600));
                away.append({from, from + Milliseconds(1000LL * (1 + below(i == 0 ? 90 : 20'000))), 1 + below(2)});
            }
            const Instant now = midnight + Milliseconds(1000LL * below(24 * 3600));
            const auto crew = crewCalendar(fleet, away, now, 7);
            const std::vector<Stretch> all = stretches(away, QDate(2026, 3, 28), 3);
            for (int m = 0; m < 26 * 60; ++m) {
                int fewest = unlimitedCrew;
                for (int s = 0; s < 60; ++s) fewest = std::min(fewest, thereAt(all, now + Milliseconds(60'000LL * m + 1000LL * s)));
                if (at(crew, m) != fewest)
                    QFAIL(qPrintable(QStringLiteral("round %1, minute %2: %3, not %4").arg(round).arg(m).arg(at(crew, m)).arg(fewest)));
            }
        }
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
