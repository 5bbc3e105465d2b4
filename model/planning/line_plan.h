#pragma once
// A plan as orders of options with the times of every printer alone, so that a change is judged by running only what it
// changes (private to model/planning).

#include "model/planning/printer_line.h"
#include "model/planning/random.h"

namespace interlude::planning {

/// One printer's order changed in one place: up to `from` and for the last `tail` jobs it stays.
struct Edit {
    int printer = -1;
    int from = 0, tail = 0;
    std::vector<int> part; ///< options in between
};

/// A change of one printer or of two different ones.
struct Edits {
    Edit first, second; ///< `second.printer` -1: only one
};

class LinePlan {
public:
    /// The line outlives the plan.
    LinePlan(PrinterLine& line, const Orders& orders);

    int printers() const { return static_cast<int>(m_rows.size()); }
    const std::vector<int>& order(int printer) const { return m_rows[static_cast<std::size_t>(printer)].order; }
    /// Jobs before this position keep printer and position, or may only change places with others (locked jobs).
    int frozen(int printer) const { return m_frozen[static_cast<std::size_t>(printer)]; }
    bool locked(int job) const { return m_locked[static_cast<std::size_t>(job)] != 0; }
    /// Jobs that may move; where they are.
    const std::vector<int>& movable() const { return m_movable; }
    /// One of them at random; where it is known what jobs cost, half of the time the costlier of two.
    int anyJob(Random& random) const;
    void preferCostly(const std::vector<std::int64_t>* costOfJob) { m_costOf = costOfJob; }
    int printerOf(int job) const { return m_where[static_cast<std::size_t>(job)].printer; }
    int positionOf(int job) const { return m_where[static_cast<std::size_t>(job)].position; }
    ChangeoverTable& table() { return m_line.table(); }
    /// Minutes of the changeover to the job at that position; 0 for one that cannot follow.
    Minute changeoverAt(int printer, int position);

    /// What is searched on: the goal's value; for the makespan a share of all loads with it, so that there is a slope;
    /// a job that does not fit costs more than everything else.
    double energy() const { return m_energy; }
    /// The energy after a change, without making it.
    double energyAfter(const Edits& edits);
    void apply(const Edits& edits);
    /// What undoes a change that is about to be made.
    Edits inverse(const Edits& edits) const;

    /// The share of all loads in the energy; 0 for all goals but the makespan.
    double slope() const;
    /// By the printers' lines.
    Worth worth() const;
    Orders orders() const;
    /// The sum over the printers of when the last part is out, and how many jobs there are.
    Minute loads() const;
    int jobs() const;
    /// Times of all printers anew, as the line estimates otherwise than before.
    void rerun();
    /// Goes back to an order given before by `orders`.
    void restore(const Orders& orders);

private:
    struct Row {
        std::vector<int> order;
        std::vector<LineState> before; ///< before each job, and behind the last
        std::vector<LineCost> sum;     ///< likewise
    };
    struct Where {
        int printer = -1, position = -1;
    };
    LineCost after(const Edit& edit);
    void run(int printer, int from);
    double energyOf(const LineCost* changed, int p, const LineCost* changedToo, int q) const;

    PrinterLine& m_line;
    std::vector<Row> m_rows;
    std::vector<int> m_frozen, m_movable;
    std::vector<char> m_locked;
    std::vector<Where> m_where;
    const std::vector<std::int64_t>* m_costOf = nullptr;
    Orders m_shape; ///< left out and locked
    double m_energy = 0;
};

} // namespace interlude::planning
