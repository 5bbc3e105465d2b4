#pragma once
// Loads of several printers that touch no other, for the makespan (private to model/planning): jobs in linked lists, so
// that a change costs the same whatever the length of the orders. Without release dates that bind, a printer's load is
// a sum of gaps from one job to the next.

#include "model/planning/printer_line.h"

#include <algorithm>

namespace interlude::planning {

/// What of the sum of loads is searched on beside the makespan, so that there is a slope: found best on generated
/// instances.
inline constexpr double loadShare = 0.15;

struct LoadNumbers {
    int jobs = 0, printers = 0;
    std::vector<std::int32_t>
        gap; ///< printer × from node × to job, completion to completion; node `jobs` is the beginning
    std::vector<Minute> begin;      ///< load of what is fixed, by printer
    std::vector<std::size_t> fixed; ///< so many jobs of the order are fixed, by printer
    std::vector<int> option;        ///< by job: each has one variant
    std::int32_t gapOf(int printer, int from, int to) const {
        const auto n = static_cast<std::size_t>(jobs);
        return gap[(static_cast<std::size_t>(printer) * (n + 1) + static_cast<std::size_t>(from)) * n +
                   static_cast<std::size_t>(to)];
    }
};

/// Empty where the shop is not of that kind, or too large for a table.
std::optional<LoadNumbers> loadNumbers(PrinterLine& line, const Orders& orders);

class LoadPlan {
public:
    /// The numbers outlive the plan. Nodes: the jobs, then a beginning for every printer.
    explicit LoadPlan(const LoadNumbers& numbers);
    void set(const std::vector<std::vector<int>>& orders);
    std::vector<std::vector<int>> orders() const;

    int next(int node) const { return m_next[static_cast<std::size_t>(node)]; }
    int before(int node) const { return m_before[static_cast<std::size_t>(node)]; }
    int printerOf(int node) const { return m_printer[static_cast<std::size_t>(node)]; }
    int beginning(int printer) const { return m_n + printer; }
    int count(int printer) const { return m_count[static_cast<std::size_t>(printer)]; }
    Minute gap(int printer, int from, int to) const {
        return to < 0 ? 0 : m_numbers.gapOf(printer, from < m_n ? from : m_n, to);
    }
    Minute longest() const { return m_longest[0].load; }
    int critical() const { return m_longest[0].printer; } ///< the printer that is busy longest
    double energy() const { return energyOf(m_longest[0].load, m_sum); }
    /// The energy if the loads of one or two printers changed by so much.
    double energyWith(int p, Minute more, int q, Minute moreThere) const {
        Minute most = std::max(load(p) + more, load(q) + moreThere);
        if (p == q)
            most = load(p) + more + moreThere;
        for (const Long& l : m_longest)
            if (l.printer != p && l.printer != q) {
                most = std::max(most, l.load);
                break;
            }
        return energyOf(most, m_sum + more + moreThere);
    }
    /// How much longer a job makes its printer behind a node; how much it does now; the node where it does least.
    Minute insertion(int job, int behind) const;
    Minute removal(int job) const;
    struct Spot {
        int behind = -1;
        Minute more = never;
    };
    /// The place on that printer where it makes least longer, as if `without` (a job there, or -1) were gone; never
    /// behind `without`, but what follows it counts as following its predecessor.
    Spot bestPlace(int job, int printer, int without) const;

    /// How much longer a printer gets when the jobs from `first` to `last` go behind `behind`, which stands on it
    /// elsewhere.
    Minute segmentMoved(int first, int last, int behind) const;
    void moveSegment(int first, int last, int behind);
    /// Takes a job from where it is and puts it behind another node.
    void move(int job, int behind);

private:
    struct Long {
        int printer = -1;
        Minute load = std::numeric_limits<Minute>::min();
    };
    Minute load(int printer) const { return m_load[static_cast<std::size_t>(printer)]; }
    static double energyOf(Minute most, Minute sum) {
        return static_cast<double>(most) + loadShare * static_cast<double>(sum);
    }
    void insert(int job, int behind);
    void remove(int job);
    void rank();

    const LoadNumbers& m_numbers;
    int m_n;
    std::vector<int> m_next, m_before, m_printer; ///< by node; next -1: nothing follows
    std::vector<Minute> m_load;
    std::vector<int> m_count; ///< jobs, by printer
    Minute m_sum = 0;
    std::array<Long, 3> m_longest; ///< the three longest loads
};

} // namespace interlude::planning
