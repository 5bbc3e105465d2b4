// Facts and the verdicts about limits, residue and state.
#include "tests/changeover/small_shop.h"
#include "tests/harness/run_tests.h"

#include <QTest>

using namespace interlude;
using namespace interlude::tests;

class TransitionTest : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void nothingChanges() {
        SmallShop shop;
        shop.want("abs", "p04", "acr", "s04");
        shop.residue("abs", 90, 265);
        shop.residue("acr", 90, 265);
        const Transition t = shop.judge();
        QCOMPARE(t.facts, QStringList());
        QVERIFY(t.possible());
        QCOMPARE(t.chamber.level, CleanOut::None);
        QVERIFY(!t.cleanOut);
        for (const NozzleChange& c : t.nozzles) QVERIFY(!c.exchange && c.in == c.out && !c.in.isEmpty());
        for (const SpoolChange& c : t.spools) QVERIFY(!c.load && !c.unload);
        for (const PurgePlan& p : t.purges) QVERIFY(!p.needed);
    }

    void everyFactHasItsCause() {
        SmallShop shop;
        shop.nozzle("P2", "p04");
        shop.nozzle("S2", "s04", 5, "styrenics");
        shop.spool("PC1", "pc", 500);
        shop.spool("PSB1", "psb", 500);
        shop.type().platformCover = QStringLiteral("sheet");
        shop.bay().lastPrintEnd = shop.now - std::chrono::days(14);
        shop.want("pc", "p04", "psb", "s04");
        QCOMPARE(shop.judge().facts, QStringList({"part-material", "support-material", "part-nozzle", "support-nozzle",
                                                  "platform-cover", "chamber-family", "hotter", "nozzle-first-use",
                                                  "long-idle"}));
        // P2 was never used here; with a history in polycarbonates it was
        shop.stock.nozzles["P2"].meltFamily = QStringLiteral("polycarbonates");
        shop.bay().platformCover = QStringLiteral("fresh");
        shop.bay().lastPrintEnd = shop.now - std::chrono::days(14) + std::chrono::minutes(1);
        shop.bay().chamberSet = celsius(126);
        QCOMPARE(shop.judge().facts, QStringList({"part-material", "support-material", "part-nozzle", "support-nozzle",
                                                  "chamber-family", "cooler"}));
    }

    void aRunningPrintIsSeenAsItWillEnd() {
        SmallShop shop;
        shop.type().platformCover = QStringLiteral("sheet");
        shop.bay().platformCover = QStringLiteral("fresh");
        shop.bay().activity = Activity::Printing;
        shop.bay().lastPrintEnd = shop.now - std::chrono::days(30);
        shop.bay().residue = {{"psb", celsius(60), celsius(200)}};
        shop.bay().chamberSet = celsius(90);
        shop.want("asa", "p04");
        shop.spool("ASA1", "asa", 500);
        const Transition t = shop.judge();
        QVERIFY(t.has(fact::platformCover)); // it will be used then
        QVERIFY(!t.has(fact::longIdle));
        // psb: 90 >= 100 − 10, but the running print takes it to 90 before the next one does
        QCOMPARE(t.chamber.level, CleanOut::Advised);
    }

    void chamberSetPointOfTheJobComesFirst() {
        SmallShop shop;
        shop.want("abs", "p04");
        QCOMPARE(shop.judge().chamberAfter, celsius(90));
        shop.request.wanted.chamber = celsius(95);
        QCOMPARE(shop.judge().chamberAfter, celsius(95));
        QVERIFY(shop.judge().has(fact::hotter));
        shop.request.wanted.chamber.reset();
        shop.material("abs").chamber.reset();
        QCOMPARE(refused(shop.judge()), QStringList({"chamber-set-point"}));
    }

    void limitsOfThePrinter_data() {
        QTest::addColumn<QString>("what");
        QTest::addColumn<QStringList>("expected");
        QTest::newRow("chamber") << "chamber" << QStringList({"printer-chamber"});
        QTest::newRow("nozzle") << "nozzle" << QStringList({"printer-nozzle-temperature"});
        QTest::newRow("materials") << "materials" << QStringList({"printer-materials"});
        QTest::newRow("envelope") << "envelope" << QStringList({"printer-envelope"});
        QTest::newRow("support") << "support" << QStringList({"printer-support"});
        QTest::newRow("part as support") << "part as support" << QStringList({"printer-support"});
        QTest::newRow("job") << "job" << QStringList({"job-printers"});
        QTest::newRow("nothing") << "nothing" << QStringList();
    }

    void limitsOfThePrinter() {
        QFETCH(QString, what);
        QFETCH(QStringList, expected);
        SmallShop shop;
        shop.want("abs", "p04", "acr", "s04");
        shop.request.envelope = Envelope{Length::fromMm(400), Length::fromMm(350), Length::fromMm(300)}; // just fits
        shop.request.allowedPrinters = {"bay", "other"};
        if (what == "chamber") shop.type().chamberMax = celsius(89.9);
        if (what == "nozzle") shop.type().nozzleMax = celsius(264.9);
        if (what == "materials") shop.type().materials = {"abs", "pc"};
        if (what == "envelope") shop.request.envelope->z = Length::fromMm(300.1);
        if (what == "support") shop.type().supportPosition = false;
        if (what == "part as support") shop.material("acr").role = Role::Part;
        if (what == "job") shop.request.allowedPrinters = {"other"};
        const Transition t = shop.judge();
        QCOMPARE(refused(t), expected);
        for (const Finding& f : refusalsIn(t.verdicts)) {
            QVERIFY(!f.reason.isEmpty() && !f.remedy.isEmpty());
            QVERIFY(!f.overridable);
        }
    }

    void whatIsNotThereIsSaid() {
        SmallShop shop;
        shop.request.now.id = QStringLiteral("bay-9");
        QCOMPARE(refused(shop.judge()), QStringList({"printer"}));
        QVERIFY(!shop.plan());
        shop.request.now.id = QStringLiteral("bay");
        shop.want("pvb", "p04");
        QCOMPARE(refused(shop.judge()), QStringList({"material"}));
        shop.want({}, "p04");
        QCOMPARE(refused(shop.judge()), QStringList({"setup"}));
        shop.want("abs", "q04");
        QCOMPARE(refused(shop.judge()), QStringList({"nozzle-type"}));
    }

    void aLabelIsPlannedNotGuided() {
        SmallShop shop;
        shop.request.wanted = Setup{};
        shop.request.wanted.label = QStringLiteral("B");
        QCOMPARE(refused(shop.judge()), QStringList({"setup-label"}));
        QCOMPARE(shop.plan().error().rule, QStringLiteral("setup-label"));
    }

    void cleanOutIsTakenWhenMandatoryOrWhenAdvisedAndWanted() {
        SmallShop shop;
        shop.residue("abs", 90, 265);
        shop.residue("acr", 90, 265);
        shop.nozzle("P2", "p04");
        shop.spool("PC1", "pc", 500);
        Transition t = shop.judge(); // 125 >= 105 − 10 and > 90
        QCOMPARE(t.chamber.level, CleanOut::Mandatory);
        QVERIFY(t.cleanOut);
        QCOMPARE(verdict(t, "clean-out")->severity, Severity::Mandatory);
        QVERIFY(t.clearWiper); // 310 >= 280 − 10 and > 265
    }

    void worstVerdictsComeFirst() {
        SmallShop shop;
        shop.residue("abs", 90, 265);
        const Transition t = shop.judge(); // no nozzle, no spool of pc: refusals before the clean-out
        for (int i = 1; i < t.verdicts.size(); ++i) QVERIFY(t.verdicts[i - 1].severity >= t.verdicts[i].severity);
        QVERIFY(t.verdicts.first().severity == Severity::Refusal);
    }

    void anAdvisedCleanOutMayBeLeftOut() {
        SmallShop shop;
        shop.residue("abs", 90, 265);
        shop.spool("ASA1", "asa", 500);
        shop.want("asa", "p04");
        Transition t = shop.judge();
        QCOMPARE(t.chamber.level, CleanOut::Advised);
        QCOMPARE(verdict(t, "clean-out")->severity, Severity::Advice);
        QVERIFY(t.cleanOut);
        shop.request.takeAdvisedCleanOut = false;
        t = shop.judge();
        QVERIFY(!t.cleanOut);
        QCOMPARE(verdict(t, "clean-out")->severity, Severity::Advice);
    }

    void wiperAndBinByNozzleTemperature() {
        SmallShop shop;
        shop.want("abs", "p04", "acr", "s04");
        shop.residue("psb", 90, 250);
        shop.request.takeAdvisedCleanOut = false;
        Transition t = shop.judge(); // 265 < 280 − 10
        QCOMPARE(t.wiper.level, CleanOut::Advised);
        QVERIFY(!t.clearWiper);
        shop.material("psb").meltMax = celsius(275); // 265 >= 275 − 10, and above 250
        t = shop.judge();
        QCOMPARE(t.wiper.level, CleanOut::Mandatory);
        QVERIFY(t.clearWiper && !t.cleanOut);
        QCOMPARE(verdict(t, "wiper-and-bin")->severity, Severity::Mandatory);
        // the hotter of the two heads decides: the support at 270 against a residue that has seen 265
        shop.bay().wiper[0].nozzleSeen = celsius(265);
        QVERIFY(!shop.judge().clearWiper);
        shop.material("acr").nozzle = celsius(270);
        QVERIFY(shop.judge().clearWiper);
    }

    void residueOfAGradeThatIsNoLongerKnownIsUnknown() {
        SmallShop shop;
        shop.want("abs", "p04", "acr", "s04");
        shop.residue("gone", 90, 265);
        const Transition t = shop.judge();
        QCOMPARE(t.chamber.level, CleanOut::Mandatory);
        QCOMPARE(t.chamber.because, QStringList({"unknown"}));
    }

    void softInItsOwnChamberIsNoticed() {
        SmallShop shop;
        shop.want("asa", "p04"); // 90 >= 100 − 10
        const Transition t = shop.judge();
        QVERIFY(verdict(t, "own-chamber"));
        shop.want("abs", "p04"); // 90 < 105 − 10
        const Transition u = shop.judge();
        QVERIFY(!verdict(u, "own-chamber"));
    }

    void theStrictRuleIsTheFleets() {
        SmallShop shop;
        shop.catalogue.fleet.cleanOutRule = CleanOutRule::Strict;
        shop.residue("asa", 90, 260);
        shop.want("abs", "p04"); // 90 >= 100 − 10: strict says so though the asa has seen 90
        Transition t = shop.judge();
        QCOMPARE(t.chamber.level, CleanOut::Mandatory);
        QVERIFY(verdict(t, "clean-out")->reason.contains(QStringLiteral("strict")));
        shop.catalogue.fleet.cleanOutMarginK = 9;
        t = shop.judge();
        QCOMPARE(t.chamber.level, CleanOut::Advised);
    }

    void requestOfAJob() {
        Job job;
        job.id = QStringLiteral("7412");
        job.sameLot = true;
        job.printers = QStringList({"bay"});
        job.envelope = Envelope{Length::fromMm(1), Length::fromMm(2), Length::fromMm(3)};
        Variant v;
        v.name = QStringLiteral("fine");
        v.setup.part = QStringLiteral("abs");
        v.print = Minutes(60);
        v.printOn[QStringLiteral("bay")] = Minutes(50);
        v.partVolume = cm3(10);
        v.supportVolume = cm3(2);
        PrinterNow printer;
        printer.id = QStringLiteral("bay");
        const TransitionRequest r = requestFor(printer, job, v);
        QCOMPARE(r.job, job.id);
        QCOMPARE(r.variant, v.name);
        QCOMPARE(r.print, Minutes(50));
        QVERIFY(r.sameLot && r.allowedPrinters == job.printers && r.envelope == job.envelope);
        QVERIFY(r.partVolume == cm3(10) && r.supportVolume == cm3(2) && r.wanted == v.setup);
    }
};

INTERLUDE_TEST(TransitionTest)
#include "transition_test.moc"
