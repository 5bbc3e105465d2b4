// Which nozzle a mounting takes, from where, when, and what is left of it: computed by hand.

#include "tests/harness/run_tests.h"
#include "tests/planning/sketch.h"

#include <QTest>

using namespace interlude::planning;
using namespace interlude::tests;

class TimetableNozzlesTest : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void theLeastLifeThatSuffices() {
        Sketch s(1);
        s.nozzle({}); // without history: last
        s.nozzle(90);
        s.nozzle(40); // the one: 39 is too little
        s.nozzle(39);
        s.nozzle(40); // the same, but later in the file
        s.job(0, 10, {mounting(5)});
        s.needsNozzle(0, 40);
        QCOMPARE(at(s.timetable(), 0).work[0].took[0], 2);
    }
    void withoutHistoryRatherThanNone() {
        Sketch s(1);
        s.nozzle(39);
        s.nozzle({});
        s.job(0, 10, {mounting(5)});
        s.needsNozzle(0, 40);
        QCOMPARE(at(s.timetable(), 0).work[0].took[0], 1);
    }
    void theRightTypeAndMeltFamily() {
        Sketch s(1);
        s.nozzle(90).type = 1;
        s.nozzle(90).family = 1;
        s.nozzle(95).family = -1; // never used: serves any
        s.job(0, 10, {mounting(5)});
        s.needsNozzle(0, 40);
        QCOMPARE(at(s.timetable(), 0).work[0].took[0], 2);
    }
    void freeOnesBeforeThoseOfIdlePrinters() {
        Sketch s(2);
        s.printer(1).nozzleRemoval = 7;
        s.nozzle(50, 1);
        s.nozzle({}); // free, though without history
        s.job(0, 10, {mounting(5)});
        s.needsNozzle(0, 40);
        const Timetable t = s.timetable();
        QCOMPARE(at(t, 0).work[0].took[0], 1);
        QCOMPARE(at(t, 0).work[0].end, 5);
    }
    void takenFromAnIdlePrinterTheSegmentGrows() {
        Sketch s(2);
        s.printer(1).nozzleRemoval = 7;
        s.nozzle(50, 1);
        s.job(0, 10, {mounting(5), handsOn(2)});
        s.needsNozzle(0, 40);
        const Timetable t = s.timetable();
        QCOMPARE(at(t, 0).work[0].took[0], 0);
        QCOMPARE(at(t, 0).work[0].end, 12); // 5 + 7
        QCOMPARE(at(t, 0).changeoverMinutes, 14);
        QCOMPARE(t.totals.handsOn, 14);
    }
    void aPrinterGivesOnlyAfterItsLastPartRemoval() {
        Sketch s(2);
        s.changes->partRemoval = {removing(4)};
        s.printer(1).nozzleRemoval = 7;
        s.nozzle(50, 1);
        s.job(0, 10, {mounting(5)});
        s.needsNozzle(0, 40);
        s.job(1, 20);
        QCOMPARE(at(s.timetable(), 0).work[0].start, 24); // 20 + 4
    }
    void whoWaitsForANozzleTakesNoSlot() {
        Sketch s(3);
        s.crew({{0, 1}});
        s.changes->partRemoval = {removing(4, 0)};
        s.nozzle(50, 2);
        s.job(0, 10, {mounting(5)}).lateCostPerHour = 900; // first in line all the time
        s.needsNozzle(0, 40);
        s.job(1, 10, {handsOn(50)});
        s.job(2, 20);
        const Timetable t = s.timetable();
        QCOMPARE(at(t, 1).work[0].start, 0);
        QCOMPARE(at(t, 0).work[0].start, 50); // free since 24, but the only person is busy
    }
    void aRemovedNozzleIsFreeWhenItsSegmentEnds() {
        Sketch s(2);
        s.nozzle(50, 0);
        s.nozzle(10);
        s.job(0, 10, {takesOut(8), mounting(5)});
        s.needsNozzle(0, 5);
        s.job(1, 10, {mounting(5)});
        s.needsNozzle(1, 40);
        const Timetable t = s.timetable();
        QCOMPARE(at(t, 0).work[0].freed[0], 0);
        QCOMPARE(at(t, 0).work[1].took[0], 1);
        QCOMPARE(at(t, 1).work[0].start, 8);
        QCOMPARE(at(t, 1).work[0].took[0], 0);
    }
    void bothAreTakenAtTheFirstMounting() {
        Sketch s(2);
        s.nozzle(50);
        s.nozzle(60);
        s.job(0, 10, {mounting(5), waiting(30), mounting(5)});
        s.needsNozzle(0, 40, true);
        s.job(1, 10, {waiting(10), mounting(5)});
        s.needsNozzle(1, 10);
        const Timetable t = s.timetable();
        QCOMPARE(at(t, 0).work[0].took, (std::array<int, 2>{0, 1}));
        QCOMPARE(at(t, 0).work[2].took, (std::array<int, 2>{-1, -1}));
        // Neither is left for the second printer, though the second mounting is at 35 only: nothing before 0's last
        // part.
        QCOMPARE(at(t, 1).work[1].start, 50);  // 5 + 30 + 5 + 10
        QCOMPARE(at(t, 1).work[1].took[0], 0); // 50 - 40 = 10 are left, and suffice
    }
    void whatIsNotRemovedYetStaysWhereItIs() {
        Sketch s(1);
        s.nozzle(1, 0, 0);
        s.nozzle(1, 0, 1);
        s.nozzle(50);
        s.nozzle(60);
        s.job(0, 10, {takesOut(5, 0), mounting(5), takesOut(5, 1), mounting(5)});
        s.needsNozzle(0, 40, true);
        const Timetable t = s.timetable();
        QCOMPARE(at(t, 0).work[1].took, (std::array<int, 2>{2, 3}));
        QCOMPARE(at(t, 0).work[2].freed, (std::array<int, 2>{-1, 1})); // the old one, not the one just taken
    }
    void lifeIsDeductedAtPrintStart() {
        Sketch s(1);
        s.nozzle(50, 0);
        s.nozzle(70);
        for (int j = 0; j < 3; ++j) {
            s.job(0, 10);
            s.problem.jobs.back().variants[0].life = {20, 0};
            s.change(j).nozzle[0] = {false, 0, 0};
            Change& worn = s.changes->byWornJob[j];
            worn = s.change(j);
            worn.nozzle[0].exchange = true;
            worn.work = {takesOut(3), mounting(4)};
        }
        const Timetable t = s.timetable();
        QVERIFY(at(t, 0, 0).work.empty()); // 50 - 20 = 30
        QVERIFY(at(t, 0, 1).work.empty()); // 30 - 20 = 10, fewer than 20
        QCOMPARE(at(t, 0, 2).work.size(), size_t(2));
        QCOMPARE(at(t, 0, 2).work[1].took[0], 1);
    }
    void withoutHistoryIsNotWorn() {
        Sketch s(1);
        s.nozzle({}, 0);
        s.job(0, 10);
        s.problem.jobs.back().variants[0].life = {20, 0};
        s.changes->byWornJob[0].possible = false;
        QVERIFY(s.timetable().notPlaced.empty());
    }
    void onceUsedItServesThatFamilyOnly() {
        Sketch s(1);
        s.nozzle(90).family = -1;
        s.job(0, 10, {mounting(5)});
        s.needsNozzle(0, 10);
        s.job(0, 10, {takesOut(5), mounting(5)});
        s.needsNozzle(1, 10);
        s.change(1).nozzle[0].family = 1;
        const Timetable t = s.timetable();
        QCOMPARE(at(t, 0).work[0].took[0], 0);
        QCOMPARE(t.notPlaced.size(), size_t(1));
        QCOMPARE(t.notPlaced[0].job, 1);
    }
    void theLastInLineIsNotPlaced() {
        Sketch s(3);
        s.nozzle(90, 0);
        s.nozzle(90, 1);
        // Each keeps its own and needs another's: nobody ever gives.
        s.job(0, 10, {mounting(5), takesOut(1)}).lateCostPerHour = 100;
        s.job(1, 10, {mounting(5), takesOut(1)}).lateCostPerHour = 900;
        s.needsNozzle(0, 40);
        s.needsNozzle(1, 40);
        const Timetable t = s.timetable();
        QCOMPARE(t.notPlaced.size(), size_t(1));
        QCOMPARE(t.notPlaced[0].job, 0);       // the lower late cost stands last
        QCOMPARE(at(t, 1).work[0].took[0], 0); // computed anew: printer 1 is idle now and gives its nozzle
        QCOMPARE(at(t, 1).work[0].start, 0);
    }
    void amongThemWhomNoNozzleCanServeAnyMore() {
        Sketch s(3);
        s.nozzle(90, 0);
        s.nozzle(90, 1);
        s.job(0, 10, {mounting(5), takesOut(1)});
        s.job(1, 10, {mounting(5), takesOut(1)});
        s.job(2, 10, {mounting(5)}).lateCostPerHour = 900; // first in line, but wants more life than there is
        s.needsNozzle(0, 40);
        s.needsNozzle(1, 40);
        s.needsNozzle(2, 95);
        const Timetable t = s.timetable();
        QCOMPARE(t.notPlaced.size(), size_t(2));
        QCOMPARE(t.notPlaced[0].job, 1); // then the last in line by printer order
        QCOMPARE(t.notPlaced[1].job, 2);
        QVERIFY(t.notPlaced[1].reason.find("enough life") != std::string::npos);
    }
};

INTERLUDE_TEST(TimetableNozzlesTest)
#include "timetable_nozzles_test.moc"
