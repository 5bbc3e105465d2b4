#pragma once
// The jobs of one printer in one order, with the cost of every stretch at hand (private to model/planning). For
// printers that touch no other and whose changeovers form a table; every job has one variant. Exchanging two
// neighbouring blocks, or two jobs, shifts stretches by a constant, so that the new cost is a sum of weight × max(0,
// lateness + shift) over a stretch.

#include "model/planning/printer_line.h"

namespace interlude::planning {

/// The numbers of a sequence, in doubles that hold whole numbers (exact to 2^53). Costs are in cents per hour ×
/// minutes.
struct SequenceNumbers {
    int jobs = 0;                    ///< node `jobs` is where the printer stands at the beginning
    std::vector<int> option;         ///< by node
    std::vector<double> due, weight; ///< by node; no due date: weight 0
    std::vector<double> hold;        ///< holding cost per hour, by node (goal cost only)
    std::vector<double> release;     ///< earliest completion: release + print + removal
    bool releases = false;           ///< any that may bind
    std::vector<double> gap;         ///< completion to completion, node × node
    std::vector<double> pair;        ///< cost of a changeover itself (goal cost only), node × node; empty: none
    double begin = 0;                ///< completion of the beginning

    std::size_t at(int from, int to) const {
        return static_cast<std::size_t>(from) * static_cast<std::size_t>(jobs + 1) + static_cast<std::size_t>(to);
    }
    double gapOf(int from, int to) const { return gap[at(from, to)]; }
    double pairOf(int from, int to) const { return pair.empty() ? 0 : pair[at(from, to)]; }
};

/// The numbers for the jobs in `options` after `state` on a printer, for the goal of the line (Cost without rounding to
/// cents; for Changeover a gap is the changeover's minutes alone). An impossible changeover costs more than everything
/// else.
SequenceNumbers sequenceNumbers(PrinterLine& line, int printer, const LineState& state,
                                const std::vector<int>& options);

/// What the only printer of such a shop still has to decide.
struct OnlyPrinter {
    std::size_t from = 0;     ///< so many jobs are behind it, or before a locked one
    LineState state;          ///< behind them
    std::vector<int> options; ///< what may be put in any order
    /// The plan with them in that order of indices.
    Orders plan(const Orders& orders, const ChangeoverTable& table, const std::vector<int>& order) const;
};
/// Empty where the shop is not of one printer apart from everything with one variant a job and a table of changeovers.
std::optional<OnlyPrinter> onlyPrinter(PrinterLine& line, const Orders& orders);

class Sequence {
public:
    /// The numbers outlive the sequence.
    explicit Sequence(const SequenceNumbers& numbers);

    int size() const { return m_numbers.jobs; }
    const std::vector<int>& order() const { return m_order; }
    int positionOf(int node) const { return m_position[static_cast<std::size_t>(node)]; }
    /// What is searched on: the cost as if all due dates were `sooner` minutes earlier, so that a job is in time with
    /// something to spare, and a little for every minute that the last job is complete later.
    double energy() const { return m_energy; }
    double cost() const { return m_trueSum.back(); }
    void guide(double perMinute, double sooner);
    void set(const std::vector<int>& order);

    /// What the energy changes when [i, j) and [j, k) change places; i < j < k. Above `limit` it may say any figure
    /// above `limit`.
    double exchanged(int i, int j, int k, double limit) const;
    /// Likewise when the jobs at i and j change places; i + 1 < j.
    double swapped(int i, int j, double limit) const;
    void exchange(int i, int j, int k);
    void swap(int i, int j);

private:
    double lateCost(int from, int to, double shift) const;
    /// Cost of [from, to) shifted, less what it costs now.
    double shifted(int from, int to, double shift) const;
    double stepwise(const std::vector<int>& part, int from, int to, double limit) const;
    double joins(int i, int j, int k) const;
    void runFrom(int from);
    int nodeAt(int position) const {
        return position < 0 ? m_numbers.jobs : m_order[static_cast<std::size_t>(position)];
    }
    double completeAt(int position) const {
        return position < 0 ? m_numbers.begin : m_complete[static_cast<std::size_t>(position)];
    }
    double oneCost(int node, double complete, double sooner) const;

    const SequenceNumbers& m_numbers;
    std::vector<int> m_order, m_position;
    std::vector<double> m_complete, m_late, m_weight; ///< by position
    std::vector<double> m_latest;                     ///< before each position: the greatest lateness that costs
    std::vector<double> m_sum, m_holdSum;             ///< before each position: late cost, holding cost per hour
    std::vector<double> m_pathSum;                    ///< before each position: everything, with changeovers
    std::vector<double> m_trueSum;                    ///< likewise with the due dates as they are
    mutable std::vector<int> m_part;
    double m_energy = 0, m_perMinute = 0, m_sooner = 0;
};

} // namespace interlude::planning
