// What the fold notes of each print, for tracing.

#include "tests/harness/run_tests.h"
#include "tests/shop/fixture.h"

using namespace interlude;
using namespace interlude::tests;

class PrintRunTest : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void aPrintTellsWhatItRanWith() {
        World w;
        const Event begun = w.tell(act::PrintStarted{text("bay-1"), text("J1"), text("fine"), Minutes(120)}, 1);
        QCOMPARE(w.shop().allPrints().size(), 1);
        PrintRun run = w.shop().allPrints().first();
        QCOMPARE(run.event, begun.sequence);
        QCOMPARE(run.job, text("J1"));
        QCOMPARE(run.spools, (QStringList{text("A-1"), text("C-1")}));
        QCOMPARE(run.nozzles, (QStringList{text("N-1"), text("S-1")}));
        QVERIFY(!run.ended && run.session == 0);
        // Another spool in the middle of it.
        Spool more = w.spool("A-1");
        more.id = text("A-2");
        more.lot = text("L2");
        more.place = text("rack");
        more.where = SpoolWhere::Shelf;
        w.tell(act::SpoolReceived{more}, 20);
        w.tell(act::SpoolUnloaded{text("A-1"), text("rack")}, 60);
        w.tell(act::SpoolLoaded{text("A-2"), text("bay-1"), Role::Part}, 61);
        const Event ended = w.tell(act::PrintEnded{text("bay-1"), PrintOutcome::Good, true, {}, {}, {}}, 121);
        run = w.shop().allPrints().first();
        QCOMPARE(run.spools, (QStringList{text("A-1"), text("C-1"), text("A-2")}));
        QCOMPARE(run.endEvent, ended.sequence);
        QCOMPARE(run.outcome, PrintOutcome::Good);
        QCOMPARE(toMs(*run.ended), toMs(interlude::tests::at(121)));
        // What is loaded afterwards is not part of it.
        w.tell(act::SpoolUnloaded{text("A-2"), text("rack")}, 130);
        w.tell(act::SpoolLoaded{text("A-1"), text("bay-1"), Role::Part}, 131);
        QCOMPARE(w.shop().allPrints().first().spools.size(), 3);
        QCOMPARE(World::digestOf(w.replayed()), w.digest());
    }

    void aPositionThatIsNotUsedDoesNotCount() {
        World w;
        Job j = w.job("J1");
        j.id = text("J7");
        j.variants[0].setup.support.clear();
        j.variants[0].setup.supportNozzle.clear();
        j.variants[0].supportVolume = Volume();
        w.tell(act::JobAdded{j}, 1);
        w.force(act::PrintStarted{text("bay-1"), text("J7"), text("fine"), Minutes(120)}, 2);
        QCOMPARE(w.shop().allPrints().first().spools, QStringList{text("A-1")});
        QCOMPARE(w.shop().allPrints().first().nozzles, QStringList{text("N-1")});
    }

    void aStartTakenBackWasNone() {
        World w;
        w.tell(w.startJ2(1), 1);
        int minute = w.confirmUntil(text("start"), 60);
        w.confirm(text("start"), ++minute);
        QCOMPARE(w.shop().allPrints().size(), 1);
        QCOMPARE(w.shop().allPrints().first().session, 1);
        QCOMPARE(w.shop().allPrints().first().nozzles.size(), 2);
        w.tell(act::TakenBack{1, text("start"), text("wrong printer")}, ++minute);
        QVERIFY(w.shop().allPrints().isEmpty());
        w.confirm(text("start"), ++minute);
        QCOMPARE(w.shop().allPrints().size(), 1);
    }
};

INTERLUDE_TEST(PrintRunTest)
#include "print_run_test.moc"
