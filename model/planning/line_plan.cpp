#include "model/planning/line_plan.h"

#include "model/planning/load_plan.h"

#include <algorithm>
#include <cassert>

namespace interlude::planning {

namespace {

constexpr double missingCosts = 1e13;

} // namespace

LinePlan::LinePlan(PrinterLine& line, const Orders& orders) : m_line(line), m_shape(orders) {
    const Problem& problem = m_line.table().problem();
    m_rows.resize(problem.printers.size());
    m_frozen.assign(problem.printers.size(), 0);
    m_where.resize(problem.jobs.size());
    m_locked = orders.locked;
    m_locked.resize(problem.jobs.size(), 0);
    for (std::size_t p = 0; p < m_rows.size(); ++p) {
        const auto& list = orders.printers[p];
        m_rows[p].before.push_back(m_line.begin(static_cast<int>(p)));
        m_rows[p].sum.emplace_back();
        m_rows[p].sum[0].last = m_rows[p].before[0].ready;
        for (std::size_t i = 0; i < list.size(); ++i) {
            if (locked(list[i].job))
                m_frozen[p] = static_cast<int>(i) + 1;
            else
                m_movable.push_back(list[i].job);
        }
    }
    std::sort(m_movable.begin(), m_movable.end());
    m_shape.printers.clear();
    restore(orders);
}

void LinePlan::restore(const Orders& orders) {
    for (std::size_t p = 0; p < m_rows.size(); ++p) {
        m_rows[p].order.clear();
        for (const Place& place : orders.printers[p])
            m_rows[p].order.push_back(m_line.table().optionOf(place));
        run(static_cast<int>(p), 0);
    }
    m_energy = energyOf(nullptr, -1, nullptr, -1);
}

/// Times anew from a position on.
void LinePlan::run(int printer, int from) {
    Row& row = m_rows[static_cast<std::size_t>(printer)];
    const std::size_t n = row.order.size();
    row.before.resize(n + 1);
    row.sum.resize(n + 1);
    for (auto i = static_cast<std::size_t>(from); i < n; ++i) {
        row.before[i + 1] = row.before[i];
        row.sum[i + 1] = row.sum[i];
        m_line.append(printer, row.order[i], row.before[i + 1], row.sum[i + 1]);
        m_where[static_cast<std::size_t>(m_line.table().jobOf(row.order[i]))] = {printer, static_cast<int>(i)};
    }
}

LineCost LinePlan::after(const Edit& edit) {
    const Row& row = m_rows[static_cast<std::size_t>(edit.printer)];
    LineState state = row.before[static_cast<std::size_t>(edit.from)];
    LineCost cost = row.sum[static_cast<std::size_t>(edit.from)];
    for (const int option : edit.part)
        m_line.append(edit.printer, option, state, cost);
    const std::size_t n = row.order.size();
    for (std::size_t i = n - static_cast<std::size_t>(edit.tail); i < n; ++i) {
        if (state == row.before[i]) { // from here on nothing is different
            cost.value += row.sum[n].value - row.sum[i].value;
            cost.missing += row.sum[n].missing - row.sum[i].missing;
            cost.last = row.sum[n].last;
            cost.waited += row.sum[n].waited - row.sum[i].waited;
            break;
        }
        m_line.append(edit.printer, row.order[i], state, cost);
    }
    return cost;
}

double LinePlan::energyOf(const LineCost* changed, int p, const LineCost* changedToo, int q) const {
    std::int64_t value = 0;
    Minute last = 0, loads = 0;
    int missing = 0;
    for (int i = 0; i < printers(); ++i) {
        const LineCost& c = i == p ? *changed : i == q ? *changedToo : m_rows[static_cast<std::size_t>(i)].sum.back();
        value += c.value;
        missing += c.missing;
        last = std::max(last, c.last);
        loads += c.last - c.waited;
    }
    const double goal = m_line.goal() == Goal::Makespan
                            ? static_cast<double>(last) + loadShare * static_cast<double>(loads)
                            : static_cast<double>(value);
    return goal + missingCosts * missing;
}

double LinePlan::energyAfter(const Edits& edits) {
    const LineCost first = after(edits.first);
    if (edits.second.printer < 0)
        return energyOf(&first, edits.first.printer, nullptr, -1);
    const LineCost second = after(edits.second);
    return energyOf(&first, edits.first.printer, &second, edits.second.printer);
}

void LinePlan::apply(const Edits& edits) {
    for (const Edit* e : {&edits.first, &edits.second}) {
        if (e->printer < 0)
            continue;
        auto& order = m_rows[static_cast<std::size_t>(e->printer)].order;
        const auto begin = order.begin() + e->from, end = order.end() - e->tail;
        if (end - begin == static_cast<std::ptrdiff_t>(e->part.size())) {
            std::copy(e->part.begin(), e->part.end(), begin);
        } else {
            order.insert(order.erase(begin, end), e->part.begin(), e->part.end());
        }
    }
    for (const Edit* e : {&edits.first, &edits.second})
        if (e->printer >= 0)
            run(e->printer, e->from);
    m_energy = energyOf(nullptr, -1, nullptr, -1);
}

Edits LinePlan::inverse(const Edits& edits) const {
    Edits out = edits;
    for (Edit* e : {&out.first, &out.second}) {
        if (e->printer < 0)
            continue;
        const auto& list = order(e->printer);
        e->part.assign(list.begin() + e->from, list.end() - e->tail);
    }
    return out;
}

Minute LinePlan::changeoverAt(int printer, int position) {
    const Row& row = m_rows[static_cast<std::size_t>(printer)];
    const auto i = static_cast<std::size_t>(position);
    return table().from(printer, row.before[i].row, row.order[i]).minutes;
}

int LinePlan::anyJob(Random& random) const {
    const auto one = [&] {
        return m_movable[static_cast<std::size_t>(random.below(static_cast<int>(m_movable.size())))];
    };
    const int a = one();
    if (!m_costOf || random.below(2) == 0)
        return a;
    const int b = one();
    return (*m_costOf)[static_cast<std::size_t>(a)] >= (*m_costOf)[static_cast<std::size_t>(b)] ? a : b;
}

Minute LinePlan::loads() const {
    Minute out = 0;
    for (const Row& row : m_rows)
        out += row.sum.back().last;
    return out;
}

int LinePlan::jobs() const {
    std::size_t out = 0;
    for (const Row& row : m_rows)
        out += row.order.size();
    return static_cast<int>(out);
}

void LinePlan::rerun() {
    for (int p = 0; p < printers(); ++p) {
        Row& row = m_rows[static_cast<std::size_t>(p)];
        row.before[0] = m_line.begin(p);
        row.sum[0].last = row.before[0].ready;
        run(p, 0);
    }
    m_energy = energyOf(nullptr, -1, nullptr, -1);
}

double LinePlan::slope() const {
    if (m_line.goal() != Goal::Makespan)
        return 0;
    // A printer that waits for a release is no load: else all late releases would gather on one.
    Minute waited = 0;
    for (const Row& row : m_rows)
        waited += row.sum.back().waited;
    return loadShare * static_cast<double>(loads() - waited);
}

Worth LinePlan::worth() const {
    Worth out;
    Minute last = 0;
    for (const Row& row : m_rows) {
        out.notPlaced += row.sum.back().missing;
        out.value += row.sum.back().value;
        last = std::max(last, row.sum.back().last);
    }
    if (m_line.goal() == Goal::Makespan)
        out.value = last;
    return out;
}

Orders LinePlan::orders() const {
    Orders out = m_shape;
    out.printers.resize(m_rows.size());
    for (std::size_t p = 0; p < m_rows.size(); ++p)
        for (const int option : m_rows[p].order)
            out.printers[p].push_back(m_line.table().place(option));
    return out;
}

} // namespace interlude::planning
