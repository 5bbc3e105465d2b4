// Tours by setups and by crossing: every node once, costs as foretold, and the least where every order can be tried.
#include "model/planning/tour.h"
#include "model/planning/tour_setups.h"
#include "tests/harness/run_tests.h"

#include <algorithm>
#include <numeric>

using namespace interlude::planning;

namespace {

/// So many nodes of so many setups; a node behind one of its own setup costs `inner`. Ways by another setup may be
/// cheaper than the direct one.
CostTable bySetups(int nodes, int setups, int inner, std::uint64_t seed) {
    Random random(seed);
    std::vector<std::int64_t> between;
    for (int k = 0; k < setups * setups; ++k)
        between.push_back(inner + random.below(60));
    CostTable out;
    out.size = nodes;
    std::vector<int> setupOf;
    for (int k = 0; k < nodes; ++k)
        setupOf.push_back(k < setups ? k : random.below(setups));
    for (const int a : setupOf)
        for (const int b : setupOf)
            out.cost.push_back(a == b ? inner : between[static_cast<std::size_t>(a * setups + b)]);
    for (int k = 0; k < nodes; ++k)
        out.cost[static_cast<std::size_t>(k * nodes + k)] = 1'000'000'000'000;
    return out;
}

std::int64_t costOf(const CostTable& table, const std::vector<int>& order) {
    std::int64_t sum = 0;
    for (std::size_t k = 0; k < order.size(); ++k)
        sum += table.at(order[k], order[k + 1 < order.size() ? k + 1 : 0]);
    return sum;
}

/// Of all tours.
std::int64_t least(const CostTable& table) {
    std::vector<int> order(static_cast<std::size_t>(table.size));
    std::iota(order.begin(), order.end(), 0);
    std::int64_t best = costOf(table, order);
    while (std::next_permutation(order.begin() + 1, order.end()))
        best = std::min(best, costOf(table, order));
    return best;
}

bool eachOnce(std::vector<int> order, int nodes) {
    std::sort(order.begin(), order.end());
    std::vector<int> all(static_cast<std::size_t>(nodes));
    std::iota(all.begin(), all.end(), 0);
    return order == all;
}

std::vector<int> searched(const CostTable& table, std::int64_t iterations, std::uint64_t seed) {
    SearchOptions options;
    options.iterations = iterations;
    Watch watch(options);
    Random random(seed);
    Tour tour(table, watch);
    std::vector<int> order(static_cast<std::size_t>(table.size));
    std::iota(order.begin(), order.end(), 0);
    tour.set(order);
    tour.search(watch, random, [] { return false; });
    return tour.best();
}

} // namespace

class TourTest : public QObject {
    Q_OBJECT

private Q_SLOTS:
    void theLeastTourOfFewNodesIsFound();
    void jobsOfOneSetupStandTogether();
    void aSetupWithoutSparesIsNotGoneByTwice();
    void longToursAreWhole();
};

void TourTest::theLeastTourOfFewNodesIsFound() {
    for (std::uint64_t seed = 1; seed <= 40; ++seed) {
        const CostTable table = bySetups(8, seed % 2 ? 8 : 4, seed % 3 ? 0 : 7, seed);
        const std::vector<int> found = searched(table, 5000, seed);
        QVERIFY(eachOnce(found, table.size));
        QCOMPARE(costOf(table, found), least(table));
    }
}

// What is least for setups is least for jobs, wherever it says so.
void TourTest::jobsOfOneSetupStandTogether() {
    int exact = 0, fewer = 0;
    for (std::uint64_t seed = 1; seed <= 60; ++seed) {
        const CostTable table = bySetups(9, 4, seed % 3 ? 0 : 7, seed);
        const TourSetups setups(table, [] { return true; });
        QVERIFY(setups.any());
        QVERIFY(setups.table().size >= 1 && setups.table().size <= 4);
        fewer += setups.table().size < 4 ? 1 : 0;
        if (setups.table().size < 4)
            continue;
        const std::vector<int> kinds = searched(setups.table(), 2000, seed);
        const TourSetups::Order found = setups.nodes(kinds);
        QVERIFY(eachOnce(found.nodes, table.size));
        if (!found.exact)
            continue;
        ++exact;
        QCOMPARE(costOf(table, found.nodes), costOf(setups.table(), kinds) + setups.inner());
        QCOMPARE(costOf(table, found.nodes), least(table));
    }
    QVERIFY2(exact >= 30, QByteArray::number(exact) + " exact, " + QByteArray::number(fewer) + " of fewer setups");
}

// Of three setups the middle one is the cheap way between all others, but it has one node to spare only.
void TourTest::aSetupWithoutSparesIsNotGoneByTwice() {
    CostTable table;
    table.size = 7;
    const int setupOf[] = {0, 1, 2, 3, 4, 4, 3};
    for (const int a : setupOf)
        for (const int b : setupOf)
            table.cost.push_back(a == b ? 0 : a == 4 || b == 4 ? 1 : 50 + 10 * a + b);
    const TourSetups setups(table, [] { return true; });
    QCOMPARE(setups.table().size, 5);
    const TourSetups::Order found = setups.nodes({0, 1, 2, 3, 4});
    QVERIFY(!found.exact);
    QVERIFY(eachOnce(found.nodes, table.size));
}

void TourTest::longToursAreWhole() {
    for (const int setups : {150, 40, 5}) {
        const CostTable table = bySetups(150, setups, 3, static_cast<std::uint64_t>(setups));
        const std::vector<int> a = searched(table, 300'000, 5), b = searched(table, 300'000, 5);
        QVERIFY(eachOnce(a, table.size));
        QVERIFY(a == b);
    }
}

INTERLUDE_TEST(TourTest)
#include "tour_test.moc"
