// A plan as text, CSV and JSON: what a person or a script reads of it, also where something never comes to an end.

#include "model/planning/plans/plan_report.h"
#include "tests/harness/run_tests.h"
#include "tests/session/bench.h"

#include <QJsonArray>

using namespace interlude;
using namespace interlude::tests;
using namespace interlude::planning;

namespace {

/// Bay 1 prints 7401 from -60 to 40, due at 30; 7402 waits. Without steps and crew: nobody is ever waited for.
struct OneRuns : tests::Bench {
    OneRuns() {
        catalogue.fleet.zone = QTimeZone::utc();
        catalogue.fleet.currency = QStringLiteral("EUR");
        open();
        for (const char* id : {"7401", "7402"}) {
            Job j = job(QString::fromLatin1(id), 90, Minutes(100));
            j.due = minute(30);
            QVERIFY(happen(act::JobAdded{j}, minute(-61)));
        }
        QVERIFY(happen(act::PrintStarted{QStringLiteral("bay-1"), QStringLiteral("7401"), {}, Minutes(100)}, minute(-60)));
    }
    /// What a person is told of a plan in which nothing more is placed.
    void plan(const WhatIf& whatIf = {}, Instant now = morning) {
        problem = shopProblem(shop, now, whatIf);
        report = {};
        report.orders = problem.noOrders();
        report.timetable = timetable(problem.problem, *problem.changes, report.orders);
        report.firstInFirstOut.cost = 123456;
        report.sameSetupFirst.turnaround = 125;
        report.seed = 7;
    }
    QString text() const { return toText(problem, report, *shop.cataloguePtr()); }
    QString line(const QString& with) const {
        for (const QString& l : text().split(QLatin1Char('\n')))
            if (l.contains(with)) return l;
        return {};
    }
    QJsonObject running() const {
        return toJson(problem, report)[QStringLiteral("printers")][0][QStringLiteral("jobs")][0].toObject();
    }
    /// The fields of the only line of the CSV after its header.
    QStringList csv() const {
        return QString::fromUtf8(toCsv(problem, report, *shop.cataloguePtr())).split(QStringLiteral("\r\n")).value(1).split(QLatin1Char(','));
    }

    ShopProblem problem;
    PlanReport report;
};

} // namespace

class ToldPlanTest : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void aRunningPrintThatComesOutLate() {
        OneRuns b;
        b.plan();
        // Morning is 06:30; the print ends at 07:10, the part is out 6 min later, 16 min after its due date.
        const QString line = b.line(QStringLiteral("7401"));
        QVERIFY2(line.contains(QStringLiteral("05:30 → ")) && line.contains(QStringLiteral("07:10")), qPrintable(line));
        QVERIFY2(line.endsWith(QStringLiteral("running  LATE by 0:16 h")), qPrintable(line));
        QCOMPARE(b.running()[QStringLiteral("late_minutes")].toInt(), 16);
        QCOMPARE(b.running()[QStringLiteral("complete")].toInt(), 46);
        QCOMPARE(b.csv().value(9), QStringLiteral("16"));
        QCOMPARE(b.line(QStringLiteral("not placed")), QStringLiteral("not placed: 7402: left out of the plan"));
    }

    /// Its end is told by a person; until then it prints, however long.
    void aPrintBeyondItsExpectedEnd() {
        OneRuns b;
        b.plan({}, minute(50));
        QVERIFY2(b.line(QStringLiteral("7401")).contains(QStringLiteral("running")), qPrintable(b.text()));
        QCOMPARE(b.running()[QStringLiteral("state")].toString(), QStringLiteral("running"));
    }

    void theFiguresBelow() {
        OneRuns b;
        b.plan();
        const QString text = b.text();
        QVERIFY(b.line(QStringLiteral("first in, first out")).contains(QStringLiteral("1234.56 EUR")));
        QVERIFY(b.line(QStringLiteral("same setup first")).contains(QStringLiteral("2:05"))); // 125 min
        const QString last = text.section(QLatin1Char('\n'), -1);
        QVERIFY2(last.contains(QStringLiteral("no lower bound is known for this shop")), qPrintable(last));
        QVERIFY2(last.endsWith(QStringLiteral("0 iterations, seed 7")), qPrintable(last));
        b.report.goal = Goal::Makespan;
        b.report.bound = 23;
        // Makespan 46 min: (46 − 23)/23
        QVERIFY2(b.line(QStringLiteral("goal ")).startsWith(QStringLiteral("goal makespan: 46 min; lower bound 23 min, gap 100.0 %")),
                 qPrintable(b.line(QStringLiteral("goal "))));
    }

    void aPartThatNeverComesOut() {
        OneRuns b;
        WhatIf gone;
        gone.downtimes = {{QStringLiteral("bay-1"), minute(45), {}}}; // in the middle of the removal, for good
        b.plan(gone);
        QCOMPARE(b.report.timetable.printers[0][0].complete, never);
        const QString line = b.line(QStringLiteral("07:10"));
        QVERIFY2(line.contains(QStringLiteral("7401")) && line.endsWith(QStringLiteral("running  its part does not come out")), qPrintable(line));
        QVERIFY2(b.line(QStringLiteral("not placed: 7401: ")).contains(QStringLiteral("down")), qPrintable(b.text()));
        const QJsonObject o = b.running();
        QVERIFY(o[QStringLiteral("complete")].isNull() && o[QStringLiteral("complete_at")].isNull());
        QVERIFY(o[QStringLiteral("late_minutes")].isNull()); // neither in time nor late by any number
        QVERIFY(o[QStringLiteral("flags")].toArray().isEmpty());
        QCOMPARE(o[QStringLiteral("print_end")].toInt(), 40);
        QCOMPARE(b.csv().value(7), QString()); // complete
        QCOMPARE(b.csv().value(9), QString());
    }

    /// The clock stands between two minutes, and what is due is still told as it is; late is what the times told differ by.
    void theSecondsOfNow() {
        OneRuns b;
        for (const int ms : {1, 9'000, 30'000, 59'999}) {
            b.plan({}, morning + Milliseconds(ms));
            QCOMPARE(b.csv().value(8), QStringLiteral("2026-03-02T07:00"));
            QCOMPARE(b.csv().value(7), QStringLiteral("2026-03-02T07:16"));
            QCOMPARE(b.csv().value(9), QStringLiteral("16"));
            QVERIFY2(b.line(QStringLiteral("7401")).endsWith(QStringLiteral("LATE by 0:16 h")), qPrintable(b.text()));
            QCOMPARE(b.running()[QStringLiteral("due_at")].toString(), QStringLiteral("2026-03-02T07:00:00Z"));
            QCOMPARE(b.running()[QStringLiteral("complete_at")].toString(), QStringLiteral("2026-03-02T07:16:00Z"));
            QCOMPARE(b.running()[QStringLiteral("late_minutes")].toInt(), 16);
        }
    }
    /// A due date or release that has seconds itself.
    void theSecondsOfTheJob() {
        OneRuns b;
        Job j = *b.shop.job(QStringLiteral("7401"));
        j.release = minute(-100) + Milliseconds(17'000);
        j.due = minute(30) + Milliseconds(42'000);
        QVERIFY(b.happen(act::JobChanged{j}, morning));
        b.plan();
        QCOMPARE(b.running()[QStringLiteral("due_at")].toString(), QStringLiteral("2026-03-02T07:00:42Z"));
        QCOMPARE(b.running()[QStringLiteral("release_at")].toString(), QStringLiteral("2026-03-02T04:50:17Z"));
        QCOMPARE(b.csv().value(8), QStringLiteral("2026-03-02T07:00"));
        QCOMPARE(b.csv().value(9), QStringLiteral("16"));
    }

    void aPartThatLies() {
        OneRuns b;
        QVERIFY(b.happen(act::PrintEnded{QStringLiteral("bay-1"), PrintOutcome::Good, true, {}, {}, {}}, minute(-10)));
        b.plan();
        QVERIFY2(b.line(QStringLiteral("7401")).endsWith(QStringLiteral("part lies there")), qPrintable(b.line(QStringLiteral("7401"))));
        QCOMPARE(b.running()[QStringLiteral("state")].toString(), QStringLiteral("part-lying"));
    }
};

INTERLUDE_TEST(ToldPlanTest)
#include "told_plan_test.moc"
