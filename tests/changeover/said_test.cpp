// What a changeover says beside the facts: warnings that forbid nothing, and the support position's own temperatures.
#include "tests/changeover/small_shop.h"
#include "tests/harness/run_tests.h"

#include <QTest>

#include <cmath>

using namespace interlude;
using namespace interlude::tests;

namespace {

/// abs → pc, with everything that this needs.
SmallShop pcShop() {
    SmallShop shop;
    shop.nozzle("P2", "p04");
    shop.spool("PC1", "pc", 1000);
    return shop;
}

/// The warning's reason; empty when it is not said, and when it is anything but a warning.
QString warning(const Transition& t, const QString& rule) {
    const Finding* f = verdict(t, rule);
    return f && f->severity == Severity::Warning ? f->reason : QString();
}

Minutes up(double seconds) { return roundUpToMinutes(Seconds(static_cast<qint64>(std::ceil(seconds)))); }

} // namespace

class SaidTest : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void aSupportThatDoesNotGoWithThePart() {
        SmallShop shop;
        shop.want("abs", "p04", "acr", "s04");
        QCOMPARE(warning(shop.judge(), "support-fit"), QString()); // nothing is said about supports of abs
        shop.material("abs").supports = {"psb", "pvx"};
        const Transition t = shop.judge();
        QCOMPARE(warning(t, "support-fit"), QStringLiteral("acr is not among the supports that go with abs (psb and pvx)."));
        QVERIFY(t.possible());
        shop.material("abs").supports = {"psb", "acr"};
        QCOMPARE(warning(shop.judge(), "support-fit"), QString());
    }

    void aSupportMaterialIsNoPart() {
        SmallShop shop;
        shop.material("abs").role = Role::Support;
        shop.want("abs", "p04");
        QCOMPARE(refused(shop.judge()), QStringList({"material"}));
        QVERIFY(!shop.plan());
    }

    void aPrinterThatIsDown() {
        SmallShop shop = pcShop();
        QCOMPARE(warning(shop.judge(), "printer-down"), QString());
        shop.bay().activity = Activity::Down;
        QCOMPARE(warning(shop.judge(), "printer-down"), QStringLiteral("bay is down."));
        shop.bay().downWhy = QStringLiteral("fan replaced");
        QCOMPARE(warning(shop.judge(), "printer-down"), QStringLiteral("bay is down: fan replaced."));
        QVERIFY(shop.judge().possible());
    }

    void aNozzleAtTheEndOfItsLifeThatTheJobCanStillUse() {
        SmallShop shop;
        shop.want("abs", "p04");
        shop.stock.nozzles["P1"].run.plain = cm3(999); // of 1000
        QCOMPARE(warning(shop.judge(), "nozzle-worn"), QString());
        shop.stock.nozzles["P1"].run.plain = cm3(1000);
        shop.request.partVolume = Volume(); // nothing known of the job: any life suffices
        const Transition t = shop.judge();
        QCOMPARE(warning(t, "nozzle-worn"), QStringLiteral("Nozzle P1 is at the end of its rated life."));
        shop.request.partVolume = cm3(1); // now it does not: that is refused, and said once
        QCOMPARE(refused(shop.judge()), QStringList({"nozzle-life"}));
        QCOMPARE(warning(shop.judge(), "nozzle-worn"), QString());
    }

    void aMeltZoneThatHoldsSomethingUnknown() {
        SmallShop shop;
        shop.want("abs", "p04");
        shop.bay().part.inMelt = QStringLiteral("mystery");
        const Transition t = shop.judge();
        QCOMPARE(refused(t), QStringList({"purge-windows"}));
        QCOMPARE(verdict(t, "purge-windows")->reason,
                 QStringLiteral("The melt zone of the part position holds mystery, which materials.yaml does not know."));
        QCOMPARE(verdict(t, "purge-windows")->place, QStringLiteral("mystery"));
    }

    void anExpiredSpoolIsToldWhereItIsFetched() {
        SmallShop shop = pcShop();
        shop.bay().support = {};
        shop.steps({"a 1m"});
        const auto note = [&] {
            for (const PickItem& i : shop.planned().pickList)
                if (i.id == "PC1") return i.note;
            return QString();
        };
        shop.stock.spools["PC1"].expires = shop.now + std::chrono::minutes(1);
        QVERIFY(!note().contains(QStringLiteral("expired")));
        shop.stock.spools["PC1"].expires = shop.now;
        QVERIFY2(note().endsWith(QStringLiteral(", expired")), qPrintable(note()));
    }

    void thePlaceBesideASpoolIsTheSpools() {
        SmallShop shop = pcShop();
        shop.spool("PSB1", "psb", 500).place = QStringLiteral("cabinet-2");
        shop.nozzle("S2", "s04", 5, "styrenics").place = QStringLiteral("rack-9");
        shop.want("pc", "p04", "psb", "s04");
        shop.steps({"a 1m scan=spool-in-part,place", "b 1m scan=spool-in-support,place", "c 1m scan=nozzle-in-support,place"});
        const Changeover c = shop.planned();
        QCOMPARE(c.step("a")->expectedScans, QStringList({"PC1", "cabinet"}));
        QCOMPARE(c.step("b")->expectedScans, QStringList({"PSB1", "cabinet-2"}));
        QCOMPARE(c.step("c")->expectedScans, QStringList({"S2", "rack-9"}));
    }

    // The same spool goes in again after an exchange: it comes from where it was put meanwhile, not from the printer.
    void aSpoolThatGoesInAgainHasNoPlaceYet() {
        SmallShop shop;
        shop.want("abs", "p04");
        shop.nozzle("P2", "p04", 0, "styrenics");
        shop.request.choosePartNozzle = QStringLiteral("P2");
        shop.steps({"a 1m scan=spool-in-part,place effect=load-part"});
        const Changeover c = shop.planned();
        QCOMPARE(c.step("a")->expectedScans, QStringList({"ABS1", ""}));
    }

    void theSupportHeadHeatsFromItsOwnMaterial() {
        SmallShop shop;
        shop.type().headHeat = HeatingConstants{Seconds(300), celsius(480), Minutes(0)};
        shop.material("psb").nozzle = celsius(270);
        shop.spool("PSB1", "psb", 500);
        shop.nozzle("S2", "s04", 5, "styrenics");
        shop.want("abs", "p04", "psb", "s04");
        shop.steps({"heat heat=head-support wait"});
        // acrylics were printed at 250 °C; psb wants 270
        const Changeover c = shop.planned();
        QCOMPARE(*c.step("heat")->target, celsius(270));
        QCOMPARE(c.step("heat")->planned, up(300 * std::log((480.0 - 250) / (480 - 270))));
        // no support was printed last: that head stood at room temperature, 23 °C
        shop.bay().lastSupport.clear();
        QCOMPARE(shop.planned().step("heat")->planned, up(300 * std::log((480.0 - 23) / (480 - 270))));
        // one that materials.yaml does not know: the set-point that was read off stands for it
        shop.bay().lastSupport = QStringLiteral("mystery");
        QCOMPARE(shop.planned().step("heat")->planned, up(300 * std::log((480.0 - 265) / (480 - 270))));
    }

    void thePartHeadHeatsFromItsMaterialWhereNoSetPointIsKnown() {
        SmallShop shop = pcShop();
        shop.type().headHeat = HeatingConstants{Seconds(300), celsius(480), Minutes(0)};
        shop.bay().nozzleSet.reset();
        shop.steps({"heat heat=head-part wait"});
        QCOMPARE(shop.planned().step("heat")->planned, up(300 * std::log((480.0 - 265) / (480 - 310)))); // abs: 265
        shop.bay().lastPart.clear();
        QCOMPARE(shop.planned().step("heat")->planned, up(300 * std::log((480.0 - 23) / (480 - 310))));
    }

    void twoCoolingsInAnyOrderEndAtTheLower() {
        SmallShop shop = pcShop();
        shop.type().chamberCool = ChamberCooling{Seconds(2700), Seconds(120)};
        shop.steps({"a cool=chamber:60 wait", "b cool=chamber:70 wait", "then cool=chamber:50 wait after=a,b"});
        // (2700 + 2·120) · ln((60 − 23)/(50 − 23)): what was cooled to 60 is not warmer for being cooled to 70
        QCOMPARE(shop.planned().step("then")->planned, up((2700 + 240) * std::log(37.0 / 27.0)));
        // With a heating among them nobody knows which was last: the warmer end takes longer.
        shop.type().chamberHeat = HeatingConstants{Seconds(1500), celsius(200), Minutes(0)};
        shop.steps({"a cool=chamber:60 wait", "b heat=chamber wait", "then cool=chamber:50 wait after=a,b"});
        const Changeover c = shop.planned();
        const double warm = c.step("b")->target->celsius();
        QVERIFY(warm > 60);
        QCOMPARE(c.step("then")->planned, up((2700 + 240) * std::log((warm - 23) / 27.0)));
    }

    void withoutAPurgeFlowNoTimeIsMadeUp() {
        SmallShop shop = pcShop();
        shop.type().purgeFlowMm3PerS = 0;
        shop.steps({"p purge=part wait effect=purge-part"});
        const PlannedStep p = shop.planned().steps[0];
        QVERIFY(p.purge && p.purge->mm3() > 0);
        QCOMPARE(p.planned, Minutes(0));
    }

    void aTransitionOfAPrinterThatIsNotThere() {
        SmallShop shop = pcShop();
        Transition t = shop.judge();
        t.request.now.id = QStringLiteral("bay-9"); // judged while it still was
        const auto c = planChangeover(shop.catalogue, shop.stock, t, shop.now);
        QVERIFY(!c);
        QCOMPARE(c.error().rule, QStringLiteral("printer"));
        QVERIFY(c.error().reason.contains(QStringLiteral("bay-9")));
    }
};

INTERLUDE_TEST(SaidTest)
#include "said_test.moc"
