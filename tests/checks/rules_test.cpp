// Printing without setups is the textbook case of scheduling, so the rules proved there must hold for the timetable and for the
// plan that the search finds. The theorems are cited from memory; the small example's arithmetic is written out.

#include "model/planning/search.h"
#include "tests/harness/run_tests.h"
#include "tests/search/label_shop.h"

#include "model/planning/random.h"

#include <QTest>

#include <algorithm>
#include <numeric>

using namespace interlude::planning;

namespace {

/// Jobs of one setup on so many printers: nothing is ever changed over.
Problem withoutSetups(int printers, const std::vector<Minute>& print) {
    LabelChanges::Table table(static_cast<std::size_t>(printers), std::vector<std::vector<Minute>>(1, std::vector<Minute>(1, 0)));
    Problem p = labelProblem(printers, 0, std::move(table), std::vector<std::vector<int>>(print.size(), std::vector<int>{0}));
    for (std::size_t j = 0; j < print.size(); ++j) {
        std::fill(p.jobs[j].variants[0].print.begin(), p.jobs[j].variants[0].print.end(), print[j]);
        p.jobs[j].holdingCostPerHour = 0;
    }
    return p;
}

Orders onOne(const std::vector<int>& sequence, std::size_t jobs) {
    Orders o;
    o.printers.resize(1);
    for (const int j : sequence) o.printers[0].push_back({j, 0});
    o.locked.assign(jobs, 0);
    return o;
}

SearchResult searched(const Problem& p, Goal goal) {
    SearchOptions options;
    options.goal = goal;
    options.iterations = 30000;
    return improve(p, *p.changes, options);
}

std::vector<int> sortedBy(std::size_t n, const std::function<bool(int, int)>& before) {
    std::vector<int> order(n);
    std::iota(order.begin(), order.end(), 0);
    std::stable_sort(order.begin(), order.end(), before);
    return order;
}

} // namespace

class RulesTest final : public QObject {
    Q_OBJECT
private Q_SLOTS:
    /// Smith, Naval Research Logistics Quarterly 3 (1956): the weighted sum of completion times is least in the order of
    /// weight over processing time. Four jobs: minutes 60, 120, 180, 60; holding cost an hour 1, 4, 3, 2 (cents × 100).
    /// Ratios by the hour: 1, 2, 1, 2. Order 2, 4, 1, 3: completions 2, 3, 4, 7 h; 4·2 + 2·3 + 1·4 + 3·7 = 39.
    void weightedShortestProcessingTime() {
        Problem p = withoutSetups(1, {60, 120, 180, 60});
        const Cents hold[] = {100, 400, 300, 200};
        for (std::size_t j = 0; j < 4; ++j) p.jobs[j].holdingCostPerHour = hold[j];
        const Timetable t = timetable(p, *p.changes, onOne({1, 3, 0, 2}, 4));
        QCOMPARE(t.totals.cost, Cents(3900));
        QCOMPARE(searched(p, Goal::Cost).worth.value, std::int64_t(3900));
    }
    void weightedShortestProcessingTimeOnRandomShops() {
        for (std::uint64_t seed = 1; seed <= 60; ++seed) {
            Random random(seed);
            std::vector<Minute> print;
            for (int j = 0; j < 8; ++j) print.push_back(60 * (1 + random.below(9))); // whole hours: nothing is rounded
            Problem p = withoutSetups(1, print);
            for (JobNumbers& j : p.jobs) j.holdingCostPerHour = 100 * (1 + random.below(9));
            const auto smith = sortedBy(print.size(), [&](int a, int b) {
                const auto ua = static_cast<std::size_t>(a), ub = static_cast<std::size_t>(b);
                return p.jobs[ua].holdingCostPerHour * print[ub] > p.jobs[ub].holdingCostPerHour * print[ua];
            });
            const Cents best = timetable(p, *p.changes, onOne(smith, print.size())).totals.cost;
            QCOMPARE(searched(p, Goal::Cost).worth.value, std::int64_t(best));
        }
    }
    /// Jackson (1955): on one machine the earliest due date first makes the greatest lateness least; so if any order is in
    /// time, that one is, and the plan must be in time too.
    void earliestDueDate() {
        int inTime = 0;
        for (std::uint64_t seed = 1; seed <= 80; ++seed) {
            Random random(seed);
            std::vector<Minute> print;
            Minute sum = 0;
            for (int j = 0; j < 8; ++j) {
                print.push_back(10 + random.below(90));
                sum += print.back();
            }
            Problem p = withoutSetups(1, print);
            for (JobNumbers& j : p.jobs) {
                j.due = 60 + random.below(static_cast<int>(sum));
                j.lateCostPerHour = 100 * (1 + random.below(5));
            }
            const auto order = sortedBy(print.size(), [&](int a, int b) {
                return *p.jobs[static_cast<std::size_t>(a)].due < *p.jobs[static_cast<std::size_t>(b)].due;
            });
            const auto late = timetable(p, *p.changes, onOne(order, print.size())).totals.weightedTardiness;
            const std::int64_t found = searched(p, Goal::Tardiness).worth.value;
            QVERIFY(found <= late);
            if (late > 0) continue;
            ++inTime;
            QCOMPARE(found, std::int64_t(0));
        }
        QVERIFY(inTime > 5);
    }
    /// Graham, SIAM Journal on Applied Mathematics 17 (1969): longest processing time first is within 4/3 − 1/(3m) of the
    /// least makespan; so the plan is no longer than that list gives, and no shorter than list / (4/3 − 1/(3m)).
    void longestProcessingTime() {
        for (std::uint64_t seed = 1; seed <= 60; ++seed) {
            Random random(seed);
            const int printers = 2 + random.below(3);
            std::vector<Minute> print;
            for (int j = 0; j < 11; ++j) print.push_back(10 + random.below(200));
            const Problem p = withoutSetups(printers, print);
            std::vector<Minute> load(static_cast<std::size_t>(printers), 0);
            for (const int j : sortedBy(print.size(), [&](int a, int b) {
                     return print[static_cast<std::size_t>(a)] > print[static_cast<std::size_t>(b)];
                 }))
                *std::min_element(load.begin(), load.end()) += print[static_cast<std::size_t>(j)];
            const Minute list = *std::max_element(load.begin(), load.end());
            const std::int64_t found = searched(p, Goal::Makespan).worth.value;
            QVERIFY(found <= list);
            QVERIFY(found * (4 * printers - 1) >= list * 3 * printers);
        }
    }
};
INTERLUDE_TEST(RulesTest)
#include "rules_test.moc"
