#include "model/planning/dispatch.h"

#include "model/planning/free_jobs.h"
#include "model/planning/printer_line.h"

#include <algorithm>
#include <tuple>

namespace interlude::planning {

namespace {

constexpr std::size_t window = 16; // so many of the most urgent jobs are weighed against one another
constexpr Minute noDue = never / 2;

struct Offer {
    Minute score = never, complete = never;
    int printer = 0, option = -1;
};

class Dispatcher {
public:
    Dispatcher(const Problem& problem, Changes& changes, const Orders* draft)
        : m_problem(problem), m_free(freeJobs(problem, draft)), m_table(problem, changes),
          m_line(m_table, Goal::Makespan) {}

    Orders run() {
        m_orders = m_free.fixed;
        for (int p = 0; p < static_cast<int>(m_problem.printers.size()); ++p) {
            m_states.push_back(m_line.begin(p));
            LineCost ignored;
            for (const Place& place : m_orders.printers[static_cast<std::size_t>(p)])
                m_line.append(p, m_table.optionOf(place), m_states.back(), ignored);
        }
        sortByUrgency();
        while (m_taken < m_free.jobs.size() || !m_open.empty())
            takeOne();
        return completed(m_problem, std::move(m_orders));
    }

private:
    /// A job in the window, with the offer of every printer.
    struct Open {
        int job = 0;
        std::vector<Offer> offers;
    };

    void sortByUrgency() {
        std::stable_sort(m_free.jobs.begin(), m_free.jobs.end(), [&](int a, int b) { return latest(a) < latest(b); });
    }

    /// The latest start that still meets the due date, on the fastest printer.
    Minute latest(int job) const {
        const JobNumbers& j = m_problem.jobs[static_cast<std::size_t>(job)];
        if (!j.due)
            return noDue + j.release.value_or(0);
        Minute fastest = never;
        for (const VariantNumbers& v : j.variants)
            for (const Minute m : v.print)
                if (m >= 0)
                    fastest = std::min(fastest, m);
        return std::max(*j.due - fastest, j.release.value_or(0));
    }

    Offer offer(int job, int printer) {
        Offer best;
        best.printer = printer;
        const auto& variants = m_problem.jobs[static_cast<std::size_t>(job)].variants;
        for (int v = 0; v < static_cast<int>(variants.size()); ++v) {
            const int option = m_table.optionOf({job, v});
            const LineState& before = m_states[static_cast<std::size_t>(printer)];
            LineState state = before;
            LineCost cost;
            m_line.append(printer, option, state, cost);
            if (cost.missing > 0)
                continue;
            const Brief& b = m_table.from(printer, before.row, option);
            // Late is worse than changed over, and waiting for a release is worse than both.
            const Minute wait = std::max<Minute>(0, state.printStart - before.ready - b.minutes);
            const Minute score = state.ready + 2 * b.minutes + wait;
            if (score < best.score)
                best = {score, state.ready, printer, option};
        }
        return best;
    }

    void fillWindow() {
        while (m_open.size() < window && m_taken < m_free.jobs.size()) {
            Open open{m_free.jobs[m_taken++], {}};
            for (int p = 0; p < static_cast<int>(m_problem.printers.size()); ++p)
                open.offers.push_back(offer(open.job, p));
            m_open.push_back(std::move(open));
        }
    }

    /// Among the urgent jobs the one whose best offer is best, weighed by how late it gets.
    void takeOne() {
        fillWindow();
        std::size_t chosen = 0;
        Offer best;
        Minute bestRank = never * 2;
        for (std::size_t i = 0; i < m_open.size(); ++i) {
            const Offer& o = *std::min_element(m_open[i].offers.begin(), m_open[i].offers.end(),
                                               [](const Offer& a, const Offer& b) { return a.score < b.score; });
            const Minute due = m_problem.jobs[static_cast<std::size_t>(m_open[i].job)].due.value_or(noDue);
            const Minute rank = o.option < 0 ? never : o.score + std::min<Minute>(due - o.complete, 0) / 4;
            if (rank < bestRank)
                std::tie(bestRank, chosen, best) = std::tuple(rank, i, o);
        }
        if (best.option >= 0)
            place(best);
        m_open.erase(m_open.begin() + static_cast<std::ptrdiff_t>(chosen));
    }

    void place(const Offer& o) {
        const auto p = static_cast<std::size_t>(o.printer);
        m_orders.printers[p].push_back(m_table.place(o.option));
        LineCost ignored;
        m_line.append(o.printer, o.option, m_states[p], ignored);
        for (Open& open : m_open)
            if (open.job != m_table.jobOf(o.option))
                open.offers[p] = offer(open.job, o.printer);
    }

    const Problem& m_problem;
    FreeJobs m_free;
    ChangeoverTable m_table;
    PrinterLine m_line;
    Orders m_orders;
    std::vector<LineState> m_states;
    std::vector<Open> m_open;
    std::size_t m_taken = 0;
};

} // namespace

Orders dispatch(const Problem& problem, Changes& changes, const Orders* draft) {
    if (problem.printers.empty()) {
        Orders none = freeJobs(problem, draft).fixed;
        return completed(problem, std::move(none));
    }
    return Dispatcher(problem, changes, draft).run();
}

} // namespace interlude::planning
