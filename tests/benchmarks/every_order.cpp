#include "tests/benchmarks/every_order.h"

#include "model/planning/printer_line.h"

namespace interlude::bench {

namespace {

using namespace interlude::planning;

class EveryOrder {
public:
    EveryOrder(const Problem& problem, Goal goal, Worth known, long long mostPlans)
        : m_problem(problem), m_goal(goal), m_table(problem, *problem.changes), m_line(m_table, goal),
          m_exact(problem, *problem.changes), m_most(mostPlans), m_left(problem.jobs.size(), 1) {
        m_proof.best = known;
        m_orders.printers.resize(problem.printers.size());
        m_orders.locked.assign(problem.jobs.size(), 0);
        for (int j = 0; j < static_cast<int>(problem.jobs.size()); ++j)
            m_least.push_back(leastOf(j));
    }

    Proof run() {
        m_leftCount = static_cast<int>(m_left.size());
        open(0, {});
        m_proof.complete = m_proof.plans <= m_most;
        return m_proof;
    }

private:
    /// What a job costs at least, wherever it goes: as if printed at once after the least changeover of none.
    std::int64_t leastOf(int j) const {
        const JobNumbers& job = m_problem.jobs[static_cast<std::size_t>(j)];
        std::int64_t least = std::numeric_limits<std::int64_t>::max();
        for (const VariantNumbers& v : job.variants)
            for (std::size_t p = 0; p < m_problem.printers.size(); ++p) {
                if (v.print[p] < 0)
                    continue;
                const Minute complete = job.release.value_or(0) + v.print[p];
                const Minute late = job.due ? std::max<Minute>(0, complete - *job.due) : 0;
                std::int64_t value = 0;
                if (m_goal == Goal::Cost)
                    value = lateCost(job, complete) + holdingCost(job, complete) +
                            perHour(m_problem.printers[p].hourlyRate, v.print[p]);
                if (m_goal == Goal::Tardiness)
                    value = job.lateCostPerHour * late;
                least = std::min(least, value);
            }
        return least;
    }

    void open(int printer, const LineCost& before) {
        if (printer == static_cast<int>(m_problem.printers.size())) {
            if (m_leftCount == 0)
                judge();
            return;
        }
        fill(printer, m_line.begin(printer), before);
    }

    void fill(int printer, const LineState& state, const LineCost& cost) {
        if (m_proof.plans > m_most || !promising(cost))
            return;
        open(printer + 1, cost); // nothing more on this one
        for (int j = 0; j < static_cast<int>(m_left.size()); ++j) {
            if (!m_left[static_cast<std::size_t>(j)])
                continue;
            m_left[static_cast<std::size_t>(j)] = 0;
            --m_leftCount;
            const auto variants = static_cast<int>(m_problem.jobs[static_cast<std::size_t>(j)].variants.size());
            for (int v = 0; v < variants; ++v)
                put(printer, {j, v}, state, cost);
            m_left[static_cast<std::size_t>(j)] = 1;
            ++m_leftCount;
        }
    }

    void put(int printer, Place place, LineState state, LineCost cost) {
        if (!m_table.printable(printer, m_table.optionOf(place)))
            return;
        const Minute last = cost.last;
        m_line.append(printer, m_table.optionOf(place), state, cost);
        cost.last = std::max(cost.last, last);
        if (cost.missing > 0)
            return;
        auto& order = m_orders.printers[static_cast<std::size_t>(printer)];
        order.push_back(place);
        fill(printer, state, cost);
        order.pop_back();
    }

    bool promising(const LineCost& cost) const {
        std::int64_t least = m_goal == Goal::Makespan ? cost.last : cost.value;
        for (std::size_t j = 0; j < m_left.size(); ++j)
            if (m_left[j])
                least += m_least[j];
        return Worth{0, least} < m_proof.best;
    }

    void judge() {
        ++m_proof.plans;
        m_proof.best = std::min(m_proof.best, worth(m_exact.evaluate(m_orders), m_goal));
    }

    const Problem& m_problem;
    Goal m_goal;
    ChangeoverTable m_table;
    PrinterLine m_line;
    Evaluator m_exact;
    long long m_most;
    Proof m_proof;
    Orders m_orders;
    std::vector<char> m_left;
    int m_leftCount = 0;
    std::vector<std::int64_t> m_least; ///< by job
};

} // namespace

Proof provedOptimum(const Problem& problem, Goal goal, Worth known, long long mostPlans) {
    return EveryOrder(problem, goal, known, mostPlans).run();
}

} // namespace interlude::bench
