#include "model/planning/yardsticks.h"

#include "model/planning/free_jobs.h"
#include "model/planning/printer_line.h"
#include "model/planning/timetable/growing_plan.h"

#include <algorithm>
#include <tuple>

namespace interlude::planning {

namespace {

/// The plan so far with its times. Where printers do not touch each other only the printer that grows is looked at.
class Growing {
public:
    Growing(const Problem& problem, Changes& changes, const Orders* draft)
        : m_problem(problem), m_free(freeJobs(problem, draft)), m_table(problem, changes),
          m_line(m_table, Goal::Makespan), m_orders(m_free.fixed) {
        for (int p = 0; p < printers(); ++p)
            m_states.push_back(m_line.begin(p));
        for (int p = 0; p < printers(); ++p)
            for (const Place& place : m_orders.printers[static_cast<std::size_t>(p)])
                m_line.append(p, m_table.optionOf(place), m_states[static_cast<std::size_t>(p)], m_ignored);
        if (problem.printersApart())
            return;
        m_plan.emplace(problem, changes, m_orders);
        know();
    }

    int printers() const { return static_cast<int>(m_problem.printers.size()); }
    const JobNumbers& job(int j) const { return m_problem.jobs[static_cast<std::size_t>(j)]; }
    std::vector<int>& jobs() { return m_free.jobs; }
    int variants(int j) const { return static_cast<int>(job(j).variants.size()); }
    Minute lastPrintEnd(int printer) const { return m_states[static_cast<std::size_t>(printer)].printEnd; }
    /// Minutes of the changeover; empty where it is impossible.
    std::optional<Minute> changeover(int printer, Place place) {
        const Brief& b =
            m_table.from(printer, m_states[static_cast<std::size_t>(printer)].row, m_table.optionOf(place));
        return b.possible ? std::optional(b.minutes) : std::nullopt;
    }

    /// When the job would be complete if nobody else needed people, tools or nozzles: exact where printers are apart,
    /// never too late elsewhere, as everything up to the printer's last print start stays as it is.
    Minute atBest(int printer, Place place) {
        LineState state = m_states[static_cast<std::size_t>(printer)];
        LineCost cost;
        m_line.append(printer, m_table.optionOf(place), state, cost);
        return cost.missing > 0 ? never : state.ready;
    }

    /// When the timetable completes it; `never` if it has no place.
    Minute really(int printer, Place place) {
        return m_plan ? m_plan->completeWith(printer, place) : atBest(printer, place);
    }

    void append(int printer, Place place) {
        m_orders.printers[static_cast<std::size_t>(printer)].push_back(place);
        m_line.append(printer, m_table.optionOf(place), m_states[static_cast<std::size_t>(printer)], m_ignored);
        if (!m_plan)
            return;
        m_plan->append(printer, place);
        know();
    }

    Orders result() { return completed(m_problem, std::move(m_orders)); }

private:
    void know() {
        for (int p = 0; p < printers(); ++p) {
            const TimedJob* last = m_plan->last(p);
            if (!last)
                continue; // nothing planned yet: `begin` holds
            if (!last->change && !(last->session && last->job >= 0))
                continue; // nor behind what runs
            const int state =
                last->change ? last->change->next : m_problem.printers[static_cast<std::size_t>(p)].sessionState;
            m_states[static_cast<std::size_t>(p)] = m_line.after(p, state, last->printStart, last->printEnd);
        }
    }

    const Problem& m_problem;
    FreeJobs m_free;
    ChangeoverTable m_table;
    PrinterLine m_line;
    Orders m_orders;
    std::vector<LineState> m_states;
    LineCost m_ignored;
    std::optional<GrowingPlan> m_plan; ///< empty where printers are apart
};

/// Appends where it is complete earliest. Offers are looked at in order of the best that they could be, so that most
/// timetables need not be computed.
void appendEarliest(Growing& plan, int job) {
    using Offer = std::tuple<Minute, int, int>; // complete, printer, variant
    std::vector<Offer> offers;
    for (int p = 0; p < plan.printers(); ++p)
        for (int v = 0; v < plan.variants(job); ++v)
            if (const Minute t = plan.atBest(p, {job, v}); t < never)
                offers.emplace_back(t, p, v);
    std::sort(offers.begin(), offers.end());
    Offer best{never, -1, 0};
    for (const auto& [atBest, printer, variant] : offers) {
        if (Offer{atBest, printer, variant} > best)
            break;
        best = std::min(best, Offer{plan.really(printer, {job, variant}), printer, variant});
    }
    if (std::get<0>(best) < never)
        plan.append(std::get<1>(best), {job, std::get<2>(best)});
}

/// The job (index in `left`) and variant that printer takes next; nothing where none can follow.
std::optional<std::pair<std::size_t, int>> nextOf(Growing& plan, int printer, const std::vector<int>& left) {
    // Released by then counts alike, later by release; then changeover, due, file order, variant.
    using Rank = std::tuple<Minute, Minute, Minute, int, int>;
    std::optional<Rank> best;
    std::size_t chosen = 0;
    for (std::size_t i = 0; i < left.size(); ++i) {
        const JobNumbers& job = plan.job(left[i]);
        const Minute release = std::max(job.release.value_or(0), plan.lastPrintEnd(printer));
        if (best && release > std::get<0>(*best))
            continue;
        for (int v = 0; v < plan.variants(left[i]); ++v) {
            const auto changeover = plan.changeover(printer, {left[i], v});
            if (!changeover)
                continue;
            const Rank rank{release, *changeover, job.due.value_or(never), left[i], v};
            if (best && !(rank < *best))
                continue;
            best = rank;
            chosen = i;
        }
    }
    if (!best)
        return std::nullopt;
    return std::pair(chosen, std::get<4>(*best));
}

} // namespace

Orders firstInFirstOut(const Problem& problem, Changes& changes, const Orders* draft, std::stop_token stop) {
    Growing plan(problem, changes, draft);
    std::vector<int> jobs = plan.jobs();
    std::stable_sort(jobs.begin(), jobs.end(),
                     [&](int a, int b) { return plan.job(a).release.value_or(0) < plan.job(b).release.value_or(0); });
    for (const int job : jobs) {
        if (stop.stop_requested())
            break;
        appendEarliest(plan, job);
    }
    return plan.result();
}

Orders sameSetupFirst(const Problem& problem, Changes& changes, const Orders* draft, std::stop_token stop) {
    Growing plan(problem, changes, draft);
    std::vector<int> left = plan.jobs();
    std::vector<char> closed(problem.printers.size(), 0);
    while (!left.empty() && !stop.stop_requested()) {
        int printer = -1;
        for (int p = 0; p < plan.printers(); ++p)
            if (!closed[static_cast<std::size_t>(p)] &&
                (printer < 0 || plan.lastPrintEnd(p) < plan.lastPrintEnd(printer)))
                printer = p;
        if (printer < 0)
            break;
        const auto next = nextOf(plan, printer, left);
        if (!next) {
            closed[static_cast<std::size_t>(printer)] = 1;
            continue;
        }
        plan.append(printer, {left[next->first], next->second});
        left.erase(left.begin() + static_cast<std::ptrdiff_t>(next->first));
    }
    return plan.result();
}

} // namespace interlude::planning
