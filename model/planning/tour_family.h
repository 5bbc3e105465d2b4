#pragma once
// A family of tours that are crossed with one another until they are alike (private to model/planning). Where two tours
// differ, arcs of the one and arcs of the other form cycles; a child is one parent with the arcs of some of these
// cycles taken from the other, and the rings that this leaves joined at the least cost (edge assembly: Nagata and
// Kobayashi, INFORMS Journal on Computing 25, 2013, here for arcs, where the cycles are determined).

#include "model/planning/assignment.h"
#include "model/planning/random.h"
#include "model/planning/watch.h"

namespace interlude::planning {

class TourFamily {
public:
    using Neighbours = std::vector<std::vector<int>>;
    /// Table and neighbours (likely successors and predecessors, by node) outlive the family.
    TourFamily(const CostTable& table, const Neighbours& after, const Neighbours& behind);

    /// An order of all nodes.
    void add(const std::vector<int>& order);
    /// Crosses every tour with another one; false once that leads no further, or the watch says stop.
    bool generation(Watch& watch, Random& random);
    std::int64_t bestCost() const;
    std::vector<int> best() const;

private:
    struct Member {
        std::vector<int> next, before;
        std::int64_t cost = 0;
    };
    struct Change {
        int node, next; ///< arc node → next comes in
    };
    std::int64_t cost(int a, int b) const { return m_table.at(a, b); }
    std::uint16_t& uses(int a, int b) {
        return m_uses[static_cast<std::size_t>(a) * static_cast<std::size_t>(m_n) + static_cast<std::size_t>(b)];
    }
    void count(const Member& m, int by);
    void findCycles(const Member& a, const Member& b);
    void cross(int a, int b, Watch& watch, Random& random);
    void take(int cycle, const Member& b);
    void put(int node, int next);
    void join();
    int rings();
    double lossOfVariety(const Member& a) const;
    bool holds(const Member& m) const;

    const CostTable& m_table;
    const Neighbours &m_after, &m_behind;
    int m_n;
    std::vector<Member> m_members;
    std::vector<std::uint16_t> m_uses; ///< how many members have the arc
    std::vector<double> m_entropy;     ///< x log x of a share of the members, by their number
    // one child in the making: the parent with changed arcs
    std::vector<int> m_next, m_before, m_changed, m_ring, m_ringSize, m_ringBegin;
    std::vector<char> m_isChanged;
    std::vector<std::vector<int>> m_cycles;
    std::size_t m_cycleCount = 0;
    std::int64_t m_change = 0;
    int m_fruitless = 0;
};

} // namespace interlude::planning
