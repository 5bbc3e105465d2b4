// What may not happen in a session.

#include "tests/harness/run_tests.h"
#include "tests/shop/fixture.h"

using namespace interlude;
using namespace interlude::tests;

namespace {
const act::Override approved{text("reading-limits"), text("shim ordered"), text("JK")};
} // namespace

class SessionObjectionsTest : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void starting() {
        World w;
        const act::SessionStarted good = w.startJ2(5);
        QCOMPARE(w.refusedBy(good, 5), QString());
        act::SessionStarted x = good;
        x.session = 7;
        QCOMPARE(w.refusedBy(x, 5), text("session-number"));
        x = good;
        x.printer = text("bay-2");
        QCOMPARE(w.refusedBy(x, 5), text("changeover"));
        x = good;
        x.changeover.steps.clear();
        QCOMPARE(w.refusedBy(x, 5), text("changeover"));
        x = good;
        x.changeover.catalogueHash = text("another");
        QCOMPARE(w.refusedBy(x, 5), text("changeover-stale"));
        x = good;
        x.changeover.transition.request.now.part.nozzle = text("N-2");
        QCOMPARE(w.refusedBy(x, 5), text("changeover-stale"));
        x = good;
        x.changeover.transition.request.job = text("J7");
        QCOMPARE(w.refusedBy(x, 5), text("unknown-id"));
        w.tell(good, 5);
        x = good;
        x.session = 2;
        QCOMPARE(w.refusedBy(x, 6), text("open-session"));
        QCOMPARE(w.refusedBy(act::PrinterDeclared{text("bay-1"), w.catalogue()->openings.setups.first(), text("x")}, 6),
                 text("open-session"));
        QCOMPARE(w.refusedBy(act::PrintStarted{text("bay-1"), text("J1"), text("fine"), Minutes(1)}, 6),
                 text("open-session"));
        QCOMPARE(w.refusedBy(act::SpoolUnloaded{text("A-1"), {}}, 6), text("open-session"));
        QCOMPARE(w.refusedBy(act::SpoolLoaded{text("P-1"), text("bay-2"), Role::Part}, 6), text("reserved"));
    }

    void startingOnADownPrinter() {
        World w;
        const act::SessionStarted good = w.startJ2(5);
        w.tell(act::DowntimeBegun{text("bay-1"), text("belt"), {}}, 5);
        QCOMPARE(w.refusedBy(good, 6), text("down"));
    }

    void refusalsNeedAnOverrideWithASecondPerson() {
        const World w;
        act::SessionStarted x = w.startJ2(5);
        Finding life{Severity::Refusal, text("nozzle-life"), text("too little life"), {}, {}, false};
        x.changeover.transition.verdicts.prepend(life);
        QCOMPARE(w.refusedBy(x, 5), text("nozzle-life"));
        x.overrides = {{text("nozzle-life"), text("the last one here"), text("JK")}};
        QCOMPARE(w.refusedBy(x, 5), text("nozzle-life")); // not overridable
        x.changeover.transition.verdicts[0].overridable = true;
        QCOMPARE(w.refusedBy(x, 5), QString());
        x.overrides[0].reason.clear();
        QCOMPARE(w.refusedBy(x, 5), text("override-reason"));
        x.overrides[0] = {text("nozzle-life"), text("why"), {}};
        QCOMPARE(w.refusedBy(x, 5), text("override-approver"));
        x.overrides[0].approver = text("ML"); // the same person
        QCOMPARE(w.refusedBy(x, 5), text("override-approver"));
        x.overrides[0].approver = text("ZZ");
        QCOMPARE(w.refusedBy(x, 5), text("override-approver"));
        x.overrides[0] = {text("another-rule"), text("why"), text("JK")};
        QCOMPARE(w.refusedBy(x, 5), text("nozzle-life"));
    }

    void aShopOfOneNeedsNoSecondPerson() {
        auto c = tinyCatalogue();
        c->fleet.people.removeLast();
        World w(c);
        w.tell(w.startJ2(5), 5);
        QCOMPARE(w.refusedBy(act::StepSkipped{1, text("fetch"), {{}, {}, {}}}, 6), text("override-reason"));
        QCOMPARE(w.refusedBy(act::StepSkipped{1, text("fetch"), {{}, text("all there"), {}}}, 6), QString());
    }

    void orderOfSteps() {
        World w;
        w.tell(w.startJ2(5), 5);
        QCOMPARE(w.refusedBy(w.confirmation(text("unload"), 6), 6), text("step-order"));
        QCOMPARE(w.refusedBy(act::StepStarted{1, text("unload")}, 6), text("step-order"));
        QCOMPARE(w.refusedBy(act::StepStarted{1, text("dance")}, 6), text("unknown-id"));
        QCOMPARE(w.refusedBy(act::StepStarted{9, text("fetch")}, 6), text("unknown-id"));
        w.tell(act::StepStarted{1, text("fetch")}, 6);
        QCOMPARE(w.refusedBy(act::StepStarted{1, text("fetch")}, 7), text("step-started"));
        w.confirm(text("fetch"), 7);
        QCOMPARE(w.refusedBy(w.confirmation(text("fetch"), 8), 8), text("step-done"));
        const Findings early = objections(w.shop(), w.confirmation(text("cool"), 8), text("ML"),
                                          interlude::tests::at(8), interlude::tests::at(4));
        QCOMPARE(refusalsIn(early).first().rule, text("when")); // before the session
    }

    void aClockThatWasSetBackHoldsNothingUp() {
        World w;
        w.tell(w.startJ2(65), 65);
        w.tell(act::SessionPaused{1, {}, false}, 66);
        w.tell(act::SessionResumed{1, {}}, 70);
        w.tell(act::ClockJumped{Minutes(-60), {}}, 11, {}); // it was 71
        const int t = w.confirmUntil(text("open"), 12);
        QCOMPARE(w.refusedBy(w.confirmation(text("open"), t), t), QString());
        // What was done an hour before by the present clock was before the session.
        const Findings early = objections(w.shop(), w.confirmation(text("open"), t), text("ML"), interlude::tests::at(t), interlude::tests::at(4));
        QVERIFY(std::any_of(early.begin(), early.end(), [](const Finding& f) { return f.rule == text("when"); }));
    }

    void measuredTemperatures() {
        World w;
        w.tell(w.startJ2(5), 5);
        const int t = w.confirmUntil(text("open"), 6);
        const auto rule = [&](const std::function<void(act::StepConfirmed&)>& damage, int now) {
            act::StepConfirmed x = w.confirmation(text("open"), now);
            damage(x);
            return w.refusedBy(x, now);
        };
        const auto as = [](auto&&) {};
        QCOMPARE(rule(as, t), QString());
        QCOMPARE(rule([](auto& x) { x.measured.reset(); }, t), text("measure"));
        QCOMPARE(rule([](auto& x) { x.measuredAt.reset(); }, t), text("measure"));
        QCOMPARE(rule([](auto& x) { x.measured = celsius(60); }, t), QString()); // at the limit
        QCOMPARE(rule([](auto& x) { x.measured = Temperature::fromMilliCelsius(60'001); }, t), text("measure"));
        QCOMPARE(rule([](auto& x) { *x.measuredAt -= Seconds(60); }, t), QString());
        QCOMPARE(rule([](auto& x) { *x.measuredAt -= Seconds(61); }, t), text("measure")); // stale
        QCOMPARE(rule([](auto& x) { *x.measuredAt += Seconds(30); }, t), text("measure"));
        QCOMPARE(rule([](auto& x) { x.enteredLate = true; }, t), text("measure"));
        // An override does not help: this is never lifted.
        QCOMPARE(rule(
                     [](auto& x) {
                         x.measured = celsius(90);
                         x.overrides = {{text("measure"), text("x"), text("JK")}};
                     },
                     t),
                 text("measure"));
        w.tell(act::ClockJumped{{}, Minutes(3)}, t, {}); // slept until now
        QCOMPARE(rule([](auto& x) { *x.measuredAt -= Seconds(20); }, t), text("measure"));
        QCOMPARE(rule(as, t), QString());
    }

    void shortInterruptionsDoNotSpoilAReading() {
        World w;
        w.tell(w.startJ2(5), 5);
        const int t = w.confirmUntil(text("open"), 6);
        w.force(act::ClockJumped{Milliseconds(-6000), {}}, t, {});
        act::StepConfirmed x = w.confirmation(text("open"), t);
        *x.measuredAt -= Seconds(20);
        QCOMPARE(w.refusedBy(x, t), QString());
    }

    void aPaperChecklistIsEnteredLate() {
        World w;
        act::SessionStarted x = w.startJ2(5);
        x.enteredLate = true;
        w.tell(x, 5);
        const int t = w.confirmUntil(text("open"), 6);
        act::StepConfirmed c = w.confirmation(text("open"), t);
        c.measuredAt.reset();
        QCOMPARE(w.refusedBy(c, t + 300), QString());
        c.measured = celsius(80); // the limit holds all the same
        QCOMPARE(w.refusedBy(c, t + 300), text("measure"));
        c.measured = celsius(50);
        w.tell(c, t + 300);
        QVERIFY(w.session().progress(text("open")).enteredLate);
    }

    void scans() {
        World w;
        w.tell(w.startJ2(5), 5);
        const int t = w.confirmUntil(text("mount"), 6);
        const auto rule = [&](const QList<act::ScanDone>& scans) {
            act::StepConfirmed x = w.confirmation(text("mount"), t);
            x.scans = scans;
            x.useSoFar = RunVolume{false, {}, {}};
            return w.refusedBy(x, t);
        };
        const QString expected = w.session().changeover.step(text("mount"))->expectedScans.first();
        QCOMPARE(rule({{expected, false}}), QString());
        QCOMPARE(rule({{QLatin1Char(' ') + expected + QLatin1Char(' '), true}}), QString());
        QCOMPARE(rule({}), text("scan"));
        QCOMPARE(rule({{QString(), false}}), text("scan"));
        QCOMPARE(rule({{expected, false}, {expected, false}}), text("scan"));
        QCOMPARE(rule({{expected.toLower(), false}}), text("scan"));
        QCOMPARE(rule({{text("P-1"), false}}), text("scan")); // a spool
        QCOMPARE(rule({{text("S-1"), false}}), text("scan")); // mounted
        QCOMPARE(rule({{text("N-1"), false}}), text("scan")); // another melt family
        QCOMPARE(rule({{text("N-9"), false}}), text("scan")); // another type
        const Outcome<QString> why =
            acceptScan(w.shop(), w.session(), *w.session().changeover.step(text("mount")), 0, text("P-1"));
        QVERIFY2(why.error().reason.contains(text("P-1 is a spool of pc")), qPrintable(why.error().reason));
        QVERIFY2(why.error().remedy.contains(expected), qPrintable(why.error().remedy));
    }

    void spoolScans() {
        World w;
        Spool s = w.spool("P-1");
        s.id = text("P-5");
        s.place = text("rack");
        w.tell(act::SpoolReceived{s}, 1);
        s.id = text("P-6");
        s.left = grams(10);
        w.tell(act::SpoolReceived{s}, 1);
        w.tell(w.startJ2(5), 5);
        const int t = w.confirmUntil(text("load"), 6);
        const auto rule = [&](const char* id) {
            act::StepConfirmed x = w.confirmation(text("load"), t);
            x.scans = {{text(id), false}};
            return w.refusedBy(x, t);
        };
        QCOMPARE(rule("P-1"), QString());
        QCOMPARE(rule("P-5"), QString());    // serves as well
        QCOMPARE(rule("P-6"), text("scan")); // 10 g are not enough
        QCOMPARE(rule("A-1"), text("scan")); // another material
        QCOMPARE(rule("nothing"), text("scan"));
    }

    void answersAndReadings() {
        World w;
        w.tell(w.startJ2(5), 5);
        int t = w.confirmUntil(text("open"), 6);
        act::StepConfirmed open = w.confirmation(text("open"), t);
        open.answers.clear();
        QCOMPARE(w.refusedBy(open, t), text("answer"));
        open.answers = {{false}};
        QCOMPARE(w.refusedBy(open, t), text("answer"));
        t = w.confirmUntil(text("align"), t);
        const auto rule = [&](const std::function<void(act::StepConfirmed&)>& damage) {
            act::StepConfirmed x = w.confirmation(text("align"), t);
            damage(x);
            return w.refusedBy(x, t);
        };
        QCOMPARE(rule([](auto&) {}), QString());
        QCOMPARE(rule([](auto& x) { x.readings.removeLast(); }), text("reading"));
        QCOMPARE(rule([](auto& x) { x.readings[0].name = text("Y offset"); }), text("reading"));
        QCOMPARE(rule([](auto& x) { x.readings[0].unit = text("in"); }), text("reading"));
        QCOMPARE(rule([](auto& x) { x.readings[0].instrument.clear(); }), text("reading"));
        QCOMPARE(rule([](auto& x) { x.readings[0].instrument = text("ruler"); }), text("unknown-id"));
        QCOMPARE(rule([](auto& x) { x.readings[1].thousandths = 100; }), QString()); // at the limit of 0.1 mm
        QCOMPARE(rule([](auto& x) { x.readings[1].thousandths = 101; }), text("reading-limits"));
        QCOMPARE(rule([](auto& x) { x.readings[0].thousandths = -101; }), text("reading-limits"));
        QCOMPARE(rule([](auto& x) {
                     x.readings[0].thousandths = 150;
                     x.overrides = {approved};
                 }),
                 QString());
        QCOMPARE(rule([](auto& x) {
                     x.readings[0].thousandths = 150;
                     x.overrides = {{approved.rule, {}, text("JK")}};
                 }),
                 text("override-reason"));
        act::StepConfirmed outside = w.confirmation(text("align"), t);
        outside.readings[0].thousandths = 150;
        QVERIFY(refusalsIn(w.against(outside, t)).first().overridable);
        outside.overrides = {approved};
        w.tell(outside, t);
        QCOMPARE(w.session().progress(text("align")).confirmed.overrides.first().approver, text("JK"));
    }

    void skipping() {
        World w;
        w.tell(w.startJ2(5), 5);
        QCOMPARE(w.refusedBy(act::StepSkipped{1, text("fetch"), {}}, 6), text("override-reason"));
        QCOMPARE(w.refusedBy(act::StepSkipped{1, text("fetch"), {{}, text("all there"), {}}}, 6),
                 text("override-approver"));
        QCOMPARE(w.refusedBy(act::StepSkipped{1, text("fetch"), {{}, text("all there"), text("JK")}}, 6), QString());
        const int t = w.confirmUntil(text("look"), 6);
        QCOMPARE(w.refusedBy(act::StepSkipped{1, text("look"), {}}, t), QString()); // not mandatory
        QCOMPARE(w.refusedBy(act::SessionFinished{1, text("released"), {}}, t), text("steps-left"));
    }

    void pausedAndClosed() {
        World w;
        w.tell(w.startJ2(5), 5);
        QCOMPARE(w.refusedBy(act::SessionResumed{1, {}}, 6), text("not-paused"));
        QCOMPARE(w.refusedBy(act::SessionPaused{1, {}, true}, 6), text("blank"));
        w.tell(act::SessionPaused{1, text("head out"), true}, 6);
        QCOMPARE(w.refusedBy(w.confirmation(text("fetch"), 7), 7), text("session-paused"));
        QCOMPARE(w.refusedBy(act::StepStarted{1, text("fetch")}, 7), text("session-paused"));
        QCOMPARE(w.refusedBy(act::TakenBack{1, text("fetch"), {}}, 7), text("session-paused"));
        const QMap<QString, QString> right{{text("part"), text("N-1")}, {text("support"), text("S-1")}};
        QCOMPARE(w.refusedBy(act::SessionResumed{1, {}}, 7, text("JK")), text("mounted"));
        QCOMPARE(w.refusedBy(act::SessionResumed{1, {{text("part"), text("N-2")}, {text("support"), text("S-1")}}}, 7),
                 text("mounted"));
        QCOMPARE(w.refusedBy(act::SessionResumed{1, right}, 7, text("JK")), QString());
        w.tell(act::SessionResumed{1, right}, 8, text("JK"));
        QCOMPARE(w.refusedBy(act::TakenBack{1, text("fetch"), {}}, 9), text("take-back"));
        QCOMPARE(w.refusedBy(act::ProblemReported{1, text("dance"), text("x"), false}, 9), text("unknown-id"));
        QCOMPARE(w.refusedBy(act::ProblemReported{1, {}, {}, false}, 9), text("blank"));
        const QString sum(64, QLatin1Char('a'));
        QCOMPARE(w.refusedBy(act::ProblemReported{1, {}, text("x"), false, {sum}}, 9), QString());
        QCOMPARE(w.refusedBy(act::ProblemReported{1, {}, text("x"), false, {sum, sum}}, 9), text("photo"));
        QCOMPARE(w.refusedBy(act::ProblemReported{1, {}, text("x"), false, {text("../passwd")}}, 9), text("photo"));
        QCOMPARE(w.refusedBy(act::TemperatureRead{1, Sensor::Head, celsius(1200), {}}, 9), text("implausible"));
        // The chamber reaches 145 °C, and a controller overshoots; a platform has no limit of its own here.
        QCOMPARE(warnings(w.against(act::TemperatureRead{1, Sensor::Chamber, celsius(155), {}}, 9)), QStringList());
        QCOMPARE(warnings(w.against(act::TemperatureRead{1, Sensor::Chamber, celsius(156), {}}, 9)), QStringList{text("implausible")});
        QCOMPARE(w.refusedBy(act::TemperatureRead{1, Sensor::Chamber, celsius(156), {}}, 9), QString());
        QCOMPARE(warnings(w.against(act::TemperatureRead{1, Sensor::Platform, celsius(156), {}}, 9)), QStringList());
        QCOMPARE(w.refusedBy(act::SessionStopped{1, {}}, 9), text("blank"));
        w.tell(act::SessionStopped{1, text("end of shift")}, 9);
        QCOMPARE(w.refusedBy(w.confirmation(text("fetch"), 10), 10), text("session-closed"));
        QCOMPARE(w.refusedBy(act::SessionStopped{1, text("x")}, 10), text("session-closed"));
        const qint64 event = w.session().firstEvent;
        QCOMPARE(w.refusedBy(act::Corrected{1, event, text("f"), text("a"), text("b"), text("why")}, 10), QString());
        QCOMPARE(w.refusedBy(act::Corrected{1, event, text("f"), text("a"), text("b"), {}}, 10), text("blank"));
        QCOMPARE(w.refusedBy(act::Corrected{1, 1, text("f"), text("a"), text("b"), text("why")}, 10),
                 text("unknown-id"));
        QCOMPARE(w.refusedBy(act::Corrected{1, event, text("f"), text("a"), text("a"), text("why")}, 10),
                 text("correction"));
        QCOMPARE(w.refusedBy(act::RecordIssued{1, 0, text("aa")}, 10), text("revision"));
    }
};

INTERLUDE_TEST(SessionObjectionsTest)
#include "session_objections_test.moc"
