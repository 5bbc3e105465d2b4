#include "model/planning/chain.h"
#include "model/planning/sequence.h"
#include "model/planning/tour.h"

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

/// The tour cut open at the beginning, the last of its nodes.
class TourChain {
public:
    TourChain(ChainSetting& setting, const CostTable& table)
        : m_s(setting), m_beginning(table.size - 1), m_tour(table, setting.watch) {
        std::vector<int> order{m_beginning};
        for (int k = 0; k < m_beginning; ++k)
            order.push_back(k);
        m_tour.set(order);
    }
    void run() { m_tour.search(m_s.watch, m_s.random); }
    std::vector<int> order() const {
        std::vector<int> out = m_tour.best();
        std::rotate(out.begin(), std::find(out.begin(), out.end(), m_beginning), out.end());
        out.erase(out.begin());
        return out;
    }

private:
    ChainSetting& m_s;
    int m_beginning;
    Tour m_tour;
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
