// Which spool. Density 1 g/cm³, so grams are cm³; a new pc nozzle P2 and an ended abs run need a purge of 4 cm³.
#include "tests/changeover/small_shop.h"
#include "tests/harness/run_tests.h"

#include <QTest>

using namespace interlude;
using namespace interlude::tests;

namespace {

SpoolChange part(const Transition& t) {
    for (const SpoolChange& c : t.spools)
        if (c.role == Role::Part) return c;
    return {};
}

/// abs goes on; the job needs 400 g; ABS1 is loaded.
SmallShop absShop(double loaded = 500) {
    SmallShop shop;
    shop.want("abs", "p04");
    shop.bay().support = {};
    shop.stock.spools["ABS1"].left = grams(loaded);
    shop.request.partVolume = cm3(400);
    return shop;
}

} // namespace

class SpoolChoiceTest : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void whatIsLoadedStaysWhenItSuffices() {
        SmallShop shop = absShop(400);
        shop.spool("ABS2", "abs", 900).expires = shop.now + std::chrono::days(1);
        const Transition t = shop.judge();
        QCOMPARE(part(t).in, QStringLiteral("ABS1"));
        QVERIFY(!part(t).load && !part(t).unload);
        QVERIFY(!t.has(fact::partMaterial));
        QCOMPARE(part(t).need, grams(400));
    }

    void anotherSpoolWhenItDoesNot() {
        SmallShop shop = absShop(399);
        shop.spool("ABS2", "abs", 401); // 400 and 1 to prime
        const Transition t = shop.judge();
        QCOMPARE(part(t).out, QStringLiteral("ABS1"));
        QCOMPARE(part(t).in, QStringLiteral("ABS2"));
        QVERIFY(part(t).load && part(t).unload);
        QVERIFY(t.has(fact::partMaterial)); // so that the steps which unload and load are selected
        QCOMPARE(part(t).need, grams(401));
        QVERIFY(t.purges.first().needed && t.purges.first().primeOnly);
        QVERIFY(t.possible() && !verdict(t, "spool-change"));
    }

    void firstExpiredFirstOutThenOpenedFirst() {
        SmallShop shop = absShop(10);
        shop.spool("A", "abs", 900);
        shop.spool("B", "abs", 900).opened = shop.now - std::chrono::hours(3);
        shop.spool("C", "abs", 900).opened = shop.now - std::chrono::hours(5);
        shop.spool("D", "abs", 900).expires = shop.now + std::chrono::days(200);
        shop.spool("E", "abs", 900).expires = shop.now + std::chrono::days(100);
        QStringList order;
        while (true) {
            const Transition t = shop.judge();
            if (part(t).in == QStringLiteral("ABS1")) break;
            order.append(part(t).in);
            shop.stock.spools[part(t).in].where = SpoolWhere::Retired;
        }
        QCOMPARE(order, QStringList({"E", "D", "C", "B", "A"}));
    }

    void theExpiredOneIsTakenLastAndSaid() {
        SmallShop shop = absShop(10);
        shop.spool("OLD", "abs", 900).expires = shop.now;
        shop.spool("NEW", "abs", 900);
        QCOMPARE(part(shop.judge()).in, QStringLiteral("NEW"));
        shop.stock.spools["NEW"].where = SpoolWhere::Loaded; // on another printer
        const Transition t = shop.judge();
        QCOMPARE(part(t).in, QStringLiteral("OLD"));
        QVERIFY(verdict(t, "spool-expired") && t.possible());
    }

    void purgeAndPrimeCount() {
        SmallShop shop;
        shop.nozzle("P2", "p04");
        shop.request.partVolume = cm3(300);
        shop.spool("PC1", "pc", 304); // 300 and 5 × 400 mm³ × 2 = 4
        Transition t = shop.judge();
        QCOMPARE(part(t).need.milligrams() / 1000, 304); // rounded up to the next mm³ at most
        shop.stock.spools["PC1"].left = grams(303);
        QCOMPARE(refused(shop.judge()), QStringList({"spool-stock"}));
        QVERIFY(shop.plan({"spool-stock"}).has_value());
    }

    void severalSpoolsOneAfterTheOther() {
        SmallShop shop = absShop(250);
        shop.spool("ABS2", "abs", 200);
        Transition t = shop.judge();
        QCOMPARE(part(t).in, QStringLiteral("ABS1")); // 250 + 200 >= 400: it runs out and is changed
        QVERIFY(t.possible() && verdict(t, "spool-change"));
        // the same lot: each spool has its own here
        shop.request.sameLot = true;
        t = shop.judge();
        QCOMPARE(refused(t), QStringList({"spool-lot"}));
        QVERIFY(verdict(t, "spool-lot")->overridable);
        shop.stock.spools["ABS2"].lot = shop.stock.spools["ABS1"].lot;
        QVERIFY(shop.judge().possible());
        // a lot that nobody wrote down is no lot
        shop.stock.spools["ABS1"].lot.clear();
        shop.stock.spools["ABS2"].lot.clear();
        QCOMPARE(refused(shop.judge()), QStringList({"spool-lot"}));
        shop.stock.spools["ABS2"].left = grams(100);
        QCOMPARE(refused(shop.judge()), QStringList({"spool-stock"}));
    }

    void oneLotWithEnoughBeatsASpoolWithMore() {
        SmallShop shop = absShop(10);
        shop.request.sameLot = true;
        shop.spool("A", "abs", 390);
        shop.spool("B1", "abs", 250).lot = QStringLiteral("LB");
        shop.spool("B2", "abs", 250).lot = QStringLiteral("LB");
        const Transition t = shop.judge();
        QCOMPARE(part(t).in, QStringLiteral("B1"));
        QVERIFY(t.possible());
        QVERIFY(verdict(t, "spool-change")->reason.contains(QStringLiteral("LB")));
    }

    void anUnknownWeightIsAWarningNeverZeroAndNeverEnough() {
        SmallShop shop = absShop();
        shop.stock.spools["ABS1"].left.reset();
        Transition t = shop.judge();
        QCOMPARE(part(t).in, QStringLiteral("ABS1"));
        QVERIFY(verdict(t, "spool-weight") && t.possible());
        // on the shelf a known weight that suffices comes first
        SmallShop other = absShop(10);
        other.spool("U", "abs", 0).left.reset();
        QCOMPARE(part(other.judge()).in, QStringLiteral("U"));
        other.spool("K", "abs", 900);
        QCOMPARE(part(other.judge()).in, QStringLiteral("K"));
    }

    void overdueForDryingIsAWarning() {
        SmallShop shop = absShop();
        shop.material("abs").exposureLimit = Minutes(12 * 60);
        shop.material("abs").drying = celsius(80);
        Spool& s = shop.stock.spools["ABS1"];
        s.dried = shop.now - std::chrono::hours(30);
        s.exposedFrom = shop.now - std::chrono::hours(12);
        Transition t = shop.judge();
        QVERIFY(!verdict(t, "spool-drying")); // exactly at the limit
        s.exposedFrom = shop.now - std::chrono::hours(13);
        t = shop.judge();
        QVERIFY(t.possible());
        QVERIFY(verdict(t, "spool-drying")->reason.contains(QStringLiteral("13 h")));
        QVERIFY(verdict(t, "spool-drying")->remedy.contains(QStringLiteral("80 °C")));
    }

    void noneAtAllIsRefused() {
        SmallShop shop;
        shop.nozzle("P2", "p04");
        const Transition t = shop.judge();
        QCOMPARE(refused(t), QStringList({"spool-none"}));
        QVERIFY(part(t).in.isEmpty() && part(t).unload && part(t).load); // one must go in, whichever that will be
    }

    void aChoiceWinsIfItIsValid() {
        SmallShop shop = absShop();
        shop.spool("ABS2", "abs", 900);
        shop.spool("PC1", "pc", 900);
        shop.request.choosePartSpool = QStringLiteral("ABS2");
        QCOMPARE(part(shop.judge()).in, QStringLiteral("ABS2"));
        for (const char* wrong : {"PC1", "X9"}) {
            shop.request.choosePartSpool = QString::fromLatin1(wrong);
            QCOMPARE(refused(shop.judge()), QStringList({"spool-choice"}));
        }
    }

    void aNozzleExchangeUnloadsAndLoadsTheSameSpool() {
        SmallShop shop = absShop();
        shop.stock.nozzles["P1"].run.plain = cm3(1000);
        shop.nozzle("P2", "p04", 10, "styrenics");
        const Transition t = shop.judge();
        QVERIFY(t.has(fact::partNozzle) && !t.has(fact::partMaterial));
        QVERIFY(part(t).load && part(t).unload);
        QCOMPARE(part(t).in, part(t).out);
    }

    void aSupportThatIsNotWantedLeavesAHotterChamber() {
        SmallShop shop;
        shop.nozzle("P2", "p04");
        shop.spool("PC1", "pc", 500); // 125 >= 105 − 10
        const Transition t = shop.judge();
        QVERIFY(t.has(fact::supportMaterial) && verdict(t, "support-left-loaded"));
        QVERIFY(t.spools.last().role == Role::Support && t.spools.last().unload && !t.spools.last().load);
        shop.material("acr").softening = celsius(136); // 125 < 126
        QVERIFY(!shop.judge().has(fact::supportMaterial));
    }

    /// Design section 6: a job whose stock is short or must dry first is placed and flagged.
    void shortStockStopsTheStartAndNotThePlan() {
        SmallShop shop = absShop();
        shop.want("asa", "p04"); // the shop has no spool of it at all
        shop.steps({"out 4m effect=unload-part when=part-material", "in 6m effect=load-part when=part-material after=out",
                    "start 2m after=in effect=start-print"});
        const Transition t = shop.judge();
        QCOMPARE(refused(t), QStringList({"spool-none"}));
        QVERIFY(!t.possible() && t.plannable());
        QVERIFY(!shop.plan().has_value());
        QVERIFY(!shop.plan({"spool-none"}).has_value()); // no reason makes a spool
        const auto planned = planChangeover(shop.catalogue, shop.stock, t, shop.now, {}, Purpose::Plan);
        QVERIFY(planned.has_value());
        QVERIFY(planned->step("in")); // the spool that is still to come takes the time of loading
        // The same changeover takes the same time once the spool is there.
        shop.spool("ASA1", "asa", 900);
        QVERIFY(shop.judge().possible());
        QCOMPARE(planned->internal, shop.planned().internal);
    }
    void tooLittleStockToo() {
        SmallShop shop = absShop(100);
        const Transition t = shop.judge();
        QVERIFY(!t.possible() && t.plannable());
        QCOMPARE(refused(t), QStringList({"spool-stock"}));
        QVERIFY(planChangeover(shop.catalogue, shop.stock, t, shop.now, {}, Purpose::Plan).has_value());
    }
    void otherRefusalsStandInAPlanToo() {
        SmallShop shop = absShop(100);
        shop.request.allowedPrinters = {"elsewhere"};
        const Transition t = shop.judge();
        QVERIFY(!t.plannable());
        const auto c = planChangeover(shop.catalogue, shop.stock, t, shop.now, {}, Purpose::Plan);
        QVERIFY(!c.has_value());
        QCOMPARE(c.error().rule, QStringLiteral("job-printers"));
    }
};

INTERLUDE_TEST(SpoolChoiceTest)
#include "spool_choice_test.moc"
