#include "model/planning/chain.h"
#include "model/planning/sequence.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <functional>

namespace interlude::planning {

namespace {

constexpr int longestBlock = 20;
constexpr int neighbours = 7;
// Many short annealings and children that keep most of their parents find more than few long ones (own measurements).
constexpr int movesANode = 2'000;                   // of one annealing
constexpr double hot = 3, warm = 0.15, cold = 0.05; // in units of the usual cost, see `unit`
constexpr std::size_t familySize = 12;
constexpr double familyShare = 0.2;    // of the allowance: no longer is a family gathered
constexpr int fruitlessChildren = 100; // then a new family begins

/// −log of a random number in (0, 1), from a table: the exact one takes longer than many a move.
double lessByHeat(Random& random) {
    static const std::array<double, 4096> table = [] {
        std::array<double, 4096> out{};
        for (std::size_t k = 0; k < out.size(); ++k)
            out[k] = -std::log((static_cast<double>(k) + 0.5) / static_cast<double>(out.size()));
        return out;
    }();
    return table[random.next() >> 52];
}

/// Two neighbouring blocks [i, j) and [j, k), or the jobs at i and k − 1, change places. k = 0: nothing.
struct SequenceMove {
    int i = 0, j = 0, k = 0;
    bool swap = false;

    double change(const Sequence& s, double limit) const {
        return swap ? s.swapped(i, k - 1, limit) : s.exchanged(i, j, k, limit);
    }
    void apply(Sequence& s) const {
        if (swap)
            s.swap(i, k - 1);
        else
            s.exchange(i, j, k);
    }
};

/// Draws moves; most bring a job behind one that it follows with little changeover.
class SequenceDraw {
public:
    SequenceDraw(const SequenceNumbers& numbers, const Sequence& sequence, Random& random)
        : m_n(numbers.jobs), m_sequence(sequence), m_random(random) {
        for (int b = 0; b < m_n; ++b) {
            std::vector<int> all;
            for (int a = 0; a <= m_n; ++a)
                if (a != b)
                    all.push_back(a);
            std::stable_sort(all.begin(), all.end(),
                             [&](int x, int y) { return numbers.gapOf(x, b) < numbers.gapOf(y, b); });
            all.resize(std::min<std::size_t>(all.size(), neighbours));
            m_before.push_back(std::move(all));
        }
    }

    SequenceMove draw() {
        const int kind = m_random.below(100);
        return kind < 65 ? join() : kind < 91 ? block() : twoJobs();
    }

private:
    SequenceMove twoJobs() {
        const int a = m_random.below(m_n), b = m_random.below(m_n);
        SequenceMove m{std::min(a, b), std::min(a, b) + 1, std::max(a, b) + 1, true};
        if (m.k - m.i < 2)
            m.k = 0;
        if (m.k - m.i == 2)
            m.swap = false; // neighbours: two blocks of one
        return m;
    }

    SequenceMove block() {
        const int length = m_random.below(5) < 2 ? 1 : 1 + m_random.below(std::min(longestBlock, m_n - 1));
        const int from = m_random.below(m_n - length + 1);
        const int to = m_random.below(m_n - length + 1); // where it begins afterwards
        if (to == from)
            return {};
        if (to > from)
            return {from, from + length, to + length, false};
        return {to, from, from + length, false};
    }

    int some(int most) { return m_random.below(2) == 0 ? 1 : 1 + m_random.below(std::min(most, longestBlock)); }

    SequenceMove join() {
        const int b = m_random.below(m_n);
        const auto& list = m_before[static_cast<std::size_t>(b)];
        const int a = list[static_cast<std::size_t>(m_random.below(static_cast<int>(list.size())))];
        const int pb = m_sequence.positionOf(b), pa = a == m_n ? -1 : m_sequence.positionOf(a);
        if (pa + 1 == pb)
            return {};
        const bool bGoes = pa < 0 || m_random.below(2) == 0;
        if (pa < pb && bGoes)
            return {pa + 1, pb, pb + some(m_n - pb), false};
        if (pa < pb)
            return {pa + 1 - some(pa + 1), pa + 1, pb, false};
        if (bGoes)
            return {pb, pb + some(pa - pb), pa + 1, false};
        return {pb, pa + 1 - some(pa - pb), pa + 1, false};
    }

    int m_n;
    const Sequence& m_sequence;
    Random& m_random;
    std::vector<std::vector<int>> m_before; ///< likely predecessors, by node
};

/// Annealing for a family of good orders; then children of two of them, each annealed less hot.
class SequenceChain {
public:
    SequenceChain(ChainSetting& setting, const SequenceNumbers& numbers)
        : m_s(setting), m_n(numbers.jobs), m_zeroIsBest(setting.goal == Goal::Tardiness), m_sequence(numbers),
          m_draw(numbers, m_sequence, setting.random) {
        m_best = {m_sequence.cost(), m_sequence.order()};
        double weights = 0, gaps = 0;
        for (int j = 0; j < m_n; ++j) {
            weights += numbers.weight[static_cast<std::size_t>(j)] + numbers.hold[static_cast<std::size_t>(j)];
            gaps += std::min(numbers.gapOf((j + 1) % m_n, j), 1e6);
        }
        m_gap = std::max(1.0, gaps / m_n);
        m_usual = weights > 0 ? weights / m_n * m_gap : usualPair(numbers);
    }

    const std::vector<int>& best() const { return m_best.order; }

    void run() {
        const std::int64_t moves = std::int64_t{movesANode} * m_n;
        while (goesOn()) {
            m_family.clear();
            const double enough = m_s.watch.used() + familyShare;
            for (std::size_t k = 0; k < familySize && goesOn() && (k < 2 || m_s.watch.used() < enough); ++k) {
                anneal(moves, hot);
                join();
            }
            for (int fruitless = 0; fruitless < fruitlessChildren && goesOn();) {
                m_sequence.set(child());
                anneal(moves, warm);
                fruitless = join() ? 0 : fruitless + 1;
            }
        }
    }

private:
    struct Member {
        double cost = 0;
        std::vector<int> order;
    };

    /// Where time costs nothing: how much more than the least a changeover to a job costs.
    static double usualPair(const SequenceNumbers& numbers) {
        double sum = 0;
        for (int j = 0; j < numbers.jobs; ++j) {
            const double some = numbers.pairOf((j + 1) % numbers.jobs, j);
            double least = some;
            for (int i = 0; i <= numbers.jobs; ++i)
                if (i != j)
                    least = std::min(least, numbers.pairOf(i, j));
            sum += std::min(some - least, 1e6);
        }
        return std::max(1.0, sum / numbers.jobs);
    }

    bool goesOn() const { return !m_s.watch.over() && !(m_zeroIsBest && m_best.cost <= 0); }

    /// What a usual move costs: where little is late, few jobs decide and steps are small.
    double unit() const {
        const double late = 0.5 * std::max(m_best.cost, 1.0) / m_n;
        return std::max(1e-3, std::min(m_usual, std::sqrt(late * m_usual)));
    }

    void anneal(std::int64_t moves, double from) {
        m_round = {m_sequence.cost(), m_sequence.order()};
        double temperature = 0;
        for (std::int64_t k = 0; k < moves; ++k) {
            if ((k & 63) == 0) {
                const double part = static_cast<double>(k) / static_cast<double>(moves);
                temperature = from * unit() * std::pow(cold / from, part);
                // A job that is late by as little as heat may move it counts already: it is easily lost.
                if ((k & 1023) == 0)
                    m_sequence.guide(0.03 * temperature / m_gap, temperature * m_gap / m_usual);
                if (!goesOn())
                    return;
            }
            if (!m_s.watch.next())
                return;
            const SequenceMove m = m_draw.draw();
            if (m.k == 0)
                continue;
            const double limit = temperature * lessByHeat(m_s.random);
            const double change = m.change(m_sequence, limit);
            if (change <= limit)
                accept(m, change);
        }
    }

    void accept(const SequenceMove& move, [[maybe_unused]] double change) {
        [[maybe_unused]] const double before = m_sequence.energy();
        move.apply(m_sequence);
        assert(std::abs(m_sequence.energy() - before - change) <= 1e-9 * std::abs(before) + 1e-6);
        const double cost = m_sequence.cost();
        if (cost >= m_round.cost)
            return;
        m_round = {cost, m_sequence.order()};
        if (cost < m_best.cost)
            m_best = m_round;
    }

    /// The round's best joins the family, unless it is there already or worse than all.
    bool join() {
        for (const Member& m : m_family)
            if (m.cost == m_round.cost)
                return false;
        if (m_family.size() < familySize) {
            m_family.push_back(m_round);
            return true;
        }
        const auto worst = std::max_element(m_family.begin(), m_family.end(),
                                            [](const Member& a, const Member& b) { return a.cost < b.cost; });
        if (worst->cost <= m_round.cost)
            return false;
        *worst = m_round;
        return true;
    }

    /// A stretch of one parent where it stands, around it the other jobs in the order of the other parent.
    std::vector<int> child() {
        const int size = static_cast<int>(m_family.size());
        const int a = m_s.random.below(size), b = (a + 1 + m_s.random.below(std::max(1, size - 1))) % size;
        std::vector<int> out = m_family[static_cast<std::size_t>(a)].order;
        int from = m_s.random.below(m_n), to = m_s.random.below(m_n);
        if (from > to)
            std::swap(from, to);
        std::vector<char> kept(static_cast<std::size_t>(m_n), 0);
        for (int k = from; k <= to; ++k)
            kept[static_cast<std::size_t>(out[static_cast<std::size_t>(k)])] = 1;
        int at = 0;
        for (const int node : m_family[static_cast<std::size_t>(b)].order) {
            if (kept[static_cast<std::size_t>(node)])
                continue;
            if (at == from)
                at = to + 1;
            out[static_cast<std::size_t>(at++)] = node;
        }
        return out;
    }

    ChainSetting& m_s;
    int m_n;
    bool m_zeroIsBest;
    Sequence m_sequence;
    SequenceDraw m_draw;
    std::vector<Member> m_family;
    Member m_best, m_round;
    double m_usual = 1, m_gap = 1;
};

} // namespace

bool improveSequence(ChainSetting& setting, Found& found) {
    if (setting.goal != Goal::Tardiness && setting.goal != Goal::Cost)
        return false;
    const auto only = onlyPrinter(setting.line, found.orders);
    if (!only)
        return false;
    if (only->options.size() < 2)
        return true;
    const SequenceNumbers numbers = sequenceNumbers(setting.line, 0, only->state, only->options);
    SequenceChain chain(setting, numbers);
    runTelling(setting, found, chain, [&] { return only->plan(found.orders, setting.line.table(), chain.best()); });
    return true;
}

} // namespace interlude::planning
