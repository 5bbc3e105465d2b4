#pragma once
// Jobs that are alike as changeovers go, taken together before a sequence is searched: between two setups it does not
// matter which job of a setup is meant, and where the next job of the same setup is the cheapest to follow, all of them
// may stand side by side (private to model/planning).

#include "model/planning/assignment.h"

#include <functional>

namespace interlude::planning {

/// A table of fewer nodes, one for each kind of alike nodes of another table.
class TourSetups {
public:
    /// Costs between kinds include going by way of other kinds that have nodes to spare. `keepOn` is asked now and
    /// then; when it says false the kinds are all nodes, each alone.
    TourSetups(const CostTable& table, const std::function<bool()>& keepOn);

    /// Fewer kinds than nodes.
    bool any() const { return m_kinds.size() < static_cast<std::size_t>(m_nodes); }
    const CostTable& table() const { return m_table; }
    /// What the nodes of a kind cost behind one another: a tour costs so much more than the tour of kinds that it is
    /// made from.
    std::int64_t inner() const { return m_inner; }

    struct Order {
        std::vector<int> nodes;
        /// No kind was gone by more often than it has nodes: what is least for kinds is least for nodes.
        bool exact = true;
    };
    Order nodes(const std::vector<int>& kinds) const;

private:
    void gather(const CostTable& table);
    bool shorten(const std::function<bool()>& keepOn);
    std::size_t at(int from, int to) const {
        return static_cast<std::size_t>(from) * m_kinds.size() + static_cast<std::size_t>(to);
    }
    void addWay(int from, int to, std::vector<int>& out) const;

    int m_nodes;
    std::vector<std::vector<int>> m_kinds; ///< their nodes
    CostTable m_table;
    std::vector<int> m_by; ///< kind on the way from one to another, or -1
    std::int64_t m_inner = 0;
};

} // namespace interlude::planning
