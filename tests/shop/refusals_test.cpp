// Refusals and warnings of the rarer kind: plans, absences, downtimes, jobs of labels, retired things, dates of long ago.

#include "tests/harness/run_tests.h"
#include "tests/shop/fixture.h"

using namespace interlude;
using namespace interlude::tests;

namespace {

/// A plan that puts these jobs on bay-1 in that order.
Plan planOf(const QStringList& jobs, const char* variant = "fine") {
    Plan plan;
    PrinterOrder order;
    order.printer = text("bay-1");
    for (const QString& id : jobs) order.jobs.append({id, text(variant), false, at(5), at(30), at(150)});
    plan.printers = {order};
    return plan;
}

} // namespace

class RefusalsTest : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void plans() {
        World w;
        const auto rule = [&](const Plan& plan) { return w.refusedBy(act::PlanPublished{plan}, 1); };
        QCOMPARE(rule(planOf({text("J1"), text("J2")})), QString());
        QCOMPARE(rule(planOf({text("J1"), text("J7")})), text("unknown-id"));
        QCOMPARE(rule(planOf({text("J1"), text("J2"), text("J1")})), text("duplicate"));
        QCOMPARE(rule(planOf({text("J1")}, "coarse")), text("variant"));
        Plan twice = planOf({text("J1")});
        twice.printers.append({text("bay-1"), {}});
        QCOMPARE(rule(twice), text("duplicate"));
        Plan stranger = planOf({});
        stranger.printers[0].printer = text("bay-9");
        QCOMPARE(rule(stranger), text("unknown-id"));
        Plan reserved = planOf({text("J1")});
        reserved.reserved = {{text("J1"), text("abs"), grams(-1)}};
        QCOMPARE(rule(reserved), text("negative"));
        w.tell(act::JobWithdrawn{text("J2"), text("cancelled")}, 2);
        QCOMPARE(rule(planOf({text("J2")})), text("job-closed"));
        Job elsewhere = w.job("J1");
        elsewhere.printers = {text("bay-2")};
        w.tell(act::JobChanged{elsewhere}, 3);
        const Findings f = w.against(act::PlanPublished{planOf({text("J1")})}, 4);
        QCOMPARE(refusalsIn(f).first().rule, text("job-printers"));
        QVERIFY(refusalsIn(f).first().remedy.contains(text("bay-2")));
    }

    void absencesAndDowntimes() {
        World w;
        const auto absence = [](const char* id, int from, int to, int people = 1) {
            return act::AbsenceEntered{{text(id), people, interlude::tests::at(from), interlude::tests::at(to), text("course")}};
        };
        const auto downtime = [](const char* id, int from, int to, const char* why = "belt", const char* printer = "bay-2") {
            return act::DowntimePlanned{{text(id), text(printer), interlude::tests::at(from), interlude::tests::at(to), text(why)}};
        };
        QCOMPARE(w.refusedBy(absence("A1", 60, 120), 1), QString());
        QCOMPARE(w.refusedBy(absence("", 60, 120), 1), text("blank"));
        QCOMPARE(w.refusedBy(absence("A1", 60, 60), 1), text("when"));
        QCOMPARE(w.refusedBy(absence("A1", -60, 1), 1), text("when")); // over already
        QCOMPARE(w.refusedBy(absence("A1", -60, 2), 1), QString());    // a minute of it is left
        QCOMPARE(w.refusedBy(absence("A1", 60, 120, 0), 1), text("negative"));
        QCOMPARE(w.refusedBy(act::AbsenceWithdrawn{text("A1")}, 1), text("unknown-id"));
        w.tell(absence("A1", 60, 120), 1);
        QCOMPARE(w.refusedBy(absence("A1", 200, 300), 2), text("duplicate"));
        w.tell(act::AbsenceWithdrawn{text("A1")}, 2);
        QCOMPARE(w.refusedBy(absence("A1", 200, 300), 3), QString());

        QCOMPARE(w.refusedBy(downtime("D1", 60, 120), 1), QString());
        QCOMPARE(w.refusedBy(downtime("D1", 60, 120, "belt", "bay-9"), 1), text("unknown-id"));
        QCOMPARE(w.refusedBy(downtime("D1", 60, 120, ""), 1), text("blank"));
        QCOMPARE(w.refusedBy(downtime("D1", 120, 60), 1), text("when"));
        QCOMPARE(w.refusedBy(act::DowntimeWithdrawn{text("D1")}, 1), text("unknown-id"));
        w.tell(downtime("D1", 60, 120), 3);
        QCOMPARE(w.refusedBy(downtime("D1", 200, 300), 4), text("duplicate"));
        QCOMPARE(w.refusedBy(act::DowntimeWithdrawn{text("D1")}, 4), QString());
        w.tell(act::DowntimeWithdrawn{text("D1")}, 4);
        QVERIFY(w.shop().downtimes().isEmpty());
    }

    void aDowntimeCannotEndBeforeItBegan() {
        World w;
        w.tell(act::DowntimeBegun{text("bay-2"), text("belt"), {}}, 10);
        QCOMPARE(w.refusedBy(act::DowntimeEnded{text("bay-2")}, 20, text("ML"), 9), text("when"));
        QCOMPARE(w.refusedBy(act::DowntimeEnded{text("bay-2")}, 20), QString());
    }

    void jobs() {
        World w;
        Job j = w.job("J1");
        j.id = text("J3");
        const auto rule = [&](const std::function<void(Job&)>& damage) {
            Job x = j;
            damage(x);
            return w.refusedBy(act::JobAdded{x}, 1);
        };
        QCOMPARE(rule([](Job& x) { x.variants[0].setup.part.clear(); }), text("variant"));
        QCOMPARE(rule([](Job& x) {
                     x.variants[0].setup = {};
                     x.variants[0].setup.label = text("A");
                 }),
                 QString()); // a job known by its setup's label
        QCOMPARE(rule([](Job& x) { x.variants[0].printOn = {{text("bay-9"), Minutes(10)}}; }), text("unknown-id"));
        QCOMPARE(rule([](Job& x) { x.variants[0].printOn = {{text("bay-2"), Minutes(-1)}}; }), text("negative"));
        QCOMPARE(rule([](Job& x) {
                     x.variants[0].print = Minutes(0);
                     x.variants[0].printOn = {{text("bay-2"), Minutes(90)}};
                 }),
                 QString()); // timed on one printer is timed
        QCOMPARE(rule([](Job& x) { x.variants[0].setup.support = text("abs"); }), text("role"));
        QCOMPARE(rule([](Job& x) { x.holdingCostPerHour = Money::fromCents(-1); }), text("negative"));
        const auto dates = [&](int release, int due) {
            Job x = j;
            x.release = interlude::tests::at(release);
            x.due = interlude::tests::at(due);
            return warnings(w.against(act::JobAdded{x}, 1));
        };
        QCOMPARE(dates(100, 99), QStringList{text("when")});
        QCOMPARE(dates(100, 100), QStringList());
    }

    void aPrintOnAPrinterThatTheJobMayNotUse() {
        World w;
        Job j = w.job("J1");
        j.printers = {text("bay-2")};
        w.tell(act::JobChanged{j}, 1);
        const Findings f = refusalsIn(w.against(act::PrintStarted{text("bay-1"), text("J1"), text("fine"), Minutes(120)}, 2));
        QCOMPARE(f.first().rule, text("job-printers"));
        QVERIFY(f.first().remedy.contains(text("bay-2")));
    }

    void aPrintByLabelNeedsThatSetup() {
        auto c = tinyCatalogue();
        c->openings.setups[0].label = text("start");
        World w(c);
        Job j = w.job("J1");
        j.id = text("L1");
        j.variants[0].setup = {};
        j.variants[0].setup.label = text("A");
        w.tell(act::JobAdded{j}, 1);
        const act::PrintStarted print{text("bay-1"), text("L1"), text("fine"), Minutes(10)};
        QCOMPARE(w.refusedBy(print, 2), text("changeover"));
        OpeningSetup setup = c->openings.setups[0];
        setup.label = text("A");
        w.tell(act::PrinterDeclared{text("bay-1"), setup, text("changed over by hand")}, 3);
        QCOMPARE(w.refusedBy(print, 4), QString());
    }

    void aPrintCannotBeginBeforeTheLastOneEnded() {
        World w;
        const act::PrintStarted print{text("bay-1"), text("J1"), text("fine"), Minutes(120)};
        // The last print of bay-1 ended at -60.
        QCOMPARE(w.refusedBy(print, 1, text("ML"), -61), text("when"));
        QCOMPARE(w.refusedBy(print, 1, text("ML"), -60), QString());
    }

    void whatAPrinterIsDeclaredToWear() {
        World w;
        OpeningSetup s;
        s.printer = text("bay-2");
        const auto rule = [&](const std::function<void(OpeningSetup&)>& change, const char* printer = "bay-2") {
            OpeningSetup x = s;
            change(x);
            return w.refusedBy(act::PrinterDeclared{text(printer), x, text("found so")}, 9);
        };
        QCOMPARE(rule([](OpeningSetup&) {}), QString()); // undressed
        QCOMPARE(rule([](OpeningSetup&) {}, "bay-1"), text("printer"));
        QCOMPARE(rule([](OpeningSetup& x) { x.part = text("wood"); }), text("unknown-id"));
        QCOMPARE(rule([](OpeningSetup& x) { x.partNozzle = x.supportNozzle = text("N-2"); }), text("duplicate"));
        QCOMPARE(rule([](OpeningSetup& x) { x.partSpool = x.supportSpool = text("P-1"); }), text("duplicate"));
        QCOMPARE(rule([](OpeningSetup& x) { x.lastPrint = interlude::tests::at(60 * 24); }), text("when"));
        QCOMPARE(rule([](OpeningSetup& x) { x.lastPrint = interlude::tests::at(-60 * 24 * 366 * 21); }), text("when"));
        w.tell(act::NozzleRetired{text("N-3"), text("worn")}, 2);
        QCOMPARE(rule([](OpeningSetup& x) { x.partNozzle = text("N-3"); }), text("retired"));
        w.tell(act::SpoolRetired{text("P-2"), text("fused")}, 3);
        QCOMPARE(rule([](OpeningSetup& x) { x.partSpool = text("P-2"); }), text("retired"));
    }

    void aNozzleForOnePositionOnly() {
        auto c = tinyCatalogue();
        c->nozzleTypes[1].roles = {Role::Support}; // u04, of which N-9 is one
        World w(c);
        OpeningSetup s;
        s.printer = text("bay-2");
        s.partNozzle = text("N-9");
        QCOMPARE(w.refusedBy(act::PrinterDeclared{text("bay-2"), s, text("found so")}, 1), text("role"));
        std::swap(s.partNozzle, s.supportNozzle);
        QCOMPARE(w.refusedBy(act::PrinterDeclared{text("bay-2"), s, text("found so")}, 1), QString());
    }

    void aNozzleIsReceivedOnTheShelf() {
        World w;
        Nozzle n;
        n.serial = text("N-50");
        n.type = text("h04");
        n.where = NozzleWhere::Mounted;
        QCOMPARE(w.refusedBy(act::NozzleReceived{n}, 1), text("where"));
    }

    void spools() {
        auto c = tinyCatalogue();
        c->fleet.printerTypes[0].materials = {text("abs"), text("acr")};
        World w(c);
        QCOMPARE(w.refusedBy(act::SpoolLoaded{text("P-1"), text("bay-2"), Role::Part}, 1), text("printer-materials"));
        Spool s;
        s.id = text("S-5");
        s.material = text("abs");
        s.expires = interlude::tests::at(0);
        QCOMPARE(warnings(w.against(act::SpoolReceived{s}, 1)), QStringList{text("expired")});
        w.tell(act::SpoolReceived{s}, 1);
        QVERIFY(warnings(w.against(act::SpoolLoaded{text("S-5"), text("bay-2"), Role::Part}, 2)).contains(text("expired")));
        s.id = text("S-6");
        s.expires = interlude::tests::at(2);
        QCOMPARE(warnings(w.against(act::SpoolReceived{s}, 1)), QStringList());
        s.opened = interlude::tests::at(-60 * 24 * 366 * 21);
        QCOMPARE(w.refusedBy(act::SpoolReceived{s}, 1), text("when"));
    }

    void anImportOfTheSameTwice() {
        World w;
        Spool s;
        s.id = text("S-5");
        s.material = text("abs");
        QCOMPARE(w.refusedBy(act::Imported{text("a.csv"), {s}, {}, {}}, 1), QString());
        QCOMPARE(w.refusedBy(act::Imported{text("a.csv"), {s, s}, {}, {}}, 1), text("duplicate"));
        QCOMPARE(w.refusedBy(act::Imported{text("a.csv"), {}, {}, {}}, 1), text("import-empty"));
    }

    void whatTheProgramItselfTells() {
        World w;
        QCOMPARE(w.refusedBy(act::CatalogueRead{{}, {}}, 1, {}), text("blank"));
        const act::ExampleStarted started{Milliseconds(-86'400'000)};
        QCOMPARE(w.refusedBy(started, 1, {}), QString());
        w.tell(started, 1, {});
        QCOMPARE(w.refusedBy(started, 2, {}), text("example"));
    }

    void sessions() {
        World w;
        w.tell(w.startJ2(1), 1);
        QCOMPARE(w.refusedBy(act::NozzleRetired{text("N-2"), text("x")}, 2), text("reserved")); // chosen for this session
        act::StepConfirmed x = w.confirmation(text("fetch"), 2);
        x.useSoFar = RunVolume{true, cm3(5), {}};
        QCOMPARE(w.refusedBy(x, 2), text("use-so-far"));
        w.tell(act::SessionStopped{1, text("the belt")}, 3);
        QCOMPARE(w.refusedBy(act::ProblemReported{1, {}, text("belt slips"), false, {}}, 4), text("session-closed"));
        QCOMPARE(w.refusedBy(act::NozzleRetired{text("N-2"), text("x")}, 4), QString());
    }
};

INTERLUDE_TEST(RefusalsTest)
#include "refusals_test.moc"
