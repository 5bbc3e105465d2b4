// Selection, order, scans and durations of steps.
#include "tests/changeover/small_shop.h"
#include "tests/harness/run_tests.h"

#include "model/physics/heat.h"

#include <QTest>

using namespace interlude;
using namespace interlude::tests;

namespace {

QStringList ids(const Changeover& c) {
    QStringList out;
    for (const PlannedStep& p : c.steps) out.append(p.step.id);
    return out;
}

/// abs → pc with everything that this needs.
SmallShop pcShop() {
    SmallShop shop;
    shop.nozzle("P2", "p04");
    shop.spool("PC1", "pc", 1000);
    shop.bay().support = {};
    return shop;
}

Minutes up(double seconds) { return roundUpToMinutes(Seconds(static_cast<qint64>(std::ceil(seconds)))); }

} // namespace

class StepsTest : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void conditions_data() {
        QTest::addColumn<QString>("when");
        QTest::addColumn<bool>("selected");
        // abs → pc: part-material, part-nozzle, chamber-family, hotter, nozzle-first-use; clean-out mandatory
        for (const auto& [when, selected] :
             {std::pair("part-material", true), std::pair("support-material", false),
              std::pair("support-material|hotter", true), std::pair("part-nozzle&hotter", true),
              std::pair("part-nozzle&cooler", false), std::pair("clean-out=mandatory", true),
              std::pair("wiper-and-bin=mandatory", true), std::pair("purge=part", true),
              std::pair("purge=support", false), std::pair("support=wanted", false), std::pair("part-lying", false),
              std::pair("long-idle", false), std::pair("no-such-word", false)})
            QTest::newRow(when) << when << selected;
    }

    void conditions() {
        QFETCH(QString, when);
        QFETCH(bool, selected);
        SmallShop shop = pcShop();
        shop.residue("abs", 90, 265);
        shop.steps({"x 1m when=" + when, "always 1m"});
        QCOMPARE(ids(shop.planned()).contains(QStringLiteral("x")), selected);
        QVERIFY(ids(shop.planned()).contains(QStringLiteral("always")));
    }

    void anAdvisedCleanOutThatIsTakenSelectsItsSteps() {
        SmallShop shop;
        shop.residue("abs", 90, 265);
        shop.want("asa", "p04");
        shop.spool("ASA1", "asa", 500);
        shop.steps({"vacuum 5m when=clean-out=mandatory", "wipe 5m when=clean-out=mandatory effect=clean-out",
                    "wiper 5m when=wiper-and-bin=mandatory effect=clear-wiper"});
        QCOMPARE(ids(shop.planned()), QStringList({"vacuum", "wipe"}));
        QVERIFY(shop.planned().steps[1].mandatoryBecause.isEmpty());
        shop.request.takeAdvisedCleanOut = false;
        QCOMPARE(ids(shop.planned()), QStringList());
        shop.material("abs").softening = celsius(99); // 90 >= 99 − 10, but it has seen 90 …
        shop.bay().residue[0].chamberSeen = celsius(80); // … no: 80
        QCOMPARE(ids(shop.planned()), QStringList({"vacuum", "wipe"}));
        QVERIFY(shop.planned().steps[1].mandatoryBecause.contains(QStringLiteral("abs")));
    }

    void partLyingIsAlsoThatOfARunningPrint() {
        SmallShop shop = pcShop();
        shop.steps({"out 6m effect=remove-part", "x 1m when=part-lying"});
        QCOMPARE(ids(shop.planned()), QStringList());
        for (Activity a : {Activity::Printing, Activity::PartLying}) {
            shop.bay().activity = a;
            QCOMPARE(ids(shop.planned()), QStringList({"out", "x"}));
        }
    }

    void byPrinterType() {
        SmallShop shop = pcShop();
        shop.steps({"a 1m types=low", "b 1m types=low,mid"});
        QCOMPARE(ids(shop.planned()), QStringList({"b"}));
    }

    void anEffectThatHasNothingToActOnIsNotSelected() {
        SmallShop shop = pcShop();
        shop.bay().part = {}; // nothing mounted, nothing loaded
        shop.steps({"u 1m effect=unload-part", "r 1m effect=remove-nozzle-part", "m 1m effect=mount-nozzle-part",
                    "l 1m effect=load-part", "us 1m effect=unload-support", "p 1m effect=purge-part", "o 1m effect=remove-part",
                    "s 1m effect=start-print"});
        QCOMPARE(ids(shop.planned()), QStringList({"m", "l", "p", "s"}));
    }

    void aStepNotSelectedPassesItsOrderThrough() {
        SmallShop shop = pcShop();
        shop.steps({"d 1m after=c", "c 1m when=long-idle after=b", "b 1m when=long-idle after=a,e", "a 1m", "e 1m"});
        const Changeover c = shop.planned();
        QCOMPARE(ids(c), QStringList({"a", "e", "d"}));
        QCOMPARE(c.step("d")->after, QStringList({"a", "e"}));
    }

    void inTheOrderOfWork() {
        // hands free: file order among those that may go; waits at once
        SmallShop shop = pcShop();
        shop.steps({"late 1m after=cool", "cool 5m wait after=first", "first 2m", "second 2m", "third 4m"});
        const Changeover c = shop.planned();
        QCOMPARE(ids(c), QStringList({"first", "cool", "second", "third", "late"}));
        // first 0–2, cool 2–7, second 2–4, third 4–8; late may go at 7 but the hands are free at 8
        QCOMPARE(c.step("late")->start, Minutes(8));
        QCOMPARE(c.step("cool")->end, Minutes(7));
    }

    void scansAreResolved() {
        SmallShop shop = pcShop();
        shop.type().platformCover = QStringLiteral("sheet");
        shop.steps({"x 1m scan=printer,nozzle-out-part,nozzle-in-part,spool-out-part,spool-in-part,platform-cover,place,"
                    "nozzle-in-support",
                    "y 1m scan=place"});
        shop.stock.nozzles["P2"].place = QStringLiteral("rack-7");
        const Changeover c = shop.planned();
        QCOMPARE(c.step("x")->expectedScans, QStringList({"bay", "P1", "P2", "ABS1", "PC1", "sheet", "rack-7", ""}));
        QCOMPARE(c.step("y")->expectedScans, QStringList({""}));
    }

    void heatingFromTheSetPointBefore() {
        SmallShop shop = pcShop();
        shop.type().chamberHeat = HeatingConstants{Seconds(1500), celsius(210), Minutes(8)};
        shop.steps({"heat heat=chamber settle=4"});
        const Changeover c = shop.planned();
        const PlannedStep& p = c.steps[0];
        QCOMPARE(*p.target, celsius(125));
        // 1500 · ln((210 − 90)/(210 − 125)) = 517.26 s → 9 min; + 8 + 4
        QCOMPARE(p.planned, Minutes(9 + 12));
        QVERIFY(p.predictable);
    }

    void heatingFromWhereTheLastCoolingEnded() {
        SmallShop shop = pcShop();
        shop.type().chamberHeat = HeatingConstants{Seconds(1500), celsius(210), Minutes(0)};
        shop.type().chamberCool = ChamberCooling{Seconds(2700), Seconds(120)};
        shop.steps({"c1 cool=chamber:80 wait", "c2 cool=chamber:60 wait after=c1", "other cool=head-part:100 wait after=c2",
                    "heat heat=chamber after=other wait"});
        const Changeover c = shop.planned();
        // (2700 + 240) · ln((90 − 23)/(80 − 23)) = 475.2 s, then · ln((80 − 23)/(60 − 23)) = 1270.6 s
        QCOMPARE(c.step("c1")->planned, up((2700 + 240) * std::log(67.0 / 57.0)));
        QCOMPARE(c.step("c2")->planned, up((2700 + 240) * std::log(57.0 / 37.0)));
        // 1500 · ln((210 − 60)/(210 − 125)) = 851.97 s
        QCOMPARE(c.step("heat")->planned, up(1500 * std::log(150.0 / 85.0)));
        QVERIFY(!c.step("other")->predictable);
        QCOMPARE(c.step("other")->planned, Minutes(0));
    }

    void thePartsRemovalIsOnTheWay() {
        SmallShop shop = pcShop();
        shop.bay().activity = Activity::PartLying;
        shop.type().chamberHeat = HeatingConstants{Seconds(1500), celsius(210), Minutes(0)};
        shop.type().chamberCool = ChamberCooling{Seconds(2700), Seconds(120)};
        shop.steps({"cool cool=chamber:60 wait", "out 6m after=cool effect=remove-part", "heat heat=chamber wait"});
        QCOMPARE(shop.planned().step("heat")->planned, up(1500 * std::log(150.0 / 85.0)));
    }

    void withThePowerOffTheHeadIsTakenAsCold() {
        SmallShop shop = pcShop();
        shop.type().headHeat = HeatingConstants{Seconds(300), celsius(480), Minutes(0)};
        shop.steps({"exchange 5m power=off", "heat heat=head-part wait after=exchange", "hot heat=head-part wait"});
        const Changeover c = shop.planned();
        QCOMPARE(c.step("heat")->planned, up(300 * std::log((480.0 - 23) / (480 - 310))));
        QCOMPARE(c.step("hot")->planned, up(300 * std::log((480.0 - 265) / (480 - 310))));
    }

    void afterALongRestEverythingIsCold() {
        SmallShop shop = pcShop();
        shop.bay().lastPrintEnd = shop.now - std::chrono::days(30);
        shop.type().chamberHeat = HeatingConstants{Seconds(1500), celsius(210), Minutes(0)};
        shop.type().chamberCool = ChamberCooling{Seconds(2700), Seconds(120)};
        shop.steps({"cool cool=chamber:60 wait", "heat heat=chamber wait"});
        const Changeover c = shop.planned();
        QCOMPARE(c.step("cool")->planned, Minutes(0));
        QVERIFY(c.step("cool")->predictable);
        QCOMPARE(c.step("heat")->planned, up(1500 * std::log((210.0 - 23) / 85)));
    }

    void theHeadCannotBecomeCoolerThanItsChamber() {
        SmallShop shop = pcShop();
        HeadCooling h{60, 12000, 0.25, 0.01, 6.0, 0.3};
        shop.type().headCool = h;
        shop.steps({"cool cool=head-part:43 wait"});
        const auto band = physics::twoNodeCooling({60, 12000, 0.25, 6.0}, 0.01, 0.3, 23, {265, 90}, 43,
                                                  physics::Node::Head);
        QVERIFY(band);
        QCOMPARE(shop.planned().steps[0].planned, up(band->upper));
        QVERIFY(shop.planned().steps[0].planned > Minutes(40)); // one node would have said 9 min
    }

    void tooNearItsLimitHeatingIsNotPredictable() {
        SmallShop shop = pcShop();
        shop.type().chamberHeat = HeatingConstants{Seconds(1500), celsius(126), Minutes(0)}; // 1 K < 5 % of 36 K
        shop.steps({"heat heat=chamber wait"});
        QVERIFY(!shop.planned().steps[0].predictable);
        QVERIFY(shop.planned().steps[0].planned > Minutes(0)); // the rough figure
        shop.type().chamberHeat->ceiling = celsius(120);
        QVERIFY(!shop.planned().steps[0].predictable);
        QCOMPARE(shop.planned().steps[0].planned, Minutes(0));
    }

    void withoutConstantsOnlyMeasure() {
        SmallShop shop = pcShop();
        shop.steps({"h heat=chamber wait", "c cool=chamber:60 wait", "p heat=platform wait", "s cool=platform:60 wait"});
        for (const PlannedStep& p : shop.planned().steps) {
            QVERIFY(!p.predictable);
            QCOMPARE(p.planned, Minutes(0));
            QVERIFY(p.target.has_value());
        }
    }

    void purgeTakesItsVolumeOverTheFlow() {
        SmallShop shop = pcShop();
        shop.steps({"p purge=part wait effect=purge-part"});
        const PlannedStep p = shop.planned().steps[0]; // 4 cm³ at 10 mm³/s = 400 s
        QCOMPARE(p.planned, Minutes(7));
        QVERIFY(std::abs(p.purge->mm3() - 4000) <= 1);
    }

    void aCircleIsRefused() {
        SmallShop shop = pcShop();
        shop.steps({"a 1m after=b", "b 1m after=a"});
        const auto c = shop.plan();
        QVERIFY(!c && c.error().rule == QStringLiteral("procedure"));
    }
};

INTERLUDE_TEST(StepsTest)
#include "steps_test.moc"
