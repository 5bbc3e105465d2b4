#pragma once
// When a search ends, and how it tells its progress (private to model/planning).

#include "model/planning/search.h"

namespace interlude::planning {

class Watch {
public:
    /// `options` outlives the watch.
    explicit Watch(const SearchOptions& options);

    /// Where the best plan so far comes from when progress is told.
    void tellFrom(std::function<Progress()> best) { m_best = std::move(best); }

    /// Counts one move; false once the search has to end.
    bool next() {
        if (m_over)
            return false;
        if (++m_iterations >= m_nextLook)
            look();
        return !m_over;
    }
    /// Looks at the clock without counting, for long pieces of work; false once the search has to end.
    bool goOn();
    bool over() const { return m_over; }
    /// How much of the allowance is used, 0 … 1; with iterations given, by them alone. 0 where there is no allowance.
    double used() const;
    bool limited() const { return m_options.seconds.has_value() || m_options.iterations.has_value(); }
    std::int64_t iterations() const { return m_iterations; }
    double seconds() const { return m_now() - m_begin; }

private:
    void look();
    void tell();
    void paceLooks();

    const SearchOptions& m_options;
    std::function<double()> m_now;
    std::function<Progress()> m_best;
    double m_begin = 0, m_lastLook = 0, m_lastTold = 0, m_elapsed = 0;
    std::int64_t m_iterations = 0, m_nextLook = 1, m_step = 1;
    bool m_over = false;
};

} // namespace interlude::planning
