// A countdown and its readings when the program restarts, the machine sleeps, or somebody sets the wall clock: never a
// wrong "done", and the number is the true one afterwards. The events are those that the workbench records.

#include "model/clock/clock.h"
#include "tests/harness/run_tests.h"
#include "tests/session/bench.h"

#include <cmath>

using namespace interlude;
using namespace interlude::tests;

namespace {

/// A chamber from 90 to 43 °C that is due 2940 s · ln(65/18) = 3775.4 s after `morning`.
struct Cooling : Bench {
    Cooling() {
        open();
        printed("bay-1", 90, morning - 2h, morning - 1min);
        start({Step("cool").cool(Subject::Chamber, 43).onlyBelow(43), Step("clean").hands(5).after({"cool"})}, morning);
        begin("cool", morning);
    }
    /// The wall clock is set; the workbench notices and records it. `slept` is time in suspend.
    void setClock(ManualClock& clock, Milliseconds by, Milliseconds slept = 0ms) {
        clock.setWall(clock.now() + by);
        QVERIFY(happen(act::ClockJumped{by, slept}, clock.now()));
    }
    bool isDone() const { return session().settled("cool"); }
};
const Milliseconds span{static_cast<qint64>(std::ceil(2940 * std::log(65.0 / 18) * 1000))};

} // namespace

class ClockTest : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void restartShowsTheTruth() {
        Cooling b;
        ManualClock clock(morning);
        clock.advance(10min);
        const Instant due = *b.only(clock.now()).due;
        QCOMPARE(due, morning + span);
        clock.advance(40min); // the PC was off
        QVERIFY(b.happen(act::ProgramStarted{"test"}, clock.now()));
        QCOMPARE(*b.only(clock.now()).due, due);
        QVERIFY(needsFreshReading(b.session(), "cool", clock.now()));
        QCOMPARE(guide(b.shop, b.session(), clock.now()).blockedBecause,
                 QStringLiteral("A reading is needed: the session was interrupted for 50 minutes"));
    }
    void overIsNotDone() {
        Cooling b;
        ManualClock clock(morning);
        clock.advance(3h);
        const Countdown c = b.only(clock.now());
        QVERIFY(*c.left(clock.now()) < 0ms);
        QVERIFY(!b.isDone());
        QVERIFY(needsFreshReading(b.session(), "cool", clock.now()));
        QVERIFY(guide(b.shop, b.session(), clock.now()).current.isEmpty());
    }
    void setForward() {
        Cooling b;
        ManualClock clock(morning);
        clock.advance(10min);
        const Milliseconds left = *b.only(clock.now()).left(clock.now());
        b.setClock(clock, 2h); // without the correction it would look over
        QCOMPARE(*b.only(clock.now()).left(clock.now()), left);
        QVERIFY(!b.isDone());
        clock.advance(5min);
        QCOMPARE(*b.only(clock.now()).left(clock.now()), left - Milliseconds(5min));
    }
    void setBack() {
        Cooling b;
        ManualClock clock(morning);
        clock.advance(10min);
        const Milliseconds left = *b.only(clock.now()).left(clock.now());
        b.setClock(clock, -2h);
        QCOMPARE(*b.only(clock.now()).left(clock.now()), left);
        b.setClock(clock, 30min); // half of it undone
        QCOMPARE(*b.only(clock.now()).left(clock.now()), left);
    }
    // Begun after the clock was set back: its recorded start lies before the jump's `from`, and yet it is not moved.
    void begunAfterSettingBack() {
        Bench b;
        b.open();
        b.start({Step("soak").wait(20)}, morning);
        ManualClock clock(morning);
        clock.advance(1h);
        clock.setWall(clock.now() - 30min);
        QVERIFY(b.happen(act::ClockJumped{-30min, 0ms}, clock.now()));
        b.begin("soak", clock.now());
        QCOMPARE(*b.only(clock.now()).left(clock.now()), Milliseconds(20min));
    }
    void sleepIsTimeToo() {
        Cooling b;
        ManualClock clock(morning);
        clock.advance(10min);
        const Instant due = *b.only(clock.now()).due;
        clock.advance(45min); // both clocks go on in suspend
        QVERIFY(b.happen(act::ClockJumped{0ms, 45min}, clock.now()));
        QCOMPARE(*b.only(clock.now()).due, due);
        QVERIFY(needsFreshReading(b.session(), "cool", clock.now()));
        QVERIFY(guide(b.shop, b.session(), clock.now()).blockedBecause.contains("45 minutes"));
    }
    void readingsAgeThroughJumps() {
        Cooling b;
        ManualClock clock(morning);
        clock.advance(10min);
        b.read(Sensor::Chamber, 60, clock.now());
        QVERIFY(!needsFreshReading(b.session(), "cool", clock.now()));
        // Set back by the age of the reading: by its time alone it would look fresh for ever.
        clock.advance(10min);
        b.setClock(clock, -10min);
        QVERIFY(needsFreshReading(b.session(), "cool", clock.now()));
        QVERIFY(guide(b.shop, b.session(), clock.now()).blockedBecause.contains("the clock was set by 10 minutes"));
        b.read(Sensor::Chamber, 58, clock.now());
        QVERIFY(!needsFreshReading(b.session(), "cool", clock.now()));
        QVERIFY(guide(b.shop, b.session(), clock.now()).blockedBecause.isEmpty());
        // And the countdown is based on it from its true moment.
        QVERIFY(near(secondsTo(clock.now(), b.only(clock.now()).due), 2940 * std::log(33.0 / 18), 0.002));
    }
    // A break is over when it is over: its end was told by a clock that showed more than the present one.
    void aBreakBeforeTheClockWasSetBack() {
        Cooling b;
        ManualClock clock(morning);
        clock.advance(10min);
        QVERIFY(b.happen(act::SessionPaused{1, "", false}, clock.now()));
        clock.advance(20min);
        QVERIFY(b.happen(act::SessionResumed{1, {}}, clock.now()));
        clock.advance(1min);
        b.setClock(clock, -15min);
        b.read(Sensor::Chamber, 58, clock.now());
        clock.advance(1s);
        QVERIFY(!needsFreshReading(b.session(), "cool", clock.now()));
        QVERIFY(guide(b.shop, b.session(), clock.now()).blockedBecause.isEmpty());
    }
    // The clock does not wait until a paused session goes on.
    void setWhileTheSessionIsPaused() {
        for (const Milliseconds by : {Milliseconds(2h), Milliseconds(-2h)}) {
            Cooling b;
            ManualClock clock(morning);
            clock.advance(10min);
            b.read(Sensor::Chamber, 80, clock.now());
            QVERIFY(b.happen(act::SessionPaused{1, "mind the latch", true}, clock.now()));
            const Milliseconds left = *b.only(clock.now()).left(clock.now());
            b.setClock(clock, by);
            QCOMPARE(*b.only(clock.now()).left(clock.now()), left);
            QVERIFY(guide(b.shop, b.session(), clock.now()).blockedBecause.contains("mind the latch"));
            clock.advance(5min);
            QVERIFY(b.happen(act::SessionResumed{1, {}}, clock.now()));
            QCOMPARE(*b.only(clock.now()).left(clock.now()), left - Milliseconds(5min));
            QVERIFY(needsFreshReading(b.session(), "cool", clock.now()));
            b.read(Sensor::Chamber, 75, clock.now());
            QVERIFY(!needsFreshReading(b.session(), "cool", clock.now()));
            QCOMPARE(b.session().interruptions.last().by, QStringLiteral("ML"));
        }
    }
    void aReadingFromTheFutureIsUnknown() {
        Cooling b;
        b.read(Sensor::Chamber, 40, morning + 30min); // a clock was wrong and nobody noticed
        QVERIFY(needsFreshReading(b.session(), "cool", morning + 10min));
        QCOMPARE(*b.only(morning + 10min).due, morning + span); // not believed either
    }
    void shortJumpsAreNoInterruption() {
        Cooling b;
        ManualClock clock(morning);
        clock.advance(10min);
        b.read(Sensor::Chamber, 60, clock.now());
        b.setClock(clock, 20s);
        QVERIFY(!needsFreshReading(b.session(), "cool", clock.now())); // 0 s old, not 20
        clock.advance(61s);
        QVERIFY(needsFreshReading(b.session(), "cool", clock.now()));
    }
};

INTERLUDE_TEST(ClockTest)
#include "clock_test.moc"
