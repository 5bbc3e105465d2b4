// Which nozzle, which purge. Rated life of p04: 1000 cm³ plain.
#include "tests/changeover/small_shop.h"
#include "tests/harness/run_tests.h"

#include <QTest>

using namespace interlude;
using namespace interlude::tests;

namespace {

/// The part position's nozzle change: "P1>P2", or "P1" when it stays.
QString change(const Transition& t, Role role = Role::Part) {
    for (const NozzleChange& c : t.nozzles)
        if (c.role == role) return c.exchange ? c.out + QLatin1Char('>') + c.in : c.in;
    return QStringLiteral("none");
}

PurgePlan purgeOf(const Transition& t, Role role = Role::Part) {
    for (const PurgePlan& p : t.purges)
        if (p.role == role) return p;
    return {};
}

/// PC with a job of 300 cm³ and feedstock for it, so that only the nozzle is in question.
SmallShop pcShop() {
    SmallShop shop;
    shop.spool("PC1", "pc", 1000);
    shop.request.partVolume = cm3(300);
    return shop;
}

} // namespace

class NozzleChoiceTest : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void leastLifeThatSuffices() {
        SmallShop shop = pcShop();
        shop.nozzle("P2", "p04", 0);                      // 1000 left
        shop.nozzle("P3", "p04", 600, "polycarbonates");  // 400 left
        shop.nozzle("P4", "p04", 701, "polycarbonates");  // 299 left: too little
        shop.nozzle("P5", "p04", -1, "polycarbonates");   // no history
        QCOMPARE(change(shop.judge()), QStringLiteral("P1>P3"));
        shop.request.notFree = {"P3"};
        QCOMPARE(change(shop.judge()), QStringLiteral("P1>P2"));
        shop.stock.nozzles["P2"].where = NozzleWhere::Retired;
        const Transition t = shop.judge();
        QCOMPARE(change(t), QStringLiteral("P1>P5")); // without history last
        QVERIFY(verdict(t, "nozzle-history")->reason.contains(QStringLiteral("no history")));
        QVERIFY(t.possible());
        shop.stock.nozzles["P5"].where = NozzleWhere::Mounted;
        const Transition u = shop.judge(); // only P4 is left
        QCOMPARE(change(u), QStringLiteral("P1>P4"));
        QCOMPARE(refused(u), QStringList({"nozzle-life"}));
        QVERIFY(verdict(u, "nozzle-life")->overridable);
        QVERIFY(!shop.plan());
        QVERIFY(shop.plan({"nozzle-life"}).has_value());
    }

    void exactlyEnoughSufficesAndFileOrderBreaksTies() {
        SmallShop shop = pcShop();
        shop.nozzle("P9", "p04", 700, "polycarbonates"); // 300 left = the job
        shop.nozzle("P2", "p04", 700, "polycarbonates");
        QCOMPARE(change(shop.judge()), QStringLiteral("P1>P9")); // received first
        QVERIFY(shop.judge().possible());
    }

    void theMountedNozzleStaysWhileItServes() {
        SmallShop shop;
        shop.want("asa", "p04");
        shop.spool("ASA1", "asa", 2000);
        shop.nozzle("P2", "p04", 400, "styrenics");
        shop.request.partVolume = cm3(900); // P1 has run 100: exactly enough
        QCOMPARE(change(shop.judge()), QStringLiteral("P1"));
        shop.stock.nozzles["P1"].run.plain = cm3(101);
        const Transition t = shop.judge();
        QCOMPARE(change(t), QStringLiteral("P1")); // P2 would be worse still
        QCOMPARE(refused(t), QStringList({"nozzle-life"}));
        shop.stock.nozzles["P2"].run.plain = cm3(50);
        QCOMPARE(change(shop.judge()), QStringLiteral("P1>P2"));
    }

    void abrasiveAndPlainUseAddUp() {
        // h06: 1000 plain, 200 abrasive. 500 plain + 50 abrasive = 0.5 + 0.25; left 0.25 × 200 = 50 cm³ abrasive
        SmallShop shop;
        shop.want("pa-cf", "h06");
        shop.spool("CF1", "pa-cf", 500);
        shop.nozzle("H1", "h06", 500, "polyamides").run.abrasive = cm3(50);
        shop.request.partVolume = cm3(50);
        QVERIFY(shop.judge().possible());
        shop.request.partVolume = cm3(50.001);
        QCOMPARE(refused(shop.judge()), QStringList({"nozzle-life"}));
    }

    void aNozzleServesOneMeltFamily() {
        SmallShop shop = pcShop();
        shop.nozzle("P2", "p04", 10, "styrenics");
        const Transition t = shop.judge();
        QCOMPARE(refused(t), QStringList({"nozzle-none"}));
        const QString reason = verdict(t, "nozzle-none")->reason;
        QVERIFY2(reason.contains(QStringLiteral("P2 has served styrenics")), qPrintable(reason));
    }

    void aChoiceWinsIfItIsValid() {
        SmallShop shop = pcShop();
        shop.nozzle("P2", "p04");
        shop.nozzle("P3", "p04", 600, "polycarbonates");
        shop.request.choosePartNozzle = QStringLiteral("P2");
        QCOMPARE(change(shop.judge()), QStringLiteral("P1>P2"));
        shop.request.choosePartNozzle = QStringLiteral("P1"); // styrenics
        QCOMPARE(refused(shop.judge()), QStringList({"nozzle-choice"}));
        shop.request.choosePartNozzle = QStringLiteral("P77");
        QCOMPARE(refused(shop.judge()), QStringList({"nozzle-choice"}));
        shop.request.choosePartNozzle = QStringLiteral("P3");
        shop.request.partVolume = cm3(500); // 400 left
        const Transition t = shop.judge();
        QCOMPARE(refused(t), QStringList({"nozzle-life"}));
        QCOMPARE(change(t), QStringLiteral("P1>P3"));
    }

    void typesAndMaterials_data() {
        QTest::addColumn<QString>("what");
        QTest::addColumn<QString>("rule");
        for (const auto& [what, rule] :
             {std::pair("orifice", "nozzle-orifice"), std::pair("abrasive", "nozzle-abrasive"),
              std::pair("temperature", "nozzle-temperature"), std::pair("role", "nozzle-role"),
              std::pair("printer", "nozzle-printer")})
            QTest::newRow(what) << what << rule;
    }

    void typesAndMaterials() {
        QFETCH(QString, what);
        QFETCH(QString, rule);
        SmallShop shop = pcShop();
        shop.nozzle("P2", "p04");
        QVERIFY(shop.judge().possible());
        if (what == "orifice") shop.material("pc").orifices = {Length::fromMm(0.6)};
        if (what == "abrasive") shop.material("pc").abrasive = true, shop.request.partVolume = cm3(10);
        if (what == "temperature") shop.nozzleType("p04").max = celsius(309.9);
        if (what == "role") shop.nozzleType("p04").roles = {Role::Support};
        if (what == "printer") shop.nozzleType("p04").printerTypes = {"low", "high"};
        QCOMPARE(refused(shop.judge()), QStringList({rule}));
    }

    void oneNozzleCannotGoToBothPositions() {
        SmallShop shop = pcShop();
        shop.spool("PSB1", "psb", 500);
        shop.nozzleType("p04").roles = {};
        shop.material("psb").meltFamily = QStringLiteral("polycarbonates");
        shop.nozzle("P2", "p04");
        shop.want("pc", "p04", "psb", "p04");
        const Transition t = shop.judge();
        QCOMPARE(change(t), QStringLiteral("P1>P2"));
        QVERIFY(verdict(t, "nozzle-none"));
        shop.nozzle("P3", "p04");
        QCOMPARE(change(shop.judge(), Role::Support), QStringLiteral("S1>P3"));
    }

    void purgeWithinOneNozzle() {
        // abs → asa: another polymer, W <= 1 %. Newtonian tube: W = 1/(4 theta²) → theta = 5. 5 × 400 mm³ × 2 = 4 cm³, 400 s.
        SmallShop shop;
        shop.want("asa", "p04");
        shop.spool("ASA1", "asa", 500);
        PurgePlan p = purgeOf(shop.judge());
        QVERIFY(p.needed && !p.primeOnly);
        QCOMPARE(p.from, QStringLiteral("abs"));
        QCOMPARE(p.residual, 0.01);
        QCOMPARE(p.theta, 5.0);
        QVERIFY(std::abs(p.volume.mm3() - 4000) <= 1); // rounded up
        QVERIFY(std::abs(p.time.count() - 400) <= 1);
        // the same polymer in another grade: W <= 5 % → theta = √5
        shop.material("asa").polymer = shop.material("abs").polymer;
        p = purgeOf(shop.judge());
        QCOMPARE(p.residual, 0.05);
        QCOMPARE(p.theta, 2.236068);
        QVERIFY(std::abs(p.volume.mm3() - 1789) <= 1); // 2.236068 × 800 = 1788.85
        // the flow index of what is pushed out counts, not that of what pushes
        shop.material("asa").flowIndex = 0.4;
        QCOMPARE(purgeOf(shop.judge()).theta, 2.236068);
        shop.material("abs").flowIndex = 0.4;
        QVERIFY(std::abs(purgeOf(shop.judge()).theta - 2.00903) < 1e-5); // domain reference, section 3
    }

    void theOldMaterialIsNotLeftWhereItDecomposes() {
        SmallShop shop = pcShop();
        shop.nozzle("P2", "p04");
        const Transition up = shop.judge(); // abs 230–280 is left, pc 270–345 is fed at 310
        QVERIFY(up.possible());
        const Finding* f = verdict(up, "purge-windows");
        QVERIFY(f);
        QCOMPARE(f->severity, Severity::Warning);
        QVERIFY2(f->reason.contains("decomposes above 280 °C") && f->reason.contains("310 °C"), qPrintable(f->reason));
        QVERIFY2(f->remedy.contains("between 270 °C and 280 °C"), qPrintable(f->remedy));
        // The other way: what is left does not flow where the next is fed.
        SmallShop down;
        down.want("abs", "p04");
        down.bay().part.inMelt = QStringLiteral("pc");
        const Transition t = down.judge();
        QVERIFY(verdict(t, "purge-windows"));
        QVERIFY2(verdict(t, "purge-windows")->reason.contains("does not flow below 270 °C"), qPrintable(verdict(t, "purge-windows")->reason));
        // Where the next is fed within the window of what is left there is nothing to say; nor where it leaves with its nozzle.
        SmallShop within;
        within.want("asa", "p04");
        within.spool("ASA1", "asa", 500);
        const Transition fits = within.judge();
        QVERIFY(!verdict(fits, "purge-windows"));
        shop.nozzleType("p04").unitWithMeltZone = true;
        const Transition unit = shop.judge();
        QVERIFY(!verdict(unit, "purge-windows"));
    }

    void anExchangeDoesNotTakeTheMeltZoneAlong() {
        SmallShop shop = pcShop();
        shop.nozzle("P2", "p04");
        PurgePlan p = purgeOf(shop.judge()); // abs 230–280, pc 270–345
        QVERIFY(p.needed && !p.primeOnly);
        QCOMPARE(p.from, QStringLiteral("abs"));
        shop.nozzleType("p04").unitWithMeltZone = true;
        p = purgeOf(shop.judge());
        QVERIFY(p.needed && p.primeOnly);
        QCOMPARE(p.volume, cm3(1));
        QCOMPARE(p.time, Seconds(100)); // 1000 mm³ at 10 mm³/s
    }

    void anEmptyMeltZoneIsOnlyPrimed() {
        SmallShop shop;
        shop.want("abs", "p04");
        shop.bay().part.inMelt.clear();
        const PurgePlan p = purgeOf(shop.judge());
        QVERIFY(p.needed && p.primeOnly);
    }

    void windowsThatDoNotOverlap() {
        SmallShop shop;
        shop.type().chamberMax = celsius(220);
        shop.want("pei", "p04"); // 350–400 after abs 230–280
        shop.spool("PEI1", "pei", 500);
        shop.nozzle("P2", "p04");
        const Transition t = shop.judge();
        QCOMPARE(refused(t), QStringList({"purge-windows"}));
        const QString remedy = verdict(t, "purge-windows")->remedy;
        QVERIFY2(remedy.contains(QStringLiteral("intermediate")) && remedy.contains(QStringLiteral("another nozzle")),
                 qPrintable(remedy));
        // a material that bridges is named: pc widened to 270–350
        shop.material("pc").meltMax = celsius(350);
        const Transition u = shop.judge();
        QVERIFY(verdict(u, "purge-windows")->remedy.contains(QStringLiteral("(pc)")));
        // one that is one unit with its melt zone takes the old material along
        shop.nozzleType("p04").unitWithMeltZone = true;
        QVERIFY(shop.judge().possible());
        QCOMPARE(change(shop.judge()), QStringLiteral("P1>P2"));
    }

    void ratherAnotherUnitThanAPurgeThatIsRefused() {
        // both are styrenics, so the mounted nozzle could stay, but the windows (made so here) do not overlap
        SmallShop shop;
        shop.nozzleType("p04").unitWithMeltZone = true;
        shop.material("asa").meltMin = celsius(281);
        shop.material("asa").meltMax = celsius(290);
        shop.want("asa", "p04");
        shop.spool("ASA1", "asa", 500);
        Transition t = shop.judge();
        QCOMPARE(refused(t), QStringList({"purge-windows"}));
        shop.nozzle("P2", "p04", 10, "styrenics");
        t = shop.judge();
        QVERIFY(t.possible());
        QCOMPARE(change(t), QStringLiteral("P1>P2"));
    }

    void windowsThatTouchOverlap() {
        SmallShop shop = pcShop();
        shop.nozzle("P2", "p04");
        shop.material("pc").meltMin = celsius(280);
        QVERIFY(shop.judge().possible());
        shop.material("pc").meltMin = celsius(280.001);
        QCOMPARE(refused(shop.judge()), QStringList({"purge-windows"}));
    }
};

INTERLUDE_TEST(NozzleChoiceTest)
#include "nozzle_choice_test.moc"
