#include "model/planning/chain.h"
#include "model/planning/cooling.h"
#include "model/planning/moves.h"
#include "model/planning/timetable/timetable_judge.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace interlude::planning {

namespace {

/// Energy of what the timetable says: like LinePlan::energy.
double energyOf(const Worth& w, const LinePlan& plan) {
    return static_cast<double>(w.value) + plan.slope() + 1e13 * w.notPlaced;
}

constexpr std::size_t fewJobs = 16;
constexpr std::size_t fewJobsApart = 8; // where printers are apart; with more of them one long annealing finds more
constexpr std::int64_t fewMoves = 2'500; // of one annealing of few jobs
constexpr double fewHot = 2;             // in usual changes

class MoveChain {
public:
    MoveChain(ChainSetting& setting, Found& found)
        : m_s(setting), m_found(found), m_plan(setting.line, found.orders), m_draw(setting.problem),
          m_exact(setting.problem, setting.changes), m_judge(setting.problem, setting.changes, setting.goal),
          m_apart(setting.problem.printersApart()) {
        m_bestWorth = m_apart ? m_plan.worth() : m_judge.begin(found.orders);
        m_bestEnergy = m_energy = m_apart ? m_plan.energy() : energyOf(m_bestWorth, m_plan);
    }

    void run() {
        if (m_plan.movable().empty() || (m_plan.table().options() < 2 && m_plan.printers() < 2))
            return;
        m_best = m_found.orders;
        const double unit = usualChange();
        m_s.watch.tellFrom([this] { return told(); });
        if (m_plan.movable().size() <= (m_apart ? fewJobsApart : fewJobs))
            return runFew(unit);
        Cooling cooling(m_s.watch, unit * (m_apart ? 0.5 : 0.2), unit * 0.005, 200'000);
        if (!m_apart)
            m_plan.preferCostly(&m_judge.values());
        int sinceCooling = 0;
        while (m_s.watch.next()) {
            if (++sinceCooling >= 16) {
                sinceCooling = 0;
                if (cooling.step())
                    backToBest();
            }
            tryOne(cooling.temperature());
        }
        end();
    }

private:
    /// Few jobs: many short annealings from hot to cold; where the timetable judges it is quick, so it judges everything.
    void runFew(double unit) {
        while (m_s.watch.next()) {
            const double part = static_cast<double>(m_s.watch.iterations() % fewMoves) / fewMoves;
            tryOne(unit * fewHot * std::pow(0.01 / fewHot, part));
        }
        end();
    }

    void end() {
        m_s.watch.tellFrom({});
        m_found.orders = m_best;
        m_found.judged += m_judged;
        m_found.misjudged += m_misjudged;
    }

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
        if (!m_apart) {
            judge(quick, limit);
            if (m_judged >= m_nextDelay)
                estimateDelay();
            return;
        }
        if (quick > limit)
            return;
        m_plan.apply(m_edits);
        assert(quick == m_plan.energy());
        accept(quick, m_plan.worth());
    }

    /// Once in a while the quick estimate learns how long changeovers wait for people.
    void estimateDelay() {
        m_nextDelay = m_judged + 200;
        const auto loads = m_judge.loads();
        if (!loads || m_plan.jobs() == 0)
            return;
        const Minute more = (*loads - m_plan.loads()) / m_plan.jobs();
        m_s.line.setDelay(std::max<Minute>(0, m_s.line.delay() + more / 2));
        const double before = m_plan.slope();
        m_plan.rerun();
        m_energy += m_plan.slope() - before;
    }

    /// The timetable decides about moves that look good enough to be worth its time.
    void judge(double quick, double limit) {
        const double before = m_plan.energy();
        // A few of the others too: the estimate may be wrong about a whole kind of move. All where that is quickly done.
        const bool anyway = m_plan.movable().size() <= fewJobs || m_s.random.below(64) == 0;
        if (!anyway && m_energy + (quick - before) > limit + m_error)
            return;
        if (!m_s.watch.goOn())
            return; // one timetable may take longer than all the moves between two looks
        m_undo = m_plan.inverse(m_edits);
        m_plan.apply(m_edits);
        assert(quick == m_plan.energy());
        m_trial = m_plan.orders();
        ++m_judged;
        const double guess = quick - before;
        const auto judged =
            m_judge.judge(m_trial, differs(m_edits.first), differs(m_edits.second), limit - m_plan.slope());
        if (!judged) {
            m_misjudged += guess < 0 ? 1 : 0;
            return undo();
        }
        const double real = energyOf(*judged, m_plan), change = real - m_energy;
        if ((change > 0) != (guess > 0) && change != guess)
            ++m_misjudged;
        m_error += 0.02 * (std::min(std::abs(change - guess), 10 * m_error + 1) - m_error);
        if (real > limit)
            return undo();
        m_judge.take(m_trial);
        accept(real, *judged);
    }

    static TimetableJudge::Differs differs(const Edit& edit) {
        return {edit.printer, static_cast<std::size_t>(std::max(edit.from, 0))};
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
        if (m_apart)
            return;
        m_judge.begin(m_best);
        m_energy = energyOf(m_bestWorth, m_plan);
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
    TimetableJudge m_judge;
    bool m_apart;
    double m_energy = 0, m_bestEnergy = 0;
    Worth m_bestWorth;
    double m_error = 1e3; ///< how far the quick figures are usually off
    Orders m_best, m_trial;
    Edits m_edits, m_undo;
    std::int64_t m_judged = 0, m_misjudged = 0, m_nextDelay = 0;
};

} // namespace

void improveByMoves(ChainSetting& setting, Found& found) {
    MoveChain(setting, found).run();
}

} // namespace interlude::planning
