// What prints leave behind: stock, run volumes, residue, state of printer and job.

#include "model/shop/fold/residue.h"
#include "tests/harness/run_tests.h"
#include "tests/shop/fixture.h"

using namespace interlude;
using namespace interlude::tests;

namespace {
const ResidueItem* item(const QList<ResidueItem>& all, const char* material) {
    for (const ResidueItem& r : all)
        if (r.material == QLatin1String(material))
            return &r;
    return nullptr;
}
act::PrintStarted startJ1() {
    return {text("bay-1"), text("J1"), text("fine"), Minutes(120)};
}
act::PrintEnded ended(PrintOutcome o, bool part = true) {
    return {text("bay-1"), o, part, {}, {}, {}};
}
} // namespace

class PrintFoldTest : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void theOpeningDressesThePrinter() {
        const World w;
        const PrinterNow& p = w.printer("bay-1");
        QCOMPARE(p.part.nozzle, text("N-1"));
        QCOMPARE(p.part.inMelt, text("abs"));
        QCOMPARE(p.support.loaded, text("acr"));
        QCOMPARE(p.lastPart, text("abs"));
        QCOMPARE(p.platformCover, text("used"));
        QCOMPARE(p.residue.size(), 1);
        QCOMPARE(p.wiper, p.residue);
        QVERIFY(w.nozzle("N-1").where == NozzleWhere::Mounted);
        QCOMPARE(w.nozzle("N-1").place, text("bay-1"));
        QVERIFY(w.spool("A-1").where == SpoolWhere::Loaded);
        QVERIFY(w.printer("bay-2").part == PositionNow());
    }

    void aPrintStarts() {
        World w;
        w.tell(startJ1(), 10);
        const PrinterNow& p = w.printer("bay-1");
        QVERIFY(p.activity == Activity::Printing);
        QCOMPARE(p.job, text("J1"));
        QCOMPARE(toMs(*p.printExpectedEnd), toMs(interlude::tests::at(130)));
        QCOMPARE(p.chamberSet->milliCelsius(), 90'000);
        QCOMPARE(p.nozzleSet->milliCelsius(), 265'000); // the higher of 265 and 250
        QCOMPARE(p.platformCover, text("used"));
        QCOMPARE(p.residue.size(), 2); // abs merged, acr new
        QCOMPARE(item(p.residue, "acr")->chamberSeen->milliCelsius(), 90'000);
        QCOMPARE(item(p.wiper, "acr")->nozzleSeen->milliCelsius(), 265'000); // it saw the part nozzle's heat too
        QVERIFY(w.job("J1").state == JobState::Printing);
    }

    void aGoodPrintUsesWhatTheVariantSays() {
        World w;
        w.tell(startJ1(), 10);
        w.tell(ended(PrintOutcome::Good), 125);
        QCOMPARE(w.spool("A-1").left->milligrams(), 700'000); // 800 g − 100 cm³ × 1.0 g/cm³
        QCOMPARE(w.spool("C-1").left->milligrams(), 478'000); // 500 g − 20 cm³ × 1.1
        QCOMPARE(w.spool("A-1").entries.last().reference, text("J1"));
        QCOMPARE(w.nozzle("N-1").run.plain.mm3(), 200'000); // 100 + 100
        QCOMPARE(w.nozzle("S-1").run.plain.mm3(), 70'000);  // 50 + 20
        QVERIFY(w.printer("bay-1").activity == Activity::PartLying);
        QVERIFY(w.job("J1").state == JobState::PartLying);
        w.tell(act::PartRemoved{text("bay-1")}, 130);
        QVERIFY(w.printer("bay-1").activity == Activity::Idle);
        QVERIFY(w.printer("bay-1").job.isEmpty());
        QVERIFY(w.job("J1").state == JobState::Done);
        QCOMPARE(toMs(*w.printer("bay-1").lastPrintEnd), toMs(interlude::tests::at(125)));
    }

    void statedVolumesCount() {
        World w;
        w.tell(startJ1(), 10);
        w.tell(act::PrintEnded{text("bay-1"), PrintOutcome::Failed, false, cm3(30), cm3(5), text("came off")}, 50);
        QCOMPARE(w.spool("A-1").left->milligrams(), 770'000);
        QCOMPARE(w.spool("C-1").left->milligrams(), 494'500); // 500 − 5.5
        QVERIFY(w.printer("bay-1").activity == Activity::Idle);
        QVERIFY(w.job("J1").state == JobState::Failed);
    }

    void aStoppedPrintWithoutFiguresIsEstimatedByItsTime() {
        World w;
        w.tell(startJ1(), 10);
        w.tell(ended(PrintOutcome::Stopped), 40); // 30 of 120 min: a quarter of 100 and of 20 cm³
        QCOMPARE(w.spool("A-1").left->milligrams(), 775'000);
        QCOMPARE(w.spool("C-1").left->milligrams(), 494'500);
        QVERIFY(w.spool("A-1").entries.last().why.contains(text("estimated")));
        QVERIFY(w.job("J1").state == JobState::Open); // to be printed again
        QVERIFY(w.printer("bay-1").activity == Activity::PartLying);
        w.tell(act::PartRemoved{text("bay-1")}, 45);
        QVERIFY(w.job("J1").state == JobState::Open);
    }

    void abrasiveRunsOnItsOwnAccountAndNoHistoryStays() {
        auto c = tinyCatalogue();
        c->openings.spools[2].material = text("pc-cf");
        c->openings.jobs[1].variants[0].setup.part = text("pc-cf");
        c->openings.setups[0].part = text("pc-cf");
        c->openings.setups[0].partSpool = text("P-1");
        c->openings.setups[0].partNozzle = text("N-2");
        c->openings.setups[0].residue.clear();
        World w(c);
        QVERIFY(w.printer("bay-1").part.inMelt.isEmpty()); // a new nozzle: nothing has flowed
        w.force(act::PrintStarted{text("bay-1"), text("J2"), text("fine"), Minutes(300)}, 10);
        QCOMPARE(w.nozzle("N-2").meltFamily, text("polycarbonates")); // at first use
        QCOMPARE(w.printer("bay-1").part.inMelt, text("pc-cf"));
        w.tell(ended(PrintOutcome::Good), 310);
        QCOMPARE(w.nozzle("N-2").run.abrasive.mm3(), 200'000);
        QCOMPARE(w.nozzle("N-2").run.plain.mm3(), 0);
        QCOMPARE(w.spool("P-1").left->milligrams(), 650'000); // 900 − 200 × 1.25

        auto d = tinyCatalogue();
        d->openings.nozzles[0].run.known = false;
        World v(d);
        v.tell(startJ1(), 10);
        v.tell(ended(PrintOutcome::Good), 130);
        QVERIFY(!v.nozzle("N-1").run.known);
        QCOMPARE(v.nozzle("N-1").run.plain, d->openings.nozzles[0].run.plain);
    }

    void residueKeepsTheLowest() {
        // Domain reference 6: ABS → PEI → ABS → PEI fails if the highest is kept.
        QList<ResidueItem> r;
        deposit(r, text("abs"), celsius(90), celsius(265));
        raiseSeen(r, celsius(190), celsius(370)); // the PEI run
        deposit(r, text("pei"), celsius(190), celsius(370));
        QCOMPARE(item(r, "abs")->chamberSeen->milliCelsius(), 190'000);
        raiseSeen(r, celsius(90), celsius(265)); // a cooler run raises nothing
        deposit(r, text("abs"), celsius(90), celsius(265));
        QCOMPARE(r.size(), 2);
        QCOMPARE(item(r, "abs")->chamberSeen->milliCelsius(), 90'000);
        QCOMPARE(item(r, "abs")->nozzleSeen->milliCelsius(), 265'000);
        QCOMPARE(item(r, "pei")->chamberSeen->milliCelsius(), 190'000);
        deposit(r, text("pei"), {}, {}); // never warm is lower than any
        QVERIFY(!item(r, "pei")->chamberSeen);
        raiseSeen(r, celsius(60), {});
        QCOMPARE(item(r, "pei")->chamberSeen->milliCelsius(), 60'000);
        deposit(r, {}, celsius(60), {});
        QCOMPARE(r.size(), 2);
    }

    void downtimeGivesBackWhatWas() {
        World w;
        w.tell(startJ1(), 10);
        w.tell(ended(PrintOutcome::Good), 130);
        w.tell(act::DowntimeBegun{text("bay-1"), text("belt"), interlude::tests::at(600)}, 140);
        QVERIFY(w.printer("bay-1").activity == Activity::Down);
        QCOMPARE(w.printer("bay-1").downWhy, text("belt"));
        w.tell(act::PartRemoved{text("bay-1")}, 150);
        QVERIFY(w.printer("bay-1").activity == Activity::Down);
        w.tell(act::DowntimeEnded{text("bay-1")}, 160);
        QVERIFY(w.printer("bay-1").activity == Activity::Idle);
        QVERIFY(!w.printer("bay-1").downSince && w.printer("bay-1").downWhy.isEmpty());
    }

    void aDeclarationReplacesTheDress() {
        World w;
        OpeningSetup s;
        s.printer = text("bay-1");
        s.part = text("pc");
        s.partNozzle = text("N-3");
        s.partSpool = text("P-1");
        s.residue = {{{}, {}, {}}};
        w.tell(act::PrinterDeclared{text("bay-1"), s, text("found so in the morning")}, 5);
        const PrinterNow& p = w.printer("bay-1");
        QCOMPARE(p.part.nozzle, text("N-3"));
        QCOMPARE(p.part.inMelt, text("pc")); // a used nozzle
        QVERIFY(p.support == PositionNow());
        QVERIFY(w.nozzle("N-1").where == NozzleWhere::Shelf);
        QVERIFY(w.spool("A-1").where == SpoolWhere::Shelf);
        QVERIFY(w.spool("P-1").where == SpoolWhere::Loaded);
        QVERIFY(p.residue.first().material.isEmpty());
    }

    void theFoldRefusesWhatItDoesNotKnowAndChangesNothing() {
        World w;
        const QByteArray before = w.digest();
        Shop shop = w.shop();
        Event e;
        e.sequence = shop.lastSequence() + 1;
        e.kind = text("spool-retired");
        e.payload = toPayload(act::SpoolRetired{text("nobody"), text("x")});
        QVERIFY(!shop.apply(e));
        e.payload = {};
        QVERIFY(!shop.apply(e));
        e.kind = text("moon-phase");
        QVERIFY(!shop.apply(e));
        e.kind = text("program-started");
        e.payload = toPayload(act::ProgramStarted{});
        e.sequence += 1; // a gap
        QCOMPARE(shop.apply(e).error().rule, text("ledger-order"));
        QCOMPARE(World::digestOf(shop), before);
    }
};

INTERLUDE_TEST(PrintFoldTest)
#include "print_fold_test.moc"
