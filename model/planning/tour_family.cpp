#include "model/planning/tour_family.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <limits>
#include <numeric>

namespace interlude::planning {

namespace {

constexpr int children = 30; // of one pair
constexpr int fruitlessGenerations = 10;
std::size_t at(int k) {
    return static_cast<std::size_t>(k);
}

} // namespace

TourFamily::TourFamily(const CostTable& table, const Neighbours& after, const Neighbours& behind)
    : m_table(table), m_after(after), m_behind(behind), m_n(table.size) {
    m_uses.assign(at(m_n) * at(m_n), 0);
    m_isChanged.assign(at(m_n), 0);
    m_ring.resize(at(m_n));
}

void TourFamily::add(const std::vector<int>& order) {
    Member m;
    m.next.resize(at(m_n));
    m.before.resize(at(m_n));
    for (std::size_t k = 0; k < order.size(); ++k) {
        const int a = order[k], b = order[k + 1 < order.size() ? k + 1 : 0];
        m.next[at(a)] = b;
        m.before[at(b)] = a;
        m.cost += cost(a, b);
    }
    count(m, 1);
    m_members.push_back(std::move(m));
}

void TourFamily::count(const Member& m, int by) {
    for (int a = 0; a < m_n; ++a) {
        auto& u = uses(a, m.next[at(a)]);
        u = static_cast<std::uint16_t>(u + by);
    }
}

std::int64_t TourFamily::bestCost() const {
    std::int64_t best = std::numeric_limits<std::int64_t>::max();
    for (const Member& m : m_members)
        best = std::min(best, m.cost);
    return best;
}

std::vector<int> TourFamily::best() const {
    const auto found = std::min_element(m_members.begin(), m_members.end(),
                                        [](const Member& a, const Member& b) { return a.cost < b.cost; });
    std::vector<int> out{0};
    for (int k = found->next[0]; k != 0; k = found->next[at(k)])
        out.push_back(k);
    return out;
}

/// From a node along the arc of `a`, back along the arc of `b` that leads there, and so on round.
void TourFamily::findCycles(const Member& a, const Member& b) {
    m_cycleCount = 0;
    std::fill(m_ring.begin(), m_ring.end(), 0);
    for (int s = 0; s < m_n; ++s) {
        if (m_ring[at(s)] || a.next[at(s)] == b.next[at(s)])
            continue;
        if (m_cycles.size() <= m_cycleCount)
            m_cycles.emplace_back();
        auto& cycle = m_cycles[m_cycleCount++];
        cycle.clear();
        for (int u = s; !m_ring[at(u)]; u = b.before[at(a.next[at(u)])]) {
            m_ring[at(u)] = 1;
            cycle.push_back(u);
        }
    }
}

void TourFamily::put(int node, int next) {
    m_change += cost(node, next) - cost(node, m_next[at(node)]);
    m_next[at(node)] = next;
    m_before[at(next)] = node;
    if (!m_isChanged[at(node)]) {
        m_isChanged[at(node)] = 1;
        m_changed.push_back(node);
    }
}

void TourFamily::take(int cycle, const Member& b) {
    for (const int u : m_cycles[at(cycle)])
        put(u, b.next[at(u)]);
}

/// Numbers the rings of the child; how many there are.
int TourFamily::rings() {
    std::fill(m_ring.begin(), m_ring.end(), -1);
    m_ringSize.clear();
    m_ringBegin.clear();
    for (const int s : m_changed) { // a ring without a changed arc would be a tour
        if (m_ring[at(s)] >= 0)
            continue;
        const int ring = static_cast<int>(m_ringSize.size());
        int size = 0;
        for (int k = s; m_ring[at(k)] < 0; k = m_next[at(k)], ++size)
            m_ring[at(k)] = ring;
        m_ringSize.push_back(size);
        m_ringBegin.push_back(s);
    }
    return static_cast<int>(m_ringSize.size());
}

/// Joins the smallest ring to another one where it costs least, until one is left.
void TourFamily::join() {
    for (int count = rings(); count > 1; --count) {
        int small = -1;
        for (int r = 0; r < static_cast<int>(m_ringSize.size()); ++r)
            if (m_ringSize[at(r)] > 0 && (small < 0 || m_ringSize[at(r)] < m_ringSize[at(small)]))
                small = r;
        std::int64_t least = std::numeric_limits<std::int64_t>::max();
        int bestU = -1, bestP = -1; // arcs u → x and p → y become u → y and p → x
        const auto look = [&](int u, int p) {
            const int x = m_next[at(u)], y = m_next[at(p)];
            const std::int64_t c = cost(u, y) + cost(p, x) - cost(u, x) - cost(p, y);
            if (c < least) {
                least = c;
                bestU = u;
                bestP = p;
            }
        };
        const int begin = m_ringBegin[at(small)];
        int u = begin;
        do {
            for (const int y : m_after[at(u)])
                if (m_ring[at(y)] != small)
                    look(u, m_before[at(y)]);
            for (const int p : m_behind[at(m_next[at(u)])])
                if (m_ring[at(p)] != small)
                    look(u, p);
            u = m_next[at(u)];
        } while (u != begin);
        if (bestU < 0)
            for (int p = 0; p < m_n; ++p)
                if (m_ring[at(p)] != small)
                    look(begin, p);
        const int other = m_ring[at(bestP)];
        for (int k = begin;;) {
            m_ring[at(k)] = other;
            k = m_next[at(k)];
            if (k == begin)
                break;
        }
        const int x = m_next[at(bestU)], y = m_next[at(bestP)];
        put(bestU, y);
        put(bestP, x);
        m_ringSize[at(other)] += m_ringSize[at(small)];
        m_ringSize[at(small)] = 0;
    }
}

/// How much variety (entropy of the arcs) the family loses if the child takes the place of its parent.
double TourFamily::lossOfVariety(const Member& a) const {
    double loss = 0;
    const auto used = [&](int from, int to) { return m_uses[at(from) * at(m_n) + at(to)]; };
    for (const int u : m_changed) {
        if (a.next[at(u)] == m_next[at(u)])
            continue;
        const auto out = used(u, a.next[at(u)]), in = used(u, m_next[at(u)]);
        loss += m_entropy[at(out - 1)] - m_entropy[at(out)] + m_entropy[at(in + 1)] - m_entropy[at(in)];
    }
    return loss;
}

void TourFamily::cross(int a, int b, Watch& watch, Random& random) {
    Member& parent = m_members[at(a)];
    const Member& other = m_members[at(b)];
    findCycles(parent, other);
    const int count = static_cast<int>(m_cycleCount);
    if (count == 0)
        return;
    for (int k = 0; k < std::min(count, children); ++k)
        std::swap(m_cycles[at(k)], m_cycles[at(k + random.below(count - k))]);
    m_next = parent.next;
    m_before = parent.before;
    double bestWorth = 0;
    std::vector<Change> chosen;
    std::int64_t chosenChange = 0;
    for (int k = 0; k < std::min(count, children) && watch.next(); ++k) {
        m_changed.clear();
        m_change = 0;
        take(k, other);
        join();
        if (m_change < 0) {
            const double loss = lossOfVariety(parent);
            const double worth = static_cast<double>(-m_change) / std::max(loss, 1e-9);
            if (worth > bestWorth) {
                bestWorth = worth;
                chosenChange = m_change;
                chosen.clear();
                for (const int u : m_changed)
                    chosen.push_back({u, m_next[at(u)]});
            }
        }
        for (const int u : m_changed) {
            m_isChanged[at(u)] = 0;
            m_next[at(u)] = parent.next[at(u)];
            m_before[at(parent.next[at(u)])] = u;
        }
    }
    if (chosen.empty())
        return;
    for (const Change& c : chosen) {
        --uses(c.node, parent.next[at(c.node)]);
        ++uses(c.node, c.next);
        parent.next[at(c.node)] = c.next;
        parent.before[at(c.next)] = c.node;
    }
    parent.cost += chosenChange;
    assert(parent.cost % 64 != 0 || holds(parent)); // now and then: it takes longer than the child
}

/// One ring through all nodes, at that cost.
bool TourFamily::holds(const Member& m) const {
    std::int64_t sum = 0;
    int k = 0, seen = 0;
    do {
        sum += cost(k, m.next[at(k)]);
        if (m.before[at(m.next[at(k)])] != k)
            return false;
        k = m.next[at(k)];
    } while (++seen < m_n && k != 0);
    return seen == m_n && k == 0 && sum == m.cost;
}

bool TourFamily::generation(Watch& watch, Random& random) {
    const int size = static_cast<int>(m_members.size());
    if (size < 2)
        return false;
    if (m_entropy.empty())
        for (int k = 0; k <= size + 1; ++k) {
            const double share = 1.0 * k / size;
            m_entropy.push_back(k == 0 ? 0 : share * std::log(share));
        }
    std::int64_t before = 0, after = 0;
    for (const Member& m : m_members)
        before += m.cost;
    std::vector<int> order(at(size));
    std::iota(order.begin(), order.end(), 0);
    for (int k = size - 1; k > 0; --k)
        std::swap(order[at(k)], order[at(random.below(k + 1))]);
    for (int k = 0; k < size && !watch.over(); ++k)
        cross(order[at(k)], order[at((k + 1) % size)], watch, random);
    for (const Member& m : m_members)
        after += m.cost;
    m_fruitless = after < before ? 0 : m_fruitless + 1;
    return !watch.over() && m_fruitless < fruitlessGenerations;
}

} // namespace interlude::planning
