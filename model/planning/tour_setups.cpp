#include "model/planning/tour_setups.h"

#include <algorithm>

namespace interlude::planning {

namespace {

/// To and from every other node at the same cost, and from one to the other no dearer than from any.
bool alike(const CostTable& table, int a, int b) {
    const std::int64_t inner = table.at(a, b);
    if (table.at(b, a) != inner)
        return false;
    for (int k = 0; k < table.size; ++k)
        if (k != a && k != b &&
            (table.at(a, k) != table.at(b, k) || table.at(k, a) != table.at(k, b) || table.at(k, a) < inner))
            return false;
    return true;
}

} // namespace

TourSetups::TourSetups(const CostTable& table, const std::function<bool()>& keepOn) : m_nodes(table.size) {
    gather(table);
    if (any() && shorten(keepOn))
        return;
    m_kinds.assign(static_cast<std::size_t>(m_nodes), {});
}

/// Finds the kinds and the costs between them, less what it costs to reach a node from one of its kind.
void TourSetups::gather(const CostTable& table) {
    for (int k = 0; k < m_nodes; ++k) {
        const auto same = std::find_if(m_kinds.begin(), m_kinds.end(), [&](const std::vector<int>& kind) {
            const bool third = kind.size() > 1;
            return alike(table, kind[0], k) && (!third || table.at(kind[0], k) == table.at(kind[0], kind[1]));
        });
        if (same == m_kinds.end())
            m_kinds.push_back({k});
        else
            same->push_back(k);
    }
    m_table.size = static_cast<int>(m_kinds.size());
    m_table.cost.reserve(m_kinds.size() * m_kinds.size());
    std::vector<std::int64_t> inner;
    for (const auto& kind : m_kinds) {
        inner.push_back(kind.size() > 1 ? table.at(kind[0], kind[1]) : 0);
        m_inner += inner.back() * static_cast<std::int64_t>(kind.size());
    }
    for (const auto& from : m_kinds)
        for (std::size_t to = 0; to < m_kinds.size(); ++to)
            m_table.cost.push_back(table.at(from[0], m_kinds[to][0]) - inner[to]);
}

/// Ways through kinds of two nodes and more (Floyd and Warshall).
bool TourSetups::shorten(const std::function<bool()>& keepOn) {
    const int n = m_table.size;
    m_by.assign(m_table.cost.size(), -1);
    for (int k = 0; k < n; ++k) {
        if (m_kinds[static_cast<std::size_t>(k)].size() < 2)
            continue;
        if (!keepOn())
            return false;
        for (int i = 0; i < n; ++i)
            for (int j = 0; j < n; ++j) {
                const std::int64_t way = m_table.at(i, k) + m_table.at(k, j);
                if (i == j || i == k || j == k || way >= m_table.at(i, j))
                    continue;
                m_table.cost[at(i, j)] = way;
                m_by[at(i, j)] = k;
            }
    }
    return true;
}

/// The kinds between two, in order.
void TourSetups::addWay(int from, int to, std::vector<int>& out) const {
    const int by = m_by[at(from, to)];
    if (by < 0)
        return;
    addWay(from, by, out);
    out.push_back(by);
    addWay(by, to, out);
}

TourSetups::Order TourSetups::nodes(const std::vector<int>& kinds) const {
    Order out;
    std::vector<std::size_t> passed(m_kinds.size(), 0); // nodes of a kind on the way between others
    std::vector<std::vector<int>> ways(kinds.size());
    for (std::size_t i = 0; i < kinds.size(); ++i) {
        addWay(kinds[i], kinds[i + 1 < kinds.size() ? i + 1 : 0], ways[i]);
        std::erase_if(ways[i], [&](int by) {
            const auto k = static_cast<std::size_t>(by);
            const bool none = passed[k] + 1 >= m_kinds[k].size();
            passed[k] += none ? 0 : 1;
            out.exact = out.exact && !none;
            return none;
        });
    }
    std::vector<std::size_t> next(m_kinds.size(), 0);
    for (std::size_t i = 0; i < kinds.size(); ++i) {
        const auto k = static_cast<std::size_t>(kinds[i]);
        for (std::size_t left = m_kinds[k].size() - passed[k]; left > 0; --left)
            out.nodes.push_back(m_kinds[k][next[k]++]);
        for (const int by : ways[i])
            out.nodes.push_back(m_kinds[static_cast<std::size_t>(by)][next[static_cast<std::size_t>(by)]++]);
    }
    return out;
}

} // namespace interlude::planning
