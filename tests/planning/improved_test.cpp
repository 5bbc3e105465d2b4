// What the search makes of small random shops, with everything that a shop can have: nothing is lost, nothing comes twice,
// what is locked stays, and it is never worse than what it began with or than the yardsticks.

#include "model/planning/bounds.h"
#include "model/planning/dispatch.h"
#include "model/planning/free_jobs.h"
#include "model/planning/search.h"
#include "model/planning/timetable/timetable_judge.h"
#include "tests/harness/run_tests.h"
#include "tests/planning/dump.h"
#include "tests/planning/random_shop.h"

#include <QTest>

using namespace interlude::planning;
using namespace interlude::tests;

namespace {

constexpr Goal goals[] = {Goal::Cost, Goal::Changeover, Goal::Tardiness, Goal::Makespan};

/// How often each job stands in the orders, runs or is in session.
std::vector<int> counted(const Problem& problem, const Orders& orders) {
    std::vector<int> times(problem.jobs.size(), 0);
    for (const auto& list : orders.printers)
        for (const Place& p : list)
            ++times[static_cast<std::size_t>(p.job)];
    for (const int job : orders.leftOut)
        ++times[static_cast<std::size_t>(job)];
    const std::vector<char> running = runningJobs(problem);
    for (std::size_t j = 0; j < running.size(); ++j)
        times[j] += running[j] ? 1 : 0;
    return times;
}

/// Locks some jobs of a draft.
Orders someLocked(const RandomShop& shop, Dice& dice) {
    Orders out = shop.orders;
    for (auto& list : out.printers)
        for (const Place& p : list)
            out.locked[static_cast<std::size_t>(p.job)] = dice.oneIn(5) ? 1 : 0;
    for (const int job : out.leftOut)
        out.locked[static_cast<std::size_t>(job)] = dice.oneIn(2) ? 1 : 0;
    return out;
}

/// Empty when every locked job stands where it stood.
QByteArray moved(const Orders& before, const Orders& after) {
    for (std::size_t p = 0; p < before.printers.size(); ++p)
        for (std::size_t i = 0; i < before.printers[p].size(); ++i) {
            const Place& place = before.printers[p][i];
            if (before.locked[static_cast<std::size_t>(place.job)] &&
                !(i < after.printers[p].size() && after.printers[p][i] == place))
                return "locked job " + QByteArray::number(place.job);
        }
    for (const int job : before.leftOut)
        if (before.locked[static_cast<std::size_t>(job)] &&
            std::find(after.leftOut.begin(), after.leftOut.end(), job) == after.leftOut.end())
            return "left out and locked " + QByteArray::number(job);
    return {};
}

} // namespace

class ImprovedTest : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void nothingIsLostAndNothingGetsWorse();
    void judgedFromTheMiddleAsFromTheBeginning();
};

void ImprovedTest::nothingIsLostAndNothingGetsWorse() {
    const std::uint64_t shops = longRun() ? 3000 : 400;
    for (std::uint64_t seed = 1; seed <= shops; ++seed) {
        const RandomShop shop = randomShop(seed * 31 + 7);
        Dice dice(seed);
        const Goal goal = goals[seed % 4];
        const bool fromDraft = seed % 3 != 0;
        SearchOptions options;
        options.goal = goal;
        options.iterations = 150;
        options.seed = seed;
        if (fromDraft)
            options.start = someLocked(shop, dice);
        const auto name = [&](const char* what) {
            return QByteArray(what) + ", seed " + QByteArray::number(qulonglong(seed)) + "\n" +
                   QByteArray::fromStdString(shown(shop.problem, options.start.value_or(shop.orders)));
        };
        const SearchResult found = improve(shop.problem, *shop.problem.changes, options);
        for (const int times : counted(shop.problem, found.orders))
            QVERIFY2(times == 1, name("not once"));
        if (fromDraft)
            QVERIFY2(moved(*options.start, found.orders).isEmpty(), name("moved"));
        const Timetable t = timetable(shop.problem, *shop.problem.changes, found.orders);
        QVERIFY2(worth(t.totals, goal) == found.worth, name("told otherwise"));
        if (fromDraft) {
            // What the draft leaves out is planned, too; only where nothing was left out the plans can be compared.
            const Timetable before = timetable(shop.problem, *shop.problem.changes, *options.start);
            if (options.start->leftOut.empty())
                QVERIFY2(found.worth <= worth(before.totals, goal), name("worse than the draft"));
        }
        const Orders dispatched = dispatch(shop.problem, *shop.problem.changes, fromDraft ? &*options.start : nullptr);
        QVERIFY2(found.worth <= worth(timetable(shop.problem, *shop.problem.changes, dispatched).totals, goal),
                 name("worse than dispatched"));
        const auto bound = lowerBound(shop.problem, *shop.problem.changes, goal, t);
        QVERIFY2(!bound || *bound <= found.worth.value, name("below the bound"));
        const SearchResult again = improve(shop.problem, *shop.problem.changes->clone(), options);
        QVERIFY2(again.orders == found.orders, name("another plan the second time"));
    }
}

/// Random changes of random plans, judged from a snapshot: the worth is that of the whole timetable, unless it is above the limit.
void ImprovedTest::judgedFromTheMiddleAsFromTheBeginning() {
    const std::uint64_t shops = longRun() ? 3000 : 600;
    int compared = 0;
    for (std::uint64_t seed = 1; seed <= shops; ++seed) {
        const RandomShop shop = randomShop(seed * 17 + 3);
        const Goal goal = goals[seed % 4];
        Dice dice(seed);
        TimetableJudge judge(shop.problem, *shop.problem.changes, goal);
        Evaluator exact(shop.problem, *shop.problem.changes);
        Orders base = shop.orders;
        QVERIFY(judge.begin(base) == worth(exact.evaluate(base), goal));
        for (int k = 0; k < 12; ++k) {
            Orders other = base;
            const auto p = static_cast<std::size_t>(dice.below(static_cast<int>(other.printers.size())));
            const auto q = static_cast<std::size_t>(dice.below(static_cast<int>(other.printers.size())));
            if (other.printers[p].empty())
                continue;
            const auto i = static_cast<std::size_t>(dice.below(static_cast<int>(other.printers[p].size())));
            const Place place = other.printers[p][i];
            other.printers[p].erase(other.printers[p].begin() + static_cast<std::ptrdiff_t>(i));
            const auto j = static_cast<std::size_t>(dice.below(static_cast<int>(other.printers[q].size()) + 1));
            other.printers[q].insert(other.printers[q].begin() + static_cast<std::ptrdiff_t>(j), place);
            const TimetableJudge::Differs first{static_cast<int>(p), p == q ? std::min(i, j) : i};
            const TimetableJudge::Differs second{p == q ? -1 : static_cast<int>(q), j};
            const auto judged = judge.judge(other, first, second, 1e18);
            const Worth whole = worth(exact.evaluate(other), goal);
            if (judged) {
                ++compared;
                QVERIFY2(*judged == whole, QByteArray("seed ") + QByteArray::number(qulonglong(seed)) + ", change " + QByteArray::number(k));
                if (dice.oneIn(2)) {
                    judge.take(other);
                    base = other;
                }
            } else {
                QVERIFY(whole.notPlaced > static_cast<int>(base.leftOut.size()));
            }
        }
    }
    QVERIFY(compared > 1000);
}

INTERLUDE_TEST(ImprovedTest)
#include "improved_test.moc"
