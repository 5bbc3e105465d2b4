// What the acts for spools, nozzles and jobs do to the stock. The arithmetic stands beside each expectation.

#include "tests/harness/run_tests.h"
#include "tests/shop/fixture.h"

using namespace interlude;
using namespace interlude::tests;

namespace {
qint64 sumOf(const Spool& s) {
    qint64 sum = 0;
    for (const StockEntry& e : s.entries)
        sum += e.change.milligrams();
    return sum;
}
} // namespace

class StockFoldTest : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void openingsAreThere() {
        const World w;
        QCOMPARE(w.shop().stock().spools.size(), 4);
        QCOMPARE(w.shop().stock().nozzles.size(), 5);
        QCOMPARE(w.shop().jobs().first().id, text("J1"));
        QCOMPARE(w.spool("P-1").order, 2);
        QCOMPARE(sumOf(w.spool("A-1")), 800'000);
        QVERIFY(w.spool("P-2").entries.isEmpty()); // unknown is not zero
        QVERIFY(!w.spool("P-2").left);
    }

    void weighingIsASignedEntry() {
        World w;
        w.tell(act::SpoolWeighed{text("P-1"), grams(1100), {}, grams(2)}, 5); // 1100 − tare 250 = 850; 850 − 900 = −50
        const Spool s = w.spool("P-1");
        QCOMPARE(s.left->milligrams(), 850'000);
        QCOMPARE(s.entries.last().change.milligrams(), -50'000);
        QCOMPARE(s.entries.size(), 2);
        QCOMPARE(sumOf(s), 850'000);
        QCOMPARE(s.leftSe.milligrams(), 2'000);
    }

    void unknownTareMakesStockUnknownUntilStated() {
        World w;
        w.tell(act::SpoolWeighed{text("P-2"), grams(700), {}, grams(2)}, 5);
        QVERIFY(!w.spool("P-2").left);
        w.tell(act::SpoolWeighed{text("P-2"), grams(700), grams(240), grams(2)}, 6); // 700 − 240
        QCOMPARE(w.spool("P-2").left->milligrams(), 460'000);
        QCOMPARE(sumOf(w.spool("P-2")), 460'000);
        QCOMPARE(w.spool("P-2").tare->milligrams(), 240'000);
    }

    /// A drying that is entered late and was before the last one changes nothing of what has been in the open since.
    void anOlderDryingDoesNotUndoANewerOne() {
        World w;
        using interlude::tests::at;
        w.tell(act::SpoolDried{text("P-1"), celsius(110), at(-300), at(-60)}, 5);
        w.tell(act::SpoolMoved{text("P-1"), text("rack"), true}, 10);
        w.tell(act::SpoolMoved{text("P-1"), text("cabinet"), false}, 100); // 90 min in the open
        w.tell(act::SpoolDried{text("P-1"), celsius(110), at(-900), at(-600)}, 110);
        QCOMPARE(toMs(*w.spool("P-1").dried), toMs(at(-60)));
        QCOMPARE(exposure(w.spool("P-1"), at(120)).count(), 90LL * 60'000);
    }

    void exposureIsAddedUp() {
        World w;
        w.tell(act::SpoolMoved{text("P-1"), text("rack"), true}, 10);
        w.tell(act::SpoolMoved{text("P-1"), text("cabinet"), false}, 40); // 30 min in the open
        w.tell(act::SpoolMoved{text("P-1"), text("rack"), true}, 100);
        const Spool s = w.spool("P-1");
        QCOMPARE(exposure(s, interlude::tests::at(115)).count(), 45LL * 60'000); // 30 + 15
        QCOMPARE(toMs(*s.opened), toMs(interlude::tests::at(10)));
        w.tell(act::SpoolDried{text("P-1"), celsius(110), interlude::tests::at(120), interlude::tests::at(310)}, 320);
        QCOMPARE(exposure(w.spool("P-1"), interlude::tests::at(320)).count(), 10LL * 60'000); // since 310
        QCOMPARE(toMs(*w.spool("P-1").dried), toMs(interlude::tests::at(310)));
    }

    void loadingAndUnloadingMovesTheSpool() {
        World w;
        w.tell(act::SpoolLoaded{text("P-1"), text("bay-2"), Role::Part}, 5);
        QCOMPARE(w.printer("bay-2").part.spool, text("P-1"));
        QCOMPARE(w.printer("bay-2").part.loaded, text("pc"));
        QCOMPARE(w.spool("P-1").place, text("bay-2"));
        QVERIFY(w.spool("P-1").where == SpoolWhere::Loaded && w.spool("P-1").exposedFrom);
        w.tell(act::SpoolUnloaded{text("P-1"), text("cabinet")}, 35);
        QVERIFY(w.printer("bay-2").part.spool.isEmpty() && w.printer("bay-2").part.loaded.isEmpty());
        QVERIFY(w.spool("P-1").where == SpoolWhere::Shelf);
        QVERIFY(!w.spool("P-1").exposedFrom); // the cabinet is a dry place: 5 to 35 counts
        QCOMPARE(exposure(w.spool("P-1"), interlude::tests::at(500)).count(), 30LL * 60'000);
    }

    void retiringScrapsWhatIsLeft() {
        World w;
        w.tell(act::SpoolRetired{text("P-1"), text("fused in the oven")}, 5);
        const Spool s = w.spool("P-1");
        QVERIFY(s.where == SpoolWhere::Retired);
        QCOMPARE(s.left->milligrams(), 0);
        QCOMPARE(s.entries.last().change.milligrams(), -900'000);
        QCOMPARE(s.retiredWhy, text("fused in the oven"));
    }

    void nozzlesAreReceivedMeasuredAndRetired() {
        World w;
        Nozzle n;
        n.serial = text("N-10");
        n.type = text("h04");
        w.tell(act::NozzleReceived{n}, 5);
        w.tell(act::NozzleMeasured{text("N-10"), Length::fromMicrometres(403), text("ct-1")}, 6);
        QCOMPARE(w.nozzle("N-10").measurements.first().orifice.micrometres(), 403);
        QCOMPARE(w.nozzle("N-10").measurements.first().who, text("ML"));
        QCOMPARE(w.nozzle("N-10").order, 5);
        w.tell(act::NozzleUseStated{text("N-3"), {true, cm3(12), cm3(3)}}, 7);
        QVERIFY(w.nozzle("N-3").run.known);
        QCOMPARE(w.nozzle("N-3").run.abrasive.mm3(), 3000);
        w.tell(act::NozzleRetired{text("N-3"), text("worn")}, 8);
        QVERIFY(w.nozzle("N-3").where == NozzleWhere::Retired);
    }

    void aRetiredOpeningStaysRetired() {
        auto c = tinyCatalogue();
        c->openings.nozzles[2].where = NozzleWhere::Retired;
        const World w(c);
        QVERIFY(w.nozzle("N-3").where == NozzleWhere::Retired);
    }

    void jobsKeepRankAndState() {
        World w;
        Job j = w.job("J1");
        j.id = text("J3");
        w.tell(act::JobAdded{j}, 5);
        QCOMPARE(w.job("J3").rank, 2);
        j.title = text("renamed");
        j.rank = 99;
        j.state = JobState::Done;
        w.tell(act::JobChanged{j}, 6);
        QCOMPARE(w.job("J3").title, text("renamed"));
        QCOMPARE(w.job("J3").rank, 2);
        QVERIFY(w.job("J3").state == JobState::Open);
        w.tell(act::JobWithdrawn{text("J3"), text("cancelled")}, 7);
        QVERIFY(w.job("J3").state == JobState::Withdrawn);
        QCOMPARE(w.shop().jobs().size(), 3);
    }
};

INTERLUDE_TEST(StockFoldTest)
#include "stock_fold_test.moc"
