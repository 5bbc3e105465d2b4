// Small shops computed by hand, a sentence of the timetable's meaning each; the arithmetic stands beside the
// expectation.

#include "tests/harness/run_tests.h"
#include "tests/planning/sketch.h"

#include <QTest>

using namespace interlude::planning;
using namespace interlude::tests;

class TimetableTest : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void aPrintersLife() {
        Sketch s(1);
        s.changes->partRemoval = {removing(4)};
        s.job(0, 60, {handsOn(10), waiting(20), handsOn(5)});
        s.job(0, 30, {handsOn(7)});
        const Timetable t = s.timetable();
        const TimedJob& first = at(t, 0, 0);
        QCOMPARE(first.changeoverDone, 35); // 10 + 20 + 5
        QCOMPARE(first.printStart, 35);
        QCOMPARE(first.printEnd, 95);   // 35 + 60
        QCOMPARE(first.complete, 99);   // its part is out 4 later
        QCOMPARE(first.turnaround, 35); // from now, as the printer was idle
        const TimedJob& second = at(t, 0, 1);
        QCOMPARE(second.work[0].start, 99);
        QCOMPARE(second.printStart, 106);  // 99 + 7
        QCOMPARE(second.turnaround, 11);   // 106 - 95
        QCOMPARE(second.complete, 140);    // 106 + 30 + 4: after its last job the part is still removed
        QCOMPARE(t.totals.turnaround, 46); // 35 + 11
        QCOMPARE(t.totals.changeover, 42); // 35 + 7, without part removal
        QCOMPARE(t.totals.handsOn, 30);    // 10 + 5 + 7, and twice 4
        QCOMPARE(t.totals.makespan, 140);
    }
    void waitingAndPrintsNeedNobody() {
        Sketch s(1);
        s.crew({{0, 1}, {10, 0}, {100, 1}});
        s.changes->partRemoval = {removing(5)};
        s.job(0, 30, {handsOn(10), waiting(20)});
        const Timetable t = s.timetable();
        QCOMPARE(at(t, 0).printStart, 30); // 10 with somebody, 20 with nobody
        QCOMPARE(at(t, 0).printEnd, 60);
        QCOMPARE(at(t, 0).complete, 105); // nobody takes the part out before 100
    }
    void aSegmentCrossesAShiftBorderWhileEnoughRemain() {
        Sketch s(1);
        s.crew({{0, 3}, {5, 2}, {15, 3}});
        s.job(0, 1, {handsOn(20, 2)});
        QCOMPARE(at(s.timetable(), 0).work[0].start, 0); // 3, then 2, then 3: never fewer than 2
    }
    void aSegmentDoesNotBeginWhatTheCrewCannotEnd() {
        Sketch s(1);
        s.crew({{0, 2}, {8, 1}, {20, 2}});
        s.job(0, 1, {handsOn(10, 2)});
        QCOMPARE(at(s.timetable(), 0).work[0].start, 20); // 0..10 would have one person from 8 on
    }
    void twoPersonWorkIsNotStarvedBySmallWork() {
        Sketch s(3);
        s.crew({{0, 2}});
        s.job(0, 100, {handsOn(10)});
        s.job(1, 100, {handsOn(4), handsOn(4, 2)}); // the second needs both, ready at 4
        s.job(2, 100, {waiting(6), handsOn(30)});   // ready at 6, would fit at once beside the first
        const Timetable t = s.timetable();
        QCOMPARE(at(t, 1).work[1].start, 10); // the first one's end
        QCOMPARE(at(t, 2).work[1].start, 14); // stands behind: 10 + 4
    }
    void aLaterSlotOnlyHoldsItsPlace() {
        Sketch s(3);
        s.crew({{0, 2}});
        s.job(0, 100, {handsOn(10)});
        s.job(1, 100, {handsOn(1), handsOn(4, 2)}); // holds 10..14 from minute 1 on
        s.job(2, 100, {waiting(2), handsOn(8)});    // ready at 2, ends at 10: fits before it
        const Timetable t = s.timetable();
        QCOMPARE(at(t, 2).work[1].start, 2);
        QCOMPARE(at(t, 1).work[1].start, 10);
    }
    void theLineReadyEarliestThenLateCostThenPrinter() {
        Sketch s(4);
        s.crew({{0, 1}});
        s.job(0, 9, {handsOn(5)}).lateCostPerHour = 100;
        s.job(1, 9, {handsOn(5)}).lateCostPerHour = 300;
        s.job(2, 9, {handsOn(5)}).lateCostPerHour = 100;
        s.job(3, 9, {waiting(1), handsOn(5)}).lateCostPerHour = 900; // dear, but ready later
        const Timetable t = s.timetable();
        QCOMPARE(at(t, 1).work[0].start, 0);
        QCOMPARE(at(t, 0).work[0].start, 5);
        QCOMPARE(at(t, 2).work[0].start, 10);
        QCOMPARE(at(t, 3).work[1].start, 15);
    }
    void partRemovalRanksWithTheCostOfItsOwnJob() {
        Sketch s(2);
        s.crew({{0, 1}});
        s.changes->partRemoval = {removing(5)};
        s.job(0, 10).lateCostPerHour = 0;
        s.job(0, 10).lateCostPerHour = 900;
        s.job(1, 10).lateCostPerHour = 100;
        const Timetable t = s.timetable();
        QCOMPARE(at(t, 1, 0).complete, 15); // both print 0..10; 100 ranks before 0, whatever comes after that
        QCOMPARE(at(t, 0, 0).complete, 20);
    }
    void withinAMinuteAllEndsComeFirst() {
        Sketch s(2);
        s.crew({{0, 1}});
        s.job(0, 50, {waiting(10), handsOn(5)});
        s.job(1, 50, {handsOn(10)});
        // At 10 the second printer's work ends, the first one's becomes ready: it starts in that minute.
        QCOMPARE(at(s.timetable(), 0).work[1].start, 10);
    }
    void toolsAreShared() {
        Sketch s(2);
        s.problem.toolPieces = {1};
        s.job(0, 9, {handsOn(6, 1, {0})});
        s.job(1, 9, {handsOn(6, 1, {0})});
        QCOMPARE(at(s.timetable(), 1).work[0].start, 6); // one piece, and the first printer has it
        s.problem.toolPieces = {2};
        QCOMPARE(at(s.timetable(), 1).work[0].start, 0);
    }
    void whereNobodyIsNeededNobodyIsWaitedFor() {
        Sketch s(1);
        s.crew({{0, 0}});
        s.changes->partRemoval = {removing(2, 0)};
        s.job(0, 10, {handsOn(5, 0)});
        const Timetable t = s.timetable();
        QCOMPARE(at(t, 0).complete, 17); // 5 + 10 + 2
        QCOMPARE(t.totals.handsOn, 0);
    }

    void theChangeoverMayPrecedeTheRelease() {
        Sketch s(1);
        s.job(0, 10, {handsOn(15)}).release = 50;
        const Timetable t = s.timetable();
        QCOMPARE(at(t, 0).work[0].start, 0);
        QCOMPARE(at(t, 0).printStart, 50);
        QCOMPARE(at(t, 0).turnaround, 15); // 50 less the 35 in which it was done and not released
    }
    void downtimeAfterTheReleaseIsTurnaround() {
        Sketch s(1);
        s.printer(0).down = {{40, 100}};
        s.job(0, 10, {handsOn(15)}).release = 50;
        const Timetable t = s.timetable();
        QCOMPARE(at(t, 0).printStart, 100);
        QCOMPARE(at(t, 0).turnaround, 65); // 100 less 15..50
    }
    void nothingOverlapsDowntime() {
        Sketch s(1);
        s.printer(0).down = {{8, 20}, {40, 50}};
        s.job(0, 25, {handsOn(5), waiting(12)});
        s.change(0).preparation = preparing(9);
        const Timetable t = s.timetable();
        QCOMPARE(at(t, 0).work[0].start, 20); // 0..9 would reach into 8
        QCOMPARE(at(t, 0).work[1].start, 29);
        QCOMPARE(at(t, 0).work[2].start, 50); // 34..46 would reach into 40
        QCOMPARE(at(t, 0).printStart, 62);
    }
    void downtimeWithoutEnd() {
        Sketch s(2);
        s.printer(0).down = {{30, never}};
        s.job(0, 20, {handsOn(5)});
        s.job(0, 20);
        s.job(1, 20);
        const Timetable t = s.timetable();
        QCOMPARE(at(t, 0).printEnd, 25);
        QCOMPARE(t.printers[0].size(), size_t(1));
        QCOMPARE(t.notPlaced.size(), size_t(1)); // 25..45 would reach into 30
        QCOMPARE(t.notPlaced[0].job, 1);
        QVERIFY(t.notPlaced[0].reason.find("down") != std::string::npos);
    }

    void preparationIsReadyWhenThePrintBeforeStarts() {
        Sketch s(1);
        s.job(0, 60, {handsOn(10)});
        s.job(0, 20, {handsOn(5)});
        s.change(1).preparation = preparing(15);
        const Timetable t = s.timetable();
        QCOMPARE(at(t, 0, 1).work[0].start, 10); // while the first one prints 10..70
        QCOMPARE(at(t, 0, 1).work[1].start, 70);
        QCOMPARE(at(t, 0, 1).turnaround, 5);
        QCOMPARE(at(t, 0, 1).changeoverMinutes, 5); // preparation does not count
        QCOMPARE(t.totals.handsOn, 30);             // but it is work: 10 + 15 + 5
    }
    void preparationStandsBehindInternalWork() {
        Sketch s(2);
        s.crew({{0, 1}});
        s.job(0, 100);
        s.job(0, 20);
        s.change(1).preparation = preparing(10); // ready at 0
        s.job(1, 20, {handsOn(5), waiting(1), handsOn(5)});
        const Timetable t = s.timetable();
        QCOMPARE(at(t, 1).work[0].start, 0);
        QCOMPARE(at(t, 0, 1).work[0].start, 5); // nobody else was ready then
        QCOMPARE(at(t, 1).work[2].start, 15);
    }
    void preparationIsPromotedOnceItsPrinterWaits() {
        Sketch s(2);
        s.crew({{0, 1}});
        s.job(0, 8); // prints 0..8
        s.job(0, 20, {handsOn(3)});
        s.change(1).preparation = preparing(10);
        s.job(1, 20, {handsOn(7), handsOn(5), handsOn(5)}); // keeps the only one busy 0..12
        const Timetable t = s.timetable();
        // Waited for since 8, so it ranks before the third piece, ready at 12; behind all internal ones it would be 17.
        QCOMPARE(at(t, 0, 1).work[0].start, 12);
        QCOMPARE(at(t, 1).work[2].start, 22);
        QCOMPARE(at(t, 0, 1).work[1].start, 27); // the first segment waits for its preparation: ready at 22, after 12
    }
    void aChangeoverOfNothingButPreparation() {
        Sketch s(1);
        s.job(0, 20);
        s.change(0).preparation = preparing(10);
        QCOMPARE(at(s.timetable(), 0).printStart, 10);
    }
    void theTotals() {
        Sketch s(1);
        s.printer(0).hourlyRate = 1000;
        s.changes->partRemoval = {removing(6)};
        JobNumbers& job = s.job(0, 90, {handsOn(10, 2), waiting(20)});
        job.due = 100;
        job.lateCostPerHour = 500;
        job.holdingCostPerHour = 100;
        s.change(0).cleanOut = true;
        s.change(0).material = 321;
        const Totals t = s.timetable().totals;
        QCOMPARE(t.turnaround, 30); // 10 + 20
        QCOMPARE(t.makespan, 126);  // 30 + 90 + 6
        QCOMPARE(t.handsOn, 26);    // 2 × 10 + 6
        QCOMPARE(t.lateJobs, 1);
        QCOMPARE(t.weightedTardiness, 13000); // 500 × 26
        QCOMPARE(t.cleanOuts, 1);
        // Late 500 × 26 / 60 = 216.67 → 217; printer 1000 × (90 + 30) / 60 = 2000; holding 100 × 126 / 60 = 210;
        // material.
        QCOMPARE(t.cost, 217 + 2000 + 210 + 321);
    }
    void holdingIsCountedFromTheRelease() {
        Sketch s(1);
        JobNumbers& job = s.job(0, 90);
        job.holdingCostPerHour = 100;
        job.release = 30;
        QCOMPARE(s.timetable().totals.cost, 150); // released at 30, complete at 120: 1.5 hours
    }
};

INTERLUDE_TEST(TimetableTest)
#include "timetable_test.moc"
