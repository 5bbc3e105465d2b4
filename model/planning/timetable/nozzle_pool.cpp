#include "model/planning/timetable/nozzle_pool.h"

#include <tuple>

namespace interlude::planning {

NozzlePool::NozzlePool(const Problem& problem) : m_problem(problem) {
    reset();
}

void NozzlePool::reset() {
    m_nozzles.clear();
    for (const NozzlePiece& n : m_problem.nozzles)
        m_nozzles.push_back({n.type, n.family, n.life, n.printer, n.position});
    m_mounted.resize(m_problem.printers.size());
    m_taken.assign(m_problem.printers.size(), {-1, -1});
    for (std::size_t p = 0; p < m_mounted.size(); ++p) {
        m_mounted[p] = m_problem.printers[p].mounted;
        take({m_problem.printers[p].sessionNozzles, 0}, static_cast<int>(p));
    }
}

void NozzlePool::backTo(const NozzlePool& other) {
    m_nozzles = other.m_nozzles;
    m_mounted = other.m_mounted;
    m_taken = other.m_taken;
}

bool NozzlePool::fits(int nozzle, const NozzleNeed& need, std::int64_t life) const {
    const Piece& n = m_nozzles[static_cast<std::size_t>(nozzle)];
    return n.type == need.type && (n.family < 0 || n.family == need.family) && (!n.life || *n.life >= life);
}

std::optional<NozzlePool::Taken> NozzlePool::choose(const Change& change, const VariantNumbers& variant, int printer,
                                                    const std::vector<char>& idle) const {
    Taken taken;
    for (std::size_t position = 0; position < 2; ++position) {
        const NozzleNeed& need = change.nozzle[position];
        if (!need.exchange || need.type < 0) continue;
        // Free ones first; then the least life that suffices, without history last; then file order.
        using Rank = std::tuple<bool, bool, std::int64_t, int>;
        std::optional<Rank> best;
        for (int i = 0; i < static_cast<int>(m_nozzles.size()); ++i) {
            const Piece& n = m_nozzles[static_cast<std::size_t>(i)];
            const bool free = n.printer < 0;
            if (!free && (n.printer == printer || !idle[static_cast<std::size_t>(n.printer)])) continue;
            if (i == taken.nozzle[0] || !fits(i, need, variant.life[position])) continue;
            const Rank rank{!free, !n.life, n.life.value_or(0), i};
            if (!best || rank < *best) best = rank;
        }
        if (!best) return std::nullopt;
        taken.nozzle[position] = std::get<3>(*best);
        const int giver = m_nozzles[static_cast<std::size_t>(taken.nozzle[position])].printer;
        if (giver >= 0) taken.longer += m_problem.printers[static_cast<std::size_t>(giver)].nozzleRemoval;
    }
    return taken;
}

void NozzlePool::take(const Taken& taken, int printer) {
    for (std::size_t position = 0; position < 2; ++position) {
        if (taken.nozzle[position] < 0) continue;
        Piece& n = m_nozzles[static_cast<std::size_t>(taken.nozzle[position])];
        if (n.printer >= 0)
            m_mounted[static_cast<std::size_t>(n.printer)][static_cast<std::size_t>(n.position)] = -1;
        n.printer = printer;
        n.position = static_cast<int>(position);
        m_taken[static_cast<std::size_t>(printer)][position] = taken.nozzle[position];
    }
}

int NozzlePool::remove(int printer, int position) {
    int& there = m_mounted[static_cast<std::size_t>(printer)][static_cast<std::size_t>(position)];
    const int nozzle = there;
    if (nozzle >= 0) m_nozzles[static_cast<std::size_t>(nozzle)].printer = -1;
    there = -1;
    return nozzle;
}

int NozzlePool::mounted(int printer, int position) const {
    return m_mounted[static_cast<std::size_t>(printer)][static_cast<std::size_t>(position)];
}

void NozzlePool::mountTaken(int printer) {
    for (std::size_t position = 0; position < 2; ++position) {
        int& taken = m_taken[static_cast<std::size_t>(printer)][position];
        if (taken < 0) continue;
        remove(printer, static_cast<int>(position)); // where no step has taken the old one out
        m_mounted[static_cast<std::size_t>(printer)][position] = taken;
        taken = -1;
    }
}

void NozzlePool::print(int printer, const Change* change, const VariantNumbers& variant) {
    mountTaken(printer);
    for (std::size_t position = 0; position < 2; ++position) {
        const int there = mounted(printer, static_cast<int>(position));
        if (there < 0 || (change && change->nozzle[position].type < 0)) continue;
        Piece& n = m_nozzles[static_cast<std::size_t>(there)];
        if (n.life) *n.life -= variant.life[position];
        if (n.family < 0 && change) n.family = change->nozzle[position].family;
    }
}

std::array<bool, 2> NozzlePool::worn(int printer, const VariantNumbers& variant) const {
    std::array<bool, 2> out{};
    for (std::size_t position = 0; position < 2; ++position) {
        const int there = mounted(printer, static_cast<int>(position));
        if (there < 0) continue;
        const auto& life = m_nozzles[static_cast<std::size_t>(there)].life;
        out[position] = life && *life < variant.life[position];
    }
    return out;
}

bool NozzlePool::servable(const Change& change, const VariantNumbers& variant) const {
    for (std::size_t position = 0; position < 2; ++position) {
        const NozzleNeed& need = change.nozzle[position];
        if (!need.exchange || need.type < 0) continue;
        bool any = false;
        for (int i = 0; i < static_cast<int>(m_nozzles.size()); ++i) any = any || fits(i, need, variant.life[position]);
        if (!any) return false;
    }
    return true;
}

} // namespace interlude::planning
