// A session from start to end, step by step, stopped half-way, taken back, interrupted.

#include "tests/harness/run_tests.h"
#include "tests/shop/fixture.h"

using namespace interlude;
using namespace interlude::tests;

class SessionFoldTest : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void eachEffectChangesThePrinter() {
        World w;
        w.tell(act::PrintStarted{text("bay-1"), text("J1"), text("fine"), Minutes(120)}, 1);
        w.tell(act::PrintEnded{text("bay-1"), PrintOutcome::Good, true, {}, {}, {}}, 4);
        w.tell(w.startJ2(5), 5);
        const auto p = [&]() -> const PrinterNow& { return w.printer("bay-1"); };
        QVERIFY(p().activity == Activity::InChangeover);
        QCOMPARE(w.session().runBefore.value(text("N-1")).plain.mm3(), 200'000); // 100 + the print's 100 cm³
        int t = w.confirmUntil(text("part-out"), 6);
        w.confirm(text("part-out"), t++);
        QVERIFY(p().job.isEmpty() && w.job("J1").state == JobState::Done);
        t = w.confirmUntil(text("unload"), t);
        w.confirm(text("unload"), t++);
        QVERIFY(p().part.spool.isEmpty() && p().part.loaded.isEmpty());
        QCOMPARE(p().part.inMelt, text("abs")); // what is in the melt zone stays
        QVERIFY(w.spool("A-1").where == SpoolWhere::Shelf);
        t = w.confirmUntil(text("remove"), t);
        w.confirm(text("remove"), t++);
        QVERIFY(p().part.nozzle.isEmpty() && w.nozzle("N-1").where == NozzleWhere::Shelf);
        QCOMPARE(p().part.inMelt, text("abs")); // not one unit with its melt zone
        t = w.confirmUntil(text("mount"), t);
        const NozzleSerial in = w.session().changeover.step(text("mount"))->expectedScans.first();
        w.confirm(text("mount"), t++);
        QCOMPARE(p().part.nozzle, in);
        QVERIFY(w.session().runBefore.contains(in));
        t = w.confirmUntil(text("clean-out"), t);
        w.confirm(text("clean-out"), t++);
        QVERIFY(p().residue.isEmpty() && p().wiper.isEmpty());
        t = w.confirmUntil(text("cover"), t);
        w.confirm(text("cover"), t++);
        QCOMPARE(p().platformCover, text("fresh"));
        t = w.confirmUntil(text("load"), t);
        w.confirm(text("load"), t++);
        QCOMPARE(p().part.loaded, text("pc"));
        QCOMPARE(p().part.spool, text("P-1"));
        t = w.confirmUntil(text("purge"), t);
        w.confirm(text("purge"), t++);
        const qint64 purged = w.session().changeover.step(text("purge"))->purge->mm3();
        QVERIFY(purged > 0);
        QCOMPARE(w.spool("P-1").left->milligrams(),
                 900'000 - Mass::fromGrams(static_cast<double>(purged) / 1000 * 1.2).milligrams());
        QCOMPARE(p().part.inMelt, text("pc"));
        QCOMPARE(w.nozzle(qPrintable(in)).meltFamily, text("polycarbonates"));
        QVERIFY(!p().wiper.isEmpty()); // the purged abs and pc lie in the bin
        w.confirmUntil(text("start"), t);
        w.confirm(text("start"), 60);
        QVERIFY(p().activity == Activity::Printing);
        QCOMPARE(p().job, text("J2"));
        QCOMPARE(toMs(*p().printExpectedEnd), toMs(interlude::tests::at(360)));
        QCOMPARE(p().platformCover, text("used"));
        QCOMPARE(p().chamberSet->milliCelsius(), 125'000);
        w.tell(act::SessionFinished{1, text("released"), {}}, 61);
        QVERIFY(w.session().phase == SessionPhase::Finished);
        QVERIFY(p().activity == Activity::Printing && !p().open);
        QVERIFY(w.session().undo.isEmpty());
        QCOMPARE(w.digest(), World::digestOf(w.replayed()));
    }

    void theScannedNozzleIsMountedWhenItServesAsWell() {
        World w;
        Nozzle spare;
        spare.serial = text("N-20");
        spare.type = text("h04");
        spare.place = text("rack");
        w.tell(act::NozzleReceived{spare}, 2);
        w.tell(w.startJ2(5), 5);
        const int t = w.confirmUntil(text("mount"), 6);
        act::StepConfirmed x = w.confirmation(text("mount"), t);
        const QString other = x.scans[0].value == text("N-20") ? text("N-2") : text("N-20");
        x.scans[0].value = other;
        w.tell(x, t);
        QCOMPARE(w.printer("bay-1").part.nozzle, other);
        QVERIFY(w.session().runAfter.contains(other));
    }

    void useSoFarIsTaken() {
        auto c = tinyCatalogue();
        c->openings.nozzles[1].where = NozzleWhere::Retired; // N-2: leaves only N-3, without history
        World w(c);
        w.tell(w.startJ2(5), 5);
        const int t = w.confirmUntil(text("mount"), 6);
        act::StepConfirmed x = w.confirmation(text("mount"), t);
        QCOMPARE(x.scans[0].value, text("N-3"));
        x.useSoFar.reset();
        QCOMPARE(w.refusedBy(x, t), text("use-so-far"));
        x.useSoFar = RunVolume{true, Volume(), Volume()}; // zero is allowed
        QCOMPARE(w.refusedBy(x, t), QString());
        x.useSoFar = RunVolume{true, cm3(40), cm3(2)};
        w.tell(x, t);
        QCOMPARE(w.nozzle("N-3").run, *x.useSoFar);
    }

    void stoppedHalfWayLeavesAMixedState() {
        World w;
        w.tell(w.startJ2(5), 5);
        const int t = w.confirmUntil(text("mount"), 6);
        w.tell(act::SessionStopped{1, text("end of shift")}, t);
        const PrinterNow& p = w.printer("bay-1");
        QVERIFY(p.open && p.activity == Activity::Idle);
        QVERIFY(p.part.nozzle.isEmpty() && p.part.inMelt == text("abs"));
        QCOMPARE(w.refusedBy(act::PrintStarted{text("bay-1"), text("J1"), text("fine"), Minutes(120)}, t),
                 text("mixed"));
        // The next transition starts from there: no nozzle to remove, no spool to unload, the rest as before.
        const Changeover c = w.toJ2(t);
        QVERIFY(!c.step(text("remove")) && !c.step(text("unload")));
        QVERIFY(c.step(text("mount")) && c.step(text("load")) && c.step(text("purge")));
        w.tell(w.startJ2(t), t);
        int u = w.confirmUntil(text("start"), t + 1, 2);
        w.confirm(text("start"), u, 2);
        w.tell(act::SessionFinished{2, text("released"), {}}, u + 1);
        QVERIFY(!w.printer("bay-1").open);
        QVERIFY(w.printer("bay-1").activity == Activity::Printing);
        QCOMPARE(w.digest(), World::digestOf(w.replayed()));
    }

    void stoppedBeforeAnyExchangeIsNotMixed() {
        World w;
        w.tell(w.startJ2(5), 5);
        const int t = w.confirmUntil(text("unload"), 6);
        w.tell(act::SessionStopped{1, text("changed our mind")}, t);
        QVERIFY(!w.printer("bay-1").open);
        QCOMPARE(w.refusedBy(act::PrintStarted{text("bay-1"), text("J1"), text("fine"), Minutes(120)}, t), QString());
    }

    void takingBackRestoresExactly() {
        World w;
        w.tell(w.startJ2(5), 5);
        int t = 6;
        const Changeover c = w.session().changeover;
        for (const PlannedStep& s : c.steps) {
            // Steps with an explicit start keep it; stock, printers and jobs come back byte for byte.
            if (!s.step.handsOn())
                w.tell(act::StepStarted{1, s.step.id}, t++);
            const QJsonObject before = stateJson(w.shop());
            const std::optional<Instant> started = w.session().progress(s.step.id).started;
            w.confirm(s.step.id, t++);
            const std::optional<Instant> begun = w.session().progress(s.step.id).started;
            w.tell(act::TakenBack{1, s.step.id, text("mistake")}, t++);
            const QJsonObject after = stateJson(w.shop());
            for (const char* key : {"spools", "nozzles", "jobs", "printers"})
                QVERIFY2(before.value(QLatin1String(key)) == after.value(QLatin1String(key)),
                         qPrintable(s.step.id + QLatin1Char(' ') + text(key)));
            const StepProgress& p = w.session().progress(s.step.id);
            QVERIFY(p.state == StepState::Started && !p.ended && p.event == 0 && p.who.isEmpty());
            QCOMPARE(p.started, begun);
            if (started)
                QCOMPARE(p.started, started);
            w.confirm(s.step.id, t++);
            QCOMPARE(w.session().progress(s.step.id).started, begun); // the original start counts
        }
        QCOMPARE(w.session().takenBack.size(), c.steps.size());
        QCOMPARE(w.session().confirmedOrder.size(), c.steps.size());
        QCOMPARE(w.digest(), World::digestOf(w.replayed()));
    }

    void takeBackGoesOneStepAtATimeAndStopsWhereSomethingDepends() {
        World w;
        w.tell(w.startJ2(5), 5);
        const int t = w.confirmUntil(text("clean-out"), 6);
        QCOMPARE(w.refusedBy(act::TakenBack{1, text("unload"), {}}, t), text("take-back"));
        w.tell(act::TakenBack{1, text("mount"), {}}, t);
        w.tell(act::TakenBack{1, text("remove"), {}}, t + 1);
        QCOMPARE(w.printer("bay-1").part.nozzle, text("N-1"));
        // Weighing a spool that the unloading touched makes it part of history.
        w.tell(act::SpoolWeighed{text("A-1"), grams(950), {}, grams(2)}, t + 3);
        QCOMPARE(w.refusedBy(act::TakenBack{1, text("unload"), {}}, t + 4), text("take-back"));
    }

    void anotherPrintersWorkIsLeftAlone() {
        World w;
        w.tell(w.startJ2(5), 5);
        int t = w.confirmUntil(text("unload"), 6);
        w.confirm(text("unload"), t);
        w.tell(act::SpoolWeighed{text("P-2"), grams(600), grams(200), grams(2)}, t + 1); // not this session's
        w.tell(act::TakenBack{1, text("unload"), {}}, t + 2);
        QCOMPARE(w.spool("P-2").left->milligrams(), 400'000);
        QCOMPARE(w.printer("bay-1").part.spool, text("A-1"));
    }

    void aSkippedStepIsKeptWithItsReason() {
        World w;
        w.tell(w.startJ2(5), 5);
        const int t = w.confirmUntil(text("look"), 6);
        w.tell(act::StepSkipped{1, text("look"), {}}, t);
        QVERIFY(w.session().progress(text("look")).state == StepState::Skipped);
        w.tell(act::TakenBack{1, text("look"), {}}, t + 1);
        QVERIFY(!w.session().settled(text("look")));
    }

    void preparationGoesOnBesideThePrint() {
        World w;
        w.tell(act::PrintStarted{text("bay-1"), text("J1"), text("fine"), Minutes(120)}, 1);
        w.tell(w.startJ2(5), 5);
        QVERIFY(w.printer("bay-1").activity == Activity::Printing);
        w.confirm(text("fetch"), 6);
        QCOMPARE(w.refusedBy(w.confirmation(text("part-out"), 7), 7), text("printing"));
        w.tell(act::PrintEnded{text("bay-1"), PrintOutcome::Good, true, {}, {}, {}}, 121);
        QVERIFY(w.printer("bay-1").activity == Activity::InChangeover);
        w.confirm(text("part-out"), 122);
        QVERIFY(w.job("J1").state == JobState::Done);
    }

    void pausesReadingsCorrectionsAndProblemsAreKept() {
        World w;
        w.tell(w.startJ2(5), 5);
        w.tell(act::TemperatureRead{1, Sensor::Chamber, celsius(80), text("ct-1")}, 6);
        w.tell(act::SessionPaused{1, text("nozzle half out"), true}, 7);
        QVERIFY(w.session().phase == SessionPhase::Paused);
        w.tell(act::SessionResumed{1, {{text("part"), text("N-1")}, {text("support"), text("S-1")}}}, 20, text("JK"));
        const Interruption& i = w.session().interruptions.first();
        QCOMPARE(i.cause, text("hand-over"));
        QCOMPARE(i.by, text("JK"));
        QCOMPARE((*i.to - i.from).count(), 13LL * 60'000);
        QCOMPARE(i.mounted.value(text("part")), text("N-1"));
        const qint64 reading = w.session().readings.first().event;
        w.tell(act::Corrected{1, reading, text("value"), text("80"), text("88"), text("misread")}, 21);
        w.tell(act::ProblemReported{1, {}, text("glove torn"), false}, 22);
        QCOMPARE(w.session().corrections.first().what.corrected, text("88"));
        QCOMPARE(w.session().readings.first().value.milliCelsius(), 80'000); // the original stays
        QCOMPARE(w.session().problems.size(), 1);
        w.tell(act::RecordIssued{1, 1, QString(64, QLatin1Char('0'))}, 23);
        QCOMPARE(w.session().revision, 1);
        QCOMPARE(w.session().events.size(), 7);
        QCOMPARE(w.digest(), World::digestOf(w.replayed()));
    }

    void restartsAndClockJumpsInterruptOpenSessions() {
        World w;
        w.tell(w.startJ2(5), 5);
        w.tell(act::ProgramStarted{text("0.1")}, 17, {});
        QCOMPARE(w.session().interruptions.last().cause, text("restart"));
        QCOMPARE(toMs(w.session().interruptions.last().from), toMs(interlude::tests::at(5)));
        w.tell(act::ClockJumped{Minutes(-60), {}}, 20, {});
        const Interruption& back = w.session().interruptions.last();
        QCOMPARE(back.cause, text("clock"));
        QCOMPARE((*back.to - back.from).count(), -3'600'000); // to − from = by
        w.tell(act::ClockJumped{{}, Minutes(30)}, 60, {});
        QCOMPARE(w.session().interruptions.last().cause, text("suspend"));
        QCOMPARE(toMs(w.session().interruptions.last().from), toMs(interlude::tests::at(30)));
        w.tell(act::SessionPaused{1, {}, false}, 61);
        w.tell(act::ProgramStarted{text("0.1")}, 70, {});
        QCOMPARE(w.session().interruptions.last().cause, text("pause")); // already interrupted
        QCOMPARE(w.digest(), World::digestOf(w.replayed()));
    }

    void replayEqualsLiveAfterEveryEvent() {
        World w;
        w.tell(w.startJ2(5), 5);
        w.confirmUntil(text("start"), 6);
        // Each prefix of the ledger, folded from nothing, is what the longer fold passed through.
        Shop rolling(w.catalogue());
        QList<Event> events;
        (void)w.store().read(0, [&](const Event& e) {
            events.append(e);
            return true;
        });
        for (qsizetype n = 0; n < events.size(); ++n) {
            QVERIFY(rolling.apply(events[n]));
            if (n % 4 != 0 && n != events.size() - 1)
                continue;
            Shop fresh(w.catalogue());
            for (qsizetype k = 0; k <= n; ++k)
                QVERIFY(fresh.apply(events[k]));
            QCOMPARE(World::digestOf(fresh), World::digestOf(rolling));
        }
        QCOMPARE(World::digestOf(rolling), w.digest());
    }
};

INTERLUDE_TEST(SessionFoldTest)
#include "session_fold_test.moc"
