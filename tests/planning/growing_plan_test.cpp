// A plan that grows is timed from snapshots; its times are those of the timetable made anew.

#include "model/planning/timetable/growing_plan.h"
#include "tests/harness/run_tests.h"
#include "tests/planning/random_shop.h"

#include <QTest>

using namespace interlude::planning;
using namespace interlude::tests;

namespace {

/// The last job of a printer in words that show every time; empty where there is none.
std::string last(const TimedJob* job) {
    if (!job)
        return "-";
    std::string out = std::to_string(job->job) + "/" + std::to_string(job->variant);
    for (const TimedWork& w : job->work)
        out += " " + std::to_string(w.start) + "…" + std::to_string(w.end) + "n" + std::to_string(w.took[0]);
    for (const Minute m : {job->printStart, job->printEnd, job->complete, job->turnaround, job->changeoverMinutes})
        out += " " + std::to_string(m);
    return out;
}

Minute completeAnew(const Problem& problem, Orders orders, std::size_t printer, Place place) {
    orders.printers[printer].push_back(place);
    const Timetable t = timetable(problem, *problem.changes, orders);
    const auto& list = t.printers[printer];
    return list.empty() || list.back().job != place.job ? never : list.back().complete;
}

/// Compares what a shop's plan says of every offer while it grows by the jobs of `goal`, printers in turn.
void grow(const Problem& problem, const Orders& goal, int& offers, int& notPlaced) {
    Orders orders = goal;
    for (auto& list : orders.printers)
        list.clear();
    GrowingPlan plan(problem, *problem.changes, orders);
    for (std::size_t i = 0; i < problem.jobs.size(); ++i)
        for (std::size_t p = 0; p < orders.printers.size(); ++p) {
            if (i >= goal.printers[p].size())
                continue;
            const Place place = goal.printers[p][i];
            for (std::size_t q = 0; q < orders.printers.size(); ++q) {
                QCOMPARE(plan.completeWith(static_cast<int>(q), place), completeAnew(problem, orders, q, place));
                ++offers;
            }
            plan.append(static_cast<int>(p), place);
            orders.printers[p].push_back(place);
            const Timetable t = timetable(problem, *problem.changes, orders);
            notPlaced += t.notPlaced.empty() ? 0 : 1;
            for (std::size_t q = 0; q < orders.printers.size(); ++q)
                QCOMPARE(last(plan.last(static_cast<int>(q))),
                         last(t.printers[q].empty() ? nullptr : &t.printers[q].back()));
        }
    QVERIFY(plan.orders().printers == goal.printers);
}

} // namespace

class GrowingPlanTest : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void everyOfferAsTheTimetableAnew() {
        int offers = 0, notPlaced = 0;
        for (std::uint64_t seed = 0; seed < (longRun() ? 3000U : 700U); ++seed) {
            const RandomShop shop = randomShop(seed);
            for (const Orders* goal : {&shop.orders, &shop.otherOrders}) {
                grow(shop.problem, *goal, offers, notPlaced);
                if (QTest::currentTestFailed())
                    QFAIL(qPrintable(QStringLiteral("seed %1").arg(seed)));
            }
        }
        // Both ways were gone often enough.
        QVERIFY(offers > 3000);
        QVERIFY(notPlaced > 100);
    }
};

INTERLUDE_TEST(GrowingPlanTest)
#include "growing_plan_test.moc"
