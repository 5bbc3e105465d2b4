// What the search promises whatever the shop: deterministic, locks kept, never worse, limits honoured.
#include "model/planning/dispatch.h"
#include "model/planning/search.h"
#include "model/planning/yardsticks.h"
#include "tests/harness/run_tests.h"
#include "tests/search/crew_shop.h"
#include "tests/search/small_shops.h"

#include <QElapsedTimer>

#include <set>

using namespace interlude::planning;

namespace {

const Goal goals[] = {Goal::Cost, Goal::Changeover, Goal::Tardiness, Goal::Makespan};

/// One shop for each chain, and two where people and nozzles bind.
std::vector<Problem> shops() {
    std::vector<Problem> out;
    out.push_back(smallShop(Form::DueDates, 5));
    out.push_back(smallShop(Form::Makespan, 5));
    out.push_back(smallShop(Form::VariantsAndRunning, 5));
    CrewShopShape shape;
    shape.printers = 3;
    shape.jobs = 14;
    shape.crew = 1;
    out.push_back(crewShop(shape));
    shape.crew = 0;
    shape.nozzles = false;
    out.push_back(crewShop(shape));
    return out;
}

SearchResult run(const Problem& problem, Goal goal, std::int64_t iterations, std::uint64_t seed,
                 std::optional<Orders> start = {}) {
    SearchOptions options;
    options.goal = goal;
    options.iterations = iterations;
    options.seed = seed;
    options.start = std::move(start);
    const auto own = problem.changes->clone();
    return improve(problem, *own, options);
}

/// Every job once, and none that runs.
bool complete(const Problem& problem, const Orders& orders) {
    std::multiset<int> seen(orders.leftOut.begin(), orders.leftOut.end());
    for (const auto& list : orders.printers)
        for (const Place& p : list)
            seen.insert(p.job);
    for (const PrinterNumbers& p : problem.printers)
        if (p.partLies && p.runningJob >= 0)
            seen.insert(p.runningJob);
    return seen.size() == problem.jobs.size() && std::set<int>(seen.begin(), seen.end()).size() == seen.size();
}

} // namespace

class SearchTest : public QObject {
    Q_OBJECT

private Q_SLOTS:
    void sameSeedAndIterationsGiveTheSamePlan();
    void theClockHasNoSayWithIterations();
    void lockedJobsKeepPrinterAndPosition();
    void neverWorseThanStartOrDispatcher();
    void secondsAreHonoured();
    void stopsWhenAsked();
    void tellsItsBestPlan();
    void aJobThatFitsNowhereIsNamedWithItsReason();
    void nothingToPlanIsAPlan();
};

void SearchTest::sameSeedAndIterationsGiveTheSamePlan() {
    for (const Problem& problem : shops())
        for (const Goal goal : goals) {
            const SearchResult a = run(problem, goal, 3000, 7), b = run(problem, goal, 3000, 7);
            QVERIFY(a.orders == b.orders);
            QCOMPARE(a.iterations, b.iterations);
            QVERIFY(complete(problem, a.orders));
        }
}

// A clock that leaps about changes how often the search looks at it, and nothing else.
void SearchTest::theClockHasNoSayWithIterations() {
    for (const Problem& problem : shops()) {
        const SearchResult plain = run(problem, Goal::Cost, 2000, 3);
        SearchOptions options;
        options.iterations = 2000;
        options.seed = 3;
        double now = 0;
        options.clock = [&now] { return now += 0.37; };
        int told = 0;
        options.progress = [&told](const Progress&) { ++told; };
        const auto own = problem.changes->clone();
        const SearchResult leaping = improve(problem, *own, options);
        QVERIFY(plain.orders == leaping.orders);
        QVERIFY(told > 0);
    }
}

void SearchTest::lockedJobsKeepPrinterAndPosition() {
    for (const Problem& problem : shops())
        for (const Goal goal : goals)
            for (std::uint64_t seed = 1; seed <= 5; ++seed) {
                const auto own = problem.changes->clone();
                Orders start = dispatch(problem, *own);
                Random random(seed);
                std::vector<std::tuple<std::size_t, std::size_t, Place>> locked;
                for (std::size_t p = 0; p < start.printers.size(); ++p)
                    for (std::size_t i = 0; i < start.printers[p].size(); ++i)
                        if (random.below(4) == 0) {
                            const Place place = start.printers[p][i];
                            start.locked[static_cast<std::size_t>(place.job)] = 1;
                            locked.emplace_back(p, i, place);
                        }
                const SearchResult found = run(problem, goal, 1500, seed, start);
                QVERIFY(complete(problem, found.orders));
                for (const auto& [p, i, place] : locked) {
                    QVERIFY(found.orders.printers[p].size() > i);
                    QCOMPARE(found.orders.printers[p][i].job, place.job);
                    QCOMPARE(found.orders.printers[p][i].variant, place.variant);
                }
            }
}

void SearchTest::neverWorseThanStartOrDispatcher() {
    for (const Problem& problem : shops())
        for (const Goal goal : goals) {
            const auto own = problem.changes->clone();
            Evaluator exact(problem, *own);
            const Orders start = firstInFirstOut(problem, *own);
            const Worth ofStart = worth(exact.evaluate(start), goal);
            const Worth ofDispatch = worth(exact.evaluate(dispatch(problem, *own)), goal);
            for (const std::int64_t iterations : {0, 1, 500}) {
                const SearchResult found = run(problem, goal, iterations, 2, start);
                QVERIFY(found.worth <= ofStart);
                QVERIFY(found.worth <= ofDispatch);
                QVERIFY(found.worth == worth(exact.evaluate(found.orders), goal));
            }
        }
}

void SearchTest::secondsAreHonoured() {
    CrewShopShape shape;
    const Problem crew = crewShop(shape);
    const Problem apart = smallShop(Form::Releases, 3);
    for (const Problem* problem : {&crew, &apart}) {
        // Time by a clock that the test moves, a millisecond a look, so that a slow machine cannot fail it.
        SearchOptions options;
        options.seconds = 0.3;
        double now = 100;
        options.clock = [&now] { return now += 1e-3; };
        const SearchResult found = improve(*problem, *problem->changes, options);
        QVERIFY2(found.seconds >= 0.3 && found.seconds < 0.35, QByteArray::number(found.seconds));
        QVERIFY(found.iterations > 0);
    }
}

void SearchTest::stopsWhenAsked() {
    const Problem problem = crewShop({});
    SearchOptions options;
    int asked = 0;
    options.stop = [&asked] { return ++asked >= 5; };
    const SearchResult found = improve(problem, *problem.changes, options);
    QCOMPARE(asked, 5);
    QVERIFY(complete(problem, found.orders));
}

void SearchTest::tellsItsBestPlan() {
    const Problem problem = crewShop({});
    SearchOptions options;
    options.iterations = 400;
    double now = 0;
    options.clock = [&now] { return now += 0.05; };
    Worth last{1 << 30, 0};
    int told = 0;
    options.progress = [&](const Progress& p) {
        ++told;
        QVERIFY(p.plan && complete(problem, *p.plan));
        QVERIFY(p.best <= last);
        last = p.best;
    };
    const SearchResult found = improve(problem, *problem.changes, options);
    QVERIFY(told >= 2);
    QVERIFY(found.worth <= last);
}

void SearchTest::aJobThatFitsNowhereIsNamedWithItsReason() {
    Problem problem = smallShop(Form::Makespan, 1);
    problem.jobs[1].variants[0].print.assign(problem.printers.size(), -1);
    problem.jobs[1].variants[0].whyNot.assign(problem.printers.size(), "taller than the build chamber");
    const SearchResult found = run(problem, Goal::Makespan, 2000, 1);
    QCOMPARE(found.worth.notPlaced, 1);
    const Timetable t = timetable(problem, *problem.changes, found.orders);
    QCOMPARE(t.notPlaced.size(), std::size_t(1));
    QCOMPARE(t.notPlaced[0].job, 1);
    QCOMPARE(t.notPlaced[0].reason, std::string("taller than the build chamber"));
}

void SearchTest::nothingToPlanIsAPlan() {
    Problem noJobs = labelProblem(2, 0, {{{0}}, {{0}}}, {});
    QCOMPARE(run(noJobs, Goal::Cost, 100, 1).worth.value, std::int64_t(0));
    Problem noPrinters = labelProblem(0, 0, {}, {{0}});
    const SearchResult found = run(noPrinters, Goal::Cost, 100, 1);
    QCOMPARE(found.orders.leftOut, std::vector<int>{0});
    QCOMPARE(found.worth.notPlaced, 1);
}

INTERLUDE_TEST(SearchTest)
#include "search_test.moc"
