#include "model/planning/assignment.h"

#include <algorithm>
#include <limits>

namespace interlude::planning {

namespace {

constexpr std::int64_t infinite = std::numeric_limits<std::int64_t>::max() / 4;

} // namespace

Assignment assigned(const CostTable& table, const std::function<bool()>& keepOn) {
    const int n = table.size;
    const auto size = static_cast<std::size_t>(n + 1);
    // Row and column 0 stand for "none"; the real ones begin at 1.
    std::vector<std::int64_t> u(size, 0), v(size, 0);
    std::vector<int> rowOf(size, 0), from(size, 0);
    for (int i = 1; i <= n; ++i) {
        if (keepOn && !keepOn())
            return {};
        rowOf[0] = i;
        int column = 0;
        std::vector<std::int64_t> least(size, infinite);
        std::vector<char> used(size, 0);
        do {
            used[static_cast<std::size_t>(column)] = 1;
            const int row = rowOf[static_cast<std::size_t>(column)];
            std::int64_t step = infinite;
            int nextColumn = 0;
            for (int j = 1; j <= n; ++j) {
                const auto at = static_cast<std::size_t>(j);
                if (used[at])
                    continue;
                const std::int64_t reduced = table.at(row - 1, j - 1) - u[static_cast<std::size_t>(row)] - v[at];
                if (reduced < least[at]) {
                    least[at] = reduced;
                    from[at] = column;
                }
                if (least[at] < step) {
                    step = least[at];
                    nextColumn = j;
                }
            }
            for (std::size_t j = 0; j < size; ++j) {
                if (used[j]) {
                    u[static_cast<std::size_t>(rowOf[j])] += step;
                    v[j] -= step;
                } else {
                    least[j] -= step;
                }
            }
            column = nextColumn;
        } while (rowOf[static_cast<std::size_t>(column)] != 0);
        while (column != 0) {
            const int before = from[static_cast<std::size_t>(column)];
            rowOf[static_cast<std::size_t>(column)] = rowOf[static_cast<std::size_t>(before)];
            column = before;
        }
    }
    Assignment out;
    out.columnOf.assign(static_cast<std::size_t>(n), -1);
    for (int j = 1; j <= n; ++j)
        out.columnOf[static_cast<std::size_t>(rowOf[static_cast<std::size_t>(j)] - 1)] = j - 1;
    for (int i = 0; i < n; ++i)
        out.cost += table.at(i, out.columnOf[static_cast<std::size_t>(i)]);
    out.row.assign(u.begin() + 1, u.end());
    out.column.assign(v.begin() + 1, v.end());
    return out;
}

namespace {

/// What is left of the graph after contractions: cheapest arc between groups.
struct Groups {
    int count = 0, root = 0;
    std::vector<std::int64_t> cost;
    std::int64_t& at(int i, int j) {
        return cost[static_cast<std::size_t>(i) * static_cast<std::size_t>(count) + static_cast<std::size_t>(j)];
    }
};

/// Cheapest arc into every group; false where a group cannot be reached.
bool cheapestIn(Groups& g, std::int64_t forbidden, std::vector<int>& from, std::vector<std::int64_t>& least) {
    from.assign(static_cast<std::size_t>(g.count), -1);
    least.assign(static_cast<std::size_t>(g.count), 0);
    for (int j = 0; j < g.count; ++j) {
        if (j == g.root)
            continue;
        std::int64_t best = forbidden;
        for (int i = 0; i < g.count; ++i)
            if (i != j && g.at(i, j) < best) {
                best = g.at(i, j);
                from[static_cast<std::size_t>(j)] = i;
            }
        if (best >= forbidden)
            return false;
        least[static_cast<std::size_t>(j)] = best;
    }
    return true;
}

/// Numbers groups anew, those on one cycle of cheapest arcs alike; the number of new groups.
int contracted(const Groups& g, const std::vector<int>& from, std::vector<int>& group) {
    const auto n = static_cast<std::size_t>(g.count);
    group.assign(n, -1);
    std::vector<int> seenFrom(n, -1);
    int next = 0;
    for (int s = 0; s < g.count; ++s) {
        int x = s;
        while (x != -1 && seenFrom[static_cast<std::size_t>(x)] == -1) {
            seenFrom[static_cast<std::size_t>(x)] = s;
            x = from[static_cast<std::size_t>(x)];
        }
        if (x == -1 || seenFrom[static_cast<std::size_t>(x)] != s || group[static_cast<std::size_t>(x)] != -1)
            continue;
        for (int y = x; group[static_cast<std::size_t>(y)] == -1; y = from[static_cast<std::size_t>(y)])
            group[static_cast<std::size_t>(y)] = next;
        ++next;
    }
    for (auto& x : group)
        if (x == -1)
            x = next++;
    return next;
}

} // namespace

std::int64_t arborescenceCost(const CostTable& table, int root, std::int64_t forbidden) {
    Groups g{table.size, root, table.cost};
    std::int64_t total = 0;
    std::vector<int> from, group;
    std::vector<std::int64_t> least;
    for (;;) {
        if (!cheapestIn(g, forbidden, from, least))
            return -1;
        for (const std::int64_t c : least)
            total += c;
        const int count = contracted(g, from, group);
        if (count == g.count)
            return total;
        Groups next{count, group[static_cast<std::size_t>(g.root)], {}};
        next.cost.assign(static_cast<std::size_t>(count) * static_cast<std::size_t>(count), forbidden);
        for (int i = 0; i < g.count; ++i)
            for (int j = 0; j < g.count; ++j) {
                const int a = group[static_cast<std::size_t>(i)], b = group[static_cast<std::size_t>(j)];
                if (a == b || g.at(i, j) >= forbidden)
                    continue;
                next.at(a, b) = std::min(next.at(a, b), g.at(i, j) - least[static_cast<std::size_t>(j)]);
            }
        g = std::move(next);
    }
}

} // namespace interlude::planning
