#include "model/planning/search.h"

#include "model/planning/chain.h"
#include "model/planning/dispatch.h"
#include "model/planning/free_jobs.h"

#include <algorithm>

namespace interlude::planning {

namespace {

/// Jobs that no printer can print are not searched over; they come back last, so that the timetable says why.
Orders withoutHopeless(Orders orders, const std::vector<int>& hopeless) {
    for (auto& list : orders.printers)
        std::erase_if(list, [&](const Place& p) {
            return std::binary_search(hopeless.begin(), hopeless.end(), p.job) &&
                   !orders.locked[static_cast<std::size_t>(p.job)];
        });
    std::erase_if(orders.leftOut, [&](int job) { return std::binary_search(hopeless.begin(), hopeless.end(), job); });
    return orders;
}

class Improver {
public:
    Improver(const Problem& problem, Changes& changes, const SearchOptions& options)
        : m_problem(problem), m_changes(changes), m_options(options), m_watch(options), m_exact(problem, changes) {}

    SearchResult run() {
        const Orders* draft = m_options.start ? &*m_options.start : nullptr;
        m_hopeless = freeJobs(m_problem, draft).hopeless;
        consider(dispatch(m_problem, m_changes, draft));
        if (draft)
            consider(completed(m_problem, *draft));
        if (!m_problem.printers.empty())
            search();
        SearchResult out;
        out.orders = m_result;
        out.worth = m_worth;
        out.iterations = m_watch.iterations();
        out.seconds = m_watch.seconds();
        out.judged = m_judged;
        out.misjudged = m_misjudged;
        return out;
    }

private:
    void consider(Orders orders) {
        const Worth w = worth(m_exact.evaluate(orders), m_options.goal);
        if (m_any && !(w < m_worth))
            return;
        m_any = true;
        m_worth = w;
        m_result = std::move(orders);
    }

    void search() {
        ChangeoverTable table(m_problem, m_changes);
        PrinterLine line(table, m_options.goal);
        Random random(m_options.seed);
        ChainSetting setting{m_problem, m_changes, line, m_watch, random, m_options.goal};
        Found found{withoutHopeless(m_result, m_hopeless), m_worth, 0, 0};
        if (!improveSequence(setting, found) && !improveTour(setting, found) && !improveLoads(setting, found))
            improveByMoves(setting, found);
        m_judged = found.judged;
        m_misjudged = found.misjudged;
        consider(completed(m_problem, std::move(found.orders)));
    }

    const Problem& m_problem;
    Changes& m_changes;
    const SearchOptions& m_options;
    Watch m_watch;
    Evaluator m_exact;
    std::vector<int> m_hopeless;
    bool m_any = false;
    Orders m_result;
    Worth m_worth;
    std::int64_t m_judged = 0, m_misjudged = 0;
};

} // namespace

SearchResult improve(const Problem& problem, Changes& changes, const SearchOptions& options) {
    return Improver(problem, changes, options).run();
}

} // namespace interlude::planning
