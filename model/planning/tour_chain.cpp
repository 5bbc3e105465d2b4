#include "model/planning/chain.h"
#include "model/planning/sequence.h"
#include "model/planning/tour.h"
#include "model/planning/tour_setups.h"

#include <algorithm>

namespace interlude::planning {

namespace {

/// The gaps as costs of a closed tour: going back to the beginning is free.
CostTable closedTour(const SequenceNumbers& numbers) {
    CostTable out;
    out.size = numbers.jobs + 1;
    out.cost.resize(numbers.gap.size());
    for (int i = 0; i < out.size; ++i)
        for (int j = 0; j < out.size; ++j)
            out.cost[numbers.at(i, j)] = j == numbers.jobs ? 0 : static_cast<std::int64_t>(numbers.gapOf(i, j));
    // Nothing follows itself.
    for (int i = 0; i < out.size; ++i)
        out.cost[numbers.at(i, i)] = std::int64_t{1'000'000'000'000};
    return out;
}

/// The tour cut open at the beginning, the last of its nodes. It is searched among setups first, where there are jobs
/// of one setup, and among jobs where that cannot tell all.
class TourChain {
public:
    TourChain(ChainSetting& setting, const CostTable& table)
        : m_s(setting), m_table(table), m_beginning(table.size - 1),
          m_setups(table, [&setting] { return setting.watch.goOn(); }) {
        m_best.push_back(m_beginning);
        for (int k = 0; k < m_beginning; ++k)
            m_best.push_back(k);
    }

    void run() {
        if (m_setups.any() && m_setups.table().size >= 4 && searchSetups())
            return;
        Tour tour(m_table, m_s.watch);
        tour.set(m_best);
        search(tour, [] { return false; });
        m_best = tour.best();
    }

    std::vector<int> order() const {
        std::vector<int> out = !m_tour ? m_best : m_ofSetups ? m_setups.nodes(m_tour->best()).nodes : m_tour->best();
        std::rotate(out.begin(), std::find(out.begin(), out.end(), m_beginning), out.end());
        out.erase(out.begin());
        return out;
    }

private:
    /// False where what was found need not be good for jobs.
    bool searchSetups() {
        Tour tour(m_setups.table(), m_s.watch);
        std::vector<int> kinds;
        for (int k = 0; k < m_setups.table().size; ++k)
            kinds.push_back(k);
        tour.set(kinds);
        m_ofSetups = true;
        search(tour, [&] { return !m_setups.nodes(tour.best()).exact; });
        m_ofSetups = false;
        TourSetups::Order found = m_setups.nodes(tour.best());
        m_best = std::move(found.nodes);
        return found.exact;
    }

    void search(Tour& tour, const std::function<bool()>& enough) {
        m_tour = &tour;
        tour.search(m_s.watch, m_s.random, enough);
        m_tour = nullptr;
    }

    ChainSetting& m_s;
    const CostTable& m_table;
    int m_beginning;
    TourSetups m_setups;
    std::vector<int> m_best;
    Tour* m_tour = nullptr;  ///< while it is searched
    bool m_ofSetups = false; ///< it is a tour of setups
};

} // namespace

bool improveTour(ChainSetting& setting, Found& found) {
    if (setting.goal != Goal::Changeover && setting.goal != Goal::Makespan)
        return false;
    const auto only = onlyPrinter(setting.line, found.orders);
    if (!only)
        return false;
    const SequenceNumbers numbers = sequenceNumbers(setting.line, 0, only->state, only->options);
    if (setting.goal == Goal::Makespan && numbers.releases)
        return false;
    if (numbers.jobs < 4)
        return false;
    const CostTable table = closedTour(numbers);
    TourChain chain(setting, table);
    runTelling(setting, found, chain, [&] { return only->plan(found.orders, setting.line.table(), chain.order()); });
    return true;
}

} // namespace interlude::planning
