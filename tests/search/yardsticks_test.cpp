// The two yardsticks against a plain twin written from the words of section 6: no short cuts, every offer is timed.
#include "model/planning/yardsticks.h"
#include "tests/harness/run_tests.h"
#include "tests/search/crew_shop.h"
#include "tests/search/small_shops.h"

using namespace interlude::planning;

namespace {

Orders nothing(const Problem& problem) {
    Orders out;
    out.printers.resize(problem.printers.size());
    out.locked.assign(problem.jobs.size(), 0);
    return out;
}

std::vector<int> jobsToPlan(const Problem& problem) {
    std::vector<int> out;
    for (int j = 0; j < static_cast<int>(problem.jobs.size()); ++j) {
        bool runs = false;
        for (const PrinterNumbers& p : problem.printers)
            runs = runs || (p.partLies && p.runningJob == j);
        if (!runs)
            out.push_back(j);
    }
    return out;
}

Minute releaseOf(const Problem& problem, int job) {
    return problem.jobs[static_cast<std::size_t>(job)].release.value_or(0);
}

Orders plainFirstInFirstOut(const Problem& problem, Changes& changes) {
    Orders orders = nothing(problem);
    std::vector<int> jobs = jobsToPlan(problem);
    std::stable_sort(jobs.begin(), jobs.end(),
                     [&](int a, int b) { return releaseOf(problem, a) < releaseOf(problem, b); });
    for (const int job : jobs) {
        std::tuple<Minute, std::size_t, int> best{never, 0, 0};
        const auto& variants = problem.jobs[static_cast<std::size_t>(job)].variants;
        for (std::size_t p = 0; p < problem.printers.size(); ++p)
            for (int v = 0; v < static_cast<int>(variants.size()); ++v) {
                if (variants[static_cast<std::size_t>(v)].print[p] < 0)
                    continue;
                orders.printers[p].push_back({job, v});
                const Timetable t = timetable(problem, changes, orders);
                orders.printers[p].pop_back();
                if (t.printers[p].empty() || t.printers[p].back().job != job)
                    continue;
                best = std::min(best, std::tuple(t.printers[p].back().complete, p, v));
            }
        if (std::get<0>(best) < never)
            orders.printers[std::get<1>(best)].push_back({job, std::get<2>(best)});
    }
    return orders;
}

Orders plainSameSetupFirst(const Problem& problem, Changes& changes) {
    Orders orders = nothing(problem);
    std::vector<int> jobs = jobsToPlan(problem);
    while (!jobs.empty()) {
        const Timetable t = timetable(problem, changes, orders);
        std::size_t printer = 0;
        const auto lastEnd = [&](std::size_t p) {
            return t.printers[p].empty() ? Minute(0) : std::max<Minute>(0, t.printers[p].back().printEnd);
        };
        for (std::size_t p = 1; p < problem.printers.size(); ++p)
            if (lastEnd(p) < lastEnd(printer))
                printer = p;
        int state = problem.printers[printer].state;
        if (!t.printers[printer].empty() && t.printers[printer].back().change)
            state = t.printers[printer].back().change->next;
        std::tuple<Minute, Minute, Minute, int, int> best{never, never, never, -1, -1};
        for (const int job : jobs)
            for (int v = 0; v < static_cast<int>(problem.jobs[static_cast<std::size_t>(job)].variants.size()); ++v) {
                const auto& variant = problem.jobs[static_cast<std::size_t>(job)].variants[static_cast<std::size_t>(v)];
                if (variant.print[printer] < 0)
                    continue;
                const Change& c = changes.from(static_cast<int>(printer), state, job, v, {});
                if (!c.possible)
                    continue;
                best =
                    std::min(best, std::tuple(std::max(releaseOf(problem, job), lastEnd(printer)), c.minutes,
                                              problem.jobs[static_cast<std::size_t>(job)].due.value_or(never), job, v));
            }
        if (std::get<3>(best) < 0)
            return orders; // not in these shops while jobs are left
        orders.printers[printer].push_back({std::get<3>(best), std::get<4>(best)});
        std::erase(jobs, std::get<3>(best));
    }
    return orders;
}

std::vector<Problem> shops() {
    std::vector<Problem> out;
    for (std::uint64_t seed = 1; seed <= 20; ++seed)
        for (const Form form : {Form::DueDates, Form::Releases, Form::Costs, Form::VariantsAndRunning})
            out.push_back(smallShop(form, seed));
    for (std::uint64_t seed = 1; seed <= 12; ++seed) {
        CrewShopShape shape;
        shape.printers = 3;
        shape.jobs = 10;
        shape.crew = 1 + static_cast<int>(seed % 2);
        shape.nozzles = false; // where nozzles run out a job may have no place; those shops are looked at below
        shape.seed = seed;
        out.push_back(crewShop(shape));
    }
    return out;
}

} // namespace

class YardsticksTest : public QObject {
    Q_OBJECT

private Q_SLOTS:
    void firstInFirstOutAsThePlainTwin() {
        for (const Problem& problem : shops())
            QVERIFY(firstInFirstOut(problem, *problem.changes).printers ==
                    plainFirstInFirstOut(problem, *problem.changes).printers);
    }
    void sameSetupFirstAsThePlainTwin() {
        for (const Problem& problem : shops())
            QVERIFY(sameSetupFirst(problem, *problem.changes).printers ==
                    plainSameSetupFirst(problem, *problem.changes).printers);
    }
    void whatCompletesNowhereGoesToAnEnd();
    void askedToStopTheyLookAtNoMore();
    void lockedJobsStay();
    void byHand();
};

// From the second noon on nobody comes any more. What has no place then stands at an end, where the timetable passes over it
// and says why; the plain twin leaves it away: what is placed is the same.
void YardsticksTest::whatCompletesNowhereGoesToAnEnd() {
    const auto placed = [](const Problem& problem, const Orders& orders) {
        std::vector<std::vector<std::pair<int, Minute>>> out;
        for (const auto& list : timetable(problem, *problem.changes, orders).printers) {
            out.emplace_back();
            for (const TimedJob& j : list)
                out.back().emplace_back(j.job, j.complete);
        }
        return out;
    };
    std::size_t without = 0;
    for (std::uint64_t seed = 1; seed <= 8; ++seed) {
        CrewShopShape shape;
        shape.printers = 3;
        shape.jobs = 12;
        shape.crew = 1 + static_cast<int>(seed % 2);
        shape.nozzles = seed % 3 == 0;
        shape.seed = seed;
        Problem problem = crewShop(shape);
        std::erase_if(problem.crew, [](const CrewFrom& c) { return c.from >= 1800; });
        problem.crew.push_back({1800, 0});
        const Orders orders = firstInFirstOut(problem, *problem.changes);
        QVERIFY(placed(problem, orders) == placed(problem, plainFirstInFirstOut(problem, *problem.changes)));
        without += timetable(problem, *problem.changes, orders).notPlaced.size();
    }
    QVERIFY(without > 0);
}

// All stand at the first end, none is lost.
void YardsticksTest::askedToStopTheyLookAtNoMore() {
    const Problem problem = smallShop(Form::Makespan, 1);
    std::stop_source stop;
    stop.request_stop();
    for (const auto yardstick : {firstInFirstOut, sameSetupFirst}) {
        QVERIFY(yardstick(problem, *problem.changes, nullptr, {}).printers[0].size() < problem.jobs.size());
        QCOMPARE(yardstick(problem, *problem.changes, nullptr, stop.get_token()).printers[0].size(), problem.jobs.size());
    }
}

void YardsticksTest::lockedJobsStay() {
    const Problem problem = smallShop(Form::Costs, 4);
    Orders draft = nothing(problem);
    draft.printers[1] = {{2, 0}, {0, 0}};
    draft.locked[0] = 1; // at position 1, so that what stands before it stays too
    for (const Orders& orders :
         {firstInFirstOut(problem, *problem.changes, &draft), sameSetupFirst(problem, *problem.changes, &draft)}) {
        QVERIFY(orders.printers[1].size() >= 2);
        QCOMPARE(orders.printers[1][0].job, 2);
        QCOMPARE(orders.printers[1][1].job, 0);
    }
}

// Labels A and B; two printers that wear A; A to B takes 20 minutes. Jobs in file order: B 30, A 30, A 50, B 10
// minutes. First in, first out: job 0 (B) is done at 50 on both, so printer 0; job 1 (A) at 30 on printer 1 (on 0 at
// 100); job 2 (A) at 80 on printer 1; job 3 (B) on printer 0 at 60, on printer 1 at 110: printer 0. Same setup first:
// printer 0 (tie at 0) takes A, file order: job 1, until 30; printer 1 takes job 2 (A) until 50; printer 0 takes B, due
// equal: job 0, 20 + 30 until 80; printer 1 ends first (50) and takes job 3.
void YardsticksTest::byHand() {
    const LabelChanges::Table table(2, {{0, 20}, {20, 0}});
    Problem problem = labelProblem(2, 0, table, {{1}, {0}, {0}, {1}});
    const Minute print[] = {30, 30, 50, 10};
    for (std::size_t j = 0; j < 4; ++j)
        problem.jobs[j].variants[0].print.assign(2, print[j]);
    const std::vector<std::vector<Place>> fifo{{{0, 0}, {3, 0}}, {{1, 0}, {2, 0}}};
    QVERIFY(firstInFirstOut(problem, *problem.changes).printers == fifo);
    const std::vector<std::vector<Place>> same{{{1, 0}, {0, 0}}, {{2, 0}, {3, 0}}};
    QVERIFY(sameSetupFirst(problem, *problem.changes).printers == same);
}

INTERLUDE_TEST(YardsticksTest)
#include "yardsticks_test.moc"
