// When a measured value must be taken (again), and what may be taken back.

#include "model/shop/take_back.h"
#include "tests/harness/run_tests.h"
#include "tests/session/bench.h"

using namespace interlude;
using namespace interlude::tests;

namespace {
struct Waiting : Bench {
    Waiting() {
        open();
        start({Step("cool").cool(Subject::Chamber, 43).onlyBelow(43), Step("soak").wait(5),
               Step("grip").hands(3).onlyBelow(43, Sensor::Head), Step("wipe").hands(3).after({"grip"}),
               Step("start").hands(1).after({"wipe"}).effect(Effect::StartPrint)},
              morning);
        begin("cool", morning);
    }
    bool needs(const StepId& step, Instant now) const { return needsFreshReading(session(), step, now); }
};
} // namespace

class ReadingTest : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void staleAfterAMinute() {
        Waiting b;
        QVERIFY(b.needs("cool", morning));
        b.read(Sensor::Chamber, 42, morning + 1min);
        QVERIFY(!b.needs("cool", morning + 1min));
        QVERIFY(!b.needs("cool", morning + 2min)); // 60 s old is still known
        QVERIFY(b.needs("cool", morning + 2min + 1ms));
        QVERIFY(b.needs("cool", morning + 30s)); // it is of later: unknown
    }
    void ofTheRightSensor() {
        Waiting b;
        b.read(Sensor::Chamber, 30, morning);
        QVERIFY(b.needs("grip", morning));
        b.read(Sensor::SupportHead, 30, morning); // the other head
        QVERIFY(b.needs("grip", morning));
        b.read(Sensor::Head, 30, morning);
        QVERIFY(!b.needs("grip", morning));
    }
    void onlyWhereItIsAsked() {
        Waiting b;
        QVERIFY(!b.needs("soak", morning));
        QVERIFY(!b.needs("no such step", morning));
        b.read(Sensor::Chamber, 42, morning);
        b.confirm("cool", morning);
        QVERIFY(!b.needs("cool", morning + 1h)); // closed
    }
    void againAfterAPause() {
        Waiting b;
        QVERIFY(b.happen(act::SessionPaused{1, "", false}, morning + 1min));
        b.read(Sensor::Chamber, 42, morning + 2min + 50s);
        QVERIFY(b.needs("cool", morning + 2min + 55s)); // in a pause that is longer than a minute by now
        QVERIFY(b.happen(act::SessionResumed{1, {}}, morning + 3min));
        QVERIFY(b.needs("cool", morning + 3min)); // 10 s old, but of before going on
        b.read(Sensor::Chamber, 42, morning + 3min + 5s);
        QVERIFY(!b.needs("cool", morning + 3min + 6s));
    }
    void aShortPauseDoesNotMatter() {
        Waiting b;
        b.read(Sensor::Chamber, 42, morning + 1min);
        QVERIFY(b.happen(act::SessionPaused{1, "", false}, morning + 1min + 5s));
        QVERIFY(b.happen(act::SessionResumed{1, {}}, morning + 1min + 35s));
        QVERIFY(!b.needs("cool", morning + 1min + 40s));
    }
    void theGuideAsksOnlyForABreakThatMatters() {
        Waiting b;
        const auto blocked = [&](Instant now) { return guide(b.shop, b.session(), now).blockedBecause; };
        QVERIFY(blocked(morning + 5min).isEmpty()); // no break at all: just a step that wants a reading
        QVERIFY(b.happen(act::SessionPaused{1, "", false}, morning + 5min));
        QVERIFY(b.happen(act::SessionResumed{1, {}}, morning + 17min));
        QCOMPARE(blocked(morning + 17min), QStringLiteral("A reading is needed: the session was interrupted for 12 minutes"));
        b.read(Sensor::Chamber, 60, morning + 18min);
        QVERIFY(blocked(morning + 18min).isEmpty());
        QVERIFY(blocked(morning + 40min).isEmpty()); // stale again, but not because of that break
    }
    void takeBackTheLast() {
        Waiting b;
        QCOMPARE(takeBackable(b.shop, b.session()).error().reason, QStringLiteral("Nothing has been confirmed yet"));
        b.confirm("grip", morning + 1min);
        b.confirm("wipe", morning + 2min);
        QCOMPARE(*takeBackable(b.shop, b.session()), QStringLiteral("wipe"));
        QVERIFY(b.happen(act::TakenBack{1, "wipe", "wrong button"}, morning + 3min));
        QCOMPARE(*takeBackable(b.shop, b.session()), QStringLiteral("grip")); // wipe is begun again, not done
        QCOMPARE(guide(b.shop, b.session(), morning + 3min).current, QStringLiteral("wipe"));
        QVERIFY(b.happen(act::SessionPaused{1, "", false}, morning + 4min));
        QVERIFY(takeBackable(b.shop, b.session()).error().remedy.contains("go on"));
    }
    void aStartConfirmedByMistake() {
        Waiting b;
        for (const char* id : {"grip", "wipe", "start"}) b.confirm(id, morning + 1min);
        QCOMPARE(*takeBackable(b.shop, b.session()), QStringLiteral("start"));
        QVERIFY(b.happen(act::DowntimeBegun{"bay-1", "belt", {}}, morning + 2min)); // something else has happened to the printer
        const auto after = takeBackable(b.shop, b.session());
        QVERIFY(!after);
        QVERIFY(after.error().reason.contains("since it was started"));
        QVERIFY(after.error().remedy.contains("correction"));
    }
    /// What the guide offers is what the act allows, at every step of a session.
    void theGuideAndTheActSayTheSame() {
        Waiting b;
        const auto same = [&](Instant now) {
            const auto offered = takeBackable(b.shop, b.session());
            const act::TakenBack act{1, offered ? *offered : b.session().confirmedOrder.value(0), "mistake"};
            QCOMPARE(refusalsIn(objections(b.shop, act, "ML", now)).isEmpty(), offered.has_value());
        };
        same(morning);
        for (const char* id : {"grip", "wipe", "start"}) {
            b.confirm(id, morning + 1min);
            same(morning + 1min);
        }
        QVERIFY(b.happen(act::DowntimeBegun{"bay-1", "belt", {}}, morning + 2min));
        same(morning + 2min);
        QVERIFY(b.happen(act::SessionStopped{1, "enough"}, morning + 3min));
        same(morning + 3min);
    }
    void notWhenItIsOver() {
        Waiting b;
        b.confirm("grip", morning + 1min);
        QVERIFY(b.happen(act::SessionStopped{1, "enough"}, morning + 2min));
        QVERIFY(takeBackable(b.shop, b.session()).error().remedy.contains("correction"));
    }
    void aWaitTakenBackCountsFromItsFirstStart() {
        Waiting b;
        b.begin("soak", morning + 1min);
        b.confirm("soak", morning + 2min);
        QVERIFY(b.happen(act::TakenBack{1, "soak", "too early"}, morning + 3min));
        const QList<Countdown> all = countdowns(b.shop, b.session(), morning + 3min);
        QCOMPARE(all.size(), 2);
        QCOMPARE(*all[1].due, morning + 6min);
    }
};

INTERLUDE_TEST(ReadingTest)
#include "reading_test.moc"
