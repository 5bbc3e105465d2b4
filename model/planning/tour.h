#pragma once
// A sequence as a closed tour over a table of costs, made cheaper by the exchange of segments that reverses none
// (or-3-opt): from kicks that are annealed, and from tours that are crossed with one another (private to
// model/planning).

#include "model/planning/assignment.h"
#include "model/planning/random.h"
#include "model/planning/watch.h"

namespace interlude::planning {

class Tour {
public:
    /// The table outlives the tour. Neighbours are chosen by the costs that an optimal assignment leaves.
    Tour(const CostTable& table, Watch& watch);

    /// Starts from this order of all nodes.
    void set(const std::vector<int>& order);
    /// Improves until the watch says stop, the cost is known to be the least, or `enough`, which is asked from time to time.
    void search(Watch& watch, Random& random, const std::function<bool()>& enough);
    const std::vector<int>& best() const { return m_best; }
    std::int64_t bestCost() const { return m_bestCost; }

private:
    int next(int node) const { return m_order[wrap(position(node) + 1)]; }
    int before(int node) const { return m_order[wrap(position(node) - 1)]; }
    int position(int node) const { return m_position[static_cast<std::size_t>(node)]; }
    std::size_t wrap(int position) const {
        return static_cast<std::size_t>(position < 0 ? position + m_n : position >= m_n ? position - m_n : position);
    }
    std::int64_t cost(int a, int b) const { return m_table.at(a, b); }
    std::vector<int> classes() const;
    void findNeighbours(const Assignment& a);
    bool improveBehind(int a, Watch& watch);
    bool improveBefore(int a, Watch& watch);
    bool improved(int a, int d, int f, std::int64_t change);
    void swapBehind(int begin, int first, int second);
    void exchange(int a, int d, int f);
    void settle(Watch& watch);
    void queue(int node);
    void doubleBridge(Random& random);
    bool done(const Watch& watch) const { return watch.over() || m_bestCost <= m_leastKnown; }
    void put(const std::vector<int>& order);
    void keepBest();
    std::int64_t wander(std::int64_t kicks, double from, Watch& watch, Random& random);
    std::int64_t breed(int size, Watch& watch, Random& random);
    std::int64_t computed() const;
    bool costHolds() const;

    const CostTable& m_table;
    int m_n;
    std::int64_t m_leastKnown = 0;                   ///< no tour is cheaper than the assignment
    std::vector<std::vector<int>> m_after, m_behind; ///< likely successors and predecessors
    std::vector<int> m_order, m_position, m_best, m_moved;
    std::vector<int> m_queue;
    std::vector<char> m_queued;
    std::int64_t m_cost = 0, m_bestCost = 0;
};

} // namespace interlude::planning
