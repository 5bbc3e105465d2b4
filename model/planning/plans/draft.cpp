#include "model/planning/plans/draft.h"

#include "model/planning/plans/published.h"

#include <algorithm>

namespace interlude::planning {

Price priceBetween(const Totals& a, const Totals& b) {
    return {b.cost - a.cost,
            b.turnaround - a.turnaround,
            b.changeover - a.changeover,
            b.weightedTardiness - a.weightedTardiness,
            b.lateJobs - a.lateJobs,
            b.notPlaced - a.notPlaced};
}

Draft::Draft(const Shop& shop, Instant now, Goal goal, const WhatIf& whatIf)
    : m_problem(shopProblem(shop, now, whatIf)), m_goal(goal), m_whatIf(whatIf),
      m_current{publishedOrders(shop, m_problem), {}} {
    retime();
}

void Draft::retime() {
    m_timetable = planning::timetable(m_problem.problem, *m_problem.changes, m_current.orders);
}

void Draft::take(const Orders& orders, const QString& what, bool again) {
    if (orders == m_current.orders) return;
    if (!again || m_undo.isEmpty() || m_current.what != what) m_undo.append(m_current);
    m_redo.clear();
    m_current = {orders, what};
    retime();
}

void Draft::undo() {
    if (m_undo.isEmpty()) return;
    m_redo.append(m_current);
    m_current = m_undo.takeLast();
    retime();
}

void Draft::redo() {
    if (m_redo.isEmpty()) return;
    m_undo.append(m_current);
    m_current = m_redo.takeLast();
    retime();
}

Orders Draft::moved(const Orders& orders, const ShopProblem& to) const {
    Orders out = to.noOrders();
    for (std::size_t p = 0; p < orders.printers.size(); ++p)
        for (const Place& place : orders.printers[p]) {
            const Job& was = m_problem.jobs[place.job];
            const int printer = to.printerNumbers.value(QString::fromStdString(m_problem.problem.printers[p].id), -1);
            const int job = to.jobNumbers.value(was.id, -1);
            const auto waiting = std::find(out.leftOut.begin(), out.leftOut.end(), job);
            if (printer < 0 || waiting == out.leftOut.end()) continue;
            const int variant = to.jobs[job].variantNumber(was.variants[place.variant].name);
            if (variant < 0) continue;
            out.leftOut.erase(waiting);
            out.printers[static_cast<std::size_t>(printer)].push_back({job, variant});
            out.locked[static_cast<std::size_t>(job)] = orders.locked[static_cast<std::size_t>(place.job)];
        }
    return out;
}

void Draft::rebase(const Shop& shop, Instant now, const WhatIf& whatIf) {
    ShopProblem fresh = shopProblem(shop, now, whatIf);
    m_current.orders = moved(m_current.orders, fresh);
    for (QList<Step>* steps : {&m_undo, &m_redo})
        for (Step& s : *steps) s.orders = moved(s.orders, fresh);
    m_problem = std::move(fresh);
    m_whatIf = whatIf;
    retime();
}

void Draft::keepFirst(Minute minutes) {
    Orders orders = m_current.orders;
    for (const auto& list : m_timetable.printers)
        for (const TimedJob& j : list)
            if (j.job >= 0 && !j.running && !j.session)
                orders.locked[static_cast<std::size_t>(j.job)] |= j.printStart < minutes ? 1 : 0;
    take(orders, QStringLiteral("keep the first %1 h").arg(minutes / 60));
}

} // namespace interlude::planning
