#include "model/planning/tour.h"

#include "model/planning/tour_family.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace interlude::planning {

namespace {

constexpr std::size_t neighbours = 10;
constexpr std::size_t neighboursApart = 5; // of these none is reached more cheaply by way of another
constexpr int twins = 2; // so many likely neighbours at most that are alike to the rest: of one setup
constexpr int bridge = 50; // a kick stays within so many nodes
constexpr int farKicks = 5; // of a hundred
/// How much dearer a kicked tour may be to be gone on from: drawn anew each time, in mean arcs. It falls from `hot` to
/// `cold` in one annealing. Tours of a few setups with many jobs each need that.
constexpr double hot = 3, cold = 0.02;
/// Kicks a node of the first annealing, and tours of the first family; how often they are doubled at most.
constexpr int kicksANode = 80, firstFamily = 50, lastDoubling = 6;
constexpr double kicksANodeAtBirth = 0.3; // of a tour of a family

} // namespace

Tour::Tour(const CostTable& table, Watch& watch) : m_table(table), m_n(table.size) {
    const Assignment a = assigned(table, [&watch] { return watch.goOn(); });
    if (!a.columnOf.empty()) {
        m_leastKnown = a.cost;
        findNeighbours(a);
    }
    m_position.resize(static_cast<std::size_t>(m_n));
    m_queued.assign(static_cast<std::size_t>(m_n), 0);
}

/// Numbers of classes: nodes of one class cost alike, to and from every other node.
std::vector<int> Tour::classes() const {
    std::vector<int> out, first;
    const auto alike = [&](int a, int b) {
        for (int k = 0; k < m_n; ++k)
            if (k != a && k != b && (cost(a, k) != cost(b, k) || cost(k, a) != cost(k, b)))
                return false;
        return true;
    };
    for (int k = 0; k < m_n; ++k) {
        const auto same = std::find_if(first.begin(), first.end(), [&](int f) { return alike(f, k); });
        out.push_back(static_cast<int>(same - first.begin()));
        if (same == first.end())
            first.push_back(k);
    }
    return out;
}

void Tour::findNeighbours(const Assignment& a) {
    const std::vector<int> classOf = classes();
    std::vector<int> taken(static_cast<std::size_t>(m_n), 0);
    m_after.resize(static_cast<std::size_t>(m_n));
    m_behind.resize(static_cast<std::size_t>(m_n));
    std::vector<std::pair<std::int64_t, int>> list;
    std::vector<int> apart; // none of them is reached more cheaply by another of them
    const auto fill = [&](auto reduced, auto plain, auto between, int of, std::vector<int>& out) {
        list.clear();
        for (int k = 0; k < m_n; ++k)
            if (k != of)
                list.emplace_back(reduced(k), k);
        std::sort(list.begin(), list.end());
        apart.clear();
        for (const auto& entry : list) {
            const int k = entry.second;
            if (out.size() >= neighbours && apart.size() >= neighboursApart)
                break;
            const bool alone = apart.size() < neighboursApart && std::none_of(apart.begin(), apart.end(), [&](int j) {
                                   return between(j, k) < plain(k);
                               });
            if (alone)
                apart.push_back(k);
            int& ofClass = taken[static_cast<std::size_t>(classOf[static_cast<std::size_t>(k)])];
            if (alone || (out.size() < neighbours && ++ofClass <= twins))
                out.push_back(k);
        }
        std::fill(taken.begin(), taken.end(), 0);
    };
    for (int i = 0; i < m_n; ++i) {
        fill([&](int k) { return cost(i, k) - a.column[static_cast<std::size_t>(k)]; },
             [&](int k) { return cost(i, k); }, [&](int j, int k) { return cost(j, k); }, i,
             m_after[static_cast<std::size_t>(i)]);
        fill([&](int k) { return cost(k, i) - a.row[static_cast<std::size_t>(k)]; },
             [&](int k) { return cost(k, i); }, [&](int j, int k) { return cost(k, j); }, i,
             m_behind[static_cast<std::size_t>(i)]);
    }
}

void Tour::put(const std::vector<int>& order) {
    m_order = order;
    for (int k = 0; k < m_n; ++k)
        m_position[static_cast<std::size_t>(order[static_cast<std::size_t>(k)])] = k;
    m_cost = computed();
    for (int k = m_n; k-- > 0;)
        queue(k);
}

void Tour::set(const std::vector<int>& order) {
    put(order);
    m_best = m_order;
    m_bestCost = m_cost;
}

std::int64_t Tour::computed() const {
    std::int64_t sum = 0;
    for (int k = 0; k < m_n; ++k)
        sum += cost(m_order[static_cast<std::size_t>(k)], m_order[wrap(k + 1)]);
    return sum;
}

/// Looked at now and then: it takes longer than the exchange.
bool Tour::costHolds() const {
    return m_cost % 64 != 0 || m_cost == computed();
}

void Tour::queue(int node) {
    if (m_queued[static_cast<std::size_t>(node)])
        return;
    m_queued[static_cast<std::size_t>(node)] = 1;
    m_queue.push_back(node);
}

/// Tour a b … c d … e f … becomes a d … e b … c f …: of the three segments b … c, d … e and f … a the longest stays
/// where it is and the two others change places.
void Tour::exchange(int a, int d, int f) {
    const int b = next(a);
    const auto length = [&](int from, int to) {
        const int steps = position(to) - position(from);
        return steps < 0 ? steps + m_n : steps;
    };
    const int first = length(b, d), second = length(d, f), third = length(f, b);
    if (third >= first && third >= second)
        return swapBehind(position(b), first, second);
    if (first >= second)
        return swapBehind(position(d), second, third);
    swapBehind(position(f), third, first);
}

/// The stretch of `first` nodes from a position on and the one of `second` nodes behind it change places.
void Tour::swapBehind(int begin, int first, int second) {
    m_moved.clear();
    for (int k = first; k < first + second; ++k)
        m_moved.push_back(m_order[wrap(begin + k)]);
    for (int k = 0; k < first; ++k)
        m_moved.push_back(m_order[wrap(begin + k)]);
    for (int k = 0; k < first + second; ++k) {
        const std::size_t at = wrap(begin + k);
        m_order[at] = m_moved[static_cast<std::size_t>(k)];
        m_position[static_cast<std::size_t>(m_order[at])] = static_cast<int>(at);
    }
}

bool Tour::improved(int a, int d, int f, std::int64_t change) {
    if (change >= 0)
        return false;
    const int b = next(a), c = before(d), e = before(f);
    exchange(a, d, f);
    m_cost += change;
    assert(costHolds());
    for (const int node : {a, b, c, d, e, f})
        queue(node);
    return true;
}

/// The first improving exchange that takes the arc behind `a` out.
bool Tour::improveBehind(int a, Watch& watch) {
    const int b = next(a);
    const std::int64_t out = cost(a, b);
    const int begin = position(b);
    const auto steps = [&](int node) { return static_cast<int>(wrap(position(node) - begin)); };
    for (const int d : m_after[static_cast<std::size_t>(a)]) {
        const std::int64_t gain = out - cost(a, d);
        if (d == b || gain <= 0)
            continue;
        const int c = before(d);
        const std::int64_t gainC = gain + cost(c, d);
        for (const int f : m_after[static_cast<std::size_t>(c)]) {
            if (gainC - cost(c, f) <= 0 || f == d)
                continue;
            // f lies behind d on the way from b round to a.
            if (steps(f) <= steps(d))
                continue;
            const int e = before(f);
            if (!watch.next())
                return false;
            const std::int64_t change = cost(a, d) + cost(c, f) + cost(e, b) - out - cost(c, d) - cost(e, f);
            if (improved(a, d, f, change))
                return true;
        }
    }
    return false;
}

/// The same from the other end: the arc before `a` goes out and a likely predecessor comes in.
bool Tour::improveBefore(int a, Watch& watch) {
    const int p = before(a);
    for (const int x : m_behind[static_cast<std::size_t>(a)]) {
        // x y … p a … : y … p and a … z change places, so that x is followed by a.
        if (x == p || cost(x, a) >= cost(p, a))
            continue;
        const int y = next(x);
        const std::int64_t gain = cost(p, a) - cost(x, a) + cost(x, y);
        const int from = position(y);
        const auto way = [&](int node) { return static_cast<int>(wrap(position(node) - from)); };
        for (const int z : m_behind[static_cast<std::size_t>(y)]) {
            if (gain - cost(z, y) <= 0)
                continue;
            if (way(z) < way(a) || z == x)
                continue;
            const int q = next(z);
            if (!watch.next())
                return false;
            const std::int64_t change = cost(x, a) + cost(z, y) + cost(p, q) - cost(x, y) - cost(p, a) - cost(z, q);
            if (improved(x, a, q, change))
                return true;
        }
    }
    return false;
}

void Tour::settle(Watch& watch) {
    while (!m_queue.empty() && !watch.over()) {
        const int a = m_queue.back();
        m_queue.pop_back();
        m_queued[static_cast<std::size_t>(a)] = 0;
        while (improveBehind(a, watch) || improveBefore(a, watch)) {
        }
    }
}

/// Two neighbouring segments change places at random: short ones, or such as begin at dear arcs, wherever these are.
void Tour::doubleBridge(Random& random) {
    const bool far = random.below(100) < farKicks;
    const int span = far ? m_n - 1 : std::min(bridge, m_n - 1);
    int cuts[3];
    const int begin = random.below(m_n);
    const auto arc = [&](int offset) {
        const auto to = static_cast<std::size_t>((begin + offset) % m_n);
        return cost(m_order[to > 0 ? to - 1 : static_cast<std::size_t>(m_n) - 1], m_order[to]);
    };
    do {
        for (int& c : cuts) {
            c = 1 + random.below(span);
            for (int k = 0; far && k < 5; ++k)
                if (const int other = 1 + random.below(span); arc(other) > arc(c))
                    c = other;
        }
        std::sort(cuts, cuts + 3);
    } while (cuts[0] == cuts[1] || cuts[1] == cuts[2]);
    const auto nodeAt = [&](int offset) { return m_order[static_cast<std::size_t>((begin + offset) % m_n)]; };
    const int b = nodeAt(cuts[0]), d = nodeAt(cuts[1]), f = nodeAt(cuts[2] % m_n);
    const int a = before(b), c = before(d), e = before(f);
    m_cost += cost(a, d) + cost(c, f) + cost(e, b) - cost(a, b) - cost(c, d) - cost(e, f);
    exchange(a, d, f);
    assert(costHolds());
    for (const int node : {a, b, c, d, e, f})
        queue(node);
}

/// Kicks, each followed by improvement and taken back where it made the tour too dear. The least cost on the way.
std::int64_t Tour::wander(std::int64_t kicks, double from, Watch& watch, Random& random) {
    std::vector<int> keptOrder = m_order, keptPosition = m_position;
    std::int64_t kept = m_cost, least = m_cost;
    for (std::int64_t kick = 0; kick < kicks && !done(watch) && watch.next(); ++kick) {
        doubleBridge(random);
        settle(watch);
        double allowed = 0;
        if (from > 0) {
            const double part = static_cast<double>(kick) / static_cast<double>(kicks);
            const double mean = static_cast<double>(m_bestCost) / m_n;
            allowed = -std::log(1 - random.unit()) * from * std::pow(cold / from, part) * mean;
        }
        if (m_cost <= kept || static_cast<double>(m_cost - kept) < allowed) {
            keptOrder = m_order;
            keptPosition = m_position;
            kept = m_cost;
            least = std::min(least, kept);
            keepBest();
        } else {
            m_order = keptOrder;
            m_position = keptPosition;
            m_cost = kept;
        }
    }
    return least;
}

void Tour::keepBest() {
    if (m_cost >= m_bestCost)
        return;
    m_bestCost = m_cost;
    m_best = m_order;
}

/// Improved tours from random ones, crossed until that leads no further. The least cost of them.
std::int64_t Tour::breed(int size, Watch& watch, Random& random) {
    TourFamily family(m_table, m_after, m_behind);
    std::vector<int> order = m_best;
    for (int k = 0; k < size && !done(watch); ++k) {
        for (int i = m_n; i-- > 1;)
            std::swap(order[static_cast<std::size_t>(i)], order[static_cast<std::size_t>(random.below(i + 1))]);
        put(order);
        settle(watch);
        wander(1 + static_cast<int>(kicksANodeAtBirth * m_n), 0, watch, random);
        keepBest();
        family.add(m_order);
    }
    while (!done(watch) && family.generation(watch, random))
        if (family.bestCost() < m_bestCost) {
            m_bestCost = family.bestCost();
            m_best = family.best();
        }
    return family.bestCost();
}

void Tour::search(Watch& watch, Random& random, const std::function<bool()>& enough) {
    if (m_n < 4 || m_after.empty())
        return;
    put(m_best);
    settle(watch);
    keepBest();
    wander(std::int64_t{kicksANode} * m_n / 10, 0, watch, random);
    // What finds the cheaper tour, annealing or crossing, is given more from then on.
    for (int anneal = 0, cross = 0, round = 0; !done(watch); ++round) {
        const std::int64_t annealed = wander((std::int64_t{kicksANode} * m_n) << anneal, hot, watch, random);
        const std::int64_t crossed = breed(firstFamily << cross, watch, random);
        anneal = std::min(lastDoubling, anneal + (annealed <= crossed ? 1 : 0));
        cross = std::min(lastDoubling, cross + (crossed <= annealed ? 1 : 0));
        if (round > 0 && enough())
            return;
        put(m_best);
        settle(watch);
    }
}

} // namespace interlude::planning
