#include "model/planning/chain.h"
#include "model/planning/cooling.h"
#include "model/planning/load_plan.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <tuple>

namespace interlude::planning {

namespace {

class LoadChain {
public:
    LoadChain(ChainSetting& setting, const LoadNumbers& numbers, const std::vector<std::vector<int>>& orders)
        : m_s(setting), m_numbers(numbers), m_plan(numbers) {
        m_plan.set(orders);
        m_best = orders;
        m_bestLongest = m_plan.longest();
    }
    const std::vector<std::vector<int>>& best() const { return m_best; }

    void run() {
        const double mean = m_plan.energy() / (1 + loadShare * m_numbers.printers);
        Cooling cooling(m_s.watch, 0.05 * std::min(mean, 1e6), 0.002 * std::min(mean, 1e6), 2'000'000);
        for (int k = 0; m_s.watch.next(); ++k) {
            if ((k & 31) == 0 && cooling.step())
                m_plan.set(m_best);
            const double limit = m_plan.energy() - cooling.temperature() * std::log(1.0 - m_s.random.unit());
            const int kind = m_s.random.below(14);
            if (kind < 6)
                shift(limit);
            else if (kind < 9)
                exchange(limit);
            else if (kind < 10)
                plainShift(limit);
            else if (kind < 12)
                segment(limit);
            else
                segmentAway(limit);
        }
    }

private:
    /// Now and then a job of the printer that decides.
    int anyJob() {
        const int p = m_plan.critical();
        if (m_s.random.below(10) >= 3 || m_plan.count(p) == 0)
            return m_s.random.below(m_numbers.jobs);
        int k = m_plan.next(m_plan.beginning(p));
        for (int steps = m_s.random.below(m_plan.count(p)); steps > 0; --steps)
            k = m_plan.next(k);
        return k;
    }

    void keepBest() {
        if (m_plan.longest() >= m_bestLongest)
            return;
        m_bestLongest = m_plan.longest();
        m_best = m_plan.orders();
    }

    /// To the best place of a random printer.
    void shift(double limit) {
        const int job = anyJob(), p = m_plan.printerOf(job), q = m_s.random.below(m_numbers.printers);
        const LoadPlan::Spot spot = m_plan.bestPlace(job, q, p == q ? job : -1);
        const double energy = m_plan.energyWith(p, -m_plan.removal(job), q, spot.more);
        if (energy > limit)
            return;
        m_plan.move(job, spot.behind);
        assert(m_plan.energy() == energy);
        keepBest();
    }

    /// Some consecutive jobs go elsewhere on their printer.
    void segment(double limit) {
        const int first = anyJob(), p = m_plan.printerOf(first), count = m_plan.count(p);
        if (count < 3)
            return;
        int last = first;
        for (int steps = 1 + m_s.random.below(3); steps > 0 && m_plan.next(last) >= 0; --steps)
            last = m_plan.next(last);
        // The best place outside of the segment and not where it is.
        int best = -1;
        Minute least = never;
        for (int k = m_plan.beginning(p); k >= 0; k = m_plan.next(k)) {
            if (k == first)
                k = last;
            else if (k != m_plan.before(first)) {
                const Minute more = m_plan.segmentMoved(first, last, k);
                if (more < least)
                    std::tie(least, best) = std::tuple(more, k);
            }
        }
        if (best < 0)
            return;
        const double energy = m_plan.energyWith(p, least, p, 0);
        if (energy > limit)
            return;
        m_plan.moveSegment(first, last, best);
        assert(m_plan.energy() == energy);
        keepBest();
    }

    /// Some consecutive jobs go to another printer together.
    void segmentAway(double limit) {
        const int first = anyJob(), p = m_plan.printerOf(first), q = m_s.random.below(m_numbers.printers);
        if (p == q)
            return;
        int jobs[4];
        int count = 0;
        const int wanted = 2 + m_s.random.below(3);
        for (int k = first; k >= 0 && count < wanted; k = m_plan.next(k))
            jobs[count++] = k;
        if (count < 2)
            return;
        const int last = jobs[count - 1];
        Minute inside = 0, insideNow = 0;
        for (int k = 1; k < count; ++k) {
            inside += m_numbers.gapOf(q, jobs[k - 1], jobs[k]);
            insideNow += m_numbers.gapOf(p, jobs[k - 1], jobs[k]);
        }
        const int a = m_plan.before(first), b = m_plan.next(last);
        const Minute less = m_plan.gap(p, a, first) + insideNow + m_plan.gap(p, last, b) - m_plan.gap(p, a, b);
        int best = -1;
        Minute least = never;
        for (int k = m_plan.beginning(q); k >= 0; k = m_plan.next(k)) {
            const int c = m_plan.next(k);
            const Minute more = m_plan.gap(q, k, first) + m_plan.gap(q, last, c) - m_plan.gap(q, k, c);
            if (more < least)
                std::tie(least, best) = std::tuple(more, k);
        }
        const double energy = m_plan.energyWith(p, -less, q, least + inside);
        if (energy > limit)
            return;
        for (int k = 0; k < count; ++k) {
            m_plan.move(jobs[k], best);
            best = jobs[k];
        }
        assert(m_plan.energy() == energy);
        keepBest();
    }

    /// Behind a random node.
    void plainShift(double limit) {
        const int job = anyJob(), k = m_s.random.below(m_numbers.jobs + m_numbers.printers);
        if (k == job || k == m_plan.before(job))
            return;
        const Minute more = m_plan.insertion(job, k);
        const double energy = m_plan.energyWith(m_plan.printerOf(job), -m_plan.removal(job), m_plan.printerOf(k), more);
        if (energy > limit)
            return;
        m_plan.move(job, k);
        assert(m_plan.energy() == energy);
        keepBest();
    }

    /// Two jobs of different printers, each to its best place on the other's.
    void exchange(double limit) {
        const int a = anyJob(), b = m_s.random.below(m_numbers.jobs);
        const int p = m_plan.printerOf(a), q = m_plan.printerOf(b);
        if (p == q)
            return;
        const LoadPlan::Spot there = m_plan.bestPlace(a, q, b), here = m_plan.bestPlace(b, p, a);
        const double energy = m_plan.energyWith(p, here.more - m_plan.removal(a), q, there.more - m_plan.removal(b));
        if (energy > limit)
            return;
        m_plan.move(a, there.behind);
        m_plan.move(b, here.behind);
        assert(m_plan.energy() == energy);
        keepBest();
    }

    ChainSetting& m_s;
    const LoadNumbers& m_numbers;
    LoadPlan m_plan;
    std::vector<std::vector<int>> m_best;
    Minute m_bestLongest = 0;
};

} // namespace

bool improveLoads(ChainSetting& setting, Found& found) {
    if (setting.goal != Goal::Makespan)
        return false;
    const auto numbers = loadNumbers(setting.line, found.orders);
    if (!numbers)
        return false;
    std::vector<std::vector<int>> orders(static_cast<std::size_t>(numbers->printers));
    int job = 0; // numbered as they stand in the orders
    for (std::size_t p = 0; p < orders.size(); ++p)
        for (std::size_t i = numbers->fixed[p]; i < found.orders.printers[p].size(); ++i)
            orders[p].push_back(job++);
    LoadChain chain(setting, *numbers, orders);
    runTelling(setting, found, chain, [&] {
        Orders out = found.orders;
        for (std::size_t p = 0; p < out.printers.size(); ++p) {
            out.printers[p].resize(numbers->fixed[p]);
            for (const int k : chain.best()[p])
                out.printers[p].push_back(setting.line.table().place(numbers->option[static_cast<std::size_t>(k)]));
        }
        return out;
    });
    return true;
}

} // namespace interlude::planning
