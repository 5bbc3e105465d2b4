// *Group by family*: each printer's families in runs; and whatever the timetable cannot place then gets another place.
#include "model/planning/plans/draft_moves.h"
#include "model/planning/timetable/timetable.h"

#include <algorithm>
#include <limits>
#include <map>
#include <set>
#include <tuple>

namespace interlude::planning {

namespace {

const VariantNumbers& variantAt(const ShopProblem& problem, const Place& p) {
    return problem.problem.jobs[static_cast<std::size_t>(p.job)].variants[static_cast<std::size_t>(p.variant)];
}

class Grouping {
public:
    Grouping(const ShopProblem& problem, const Orders& orders) : m_problem(problem), m_orders(orders) {}

    Orders groupAll(bool withLeftOut) {
        if (withLeftOut) takeIn();
        for (std::size_t p = 0; p < m_orders.printers.size(); ++p) sortPrinter(p);
        return m_orders;
    }
    /// Only that printer's.
    Orders group(std::size_t printer) {
        sortPrinter(printer);
        return m_orders;
    }

private:
    Minute load(std::size_t printer) const {
        Minute sum = m_problem.problem.printers[printer].runningEnd;
        for (const Place& p : m_orders.printers[printer]) sum += variantAt(m_problem, p).print[printer];
        return sum;
    }
    void takeIn() {
        std::vector<int> still;
        for (const int job : m_orders.leftOut) {
            std::optional<std::pair<Minute, std::size_t>> best;
            int bestVariant = 0;
            const auto& variants = m_problem.problem.jobs[static_cast<std::size_t>(job)].variants;
            for (std::size_t p = 0; p < m_orders.printers.size(); ++p)
                for (int v = 0; v < static_cast<int>(variants.size()); ++v) {
                    const Minute print = variants[static_cast<std::size_t>(v)].print[p];
                    const std::pair<Minute, std::size_t> end{load(p) + print, p};
                    if (print >= 0 && (!best || end < *best)) best = end, bestVariant = v;
                }
            if (best) m_orders.printers[best->second].push_back({job, bestVariant});
            else still.push_back(job);
        }
        m_orders.leftOut = still;
    }
    /// The chamber set-point of that variant in milli-degrees; labels have none.
    qint64 heat(const Place& p) const {
        const Setup& s = m_problem.jobs[p.job].variants[p.variant].setup;
        const Material* m = m_problem.changes->ground().catalogue->material(s.part);
        const auto t = s.chamber ? s.chamber : m ? m->chamber : std::nullopt;
        return t ? t->milliCelsius() : 0;
    }
    int familyWorn(std::size_t printer) const {
        const PrinterNumbers& p = m_problem.problem.printers[printer];
        const PrinterNow& now = m_problem.changes->printerIn(p.session ? p.sessionState : p.state);
        const Material* m = m_problem.changes->ground().catalogue->material(now.part.loaded);
        return static_cast<int>(m_problem.chamberFamilies.indexOf(m ? m->chamberFamily : now.label));
    }
    void sortPrinter(std::size_t printer) {
        auto& list = m_orders.printers[printer];
        std::vector<Place> loose;
        for (const Place& p : list)
            if (!m_orders.locked[static_cast<std::size_t>(p.job)]) loose.push_back(p);
        std::map<int, qint64> familyHeat; // the coolest of a family stands for it
        for (const Place& p : loose) {
            const auto [at, fresh] = familyHeat.try_emplace(variantAt(m_problem, p).family, heat(p));
            if (!fresh) at->second = std::min(at->second, heat(p));
        }
        const int worn = familyWorn(printer);
        const qint64 wornHeat = familyHeat.contains(worn) ? familyHeat.at(worn) : 0;
        const auto key = [&](const Place& p) {
            const VariantNumbers& v = variantAt(m_problem, p);
            const qint64 h = familyHeat.at(v.family);
            const bool cooler = v.family != worn && h < wornHeat;
            const auto& due = m_problem.problem.jobs[static_cast<std::size_t>(p.job)].due;
            return std::tuple(v.family != worn, cooler, h, v.family, due.value_or(never), v.setup, p.job);
        };
        std::stable_sort(loose.begin(), loose.end(), [&](const Place& a, const Place& b) { return key(a) < key(b); });
        auto next = loose.begin();
        for (Place& p : list)
            if (!m_orders.locked[static_cast<std::size_t>(p.job)]) p = *next++;
    }

    const ShopProblem& m_problem;
    Orders m_orders;
};

/// A sorted order knows families, but neither nozzles nor which material may follow which. What has no place in it is tried
/// behind the runs of its family, on a printer without one at the end; what was on no printer before goes back where it came from.
class Mending {
public:
    Mending(const ShopProblem& problem, Orders orders)
        : m_problem(problem), m_orders(std::move(orders)), m_evaluator(problem.problem, *problem.changes),
          m_left(std::clamp(effort / static_cast<int>(problem.problem.jobs.size() + 1), leastTries, mostTries)) {}

    /// `keep`: jobs that must not be left out.
    Orders mend(const std::set<int>& keep) {
        for (int round = 0; round < rounds && m_left > 0; ++round) {
            bool better = false;
            for (const int job : without()) better |= placeElsewhere(job);
            if (!better) break;
        }
        for (const int job : without())
            if (!keep.contains(job)) takeOut(job);
        return m_orders;
    }
    /// Those left out that find a place.
    Orders takeIn() {
        const std::vector<int> left = m_orders.leftOut;
        for (const int job : left) placeElsewhere(job);
        return m_orders;
    }

private:
    using Line = std::vector<Place>;
    static constexpr int rounds = 3, leastTries = 60, mostTries = 4000, effort = 200'000;

    bool isLocked(const Place& p) const { return m_orders.locked[static_cast<std::size_t>(p.job)] != 0; }

    /// On a printer, and without a place in the timetable.
    std::vector<int> without() const {
        std::vector<int> out;
        for (const NotPlaced& n : timetable(m_problem.problem, *m_problem.changes, m_orders).notPlaced)
            if (printerOf(n.job)) out.push_back(n.job);
        return out;
    }
    std::optional<std::size_t> printerOf(int job) const {
        for (std::size_t p = 0; p < m_orders.printers.size(); ++p)
            for (const Place& x : m_orders.printers[p])
                if (x.job == job) return p;
        return {};
    }

    /// The same line with other loose jobs between those that are locked; none where a locked one would lose its position.
    std::optional<Line> filled(const Line& line, const Line& loose) const {
        Line out;
        auto next = loose.begin();
        std::size_t locked = static_cast<std::size_t>(std::count_if(line.begin(), line.end(), [&](const Place& p) { return isLocked(p); }));
        for (std::size_t i = 0; locked > 0 || next != loose.end(); ++i) {
            if (i < line.size() && isLocked(line[i])) out.push_back(line[i]), --locked;
            else if (next != loose.end()) out.push_back(*next++);
            else return {};
        }
        return out;
    }
    Line looseOf(std::size_t printer, int apart) const {
        Line out;
        for (const Place& p : m_orders.printers[printer])
            if (!isLocked(p) && p.job != apart) out.push_back(p);
        return out;
    }
    bool takeOut(int job) {
        const auto p = printerOf(job);
        const auto rest = p ? filled(m_orders.printers[*p], looseOf(*p, job)) : std::nullopt;
        if (!rest) return false;
        m_orders.printers[*p] = *rest;
        m_orders.leftOut.insert(std::lower_bound(m_orders.leftOut.begin(), m_orders.leftOut.end(), job), job);
        return true;
    }

    bool placeElsewhere(int job) {
        const Orders was = m_orders;
        if (m_left <= 0 || m_orders.locked[static_cast<std::size_t>(job)] || (printerOf(job) && !takeOut(job))) return false;
        std::erase(m_orders.leftOut, job);
        const int before = m_evaluator.evaluate(was).notPlaced;
        const Orders base = m_orders;
        std::pair<Worth, Orders> best{{before, std::numeric_limits<std::int64_t>::min()}, was}; // only fewer without a place is better
        const auto variants = static_cast<int>(m_problem.problem.jobs[static_cast<std::size_t>(job)].variants.size());
        for (std::size_t p = 0; p < base.printers.size(); ++p)
            for (int v = 0; v < variants; ++v) {
                m_orders = base;
                tryOn(p, {job, v}, best);
            }
        m_orders = best.second;
        return best.first.notPlaced < before;
    }

    /// Behind a run of its family, or last where there is none.
    void tryOn(std::size_t printer, const Place& place, std::pair<Worth, Orders>& best) {
        if (variantAt(m_problem, place).print[printer] < 0) return;
        const Line line = m_orders.printers[printer], loose = looseOf(printer, -1);
        const auto ofFamily = [&](std::size_t i) { return i < loose.size() && variantAt(m_problem, loose[i]).family == variantAt(m_problem, place).family; };
        bool hasRun = false;
        for (std::size_t i = 0; i < loose.size(); ++i) hasRun |= ofFamily(i);
        for (std::size_t at = 0; at <= loose.size() && m_left > 0; ++at) {
            if (hasRun ? at == 0 || !ofFamily(at - 1) || ofFamily(at) : at < loose.size()) continue;
            Line with = loose;
            with.insert(with.begin() + static_cast<std::ptrdiff_t>(at), place);
            const auto all = filled(line, with);
            if (!all) continue;
            m_orders.printers[printer] = *all;
            --m_left;
            const Worth w = worth(m_evaluator.evaluate(m_orders), Goal::Cost);
            if (w < best.first) best = {w, m_orders};
        }
    }

    const ShopProblem& m_problem;
    Orders m_orders;
    Evaluator m_evaluator;
    int m_left; ///< tries
};

std::set<int> placedIn(const ShopProblem& problem, const Orders& orders) {
    std::set<int> out;
    for (const auto& list : timetable(problem.problem, *problem.changes, orders).printers)
        for (const TimedJob& j : list) out.insert(j.job);
    return out;
}

} // namespace

Orders groupByFamily(const ShopProblem& problem, const Orders& orders) {
    const std::set<int> before = placedIn(problem, orders);
    const auto keepsAll = [&](const Orders& grouped) {
        const std::set<int> after = placedIn(problem, grouped);
        return std::includes(after.begin(), after.end(), before.begin(), before.end());
    };
    for (const bool withLeftOut : {true, false}) { // what was taken in may hold the nozzle of another
        const Orders all = Mending(problem, Grouping(problem, orders).groupAll(withLeftOut)).mend(before);
        if (keepsAll(all)) return all;
    }
    // Printer by printer, as far as it goes.
    Orders out = orders;
    for (std::size_t p = 0; p < orders.printers.size(); ++p)
        if (const Orders next = Grouping(problem, out).group(p); keepsAll(next)) out = next;
    const Orders more = Mending(problem, out).takeIn();
    return keepsAll(more) ? more : out;
}

} // namespace interlude::planning
