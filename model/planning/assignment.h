#pragma once
// The assignment problem and the minimum arborescence over a table of costs: bounds for sequences, and the reduced
// costs by which the search chooses neighbours (private to model/planning).

#include <cstdint>
#include <functional>
#include <vector>

namespace interlude::planning {

/// A square table of costs, row after row.
struct CostTable {
    int size = 0;
    std::vector<std::int64_t> cost;
    std::int64_t at(int row, int column) const {
        return cost[static_cast<std::size_t>(row) * static_cast<std::size_t>(size) + static_cast<std::size_t>(column)];
    }
};

struct Assignment {
    std::int64_t cost = 0;
    std::vector<int> columnOf;             ///< by row
    std::vector<std::int64_t> row, column; ///< duals: cost ≥ row + column everywhere
};

/// Cheapest one-to-one assignment of rows to columns (shortest augmenting paths; Kuhn, Naval Research Logistics 1955,
/// in the form of Jonker and Volgenant, Computing 1987). `keepOn` is asked row by row; when it says false the answer is
/// empty (no columns).
Assignment assigned(const CostTable& table, const std::function<bool()>& keepOn = {});

/// Cost of the cheapest arborescence from `root` that reaches every node; arcs of `forbidden` or more do not exist
/// (Chu, Liu and Edmonds; in the form that contracts cycle by cycle, O(n³)). Empty cost (-1) where there is none.
std::int64_t arborescenceCost(const CostTable& table, int root, std::int64_t forbidden);

} // namespace interlude::planning
