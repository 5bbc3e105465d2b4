// Group by family on the sample fleet: families in runs, and nothing is lost by it.

#include "model/planning/dispatch.h"
#include "model/planning/plans/draft.h"
#include "model/planning/plans/plan_maker.h"
#include "tests/changeover_page/sample_bench.h"
#include "tests/harness/run_tests.h"

#include <set>

using namespace interlude;
using namespace interlude::tests;
using namespace interlude::planning;

class GroupingTest final : public QObject {
    Q_OBJECT
private:
    std::unique_ptr<SampleBench> sample;
    ShopProblem problem;

    Timetable timed(const Orders& orders) { return timetable(problem.problem, *problem.changes, orders); }
    static std::set<int> placed(const Timetable& t) {
        std::set<int> out;
        for (const auto& list : t.printers)
            for (const TimedJob& j : list) out.insert(j.job);
        return out;
    }
    /// Those on the board that have no place, with the reason.
    QStringList without(const Orders& orders) {
        QStringList out;
        for (const NotPlaced& n : timed(orders).notPlaced)
            if (!std::binary_search(orders.leftOut.begin(), orders.leftOut.end(), n.job))
                out << QStringLiteral("%1: %2").arg(problem.jobs[n.job].id, QString::fromStdString(n.reason));
        return out;
    }

private Q_SLOTS:
    void initTestCase() {
        sample = std::make_unique<SampleBench>();
        QVERIFY2(sample->catalogue, qPrintable(sample->problems));
        problem = shopProblem(sample->shop(), sample->bench->now());
    }
    /// From nothing: what it puts on a printer can be done there, and few are left that Improve would place.
    void fromNothing() {
        const Orders grouped = groupByFamily(problem, problem.noOrders());
        const QStringList none = without(grouped);
        QVERIFY2(none.isEmpty(), qPrintable(none.join(QLatin1Char('\n'))));
        SearchOptions options;
        options.iterations = 300;
        const PlanReport best = makePlan(sample->shop(), problem, options);
        QVERIFY2(placed(timed(grouped)).size() + 3 >= placed(best.timetable).size(),
                 qPrintable(QStringLiteral("%1 of %2").arg(placed(timed(grouped)).size()).arg(placed(best.timetable).size())));
    }
    /// What had a place keeps one, at all seeds of the search and at some hours of the day.
    void whatIsPlacedStaysPlaced() {
        int changed = 0;
        for (const int hours : {0, 5, 11, 20}) {
            problem = shopProblem(sample->shop(), sample->bench->now() + std::chrono::hours(hours));
            for (std::uint64_t seed = 1; seed <= (longRun() ? 20u : 3u); ++seed) {
                SearchOptions options;
                options.iterations = 200;
                options.seed = seed;
                const PlanReport before = makePlan(sample->shop(), problem, options);
                const Orders grouped = groupByFamily(problem, before.orders);
                // What could not be done before either is left as it is, or on the list.
                for (const QString& none : without(grouped)) QVERIFY2(without(before.orders).contains(none), qPrintable(none));
                const std::set<int> after = placed(timed(grouped));
                changed += grouped == before.orders ? 0 : 1;
                for (const int job : placed(before.timetable))
                    QVERIFY2(after.contains(job), qPrintable(problem.jobs[job].id));
            }
        }
        QVERIFY(changed > 0);
    }
};

INTERLUDE_TEST(GroupingTest)
#include "grouping_test.moc"
