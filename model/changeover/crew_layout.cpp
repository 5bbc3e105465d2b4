#include "model/changeover/crew_layout.h"

#include "model/catalogue/catalogue.h"

#include <algorithm>
#include <numeric>
#include <random>

namespace interlude {

namespace {

/// Tries of the order in which steps are placed, beside the two that are clear.
constexpr int tries = 300;

struct Node {
    const PlannedStep* step = nullptr;
    int minutes = 0, people = 0;
    QList<int> after;
    int tail = 0; ///< longest way to the end, its own minutes included
};

struct Placed {
    QList<int> start;
    int length = 0;
};

class Network {
public:
    Network(const Changeover& changeover, const Catalogue& catalogue, int people) : m_people(people) {
        for (const Tool& t : catalogue.fleet.tools) m_tools[t.id] = t.quantity;
        QMap<StepId, int> index;
        for (const PlannedStep& s : changeover.steps) {
            // The part's removal comes before; what is outside is done beforehand.
            if (s.step.external || s.start < changeover.partRemoval) continue;
            index[s.step.id] = static_cast<int>(m_nodes.size());
            m_nodes.append({&s, static_cast<int>(s.planned.count()), s.step.handsOn() ? std::max(1, s.step.people) : 0, {}, 0});
        }
        for (Node& n : m_nodes)
            for (const StepId& id : n.step->after)
                if (index.contains(id)) n.after.append(index[id]);
        // Steps stand in an order of work: what comes after something stands behind it.
        for (int i = size() - 1; i >= 0; --i) {
            m_nodes[i].tail += m_nodes[i].minutes;
            for (int before : m_nodes[i].after) m_nodes[before].tail = std::max(m_nodes[before].tail, m_nodes[i].tail);
        }
    }

    int size() const { return static_cast<int>(m_nodes.size()); }
    const Node& node(int i) const { return m_nodes[i]; }
    bool possible() const {
        return size() > 0 && std::all_of(m_nodes.begin(), m_nodes.end(), [this](const Node& n) { return n.people <= m_people; });
    }

    /// Neither layout can be shorter.
    int bound() const {
        int longest = 0, work = 0;
        for (const Node& n : m_nodes) {
            longest = std::max(longest, n.tail);
            work += n.people * n.minutes;
        }
        return std::max(longest, (work + m_people - 1) / m_people);
    }

    /// Places each step at the earliest moment at which all it needs is free; of those that may go, the first in `rank` first.
    Placed place(const QList<double>& rank) const {
        Placed out;
        out.start.fill(-1, size());
        for (int placed = 0; placed < size(); ++placed) {
            int next = -1;
            for (int i = 0; i < size(); ++i)
                if (out.start[i] < 0 && ready(i, out) && (next < 0 || rank[i] < rank[next])) next = i;
            out.start[next] = earliest(next, out);
            out.length = std::max(out.length, out.start[next] + m_nodes[next].minutes);
        }
        return out;
    }

    QList<int> chain(const Placed& p) const {
        int at = 0;
        for (int i = 0; i < size(); ++i)
            if (endOf(i, p) >= endOf(at, p)) at = i;
        QList<int> chain;
        for (QList<bool> seen(size(), false); at >= 0 && !seen[at];) {
            seen[at] = true;
            chain.prepend(at);
            const int from = at;
            at = -1;
            for (int i = 0; i < size(); ++i) {
                if (i == from || seen[i] || endOf(i, p) != p.start[from]) continue;
                const bool ordered = m_nodes[from].after.contains(i);
                if (!ordered && !(m_nodes[i].people > 0 && m_nodes[from].people > 0)) continue;
                if (at < 0 || ordered) at = i;
            }
        }
        return chain;
    }

private:
    static bool overlap(int start, int minutes, int otherStart, int otherMinutes) {
        return start < otherStart + otherMinutes && otherStart < start + minutes;
    }
    int endOf(int i, const Placed& p) const { return p.start[i] + m_nodes[i].minutes; }
    bool ready(int i, const Placed& p) const {
        return std::all_of(m_nodes[i].after.begin(), m_nodes[i].after.end(), [&](int before) { return p.start[before] >= 0; });
    }
    bool powersAgree(int a, int b) const {
        const Power x = m_nodes[a].step->step.power, y = m_nodes[b].step->step.power;
        return x == y || x == Power::NoMatter || y == Power::NoMatter;
    }

    int earliest(int i, const Placed& p) const {
        int from = 0;
        for (int before : m_nodes[i].after) from = std::max(from, endOf(before, p));
        if (m_nodes[i].people == 0) return from;
        QList<int> moments{from};
        for (int other = 0; other < size(); ++other)
            if (p.start[other] >= 0 && endOf(other, p) > from) moments.append(endOf(other, p));
        std::sort(moments.begin(), moments.end());
        for (int at : moments)
            if (fits(i, at, p)) return at;
        return moments.last();
    }

    /// Enough people and tools at every minute in which something begins beside it.
    bool fits(int i, int at, const Placed& p) const {
        QList<int> beside;
        QList<int> checks{at};
        for (int other = 0; other < size(); ++other) {
            if (other == i || p.start[other] < 0 || m_nodes[other].people == 0) continue;
            if (!overlap(at, m_nodes[i].minutes, p.start[other], m_nodes[other].minutes)) continue;
            if (!powersAgree(i, other)) return false;
            beside.append(other);
            if (p.start[other] > at) checks.append(p.start[other]);
        }
        return std::all_of(checks.begin(), checks.end(), [&](int minute) { return suffices(i, minute, beside, p); });
    }

    bool suffices(int i, int minute, const QList<int>& beside, const Placed& p) const {
        int people = m_nodes[i].people;
        QMap<QString, int> tools;
        for (const QString& t : m_nodes[i].step->step.tools) ++tools[t];
        for (int other : beside) {
            if (p.start[other] > minute || endOf(other, p) <= minute) continue;
            people += m_nodes[other].people;
            for (const QString& t : m_nodes[other].step->step.tools) ++tools[t];
        }
        if (people > m_people) return false;
        for (auto t = tools.cbegin(); t != tools.cend(); ++t)
            if (t.value() > std::max(1, m_tools.value(t.key(), 1))) return false;
        return true;
    }

    int m_people;
    QList<Node> m_nodes;
    QMap<QString, int> m_tools;
};

Placed best(const Network& network) {
    QList<double> inOrder(network.size()), longestFirst(network.size());
    for (int i = 0; i < network.size(); ++i) {
        inOrder[i] = i;
        longestFirst[i] = -network.node(i).tail + 1e-3 * i;
    }
    Placed found = network.place(inOrder);
    const auto attempt = [&](const QList<double>& rank) {
        Placed p = network.place(rank);
        if (p.length < found.length) found = std::move(p);
    };
    attempt(longestFirst);
    // The same tries each time: a figure must not change between two looks.
    std::minstd_rand random(1);
    std::uniform_real_distribution<double> some(0.0, 1.0);
    for (int i = 0; i < tries && found.length > network.bound(); ++i) {
        QList<double> rank = longestFirst;
        const double spread = found.length * some(random);
        for (double& r : rank) r += spread * some(random);
        attempt(rank);
    }
    return found;
}

} // namespace

std::optional<CrewLayout> layOutFor(const Changeover& changeover, const Catalogue& catalogue, int people) {
    const Network network(changeover, catalogue, people);
    if (people < 1 || !network.possible()) return {};
    const Placed placed = best(network);
    CrewLayout out{people, Minutes(placed.length), {}, {}, placed.length == network.bound()};
    QList<int> order(network.size());
    std::iota(order.begin(), order.end(), 0);
    std::stable_sort(order.begin(), order.end(), [&](int a, int b) { return placed.start[a] < placed.start[b]; });
    for (int i : order)
        out.steps.append({network.node(i).step->step.id, Minutes(placed.start[i]), Minutes(placed.start[i] + network.node(i).minutes)});
    for (int i : network.chain(placed)) out.chain.append(network.node(i).step->step.id);
    return out;
}

} // namespace interlude
