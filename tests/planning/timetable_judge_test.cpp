// Changes judged from the middle of the timetable are worth what the timetable made anew says.

#include "model/planning/timetable/timetable_judge.h"
#include "tests/harness/run_tests.h"
#include "tests/planning/random_shop.h"

#include <QTest>

using namespace interlude::planning;
using namespace interlude::tests;

namespace {

constexpr double any = 1e18;

struct Changed {
    Orders orders;
    TimetableJudge::Differs first, second;
};

/// A random job goes somewhere else.
Changed changed(const Orders& orders, Dice& dice) {
    Changed out{orders, {}, {}};
    const auto size = static_cast<int>(orders.printers.size());
    const int p = dice.below(size), q = dice.below(size);
    auto& from = out.orders.printers[static_cast<std::size_t>(p)];
    if (from.empty())
        return out;
    const auto i = static_cast<std::size_t>(dice.below(static_cast<int>(from.size())));
    const Place place = from[i];
    from.erase(from.begin() + static_cast<std::ptrdiff_t>(i));
    auto& to = out.orders.printers[static_cast<std::size_t>(q)];
    const auto j = static_cast<std::size_t>(dice.below(static_cast<int>(to.size()) + 1));
    to.insert(to.begin() + static_cast<std::ptrdiff_t>(j), place);
    out.first = {p, p == q ? std::min(i, j) : i};
    if (p != q)
        out.second = {q, j};
    return out;
}

struct Seen {
    int judged = 0, worse = 0, ended = 0, leftOut = 0;
};

void walk(const RandomShop& shop, Goal goal, std::uint64_t seed, Seen& seen) {
    const Problem& problem = shop.problem;
    Dice dice(seed);
    Evaluator exact(problem, *problem.changes);
    TimetableJudge judge(problem, *problem.changes, goal);
    Orders base = shop.orders;
    Worth ofBase = worth(exact.evaluate(base), goal);
    QVERIFY(judge.begin(base) == ofBase);
    for (int k = 0; k < 12; ++k) {
        const Changed c = changed(base, dice);
        const Worth real = worth(exact.evaluate(c.orders), goal);
        const bool limited = dice.oneIn(3);
        const auto found =
            judge.judge(c.orders, c.first, c.second, limited ? static_cast<double>(ofBase.value) : any);
        if (found) {
            QVERIFY(*found == real);
            ++seen.judged;
        } else if (limited) {
            ++seen.ended;
        } else {
            QVERIFY(real.notPlaced > ofBase.notPlaced);
            ++seen.worse;
        }
        seen.leftOut += ofBase.notPlaced > 0 ? 1 : 0;
        if (!found || dice.oneIn(2))
            continue;
        judge.take(c.orders);
        base = c.orders;
        ofBase = real;
    }
}

} // namespace

class TimetableJudgeTest : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void asTheTimetableAnew() {
        Seen seen;
        for (std::uint64_t seed = 0; seed < (longRun() ? 4000U : 1000U); ++seed)
            for (const Goal goal : {Goal::Cost, Goal::Changeover, Goal::Tardiness, Goal::Makespan}) {
                walk(randomShop(seed), goal, seed, seen);
                if (QTest::currentTestFailed())
                    QFAIL(qPrintable(QStringLiteral("seed %1").arg(seed)));
            }
        for (const int times : {seen.judged, seen.worse, seen.ended, seen.leftOut})
            QVERIFY2(times > 300, qPrintable(QString::number(times)));
    }
};

INTERLUDE_TEST(TimetableJudgeTest)
#include "timetable_judge_test.moc"
