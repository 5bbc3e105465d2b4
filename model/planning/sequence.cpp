#include "model/planning/sequence.h"

#include <algorithm>
#include <cassert>
#include <cstring>

namespace interlude::planning {

namespace {

constexpr double impossibleCosts = 1e9; // minutes, and cents × minutes per hour × 1000

/// Two at a time, which every 64-bit processor can; two sums so that one addition need not wait for the other.
using Two = double __attribute__((vector_size(16)));

Two load(const double* from) {
    Two out;
    std::memcpy(&out, from, sizeof out);
    return out;
}

/// Σ weight × max(0, late + shift).
double sumLate(const double* late, const double* weight, int n, double shift) {
    const Two zero = {0, 0}, by = {shift, shift};
    Two sum = zero, other = zero;
    int i = 0;
    for (; i + 4 <= n; i += 4) {
        const Two a = load(late + i) + by, b = load(late + i + 2) + by;
        sum += load(weight + i) * (a > zero ? a : zero);
        other += load(weight + i + 2) * (b > zero ? b : zero);
    }
    sum += other;
    double rest = sum[0] + sum[1];
    for (; i < n; ++i)
        rest += weight[i] * std::max(0.0, late[i] + shift);
    return rest;
}

} // namespace

SequenceNumbers sequenceNumbers(PrinterLine& line, int printer, const LineState& state,
                                const std::vector<int>& options) {
    ChangeoverTable& table = line.table();
    const Problem& problem = table.problem();
    const bool cost = line.goal() == Goal::Cost;
    SequenceNumbers out;
    const int n = out.jobs = static_cast<int>(options.size());
    const auto size = static_cast<std::size_t>(n + 1);
    out.option = options;
    out.gap.assign(size * size, 0);
    if (cost)
        out.pair.assign(size * size, 0);
    out.begin = static_cast<double>(state.ready);
    const double rate = static_cast<double>(problem.printers[static_cast<std::size_t>(printer)].hourlyRate);
    // A look at any changeover to a job tells its print time and, as states form a table, its state afterwards.
    std::vector<const Brief*> some(size, nullptr);
    std::vector<int> rows{state.row};
    for (std::size_t k = 0; k < rows.size(); ++k)
        for (int j = 0; j < n; ++j) {
            const Brief& b = table.from(printer, rows[k], options[static_cast<std::size_t>(j)]);
            if (!b.possible || some[static_cast<std::size_t>(j)])
                continue;
            some[static_cast<std::size_t>(j)] = &b;
            if (std::find(rows.begin(), rows.end(), b.next) == rows.end())
                rows.push_back(b.next);
        }
    const auto busy = [&](int node) -> Minute { // from print start to part out
        if (node == n)
            return state.ready - state.printStart;
        const Brief* b = some[static_cast<std::size_t>(node)];
        return b ? b->print + b->removal : 0;
    };
    for (int j = 0; j < n; ++j) {
        const JobNumbers& job =
            problem.jobs[static_cast<std::size_t>(table.jobOf(options[static_cast<std::size_t>(j)]))];
        out.due.push_back(static_cast<double>(job.due.value_or(0)));
        out.weight.push_back(job.due ? static_cast<double>(job.lateCostPerHour) : 0);
        out.hold.push_back(cost ? static_cast<double>(job.holdingCostPerHour) : 0);
        out.release.push_back(static_cast<double>(job.release.value_or(0) + busy(j)));
        out.releases = out.releases || job.release.value_or(0) > state.ready;
        for (int i = 0; i <= n; ++i) {
            if (i == j)
                continue;
            const Brief* before = i == n ? nullptr : some[static_cast<std::size_t>(i)];
            const Brief& b = table.from(printer,
                                        i == n   ? state.row
                                        : before ? before->next
                                                 : state.row,
                                        options[static_cast<std::size_t>(j)]);
            if (!b.possible || (i < n && !before)) {
                out.gap[out.at(i, j)] = impossibleCosts;
                if (cost)
                    out.pair[out.at(i, j)] = 1000 * impossibleCosts;
                continue;
            }
            const Minute wait = std::max<Minute>(0, b.preparation - busy(i));
            out.gap[out.at(i, j)] =
                static_cast<double>(line.goal() == Goal::Changeover ? b.minutes : wait + b.minutes + busy(j));
            if (!cost)
                continue;
            const Minute sinceEnd = i == n ? state.ready - state.printEnd : before->removal;
            out.pair[out.at(i, j)] = 60 * static_cast<double>(b.material) +
                                     rate * static_cast<double>(b.print + sinceEnd + wait + b.minutes);
        }
    }
    return out;
}

Orders OnlyPrinter::plan(const Orders& orders, const ChangeoverTable& table, const std::vector<int>& order) const {
    Orders out = orders;
    out.printers[0].resize(from);
    for (const int k : order)
        out.printers[0].push_back(table.place(options[static_cast<std::size_t>(k)]));
    return out;
}

std::optional<OnlyPrinter> onlyPrinter(PrinterLine& line, const Orders& orders) {
    ChangeoverTable& table = line.table();
    const Problem& problem = table.problem();
    const bool oneVariant = std::all_of(problem.jobs.begin(), problem.jobs.end(),
                                        [](const JobNumbers& j) { return j.variants.size() == 1; });
    if (problem.printers.size() != 1 || !problem.printersApart() || !table.changes().pairwise() || !oneVariant)
        return std::nullopt;
    OnlyPrinter out;
    const auto& list = orders.printers[0];
    for (std::size_t i = 0; i < list.size(); ++i)
        if (orders.locked[static_cast<std::size_t>(list[i].job)])
            out.from = i + 1;
    out.state = line.begin(0);
    LineCost ignored;
    for (std::size_t i = 0; i < list.size(); ++i) {
        const int option = table.optionOf(list[i]);
        if (i < out.from)
            line.append(0, option, out.state, ignored);
        else
            out.options.push_back(option);
    }
    return out;
}

Sequence::Sequence(const SequenceNumbers& numbers) : m_numbers(numbers) {
    const auto n = static_cast<std::size_t>(numbers.jobs);
    for (auto* list : {&m_complete, &m_late, &m_weight, &m_sum, &m_holdSum, &m_pathSum, &m_trueSum, &m_latest})
        list->assign(n + 1, 0);
    m_latest[0] = -1e18;
    std::vector<int> order(n);
    for (std::size_t i = 0; i < n; ++i)
        order[i] = static_cast<int>(i);
    m_position.resize(n);
    set(order);
}

void Sequence::set(const std::vector<int>& order) {
    m_order = order;
    runFrom(0);
}

void Sequence::guide(double perMinute, double sooner) {
    m_perMinute = perMinute;
    m_sooner = sooner;
    runFrom(0);
}

double Sequence::oneCost(int node, double complete, double sooner) const {
    const auto j = static_cast<std::size_t>(node);
    return m_numbers.weight[j] * std::max(0.0, complete - m_numbers.due[j] + sooner) + m_numbers.hold[j] * complete;
}

void Sequence::runFrom(int from) {
    const int n = size();
    double complete = completeAt(from - 1);
    for (int k = from; k < n; ++k) {
        const auto at = static_cast<std::size_t>(k);
        const int node = m_order[at], before = nodeAt(k - 1);
        const auto j = static_cast<std::size_t>(node);
        complete = std::max(complete + m_numbers.gapOf(before, node), m_numbers.release[j]);
        m_position[j] = k;
        m_complete[at] = complete;
        m_late[at] = complete - m_numbers.due[j] + m_sooner;
        m_weight[at] = m_numbers.weight[j];
        m_latest[at + 1] = m_weight[at] > 0 ? std::max(m_latest[at], m_late[at]) : m_latest[at];
        m_sum[at + 1] = m_sum[at] + m_weight[at] * std::max(0.0, m_late[at]);
        m_holdSum[at + 1] = m_holdSum[at] + m_numbers.hold[j];
        const double pair = m_numbers.pairOf(before, node);
        m_pathSum[at + 1] = m_pathSum[at] + oneCost(node, complete, m_sooner) + pair;
        m_trueSum[at + 1] = m_trueSum[at] + oneCost(node, complete, 0) + pair;
    }
    m_energy = m_pathSum[static_cast<std::size_t>(n)] + m_perMinute * complete;
}

double Sequence::lateCost(int from, int to, double shift) const {
    return sumLate(m_late.data() + from, m_weight.data() + from, to - from, shift);
}

double Sequence::shifted(int from, int to, double shift) const {
    if (from >= to || shift == 0)
        return 0;
    const auto lo = static_cast<std::size_t>(from), hi = static_cast<std::size_t>(to);
    // Where due dates are loose, nothing up to there is late, now or then.
    if (m_latest[hi] <= 0 && m_latest[hi] + shift <= 0)
        return shift * (m_holdSum[hi] - m_holdSum[lo]);
    return lateCost(from, to, shift) - (m_sum[hi] - m_sum[lo]) + shift * (m_holdSum[hi] - m_holdSum[lo]);
}

/// What the changeovers themselves cost more when [i, j) and [j, k) change places.
double Sequence::joins(int i, int j, int k) const {
    if (m_numbers.pair.empty())
        return 0;
    const int a = nodeAt(i - 1), b = nodeAt(i), c = nodeAt(j - 1), d = nodeAt(j), e = nodeAt(k - 1);
    double change = m_numbers.pairOf(a, d) - m_numbers.pairOf(a, b) + m_numbers.pairOf(e, b) - m_numbers.pairOf(c, d);
    if (k < size())
        change += m_numbers.pairOf(c, nodeAt(k)) - m_numbers.pairOf(e, nodeAt(k));
    return change;
}

double Sequence::exchanged(int i, int j, int k, double limit) const {
    assert(0 <= i && i < j && j < k && k <= size());
    if (m_numbers.releases) {
        m_part.assign(m_order.begin() + j, m_order.begin() + k);
        m_part.insert(m_part.end(), m_order.begin() + i, m_order.begin() + j);
        return stepwise(m_part, i, k, limit);
    }
    const auto& g = m_numbers;
    const double second = completeAt(i - 1) + g.gapOf(nodeAt(i - 1), nodeAt(j)) - completeAt(j);
    const double first = completeAt(k - 1) + second + g.gapOf(nodeAt(k - 1), nodeAt(i)) - completeAt(i);
    double change = joins(i, j, k);
    double tail = 0;
    if (k >= size())
        change += m_perMinute * (completeAt(j - 1) + first - completeAt(k - 1));
    if (k < size())
        tail = completeAt(j - 1) + first + g.gapOf(nodeAt(j - 1), nodeAt(k)) - completeAt(k);
    // What the tail may save at most: everything that is late there.
    const double saved = tail < 0 ? m_sum[static_cast<std::size_t>(size())] - m_sum[static_cast<std::size_t>(k)] : 0;
    const double held =
        m_numbers.pair.empty()
            ? 0
            : tail * (m_holdSum[static_cast<std::size_t>(size())] - m_holdSum[static_cast<std::size_t>(k)]);
    change += m_perMinute * tail;
    change += shifted(i, j, first);
    const auto at = [](int x) { return static_cast<std::size_t>(x); };
    const double secondSaves =
        second < 0 ? m_sum[at(k)] - m_sum[at(j)] - second * (m_holdSum[at(k)] - m_holdSum[at(j)]) : 0;
    if (change + held - saved - secondSaves > limit)
        return change + held - saved - secondSaves;
    change += shifted(j, k, second);
    if (change + held - saved > limit)
        return change + held - saved;
    return change + shifted(k, size(), tail);
}

double Sequence::swapped(int i, int j, double limit) const {
    assert(0 <= i && i + 1 < j && j < size());
    if (m_numbers.releases) {
        m_part.assign(m_order.begin() + i, m_order.begin() + j + 1);
        std::swap(m_part.front(), m_part.back());
        return stepwise(m_part, i, j + 1, limit);
    }
    const auto& g = m_numbers;
    const int before = nodeAt(i - 1), a = nodeAt(i), b = nodeAt(i + 1), c = nodeAt(j - 1), d = nodeAt(j);
    const double early = completeAt(i - 1) + g.gapOf(before, d);
    const double middle = early + g.gapOf(d, b) - completeAt(i + 1);
    const double lateOne = completeAt(j - 1) + middle + g.gapOf(c, a);
    double change = oneCost(d, early, m_sooner) + oneCost(a, lateOne, m_sooner) -
                    oneCost(a, completeAt(i), m_sooner) - oneCost(d, completeAt(j), m_sooner);
    change +=
        g.pairOf(before, d) + g.pairOf(d, b) + g.pairOf(c, a) - g.pairOf(before, a) - g.pairOf(a, b) - g.pairOf(c, d);
    double tail = 0;
    if (j + 1 < size()) {
        const int e = nodeAt(j + 1);
        tail = lateOne + g.gapOf(a, e) - completeAt(j + 1);
        change += g.pairOf(a, e) - g.pairOf(d, e);
    }
    change += shifted(i + 1, j, middle);
    change += m_perMinute * (j + 1 < size() ? tail : lateOne - completeAt(j));
    const auto end = static_cast<std::size_t>(size()), from = static_cast<std::size_t>(j + 1);
    const double saved = tail < 0 ? m_sum[end] - m_sum[from] - tail * (m_holdSum[end] - m_holdSum[from]) : 0;
    if (change - saved > limit)
        return change - saved;
    return change + shifted(j + 1, size(), tail);
}

/// With release dates a stretch does not shift by a constant: step by step until the times are the old ones again.
double Sequence::stepwise(const std::vector<int>& part, int from, int to, double limit) const {
    double complete = completeAt(from - 1);
    const double old = m_pathSum[static_cast<std::size_t>(to)] - m_pathSum[static_cast<std::size_t>(from)];
    double change = -old;
    int before = nodeAt(from - 1);
    const auto step = [&](int node) {
        complete =
            std::max(complete + m_numbers.gapOf(before, node), m_numbers.release[static_cast<std::size_t>(node)]);
        change += oneCost(node, complete, m_sooner) + m_numbers.pairOf(before, node);
        before = node;
    };
    const double end = completeAt(size() - 1);
    // What may be saved at most behind what is looked at.
    const double rest =
        m_pathSum[static_cast<std::size_t>(size())] - m_pathSum[static_cast<std::size_t>(to)] + m_perMinute * end;
    for (const int node : part) {
        step(node);
        if (change - rest > limit)
            return change - rest;
    }
    for (int k = to; k < size(); ++k) {
        const auto at = static_cast<std::size_t>(k);
        step(m_order[at]);
        change -= m_pathSum[at + 1] - m_pathSum[at];
        if (complete == m_complete[at])
            return change;
    }
    return change + m_perMinute * (complete - end);
}

void Sequence::exchange(int i, int j, int k) {
    std::rotate(m_order.begin() + i, m_order.begin() + j, m_order.begin() + k);
    runFrom(i);
}

void Sequence::swap(int i, int j) {
    std::swap(m_order[static_cast<std::size_t>(i)], m_order[static_cast<std::size_t>(j)]);
    runFrom(i);
}

} // namespace interlude::planning
