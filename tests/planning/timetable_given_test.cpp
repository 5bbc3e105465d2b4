// What runs at `now`, open sessions, and what has no place: computed by hand.

#include "tests/harness/run_tests.h"
#include "tests/planning/sketch.h"

#include <QTest>

using namespace interlude::planning;
using namespace interlude::tests;

namespace {
void runs(Sketch& s, int printer, int job, Minute start, Minute end) {
    PrinterNumbers& p = s.printer(printer);
    p.partLies = true;
    p.runningJob = job;
    p.runningVariant = job < 0 ? -1 : 0;
    p.runningStart = start;
    p.runningEnd = end;
}
} // namespace

class TimetableGivenTest : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void aRunningPrintBeginsTheFirstTurnaround() {
        Sketch s(1);
        s.changes->partRemoval = {removing(4)};
        s.printer(0).hourlyRate = 600;
        s.job(-1, 0);
        s.job(0, 30, {handsOn(10)});
        s.change(1).preparation = preparing(15);
        runs(s, 0, 0, -20, 40);
        const Timetable t = s.timetable();
        QVERIFY(at(t, 0, 0).running);
        QCOMPARE(at(t, 0, 0).complete, 44);
        QCOMPARE(at(t, 0, 0).turnaround, 0);    // none of its own
        QCOMPARE(at(t, 0, 1).work[0].start, 0); // its print before runs already: prepared at once
        QCOMPARE(at(t, 0, 1).printStart, 54);   // 44 + 10
        QCOMPARE(at(t, 0, 1).turnaround, 14);   // 54 - 40
        QCOMPARE(t.totals.cost, 600 + 440);     // 60 minutes of print; 30 + 14
    }
    void aPartThatLiesThereIsRemovedFromNowOn() {
        Sketch s(1);
        s.changes->partRemoval = {removing(4)};
        s.job(0, 30);
        runs(s, 0, -1, -90, -60);
        const Timetable t = s.timetable();
        QCOMPARE(at(t, 0, 0).job, -1);
        QCOMPARE(at(t, 0, 0).work[0].start, 0);
        QCOMPARE(at(t, 0, 1).printStart, 4);
        QCOMPARE(at(t, 0, 1).turnaround, 4); // from now, not from -60
        QCOMPARE(t.totals.makespan, 38);     // 4 + 30 + 4
    }
    void anUnknownPartIsNoJob() {
        Sketch s(1);
        s.changes->partRemoval = {removing(4)};
        runs(s, 0, -1, -90, 50);
        const Timetable t = s.timetable();
        QCOMPARE(at(t, 0).complete, 54);
        QCOMPARE(t.totals.makespan, 0);
        QCOMPARE(t.totals.cost, 0);
        QCOMPARE(t.totals.handsOn, 4);
    }
    void aSessionGoesOnWithWhatIsLeft() {
        Sketch s(1);
        s.changes->partRemoval = {removing(4)};
        s.job(-1, 30);
        s.job(0, 20, {handsOn(6)});
        PrinterNumbers& p = s.printer(0);
        p.session = true;
        p.sessionJob = p.sessionVariant = 0;
        p.sessionWork = {handsOn(5), waiting(10)};
        const Timetable t = s.timetable();
        QVERIFY(at(t, 0).session);
        QCOMPARE(at(t, 0).printStart, 15); // 5 + 10
        QCOMPARE(at(t, 0).complete, 49);   // 15 + 30 + 4
        QCOMPARE(at(t, 0).changeoverMinutes, 15);
        QCOMPARE(at(t, 0, 1).printStart, 55); // 49 + 6
        QCOMPARE(t.totals.turnaround, 25);    // 15, then 55 - 45
    }
    void aSessionTakesOutThePartThatLiesThere() {
        Sketch s(1);
        s.changes->partRemoval = {removing(4)};
        s.job(-1, 30);
        s.job(-1, 30);
        runs(s, 0, 0, -50, 10);
        PrinterNumbers& p = s.printer(0);
        p.session = true;
        p.sessionJob = 1;
        p.sessionVariant = 0;
        p.sessionWork = {removing(3), handsOn(5)};
        const Timetable t = s.timetable();
        QCOMPARE(at(t, 0, 0).complete, 13); // when the print has ended, with the session's own 3 minutes
        QCOMPARE(at(t, 0, 0).work.size(), size_t(1));
        QCOMPARE(at(t, 0, 1).work[0].start, 13);
        QCOMPARE(at(t, 0, 1).printStart, 18);
        QCOMPARE(at(t, 0, 1).turnaround, 8);
        p.sessionWork = {handsOn(5)};
        QCOMPARE(at(s.timetable(), 0, 0).complete, 14); // it has no removal of its own: 10 + 4
    }
    void aSetupWithoutAJob() {
        Sketch s(1);
        s.job(0, 30, {handsOn(6)});
        s.change(0).preparation = preparing(2);
        PrinterNumbers& p = s.printer(0);
        p.session = true;
        p.sessionWork = {handsOn(5), waiting(10)};
        const Timetable t = s.timetable();
        QCOMPARE(at(t, 0, 0).job, -1);
        QCOMPARE(at(t, 0, 0).changeoverMinutes, 15);
        QCOMPARE(at(t, 0, 1).work[0].start, 15); // what comes next is fixed when the setup is done
        QCOMPARE(at(t, 0, 1).printStart, 23);    // 15 + 2 + 6
        QCOMPARE(at(t, 0, 1).turnaround, 23);    // from now: no print came before
        QCOMPARE(t.totals.changeover, 21);
    }
    void aSessionsPrintWearsItsNozzle() {
        Sketch s(1);
        s.nozzle(30, 0);
        s.job(-1, 10).variants[0].life = {20, 0};
        s.job(0, 10).variants[0].life = {20, 0};
        s.changes->byWornJob[1].reason = "worn"; // not possible
        PrinterNumbers& p = s.printer(0);
        p.session = true;
        p.sessionJob = p.sessionVariant = 0;
        const Timetable t = s.timetable();
        QCOMPARE(t.notPlaced.size(), size_t(1)); // 30 - 20 = 10, fewer than 20
        QCOMPARE(t.notPlaced[0].reason, std::string("worn"));
    }
    void aSessionsNozzleServesNobodyElse() {
        Sketch s(2);
        s.nozzle(50);
        s.job(-1, 10);
        s.job(1, 10, {mounting(5)});
        s.needsNozzle(1, 40);
        PrinterNumbers& p = s.printer(0);
        p.session = true;
        p.sessionJob = p.sessionVariant = 0;
        p.sessionWork = {handsOn(5)};
        p.sessionNozzles = {0, -1};
        // Only when the session's print is over and nothing else is planned there: 5 + 10.
        QCOMPARE(at(s.timetable(), 1).work[0].start, 15);
        s.nozzle(60);
        QCOMPARE(at(s.timetable(), 1).work[0].start, 0);
        QCOMPARE(at(s.timetable(), 1).work[0].took[0], 1);
    }
    void aSetupThatMountsLetsTheOldNozzleGo() {
        Sketch s(2);
        s.nozzle(50, 0);
        s.nozzle(9);
        s.job(0, 100);
        s.job(1, 10, {mounting(5)});
        s.needsNozzle(1, 40);
        PrinterNumbers& p = s.printer(0);
        p.session = true;
        p.sessionWork = {handsOn(7)};
        p.sessionNozzles = {1, -1};
        const Timetable t = s.timetable();
        QCOMPARE(at(t, 1).work[0].start, 7);
        QCOMPARE(at(t, 1).work[0].took[0], 0);
    }

    void aJobThatThePrinterDoesNotFit() {
        Sketch s(2);
        s.job(0, 10);
        s.job(0, 10, {handsOn(7)});
        s.job(0, 10, {handsOn(3)});
        s.problem.jobs[0].variants[0].print[0] = -1;
        s.problem.jobs[0].variants[0].whyNot[0] = "too tall";
        s.change(1).possible = false;
        s.change(1).reason = "no such nozzle";
        s.orders.leftOut = {};
        const Timetable t = s.timetable();
        QCOMPARE(t.notPlaced.size(), size_t(2));
        QCOMPARE(t.notPlaced[0].reason, std::string("too tall"));
        QCOMPARE(t.notPlaced[1].reason, std::string("no such nozzle"));
        QCOMPARE(at(t, 0).job, 2);
        QCOMPARE(at(t, 0).printStart, 3); // as if they had never been there
        QCOMPARE(t.totals.notPlaced, 2);
    }
    void leftOutByThePlanner() {
        Sketch s(1);
        s.job(-1, 10);
        s.orders.leftOut = {0};
        const Timetable t = s.timetable();
        QCOMPARE(t.notPlaced.size(), size_t(1));
        QVERIFY(!t.notPlaced[0].reason.empty());
        QCOMPARE(t.totals.cost, 0);
    }
    void neverEnoughCrewForLongEnough() {
        Sketch s(1);
        s.crew({{0, 1}, {20, 0}, {60, 1}, {80, 0}});
        s.job(0, 5, {handsOn(21)}); // no stretch of more than 20
        s.job(0, 5, {handsOn(20)});
        s.changes->partRemoval = {removing(1)};
        const Timetable t = s.timetable();
        QCOMPARE(t.notPlaced.size(), size_t(1));
        QCOMPARE(t.notPlaced[0].job, 0);
        QVERIFY(!t.notPlaced[0].reason.empty());
        QCOMPARE(at(t, 0).job, 1);
        QCOMPARE(at(t, 0).work[0].start, 0); // computed anew without it
        QCOMPARE(at(t, 0).complete, 61);
    }
    void aPartThatNobodyCanTakeOutIsNotPlacedEither() {
        Sketch s(1);
        s.crew({{0, 1}});
        s.changes->partRemoval = {removing(5, 2)};
        s.job(0, 10);
        QCOMPARE(s.timetable().notPlaced.size(), size_t(1));
    }
    void whatRunsAndNeverComesOut() {
        Sketch s(2);
        s.crew({{0, 1}});
        s.changes->partRemoval = {removing(5, 2)};
        s.job(-1, 10);
        s.job(0, 10);
        runs(s, 0, 0, -20, 30);
        const Timetable t = s.timetable();
        QCOMPARE(t.printers[0].size(), size_t(1)); // it stays…
        QCOMPARE(at(t, 0).complete, never);
        QCOMPARE(t.notPlaced.size(), size_t(2)); // …and is named, with what was to come after it
        QCOMPARE(t.totals.cost, 0);
        QCOMPARE(t.totals.makespan, 0);
    }
    void fewerJobsNotPlacedRankFirst() {
        Totals none, one;
        one.notPlaced = 1;
        none.cost = 1000000;
        QVERIFY(worth(none, Goal::Cost) < worth(one, Goal::Cost));
    }
    void moneyIsRoundedHalfUp() {
        QCOMPARE(perHour(100, 3), 5); // 5.0
        QCOMPARE(perHour(90, 1), 2);  // 1.5
        QCOMPARE(perHour(89, 1), 1);  // 1.48
    }
};

INTERLUDE_TEST(TimetableGivenTest)
#include "timetable_given_test.moc"
