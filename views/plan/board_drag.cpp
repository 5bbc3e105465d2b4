#include "views/plan/board_drag.h"

#include "views/plan/board_sentences.h"

#include <QCoreApplication>

#include <algorithm>

namespace interlude {

std::vector<int> movableOf(const planning::ShopProblem& problem, const std::vector<int>& jobs) {
    std::vector<int> out;
    for (const int job : jobs)
        if (std::binary_search(problem.plannable.begin(), problem.plannable.end(), job) &&
            std::find(out.begin(), out.end(), job) == out.end())
            out.push_back(job);
    return out;
}

Finding fixedFinding(const planning::ShopProblem& problem, const std::vector<int>& jobs) {
    const QString id = jobs.empty() || jobs.front() < 0 ? QString() : problem.jobs[jobs.front()].id;
    return {Severity::Refusal, QStringLiteral("runs-already"),
            id.isEmpty() ? QCoreApplication::translate("board", "No job is selected that could be moved")
                         : QCoreApplication::translate("board", "Job %1 has begun and stays on its printer").arg(id),
            QString(), id, false};
}

void BoardDrag::begin(const std::vector<int>& jobs) {
    end();
    m_active = true;
    m_jobs = movableOf(m_desk.problem(), jobs);
    if (m_jobs.empty()) m_fixed = fixedFinding(m_desk.problem(), jobs);
    m_carried.assign(m_desk.problem().problem.jobs.size(), 0);
    for (const int job : m_jobs) m_carried[static_cast<std::size_t>(job)] = 1;
}

void BoardDrag::end() {
    m_active = m_pending = m_staysPut = false;
    m_jobs.clear();
    m_carried.clear();
    m_place = {};
    m_refusal.reset();
    m_fixed.reset();
    m_text.clear();
    m_prints.clear();
}

bool BoardDrag::moveTo(const DropPlace& place) {
    if (!m_active || (place == m_place && (m_pending || !m_text.isEmpty() || place.row < 0))) return false;
    m_place = place;
    m_refusal.reset();
    m_text.clear();
    m_prints.clear();
    m_staysPut = false;
    m_pending = place.row >= 0;
    return true;
}

void BoardDrag::settle() {
    if (!m_pending) return;
    m_pending = false;
    const planning::Drop drop{m_place.row, m_place.at, {}};
    if (m_fixed) {
        m_refusal = m_fixed;
    } else if (const auto moved = planning::moveJobs(m_desk.problem(), m_desk.draft().orders(), m_jobs, drop);
               moved && *moved == m_desk.draft().orders()) {
        m_staysPut = true;
        m_text = QCoreApplication::translate("board", "stays where it is");
        return;
    } else {
        const PlanDesk::Offer offer = m_desk.offer(m_jobs, drop);
        m_refusal = offer.refusal;
        if (!m_refusal) m_text = board::priceText(offer.price, m_desk.bench().catalogue().fleet.currency);
        if (offer.print) m_prints = board::printText(m_desk, offer.print->first, offer.print->second);
    }
    if (m_refusal) m_text = sentence(*m_refusal);
}

std::optional<Finding> BoardDrag::drop() {
    settle();
    const std::vector<int> jobs = m_jobs;
    const planning::Drop drop{m_place.row, m_place.at, {}};
    const std::optional<Finding> refusal = m_refusal;
    const bool nothing = m_staysPut || m_place.row < 0;
    end(); // before the desk tells that it changed
    if (refusal || nothing) return refusal;
    return m_desk.drop(jobs, drop);
}

} // namespace interlude
