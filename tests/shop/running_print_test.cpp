// What happens in the middle of a print: a spool followed by another, a print that ran before the program knew of it, and
// where things go when nobody says where.

#include "tests/harness/run_tests.h"
#include "tests/shop/fixture.h"

using namespace interlude;
using namespace interlude::tests;

namespace {

/// J1 on bay-1 from minute 10 to 130: 100 cm³ ABS (1 g/cm³) from A-1 (800 g); A-2 (600 g) lies ready.
struct Printing : World {
    Printing() : World(withSecondSpool()) {
        tell(act::PrintStarted{text("bay-1"), text("J1"), text("fine"), Minutes(120)}, 10);
    }
    static std::shared_ptr<Catalogue> withSecondSpool() {
        auto c = tinyCatalogue();
        Spool second = c->openings.spools[0];
        second.id = text("A-2");
        second.left = grams(600);
        c->openings.spools.append(second);
        return c;
    }
    void takeOff(const char* spool, int minute) { tell(act::SpoolUnloaded{text(spool), text("cabinet")}, minute); }
    void putOn(const char* spool, int minute) {
        tell(act::SpoolLoaded{text(spool), text("bay-1"), Role::Part}, minute);
    }
    void end(int minute, PrintOutcome outcome = PrintOutcome::Good, std::optional<Volume> part = {}) {
        tell(act::PrintEnded{text("bay-1"), outcome, true, part, {}, {}}, minute);
    }
    qint64 leftMg(const char* id) const { return spool(id).left->milligrams(); }
};

act::PrintOpening opened(int started = -30) {
    return {{text("bay-1"), text("J1"), text("fine"), at(started), Minutes(120)}};
}

} // namespace

class RunningPrintTest : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void theUseIsSplitByTimeWhereNothingElseIsKnown() {
        Printing w;
        w.takeOff("A-1", 40); // 30 of 120 min
        QCOMPARE(w.leftMg("A-1"), 775'000);
        QVERIFY(w.spool("A-1").entries.last().why.contains(text("estimated")));
        QVERIFY(w.printer("bay-1").activity == Activity::Printing);
        w.putOn("A-2", 42);
        w.end(130);
        QCOMPARE(w.leftMg("A-1"), 775'000);
        QCOMPARE(w.leftMg("A-2"), 525'000);                 // the other 75 of the 100 cm³
        QCOMPARE(w.nozzle("N-1").run.plain.mm3(), 200'000); // the nozzle ran all of it: 100 + 100
        QCOMPARE(World::digestOf(w.replayed()), w.digest());
    }

    void aWeighingInBetweenSaysItExactly() {
        Printing w;
        w.takeOff("A-1", 40);
        w.putOn("A-2", 42);
        w.tell(act::SpoolWeighed{text("A-1"), grams(960), {}, grams(1)}, 60); // tare 200: 760 left, 40 g were used
        w.end(130);
        QCOMPARE(w.leftMg("A-1"), 760'000);
        QCOMPARE(w.leftMg("A-2"), 540'000);
    }

    void anEmptySpoolGaveNoMoreThanItHeld() {
        auto lean = Printing::withSecondSpool();
        lean->openings.spools[0].left = grams(10);
        World w(lean);
        w.tell(act::PrintStarted{text("bay-1"), text("J1"), text("fine"), Minutes(120)}, 10);
        w.tell(act::SpoolUnloaded{text("A-1"), text("rack")}, 40);
        QCOMPARE(w.spool("A-1").left->milligrams(), 0);
        w.tell(act::SpoolLoaded{text("A-2"), text("bay-1"), Role::Part}, 41);
        w.tell(act::PrintEnded{text("bay-1"), PrintOutcome::Good, true, {}, {}, {}}, 130);
        QCOMPARE(w.spool("A-2").left->milligrams(), 510'000); // 90 of the 100 cm³
    }

    void statedVolumesAreOfTheWholePrint() {
        Printing w;
        w.takeOff("A-1", 40);
        w.putOn("A-2", 42);
        w.end(100, PrintOutcome::Failed, cm3(60));
        QCOMPARE(w.leftMg("A-2"), 565'000); // 60 less the 25 from A-1
        QCOMPARE(w.nozzle("N-1").run.plain.mm3(), 160'000);
    }

    void theSameSpoolMayComeBack() {
        Printing w;
        w.takeOff("A-1", 40);
        w.putOn("A-2", 40);
        w.takeOff("A-2", 70); // 30 min more: 25 cm³
        QCOMPARE(w.leftMg("A-2"), 575'000);
        w.putOn("A-1", 70);
        w.end(130);
        QCOMPARE(w.leftMg("A-1"), 725'000); // 25 and the last 50
        QCOMPARE(w.leftMg("A-2"), 575'000);
    }

    void aPrintThatRanOutUsedWhatWasTakenOff() {
        Printing w;
        w.takeOff("A-1", 40);
        w.end(100, PrintOutcome::Failed); // it stood without feedstock for an hour
        QCOMPARE(w.leftMg("A-1"), 775'000);
        QCOMPARE(w.nozzle("N-1").run.plain.mm3(), 125'000);
    }

    void onlyTheSameMaterialMayFollow() {
        Printing w;
        QCOMPARE(w.refusedBy(act::SpoolLoaded{text("A-2"), text("bay-1"), Role::Part}, 20), text("occupied"));
        w.takeOff("A-1", 40);
        const Findings other = refusalsIn(w.against(act::SpoolLoaded{text("P-1"), text("bay-1"), Role::Part}, 41));
        QVERIFY(!other.isEmpty());
        QVERIFY(std::any_of(other.begin(), other.end(), [](const Finding& f) {
            return f.rule == text("printing") && f.remedy.contains(text("same material"));
        }));
    }

    void aPositionThatThePrintDoesNotUseIsLeftAlone() {
        auto c = tinyCatalogue();
        c->openings.jobs[0].variants[0].setup.support.clear();
        World w(c);
        w.tell(act::PrintStarted{text("bay-1"), text("J1"), text("fine"), Minutes(120)}, 10);
        QCOMPARE(w.refusedBy(act::SpoolUnloaded{text("C-1"), {}}, 20), text("printing"));
    }

    void oneLotIsAskedFor() {
        auto c = Printing::withSecondSpool();
        c->openings.jobs[0].sameLot = true;
        c->openings.spools.last().lot = text("another");
        World w(c);
        w.tell(act::PrintStarted{text("bay-1"), text("J1"), text("fine"), Minutes(120)}, 10);
        w.tell(act::SpoolUnloaded{text("A-1"), text("rack")}, 40);
        const Findings all = w.against(act::SpoolLoaded{text("A-2"), text("bay-1"), Role::Part}, 41);
        QVERIFY(refusalsIn(all).isEmpty());
        QVERIFY(std::any_of(all.begin(), all.end(), [](const Finding& f) { return f.rule == text("spool-lot"); }));
    }

    void besideAPreparationTheScanFollows() {
        Printing w;
        w.tell(w.startJ2(20), 20); // external steps go on beside the print
        w.takeOff("A-1", 40);
        w.putOn("A-2", 42);
        PlannedStep out;
        out.step.id = text("unload");
        out.step.confirm.scans = {{ScanTarget::SpoolOutPart}};
        out.expectedScans = {text("A-1")};
        QVERIFY(acceptScan(w.shop(), w.session(), out, 0, text("A-2")).has_value());
        QVERIFY(!acceptScan(w.shop(), w.session(), out, 0, text("A-1")).has_value()); // it is not on the printer any more
    }

    // -- where things go when nobody says where

    void aSpoolGoesBackWhereItCameFrom() {
        World w;
        w.tell(act::SpoolUnloaded{text("A-1"), {}}, 5);
        QCOMPARE(w.spool("A-1").place, text("cabinet"));
        QVERIFY(w.spool("A-1").exposedFrom.has_value()); // that it lies dry there, somebody has to say
        w.tell(act::SpoolLoaded{text("A-1"), text("bay-1"), Role::Part}, 6);
        w.tell(act::SpoolUnloaded{text("A-1"), text("rack")}, 7);
        QCOMPARE(w.spool("A-1").place, text("rack")); // a scanned place counts
    }
    void aNozzleGoesBackWhereItCameFrom() {
        World w;
        w.tell(act::PrinterDeclared{text("bay-1"), OpeningSetup{text("bay-1"), {}, {}, {}, {}, {}, {}, {}, {}, {}, {}},
                                    text("stripped")},
               5);
        QVERIFY(w.nozzle("N-1").where == NozzleWhere::Shelf);
        QCOMPARE(w.nozzle("N-1").place, text("rack"));
        QCOMPARE(w.spool("A-1").place, text("cabinet"));
    }

    // -- a print that ran when the folder was first opened

    void anOpeningPrintRuns() {
        World w;
        w.tell(opened(), 0, {});
        const PrinterNow& p = w.printer("bay-1");
        QVERIFY(p.activity == Activity::Printing);
        QCOMPARE(toMs(*p.printStarted), toMs(interlude::tests::at(-30)));
        QCOMPARE(toMs(*p.printExpectedEnd), toMs(interlude::tests::at(90)));
        QVERIFY(w.job("J1").state == JobState::Printing);
        QCOMPARE(p.residue.size(), 2); // abs from before, acr of this print
        w.tell(act::PrintEnded{text("bay-1"), PrintOutcome::Good, true, {}, {}, {}}, 90);
        QCOMPARE(w.spool("A-1").left->milligrams(), 700'000);
        QVERIFY(w.job("J1").state == JobState::PartLying);
        QCOMPARE(World::digestOf(w.replayed()), w.digest());
    }
    void whatStandsAgainstAnOpeningPrint() {
        const World w;
        const auto refused = [&](act::PrintOpening x) { return w.refusedBy(x, 0, {}); };
        QCOMPARE(refused(opened()), QString());
        QCOMPARE(refused(opened(-90)), text("opening")); // the last print ended an hour ago
        auto x = opened();
        x.print.job = text("J7");
        QCOMPARE(refused(x), text("unknown-id"));
        x = opened();
        x.print.variant = text("coarse");
        QCOMPARE(refused(x), text("unknown-id"));
        x = opened();
        x.print.job = text("J2"); // wants PC
        QCOMPARE(refused(x), text("changeover"));
        x = opened();
        x.print.expected = Minutes(0);
        QCOMPARE(refused(x), text("negative"));
        QVERIFY(!refused(opened(30)).isEmpty()); // it has not begun yet
        World later;
        later.tell(opened(), 0, {});
        QCOMPARE(later.refusedBy(opened(), 1, {}), text("printing"));
    }
    void itIsImportedOnce() {
        auto c = tinyCatalogue();
        c->openings.prints = {opened().print};
        const ManualClock clock(at(0));
        auto bench = Workbench::open(c, makeMemoryStore(c->fleet.id), clock, text("bench"));
        QVERIFY(bench.has_value());
        QVERIFY((*bench)->shop().printer(text("bay-1"))->activity == Activity::Printing);
        QVERIFY((*bench)->openingDifferences().isEmpty());
        auto other = std::make_shared<Catalogue>(*c);
        other->hash = text("tiny-2");
        other->openings.prints[0].expected = Minutes(150);
        QVERIFY((*bench)->reload(other).has_value());
        QCOMPARE((*bench)->openingDifferences().size(), 1);
        QVERIFY((*bench)->openingDifferences().first().what.startsWith(text("The print on bay-1 differs")));
    }
};

INTERLUDE_TEST(RunningPrintTest)
#include "running_print_test.moc"
