// One refusal (or warning) for each rule, and the act beside it that may happen.

#include "tests/harness/run_tests.h"
#include "tests/shop/fixture.h"

using namespace interlude;
using namespace interlude::tests;

namespace {
Spool newSpool() {
    Spool s;
    s.id = text("S-5");
    s.material = text("pc");
    s.left = grams(750);
    return s;
}
Nozzle newNozzle() {
    Nozzle n;
    n.serial = text("N-5");
    n.type = text("h04");
    return n;
}
act::PrintStarted start(const char* printer = "bay-1", const char* job = "J1", const char* variant = "fine",
                        int minutes = 120) {
    return {text(printer), text(job), text(variant), Minutes(minutes)};
}
} // namespace

class ObjectionsTest : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void whoSigns() {
        const World w;
        const act::JobWithdrawn x{text("J1"), text("cancelled")};
        QCOMPARE(w.refusedBy(x, 1), QString());
        QCOMPARE(w.refusedBy(x, 1, {}), text("who"));
        QCOMPARE(w.refusedBy(x, 1, text("  ")), text("who"));
        QCOMPARE(w.refusedBy(x, 1, text("ZZ")), text("who"));
        QCOMPARE(w.refusedBy(act::ProgramStarted{}, 1, {}), QString());
    }

    void whenItHappened() {
        const World w;
        const act::JobWithdrawn x{text("J1"), text("cancelled")};
        const auto rule = [&](int happened) {
            const Findings f = refusalsIn(
                objections(w.shop(), x, text("ML"), interlude::tests::at(100), interlude::tests::at(happened)));
            return f.isEmpty() ? QString() : f.first().rule;
        };
        QCOMPARE(rule(100), QString());
        QCOMPARE(rule(101), QString()); // a minute of slack between clocks
        QCOMPARE(rule(102), text("when"));
        QCOMPARE(rule(-60 * 24 * 300), QString());
        QCOMPARE(rule(-60 * 24 * 400), text("when"));
    }

    void spoolsReceived() {
        World w;
        QCOMPARE(w.refusedBy(act::SpoolReceived{newSpool()}, 1), QString());
        Spool s = newSpool();
        s.id = text("A-1");
        QCOMPARE(w.refusedBy(act::SpoolReceived{s}, 1), text("duplicate"));
        s = newSpool();
        s.id = text(" ");
        QCOMPARE(w.refusedBy(act::SpoolReceived{s}, 1), text("blank"));
        s = newSpool();
        s.material = text("wood");
        QCOMPARE(w.refusedBy(act::SpoolReceived{s}, 1), text("unknown-id"));
        s = newSpool();
        s.left = grams(-1);
        QCOMPARE(w.refusedBy(act::SpoolReceived{s}, 1), text("negative"));
        s = newSpool();
        s.left = grams(75'000);
        QCOMPARE(warnings(w.against(act::SpoolReceived{s}, 1)), QStringList{text("implausible")});
        s = newSpool();
        s.place = text("moon");
        QCOMPARE(w.refusedBy(act::SpoolReceived{s}, 1), text("unknown-id"));
        s = newSpool();
        s.received = interlude::tests::at(500);
        QCOMPARE(w.refusedBy(act::SpoolReceived{s}, 1), text("when"));
        s = newSpool();
        s.where = SpoolWhere::Loaded;
        QCOMPARE(w.refusedBy(act::SpoolReceived{s}, 1), text("where"));
    }

    void spoolsWeighed() {
        const World w;
        const auto weighed = [](const char* id, int gross, std::optional<Mass> tare = {}) {
            return act::SpoolWeighed{text(id), grams(gross), tare, grams(2)};
        };
        QCOMPARE(w.refusedBy(weighed("P-1", 1100), 1), QString());
        QCOMPARE(w.refusedBy(weighed("X-1", 1100), 1), text("unknown-id"));
        QCOMPARE(w.refusedBy(weighed("P-1", 249), 1), text("below-tare"));
        QCOMPARE(w.refusedBy(weighed("P-1", 250), 1), QString());
        QCOMPARE(w.refusedBy(weighed("P-1", 1100, grams(1200)), 1), text("below-tare"));
        QCOMPARE(w.refusedBy(weighed("P-1", 0), 1), text("negative"));
        QCOMPARE(w.refusedBy(weighed("P-1", 1100, grams(-1)), 1), text("negative"));
        // 900 g on record, se 5 and 2: 900 + 3·7 + 5 = 926 g may be read, more than that is a slip.
        QVERIFY(warnings(w.against(weighed("P-1", 1176), 1)).isEmpty());
        QCOMPARE(warnings(w.against(weighed("P-1", 1177), 1)), QStringList{text("implausible")});
        QCOMPARE(warnings(w.against(weighed("P-2", 700), 1)), QStringList{text("tare-unknown")});
        QVERIFY(warnings(w.against(weighed("P-1", 30'000), 1)).contains(text("implausible")));
    }

    void spoolsDriedMovedRetired() {
        World w;
        const auto dried = [](int from, int to, int c) {
            return act::SpoolDried{text("P-1"), celsius(c), interlude::tests::at(from), interlude::tests::at(to)};
        };
        QVERIFY(w.against(dried(-400, -10, 110), 1).isEmpty());
        QCOMPARE(w.refusedBy(dried(-10, -400, 110), 1), text("when"));
        QCOMPARE(w.refusedBy(dried(-10, 60, 110), 1), text("when"));
        QCOMPARE(warnings(w.against(dried(-100, -10, 110), 1)), QStringList{text("drying")}); // 90 of 180 min
        QCOMPARE(warnings(w.against(dried(-400, -10, 80), 1)), QStringList{text("drying")});
        QCOMPARE(warnings(w.against(dried(-400, -10, 150), 1)), QStringList{text("drying")}); // softens at 150
        QCOMPARE(w.refusedBy(act::SpoolMoved{text("A-1"), text("rack"), true}, 1), text("loaded"));
        QCOMPARE(w.refusedBy(act::SpoolMoved{text("P-1"), text("moon"), true}, 1), text("unknown-id"));
        QCOMPARE(w.refusedBy(act::SpoolRetired{text("A-1"), text("x")}, 1), text("loaded"));
        QCOMPARE(w.refusedBy(act::SpoolRetired{text("P-1"), {}}, 1), text("blank"));
        w.tell(act::SpoolRetired{text("P-1"), text("fused")}, 2);
        for (const Happening& h : QList<Happening>{act::SpoolRetired{text("P-1"), text("x")}, dried(-400, -10, 110),
                                                   act::SpoolMoved{text("P-1"), {}, false},
                                                   act::SpoolLoaded{text("P-1"), text("bay-2"), Role::Part},
                                                   act::SpoolWeighed{text("P-1"), grams(500), {}, {}}})
            QCOMPARE(w.refusedBy(h, 3), text("retired"));
    }

    void spoolsLoaded() {
        World w;
        const auto load = [](const char* spool, const char* printer, Role role) {
            return act::SpoolLoaded{text(spool), text(printer), role};
        };
        QCOMPARE(w.refusedBy(load("P-1", "bay-2", Role::Part), 1), QString());
        QCOMPARE(w.refusedBy(load("P-1", "bay-9", Role::Part), 1), text("unknown-id"));
        QCOMPARE(w.refusedBy(load("P-1", "bay-2", Role::Support), 1), text("role"));
        QCOMPARE(w.refusedBy(load("A-1", "bay-2", Role::Part), 1), text("loaded"));
        QVERIFY(w.refusedBy(load("P-1", "bay-1", Role::Part), 1) == text("occupied"));
        w.tell(act::SpoolUnloaded{text("A-1"), text("cabinet")}, 2);
        QCOMPARE(w.refusedBy(load("P-1", "bay-1", Role::Part), 3), text("melt-family")); // N-1 serves styrenics
        QCOMPARE(w.refusedBy(load("A-1", "bay-1", Role::Part), 3), QString());
        QCOMPARE(w.refusedBy(act::SpoolUnloaded{text("A-1"), {}}, 3), text("not-loaded"));
        w.tell(load("A-1", "bay-1", Role::Part), 3);
        w.tell(start(), 4);
        QCOMPARE(w.refusedBy(act::SpoolUnloaded{text("A-1"), {}}, 5), QString()); // another of its kind may follow
        QCOMPARE(w.refusedBy(act::SpoolRetired{text("A-1"), text("x")}, 5), text("loaded"));
    }

    void nozzles() {
        World w;
        QCOMPARE(w.refusedBy(act::NozzleReceived{newNozzle()}, 1), QString());
        Nozzle n = newNozzle();
        n.serial = text("N-1");
        QCOMPARE(w.refusedBy(act::NozzleReceived{n}, 1), text("duplicate"));
        n = newNozzle();
        n.type = text("h99");
        QCOMPARE(w.refusedBy(act::NozzleReceived{n}, 1), text("unknown-id"));
        n = newNozzle();
        n.run.abrasive = cm3(-1);
        QCOMPARE(w.refusedBy(act::NozzleReceived{n}, 1), text("negative"));
        QCOMPARE(w.refusedBy(act::NozzleUseStated{text("N-3"), {true, cm3(-1), {}}}, 1), text("negative"));
        QCOMPARE(w.refusedBy(act::NozzleUseStated{text("N-3"), {true, {}, {}}}, 1), QString());  // zero is allowed
        QCOMPARE(w.refusedBy(act::NozzleUseStated{text("N-3"), {false, {}, {}}}, 1), QString()); // no history, too
        QCOMPARE(warnings(w.against(act::NozzleUseStated{text("N-1"), {true, cm3(99), {}}}, 1)),
                 QStringList{text("use-lowered")});
        const auto measured = [](int um, const char* instrument = "ct-1") {
            return act::NozzleMeasured{text("N-3"), Length::fromMicrometres(um), text(instrument)};
        };
        QVERIFY(w.against(measured(405), 1).isEmpty());
        QCOMPARE(w.refusedBy(measured(0), 1), text("negative"));
        QCOMPARE(w.refusedBy(measured(405, "ruler"), 1), text("unknown-id"));
        QCOMPARE(warnings(w.against(measured(600), 1)), QStringList{text("implausible")});
        QCOMPARE(w.refusedBy(act::NozzleRetired{text("N-1"), text("worn")}, 1), text("mounted"));
        QCOMPARE(w.refusedBy(act::NozzleRetired{text("N-3"), {}}, 1), text("blank"));
        w.tell(act::NozzleRetired{text("N-3"), text("worn")}, 1);
        QCOMPARE(w.refusedBy(measured(405), 2), text("retired"));
    }

    void calibrationOverdueIsTold() {
        auto c = tinyCatalogue();
        c->fleet.instruments[0].due = QDate(2026, 3, 1);
        const World w(c);
        QCOMPARE(warnings(w.against(act::NozzleMeasured{text("N-3"), Length::fromMicrometres(400), text("ct-1")}, 1)),
                 QStringList{text("calibration-due")});
    }

    void printsStart() {
        World w;
        QCOMPARE(w.refusedBy(start(), 1), QString());
        QVERIFY(warnings(w.against(start(), 1)).contains(text("platform-cover")));
        QCOMPARE(w.refusedBy(start("bay-9"), 1), text("unknown-id"));
        QCOMPARE(w.refusedBy(start("bay-1", "J7"), 1), text("unknown-id"));
        QCOMPARE(w.refusedBy(start("bay-1", "J1", "coarse"), 1), text("unknown-id"));
        QCOMPARE(w.refusedBy(start("bay-1", "J1", "fine", 0), 1), text("negative"));
        QCOMPARE(w.refusedBy(start("bay-1", "J2"), 1), text("changeover"));
        QCOMPARE(w.refusedBy(start("bay-2"), 1), text("changeover"));
        w.tell(act::DowntimeBegun{text("bay-1"), text("belt"), {}}, 2);
        QCOMPARE(w.refusedBy(start(), 3), text("down"));
        w.tell(act::DowntimeEnded{text("bay-1")}, 4);
        w.tell(start(), 5);
        QCOMPARE(w.refusedBy(start(), 6), text("printing"));
        w.tell(act::PrintEnded{text("bay-1"), PrintOutcome::Stopped, true, {}, {}, {}}, 30);
        QCOMPARE(w.refusedBy(start(), 31), text("part-lying"));
    }

    void aPrintMustNotSkipAMandatoryCleanOut() {
        auto c = tinyCatalogue();
        c->openings.setups[0].residue = {{text("abs"), celsius(40), celsius(100)},
                                         {{}, {}, {}}}; // something unknown, too
        const World w(c);
        QCOMPARE(w.refusedBy(start(), 1), text("clean-out"));
    }

    void printsEnd() {
        World w;
        const act::PrintEnded good{text("bay-1"), PrintOutcome::Good, true, {}, {}, {}};
        QCOMPARE(w.refusedBy(good, 1), text("not-printing"));
        w.tell(start(), 10);
        const Findings early =
            objections(w.shop(), good, text("ML"), interlude::tests::at(20), interlude::tests::at(9));
        QCOMPARE(refusalsIn(early).first().rule, text("when"));
        QCOMPARE(w.refusedBy(good, 5), QString()); // now, by a clock that was set back meanwhile
        act::PrintEnded x = good;
        x.part = cm3(-1);
        QCOMPARE(w.refusedBy(x, 20), text("negative"));
        x.part = cm3(201);
        QCOMPARE(warnings(w.against(x, 20)), QStringList{text("implausible")});
        x = good;
        x.outcome = PrintOutcome::Failed;
        QCOMPARE(warnings(w.against(x, 20)), QStringList{text("volume-estimated")});
        QCOMPARE(w.refusedBy(act::PartRemoved{text("bay-1")}, 20), text("printing"));
        QCOMPARE(w.refusedBy(act::DowntimeBegun{text("bay-1"), text("belt"), {}}, 20), text("printing"));
        w.tell(good, 130);
        w.tell(act::PartRemoved{text("bay-1")}, 131);
        QCOMPARE(w.refusedBy(act::PartRemoved{text("bay-1")}, 132), text("no-part"));
    }

    void printersDeclaredAndDown() {
        World w;
        OpeningSetup s;
        s.printer = text("bay-2");
        s.part = text("pc");
        s.partNozzle = text("N-3");
        s.partSpool = text("P-1");
        const auto declare = [&](const char* why = "found so") {
            return act::PrinterDeclared{text("bay-2"), s, text(why)};
        };
        QCOMPARE(w.refusedBy(declare(), 1), QString());
        QCOMPARE(w.refusedBy(declare(""), 1), text("blank"));
        s.partNozzle = text("N-1");
        QCOMPARE(w.refusedBy(declare(), 1), text("mounted"));
        s.partNozzle = text("N-3");
        s.partSpool = text("A-1");
        QCOMPARE(w.refusedBy(declare(), 1), text("loaded"));
        s.partSpool = text("P-1");
        s.part = text("abs");
        QCOMPARE(w.refusedBy(declare(), 1), text("spool-material"));
        s.part = text("acr");
        QCOMPARE(w.refusedBy(declare(), 1), text("role"));
        s.part = text("pc");
        s.residue = {{text("wood"), {}, {}}};
        QCOMPARE(w.refusedBy(declare(), 1), text("unknown-id"));
        QCOMPARE(w.refusedBy(act::SetupOpening{tinyCatalogue()->openings.setups.first()}, 1, {}), text("opening"));
        QCOMPARE(w.refusedBy(act::DowntimeEnded{text("bay-2")}, 1), text("not-down"));
        QCOMPARE(w.refusedBy(act::DowntimeBegun{text("bay-2"), {}, {}}, 1), text("blank"));
        QCOMPARE(w.refusedBy(act::DowntimeBegun{text("bay-2"), text("belt"), interlude::tests::at(0)}, 1),
                 text("when"));
        w.tell(act::DowntimeBegun{text("bay-2"), text("belt"), {}}, 1);
        QCOMPARE(w.refusedBy(act::DowntimeBegun{text("bay-2"), text("belt"), {}}, 2), text("down"));
    }

    void jobs() {
        World w;
        Job j = w.job("J1");
        QCOMPARE(w.refusedBy(act::JobAdded{j}, 1), text("duplicate"));
        j.id = text("J3");
        QCOMPARE(w.refusedBy(act::JobAdded{j}, 1), QString());
        QCOMPARE(w.refusedBy(act::JobChanged{j}, 1), text("unknown-id"));
        const auto rule = [&](const std::function<void(Job&)>& damage) {
            Job damaged = j;
            damage(damaged);
            return w.refusedBy(act::JobAdded{damaged}, 1);
        };
        QCOMPARE(rule([](Job& x) { x.id.clear(); }), text("blank"));
        QCOMPARE(rule([](Job& x) { x.quantity = 0; }), text("negative"));
        QCOMPARE(rule([](Job& x) { x.variants.clear(); }), text("variant"));
        QCOMPARE(rule([](Job& x) { x.variants.append(x.variants.first()); }), text("duplicate"));
        QCOMPARE(rule([](Job& x) { x.variants[0].print = Minutes(0); }), text("variant"));
        QCOMPARE(rule([](Job& x) { x.variants[0].partVolume = cm3(-1); }), text("negative"));
        QCOMPARE(rule([](Job& x) { x.variants[0].setup.part = text("wood"); }), text("unknown-id"));
        QCOMPARE(rule([](Job& x) { x.variants[0].setup.part = text("acr"); }), text("role"));
        QCOMPARE(rule([](Job& x) { x.variants[0].setup.partNozzle = text("h99"); }), text("unknown-id"));
        QCOMPARE(rule([](Job& x) { x.printers = {text("bay-9")}; }), text("unknown-id"));
        QCOMPARE(rule([](Job& x) { x.lateCostPerHour = Money::fromCents(-1); }), text("negative"));
        QCOMPARE(w.refusedBy(act::JobWithdrawn{text("J1"), {}}, 1), text("blank"));
        w.tell(start(), 2);
        QCOMPARE(w.refusedBy(act::JobChanged{w.job("J1")}, 3), text("printing"));
        QCOMPARE(w.refusedBy(act::JobWithdrawn{text("J1"), text("x")}, 3), text("printing"));
        w.tell(act::PrintEnded{text("bay-1"), PrintOutcome::Good, false, {}, {}, {}}, 130);
        QCOMPARE(w.refusedBy(act::JobWithdrawn{text("J1"), text("x")}, 131), text("job-closed"));
        w.tell(w.startJ2(132), 132);
        QCOMPARE(w.refusedBy(act::JobChanged{w.job("J2")}, 133), text("open-session"));
    }
};

INTERLUDE_TEST(ObjectionsTest)
#include "objections_test.moc"
