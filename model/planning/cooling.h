#pragma once
// How warm the annealing is: rounds that each cool from `hot` to `cold`, later ones longer (private to model/planning).

#include "model/planning/watch.h"

#include <algorithm>
#include <cmath>

namespace interlude::planning {

class Cooling {
public:
    /// `moves`: length of the first round where the watch has no allowance.
    Cooling(const Watch& watch, double hot, double cold, std::int64_t moves)
        : m_watch(watch), m_hot(hot), m_cold(cold), m_moves(moves), m_begun(watch.iterations()), m_first(watch.used()) {
    }

    /// True when a round has ended: the next one begins, from the best plan and less hot.
    bool step() {
        const double done = part();
        if (done >= 1) {
            ++m_round;
            m_begun = m_watch.iterations();
            m_moves *= 2;
            m_temperature = m_hot * reheat();
            return true;
        }
        m_temperature = m_hot * reheat() * std::pow(m_cold / (m_hot * reheat()), done);
        return false;
    }
    double temperature() const { return m_temperature; }
    int round() const { return m_round; }

private:
    /// Ends of the rounds, as parts of the allowance that was left at the beginning.
    static double endOf(int round) { return round <= 0 ? 0.85 : 1.0; }
    double reheat() const { return m_round == 0 ? 1.0 : 0.3; }
    double part() const {
        if (!m_watch.limited())
            return static_cast<double>(m_watch.iterations() - m_begun) / static_cast<double>(m_moves);
        const double all = (m_watch.used() - m_first) / std::max(1e-9, 1 - m_first);
        const double begin = m_round == 0 ? 0 : endOf(m_round - 1);
        return m_round > 1 ? 0.999 : (all - begin) / std::max(1e-9, endOf(m_round) - begin);
    }

    const Watch& m_watch;
    double m_hot, m_cold, m_temperature = 0;
    std::int64_t m_moves, m_begun;
    double m_first;
    int m_round = 0;
};

} // namespace interlude::planning
