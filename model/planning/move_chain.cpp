#include "model/planning/chain.h"
#include "model/planning/cooling.h"
#include "model/planning/moves.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace interlude::planning {

namespace {

/// Energy of what the timetable says: like LinePlan::energy.
double energyOf(const Worth& w, const LinePlan& plan) {
    return static_cast<double>(w.value) + plan.slope() + 1e13 * w.notPlaced;
}

class MoveChain {
public:
    MoveChain(ChainSetting& setting, Found& found)
        : m_s(setting), m_found(found), m_plan(setting.line, found.orders), m_draw(setting.problem),
          m_exact(setting.problem, setting.changes), m_apart(setting.problem.printersApart()) {
        m_bestWorth = m_apart ? m_plan.worth() : worth(m_exact.evaluate(found.orders), m_s.goal);
        m_bestEnergy = m_energy = m_apart ? m_plan.energy() : energyOf(m_bestWorth, m_plan);
    }

    void run() {
        if (m_plan.movable().empty() || m_plan.table().options() < 2)
            return;
        m_best = m_found.orders;
        const double unit = usualChange();
        Cooling cooling(m_s.watch, unit * (m_apart ? 0.5 : 0.2), unit * 0.005, 200'000);
        m_s.watch.tellFrom([this] { return told(); });
        int sinceCooling = 0;
        while (m_s.watch.next()) {
            if (++sinceCooling >= 16) {
                sinceCooling = 0;
                if (cooling.step())
                    backToBest();
            }
            tryOne(cooling.temperature());
        }
        m_s.watch.tellFrom({});
        m_found.orders = m_best;
        m_found.judged += m_judged;
        m_found.misjudged += m_misjudged;
    }

private:
    /// The median change that a random move brings: all temperatures are measured by it.
    double usualChange() {
        std::vector<double> changes;
        Edits edits;
        for (int k = 0; k < 400; ++k) {
            if (!m_draw.draw(m_s.random).propose(m_plan, m_s.random, edits))
                continue;
            const double change = std::abs(m_plan.energyAfter(edits) - m_plan.energy());
            if (change > 0 && change < 1e12)
                changes.push_back(change);
        }
        if (changes.empty())
            return 1;
        const auto middle = changes.begin() + static_cast<std::ptrdiff_t>(changes.size() / 2);
        std::nth_element(changes.begin(), middle, changes.end());
        return std::max(1.0, *middle);
    }

    void tryOne(double temperature) {
        if (!m_draw.draw(m_s.random).propose(m_plan, m_s.random, m_edits))
            return;
        // The limit is drawn before anything is computed.
        const double limit = m_energy - temperature * std::log(1.0 - m_s.random.unit());
        const double quick = m_plan.energyAfter(m_edits);
        if (m_apart) {
            if (quick > limit)
                return;
            m_plan.apply(m_edits);
            assert(quick == m_plan.energy());
            return accept(quick, m_plan.worth());
        }
        judge(quick, limit);
    }

    /// The timetable decides about moves that look good enough to be worth its time.
    void judge(double quick, double limit) {
        const double before = m_plan.energy();
        if (m_energy + (quick - before) > limit + m_error)
            return;
        if (!m_s.watch.goOn())
            return; // one timetable may take longer than all the moves between two looks
        m_undo = m_plan.inverse(m_edits);
        m_plan.apply(m_edits);
        assert(quick == m_plan.energy());
        m_trial = m_plan.orders();
        const Worth judged = worth(m_exact.evaluate(m_trial), m_s.goal);
        const double real = energyOf(judged, m_plan);
        const double change = real - m_energy, guess = quick - before;
        ++m_judged;
        if ((change > 0) != (guess > 0) && change != guess)
            ++m_misjudged;
        m_error += 0.02 * (std::min(std::abs(change - guess), 10 * m_error + 1) - m_error);
        if (real <= limit)
            return accept(real, judged);
        undo();
    }

    void undo() {
        Edits back = m_undo;
        m_plan.apply(back);
    }

    void accept(double energy, const Worth& worth) {
        m_energy = energy;
        if (!(worth < m_bestWorth))
            return;
        m_bestWorth = worth;
        m_bestEnergy = energy;
        m_best = m_plan.orders();
    }

    void backToBest() {
        m_plan.restore(m_best);
        m_energy = m_bestEnergy;
    }

    Progress told() {
        Progress p;
        p.best = worth(m_exact.evaluate(m_best), m_s.goal);
        p.plan = &m_best;
        return p;
    }

    ChainSetting& m_s;
    Found& m_found;
    LinePlan m_plan;
    MoveDraw m_draw;
    Evaluator m_exact;
    bool m_apart;
    double m_energy = 0, m_bestEnergy = 0;
    Worth m_bestWorth;
    double m_error = 1e3; ///< how far the quick figures are usually off
    Orders m_best, m_trial;
    Edits m_edits, m_undo;
    std::int64_t m_judged = 0, m_misjudged = 0;
};

} // namespace

void improveByMoves(ChainSetting& setting, Found& found) {
    MoveChain(setting, found).run();
}

} // namespace interlude::planning
