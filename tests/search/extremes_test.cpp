// Shops at the edges of what is allowed: nothing costs anything, changeovers of no length and such as there are not, jobs of a
// minute, due before they are released, released long after everything, one job, none.

#include "model/planning/bounds.h"
#include "model/planning/search.h"
#include "model/planning/yardsticks.h"
#include "tests/harness/run_tests.h"
#include "tests/search/small_shops.h"

#include <QTest>

using namespace interlude::planning;
using interlude::tests::longRun;

namespace {

constexpr Goal goals[] = {Goal::Cost, Goal::Changeover, Goal::Tardiness, Goal::Makespan};

Problem extremeShop(std::uint64_t seed) {
    Random random(seed * 7919 + 11);
    const int printers = 1 + random.below(3), jobs = random.below(printers == 1 ? 7 : 5), labels = 1 + random.below(4);
    const bool free = random.below(3) == 0, gaps = random.below(3) == 0, idle = random.below(3) == 0;
    LabelChanges::Table table(static_cast<std::size_t>(printers));
    for (auto& square : table) {
        square.resize(static_cast<std::size_t>(labels + 1));
        for (int i = 0; i <= labels; ++i)
            for (int j = 0; j <= labels; ++j)
                square[static_cast<std::size_t>(i)].push_back(i == j ? 0 : gaps && random.below(5) == 0 ? -1 : free ? 0 : random.below(90));
    }
    std::vector<std::vector<int>> labelOf;
    for (int j = 0; j < jobs; ++j) {
        labelOf.push_back({random.below(labels)});
        if (random.below(3) == 0)
            labelOf.back().push_back(random.below(labels));
    }
    Problem out = labelProblem(printers, labels, std::move(table), std::move(labelOf));
    const int cost = random.below(4);
    for (JobNumbers& job : out.jobs) {
        for (VariantNumbers& v : job.variants)
            for (Minute& m : v.print)
                m = gaps && random.below(6) == 0 ? -1 : random.below(3) == 0 ? 1 : 1 + random.below(200);
        job.lateCostPerHour = cost == 0 ? 0 : random.below(cost == 1 ? 2 : 5000);
        job.holdingCostPerHour = cost == 0 || cost == 2 ? 0 : random.below(200);
        if (random.below(2) == 0)
            job.due = random.below(400) - 200;
        if (random.below(3) == 0)
            job.release = random.below(3) == 0 ? 100'000 : random.below(300) - 100;
    }
    for (PrinterNumbers& p : out.printers)
        p.hourlyRate = idle ? 0 : random.below(2000);
    return out;
}

} // namespace

class ExtremesTest : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void solvedToTheOptimum() {
        for (std::uint64_t seed = 1; seed <= (longRun() ? 2000u : 400u); ++seed) {
            const Problem problem = extremeShop(seed);
            const Goal goal = goals[seed % 4];
            const auto name = [&](const char* what) {
                return QByteArray(what) + ", seed " + QByteArray::number(qulonglong(seed)) + ", goal " + QByteArray::number(static_cast<int>(goal));
            };
            SearchOptions options;
            options.goal = goal;
            options.iterations = 6'000;
            const SearchResult found = improve(problem, *problem.changes, options);
            const Worth best = optimum(problem, goal);
            const Timetable t = timetable(problem, *problem.changes, found.orders);
            const auto bound = lowerBound(problem, *problem.changes, goal, t);
            QVERIFY2(!bound || *bound <= found.worth.value, name("below the bound"));
            // Two plans that cost the same but for the rounding of each term to cents are as good.
            const std::int64_t rounding = goal == Goal::Cost ? 3 * static_cast<std::int64_t>(problem.jobs.size()) / 2 : 0;
            const auto noWorseThan = [&](const Worth& other) {
                return found.worth.notPlaced < other.notPlaced ||
                       (found.worth.notPlaced == other.notPlaced && found.worth.value <= other.value + rounding);
            };
            for (const Orders& yardstick : {firstInFirstOut(problem, *problem.changes), sameSetupFirst(problem, *problem.changes)})
                QVERIFY2(noWorseThan(worth(timetable(problem, *problem.changes, yardstick).totals, goal)), name("worse than a yardstick"));
            // Better where something is left out that every other plan places.
            QVERIFY2(noWorseThan(best), name("not the optimum") + ": " + QByteArray::number(qlonglong(found.worth.value)) + ", not " +
                                            QByteArray::number(qlonglong(best.value)));
        }
    }
};

INTERLUDE_TEST(ExtremesTest)
#include "extremes_test.moc"
