// The timetable against its slow twin: thousands of small random shops, every number.

#include "model/planning/timetable/timetable.h"
#include "tests/harness/run_tests.h"
#include "tests/planning/dump.h"
#include "tests/planning/minute_twin.h"
#include "tests/planning/random_shop.h"

#include <QTest>

using namespace interlude::planning;
using namespace interlude::tests;

namespace {

std::uint64_t shops() {
    return longRun() ? 20000 : 3000;
}

/// Empty when the two agree.
QByteArray difference(std::uint64_t seed, const Problem& problem, const Orders& orders) {
    const std::string quick = shown(timetable(problem, *problem.changes, orders));
    const std::string slow = shown(minuteTwin(problem, *problem.changes, orders));
    if (quick == slow)
        return {};
    return QByteArray::fromStdString("seed " + std::to_string(seed) + "\n" + shown(problem, orders) +
                                     "--- timetable\n" + quick + "--- twin\n" + slow);
}

/// What the shops so far have shown at least once: a comparison of shops in which nothing happens proves nothing.
struct Seen {
    int twoPeople = 0, grown = 0, both = 0, freed = 0, promoted = 0, droppedLater = 0, running = 0, sessions = 0,
        allPlaced = 0, waitedForRelease = 0, neverOut = 0;

    void look(const Timetable& t, const Orders& orders) {
        size_t inOrders = 0;
        for (const auto& list : orders.printers)
            inOrders += list.size();
        size_t planned = 0;
        for (const auto& printer : t.printers)
            for (const TimedJob& job : printer) {
                look(job);
                planned += job.change ? 1U : 0U;
            }
        droppedLater += planned < inOrders;
        allPlaced += t.notPlaced.empty();
    }
    void look(const TimedJob& job) {
        running += job.running;
        sessions += job.session;
        neverOut += job.complete >= never;
        waitedForRelease += job.change && job.printStart > job.changeoverDone;
        for (const TimedWork& w : job.work) {
            twoPeople += w.work->people == 2;
            grown += w.end - w.start > w.work->minutes;
            both += w.took[0] >= 0 && w.took[1] >= 0;
            freed += w.freed[0] >= 0 || w.freed[1] >= 0;
            promoted += w.work->kind == Kind::Preparation && job.work.size() > 1 && job.work[1].start == w.end;
        }
    }
};

} // namespace

class TwinTest : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void everyNumberAgrees() {
        for (std::uint64_t seed = 0; seed < shops(); ++seed) {
            const RandomShop shop = randomShop(seed);
            const QByteArray found = difference(seed, shop.problem, shop.orders);
            if (!found.isEmpty())
                QFAIL(found.constData());
        }
    }
    void theShopsAreLively() {
        Seen seen;
        for (std::uint64_t seed = 0; seed < 1000; ++seed) {
            const RandomShop shop = randomShop(seed);
            seen.look(timetable(shop.problem, *shop.problem.changes, shop.orders), shop.orders);
        }
        for (const int times : {seen.twoPeople, seen.grown, seen.both, seen.freed, seen.promoted, seen.droppedLater,
                                seen.running, seen.sessions, seen.allPlaced, seen.waitedForRelease})
            QVERIFY2(times >= 30, qPrintable(QString::number(times)));
        QVERIFY(seen.neverOut >= 5);
    }
    void evaluatorKeepsNoMemoryOfOtherOrders() {
        for (std::uint64_t seed = 0; seed < shops(); ++seed) {
            const RandomShop shop = randomShop(seed);
            Evaluator evaluator(shop.problem, *shop.problem.changes);
            for (const Orders* orders : {&shop.orders, &shop.otherOrders, &shop.orders}) {
                const std::string want = shown(timetable(shop.problem, *shop.problem.changes, *orders).totals);
                const std::string got = shown(evaluator.evaluate(*orders));
                QVERIFY2(got == want, ("seed " + std::to_string(seed) + "\n" + got + want).c_str());
            }
        }
    }
    void theSameTwice() {
        for (std::uint64_t seed = 0; seed < 200; ++seed) {
            const RandomShop shop = randomShop(seed), again = randomShop(seed);
            QCOMPARE(shown(shop.problem, shop.orders), shown(again.problem, again.orders));
            QCOMPARE(shown(timetable(shop.problem, *shop.problem.changes, shop.orders)),
                     shown(timetable(again.problem, *again.problem.changes, again.orders)));
        }
    }
};

INTERLUDE_TEST(TwinTest)
#include "twin_test.moc"
