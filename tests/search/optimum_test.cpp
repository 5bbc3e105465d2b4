// The search against trying every plan, and the bounds against the same optima.
#include "model/planning/bounds.h"
#include "model/planning/search.h"
#include "tests/harness/run_tests.h"
#include "tests/search/crew_shop.h"
#include "tests/search/small_shops.h"

using namespace interlude::planning;
using interlude::tests::longRun;

namespace {

constexpr std::int64_t moves = 20'000;

SearchResult searched(const Problem& problem, Goal goal) {
    SearchOptions options;
    options.goal = goal;
    options.iterations = moves;
    return improve(problem, *problem.changes, options);
}

QByteArray named(Form form, Goal goal, int seed) {
    return QByteArrayLiteral("form ") + QByteArray::number(static_cast<int>(form)) + ", goal " +
           QByteArray::number(static_cast<int>(goal)) + ", seed " + QByteArray::number(seed);
}

} // namespace

class OptimumTest : public QObject {
    Q_OBJECT

private Q_SLOTS:
    void everySmallShopIsSolvedToTheOptimum();
    void whereNothingIsDueAndWaitingCostsNothing();
    void everySmallCrewShopIsSolvedToTheOptimum();
    void boundsNeverExceedTheOptimumWithCrewAndNozzles();
    void aBoundIsReachedWhereNothingIsLeftOut();
    void noBoundForChangeoversThatDependOnThePast();
};

void OptimumTest::everySmallShopIsSolvedToTheOptimum() {
    const int seeds = longRun() ? 100 : 70;
    int shops = 0, tight = 0;
    const std::pair<Form, Goal> forms[] = {{Form::DueDates, Goal::Tardiness},
                                           {Form::Makespan, Goal::Makespan},
                                           {Form::Changeovers, Goal::Changeover},
                                           {Form::Releases, Goal::Tardiness},
                                           {Form::Costs, Goal::Cost},
                                           {Form::VariantsAndRunning, Goal::Cost},
                                           {Form::Releases, Goal::Cost},
                                           {Form::Releases, Goal::Makespan},
                                           {Form::VariantsAndRunning, Goal::Makespan}};
    for (int seed = 1; seed <= seeds; ++seed)
        for (const auto& [form, goal] : forms) {
            const Problem problem = smallShop(form, static_cast<std::uint64_t>(seed));
            const Worth best = optimum(problem, goal);
            const SearchResult found = searched(problem, goal);
            QVERIFY2(found.worth == best, named(form, goal, seed));
            const auto bound = lowerBound(problem, *problem.changes, goal, std::vector<char>(problem.jobs.size(), 1));
            QVERIFY2(bound.has_value(), named(form, goal, seed));
            QVERIFY2(*bound <= best.value, named(form, goal, seed) + ": bound " + QByteArray::number(qint64(*bound)) +
                                               " above " + QByteArray::number(qint64(best.value)));
            tight += *bound == best.value ? 1 : 0;
            ++shops;
        }
    qInfo("%d shops solved to the optimum; on %d of them the bound is the optimum", shops, tight);
    QVERIFY(shops >= 300);
}

// Then only the changeovers cost anything.
void OptimumTest::whereNothingIsDueAndWaitingCostsNothing() {
    for (int seed = 1; seed <= 30; ++seed) {
        Problem problem = smallShop(Form::Changeovers, static_cast<std::uint64_t>(seed));
        for (JobNumbers& job : problem.jobs) {
            job.due.reset();
            job.lateCostPerHour = job.holdingCostPerHour = 0;
        }
        QVERIFY2(searched(problem, Goal::Cost).worth == optimum(problem, Goal::Cost), named(Form::Changeovers, Goal::Cost, seed));
    }
}

// One or two people for two or three printers, shifts, preparations, variants and scarce nozzles.
void OptimumTest::everySmallCrewShopIsSolvedToTheOptimum() {
    int shops = 0, binding = 0;
    for (int seed = 1; seed <= (longRun() ? 20 : 10); ++seed)
        for (const Goal goal : {Goal::Cost, Goal::Tardiness, Goal::Makespan}) {
            CrewShopShape shape;
            shape.printers = 2 + seed % 2;
            shape.jobs = shape.printers == 2 ? 5 + seed / 2 % 2 : 5;
            shape.crew = 1 + seed / 4 % 2;
            shape.nozzles = seed % 3 != 0;
            shape.materials = 4;
            shape.types = 2;
            shape.seed = static_cast<std::uint64_t>(seed);
            const Problem problem = crewShop(shape);
            const Worth best = optimum(problem, goal);
            const SearchResult found = searched(problem, goal);
            QVERIFY2(found.worth == best, named(Form::Costs, goal, seed) + ": " +
                                              QByteArray::number(qint64(found.worth.value)) + " is not " +
                                              QByteArray::number(qint64(best.value)));
            // With people enough at every hour the same plan would be worth more.
            Problem manned = problem;
            manned.crew = {{0, 100}};
            Evaluator exact(manned, *problem.changes);
            binding += worth(exact.evaluate(found.orders), goal) < best ? 1 : 0;
            ++shops;
        }
    qInfo("%d crew shops solved to the optimum; people bind in %d of them", shops, binding);
    QVERIFY(binding > shops / 3);
}

void OptimumTest::boundsNeverExceedTheOptimumWithCrewAndNozzles() {
    for (int seed = 1; seed <= (longRun() ? 30 : 12); ++seed) {
        CrewShopShape shape;
        shape.printers = 2;
        shape.jobs = 4;
        shape.crew = 1 + seed % 2;
        shape.nozzles = seed % 3 != 0;
        shape.materials = 3;
        shape.types = 2;
        shape.seed = static_cast<std::uint64_t>(seed);
        const Problem problem = crewShop(shape);
        for (const Goal goal : {Goal::Cost, Goal::Changeover, Goal::Tardiness, Goal::Makespan}) {
            std::int64_t least = std::numeric_limits<std::int64_t>::max();
            Evaluator exact(problem, *problem.changes);
            everyPlan(problem, [&](const Orders& orders) {
                const Worth w = worth(exact.evaluate(orders), goal);
                if (w.notPlaced == 0)
                    least = std::min(least, w.value);
            });
            const auto bound = lowerBound(problem, *problem.changes, goal, std::vector<char>(problem.jobs.size(), 1));
            QVERIFY(bound.has_value());
            QVERIFY2(*bound <= least, named(Form::Costs, goal, seed));
        }
    }
}

// One printer, three jobs of one label that it wears already, 30 minutes each, no removal: done at 30, 60, 90 whatever
// the order. Late cost 60 cents an hour and due at 0: 60 × (30 + 60 + 90) = 10,800 cents per hour × minutes.
void OptimumTest::aBoundIsReachedWhereNothingIsLeftOut() {
    Problem problem = labelProblem(1, 0, {{{0}}}, {{0}, {0}, {0}});
    for (JobNumbers& job : problem.jobs) {
        job.variants[0].print = {30};
        job.due = 0;
        job.lateCostPerHour = 60;
    }
    const std::vector<char> all(3, 1);
    QCOMPARE(lowerBound(problem, *problem.changes, Goal::Tardiness, all), std::optional<std::int64_t>(10800));
    QCOMPARE(lowerBound(problem, *problem.changes, Goal::Makespan, all), std::optional<std::int64_t>(90));
    QCOMPARE(lowerBound(problem, *problem.changes, Goal::Changeover, all), std::optional<std::int64_t>(0));
    // Only two of them placed: done at 30 and 60.
    QCOMPARE(lowerBound(problem, *problem.changes, Goal::Makespan, {1, 0, 1}), std::optional<std::int64_t>(60));
}

namespace {
class PastChanges : public LabelChanges {
public:
    using LabelChanges::LabelChanges;
    bool pairwise() const override { return false; }
};
} // namespace

void OptimumTest::noBoundForChangeoversThatDependOnThePast() {
    Problem problem = labelProblem(1, 1, {{{0, 5}, {7, 0}}}, {{0}});
    PastChanges past({{{0, 5}, {7, 0}}}, {{0}});
    QVERIFY(!lowerBound(problem, past, Goal::Changeover, {1}).has_value());
    QCOMPARE(lowerBound(problem, past, Goal::Makespan, {1}), std::optional<std::int64_t>(1)); // its print alone
}

INTERLUDE_TEST(OptimumTest)
#include "optimum_test.moc"
