// The line of ready hands-on segments, their slots and their nozzles, and who is left without any.

#include "tests/planning/minutes.h"

#include <algorithm>

namespace interlude::tests {

// "The ready hands-on segments stand in line: ready earliest, then higher late cost of the job, then printer order."
std::vector<InLine> Minutes::line() const {
    std::vector<InLine> result;
    for (int p = 0; p < static_cast<int>(m_bays.size()); ++p) {
        const Bay& bay = m_bays[static_cast<size_t>(p)];
        const auto late = [&](size_t job) { return jobOf(bay.jobs[job]) ? jobOf(bay.jobs[job])->lateCostPerHour : 0; };
        if (const Preparation& own = bay.preparation; !own.done && !own.active)
            result.push_back({!own.stoodFor, own.stoodFor ? own.stoodSince : own.ready, late(own.job), p, true});
        if (bay.over())
            continue;
        const Item& item = bay.life[bay.at];
        if (item.what != Item::Task || item.active || item.work->kind == Kind::Waiting)
            continue;
        result.push_back({false, bay.ready, late(item.job), p, false});
    }
    std::sort(result.begin(), result.end());
    return result;
}

const Work* Minutes::workOf(const InLine& e) const {
    const Bay& bay = m_bays[static_cast<size_t>(e.printer)];
    return e.preparation ? bay.preparation.work : bay.life[bay.at].work;
}

void Minutes::occupy(const Work& work, Minute from, Minute to) {
    for (Minute t = from; t < to; ++t) {
        m_crew[static_cast<size_t>(t)] -= work.people;
        for (const int tool : work.tools)
            --m_toolsLeft[static_cast<size_t>(tool)][static_cast<size_t>(t)];
    }
}

void Minutes::occupyRunning() {
    m_crew = m_crewAll;
    m_toolsLeft.clear();
    for (const int pieces : m_problem.toolPieces)
        m_toolsLeft.emplace_back(m_horizon, pieces);
    for (const Bay& bay : m_bays) {
        if (bay.preparation.active)
            occupy(*bay.preparation.work, m_now, bay.preparation.end);
        if (bay.over())
            continue;
        if (const Item& item = bay.life[bay.at]; item.active && item.what == Item::Task)
            occupy(*item.work, m_now, item.end);
    }
}

// "A hands-on segment needs `people` of the crew, and its tools, for its whole length." "The earliest slot in which
// crew and tools suffice beside what runs and the slots before it." "A segment may cross shift borders while enough
// people remain."
std::optional<Minute> Minutes::slot(const InLine& e, Minute length) const {
    const Work& work = *workOf(e);
    for (Minute from = m_now; from + length <= m_horizon; ++from) {
        bool fits = !down(e.printer, from, length);
        for (Minute t = from; fits && t < from + length; ++t) {
            fits = work.people == 0 || m_crew[static_cast<size_t>(t)] >= work.people;
            for (const int tool : work.tools) {
                const auto pieces = std::count(work.tools.begin(), work.tools.end(), tool);
                fits = fits && m_toolsLeft[static_cast<size_t>(tool)][static_cast<size_t>(t)] >= pieces;
            }
        }
        if (fits)
            return from;
    }
    return {};
}

// "Each in turn takes the earliest slot…; a slot that is now starts; a later one only holds its place and is recomputed
// at the next decision time. One whose nozzle is not free takes none."
bool Minutes::startFirst() {
    occupyRunning();
    for (const InLine& e : line()) {
        std::array<int, 2> taken{-1, -1};
        if (takes(e)) {
            const auto chosen = choose(e);
            if (!chosen)
                continue;
            taken = *chosen;
        }
        const Minute length = workOf(e)->minutes + growth(taken);
        const auto from = slot(e, length);
        if (from == m_now) {
            start(e, length, taken);
            return true;
        }
        if (from)
            occupy(*workOf(e), *from, *from + length);
    }
    return false;
}

// "After each start the line is read from its head."
void Minutes::readLine() {
    if (line().empty())
        return;
    while (startFirst())
        m_startedNow = true;
}

void Minutes::start(const InLine& e, Minute length, std::array<int, 2> taken) {
    Bay& bay = m_bays[static_cast<size_t>(e.printer)];
    const Work& work = *workOf(e);
    TimedWork timed{&work, m_now, m_now + length, taken, {-1, -1}};
    if (e.preparation) {
        bay.preparation.active = true;
        bay.preparation.end = timed.end;
        auto& list = bay.jobs[bay.preparation.job].work;
        list.insert(list.begin(), timed);
        return;
    }
    Item& item = bay.life[bay.at];
    item.active = true;
    item.end = timed.end;
    TimedJob& job = bay.jobs[item.job];
    item.timed = job.work.size();
    job.work.push_back(timed);
    if (work.kind == Kind::HandsOn)
        job.changeoverMinutes += length;
    const bool takesThem = takes(e);
    if (takesThem)
        bay.tookNozzles = true;
    for (size_t i = 0; i < 2; ++i) {
        if (taken[i] < 0)
            continue;
        NozzlePiece& nozzle = m_nozzles[static_cast<size_t>(taken[i])];
        if (nozzle.printer >= 0)
            m_bays[static_cast<size_t>(nozzle.printer)].mounted[static_cast<size_t>(nozzle.position)] = -1;
        nozzle.printer = e.printer;
        nozzle.position = static_cast<int>(i);
    }
    if (takesThem)
        bay.taken = taken;
}

const Change& Minutes::changeOf(const InLine& e) const {
    const Bay& bay = m_bays[static_cast<size_t>(e.printer)];
    return *bay.jobs[bay.life[bay.at].job].change;
}

const VariantNumbers& Minutes::variantOf(const InLine& e) const {
    const Bay& bay = m_bays[static_cast<size_t>(e.printer)];
    const TimedJob& job = bay.jobs[bay.life[bay.at].job];
    return jobOf(job)->variants[static_cast<size_t>(job.variant)];
}

// "A changeover that mounts two takes both at the first mounting." A session has chosen its nozzles already.
bool Minutes::takes(const InLine& e) const {
    const Bay& bay = m_bays[static_cast<size_t>(e.printer)];
    if (!m_problem.scarceNozzles || e.preparation || !workOf(e)->mounts || bay.tookNozzles)
        return false;
    return bay.jobs[bay.life[bay.at].job].change != nullptr;
}

// "A mounting segment needs a nozzle of the right type and melt family with enough life for the job."
bool Minutes::serves(const NozzlePiece& n, const NozzleNeed& need, std::int64_t life) const {
    return n.type == need.type && (n.family < 0 || n.family == need.family) && (!n.life || *n.life >= life);
}

// "Free ones first, then those of printers with nothing further planned after their last part removal": 0, 1; else -1.
int Minutes::rankOf(size_t nozzle) const {
    const int p = m_nozzles[nozzle].printer;
    if (p < 0)
        return 0;
    return m_bays[static_cast<size_t>(p)].over() ? 1 : -1;
}

// "…among these the least life that suffices, life without history last, then file order; chosen when the segment
// starts."
std::optional<std::array<int, 2>> Minutes::choose(const InLine& e) const {
    std::array<int, 2> taken{-1, -1};
    for (size_t i = 0; i < 2; ++i) {
        const NozzleNeed& need = changeOf(e).nozzle[i];
        if (!need.exchange)
            continue;
        using Key = std::tuple<int, bool, std::int64_t, size_t>;
        std::optional<Key> best;
        for (size_t n = 0; n < m_nozzles.size(); ++n) {
            const NozzlePiece& piece = m_nozzles[n];
            if (rankOf(n) < 0 || !serves(piece, need, variantOf(e).life[i]))
                continue;
            if (i == 1 && taken[0] == static_cast<int>(n))
                continue;
            const Key key(rankOf(n), !piece.life.has_value(), piece.life.value_or(0), n);
            if (!best || key < *best)
                best = key;
        }
        if (!best)
            return {};
        taken[i] = static_cast<int>(std::get<3>(*best));
    }
    return taken;
}

// "The segment grows by the giver's `nozzle-removal-minutes`."
Minute Minutes::growth(std::array<int, 2> taken) const {
    Minute result = 0;
    for (const int n : taken)
        if (n >= 0 && m_nozzles[static_cast<size_t>(n)].printer >= 0)
            result += m_problem.printers[static_cast<size_t>(m_nozzles[static_cast<size_t>(n)].printer)].nozzleRemoval;
    return result;
}

bool Minutes::nothingMoves() const {
    if (m_now <= m_lastBorder || m_startedNow)
        return false;
    return std::none_of(m_bays.begin(), m_bays.end(), [](const Bay& bay) {
        return bay.preparation.active || (!bay.over() && bay.life[bay.at].active && bay.life[bay.at].end < never);
    });
}

bool Minutes::noNozzleAnyMore(const InLine& e) const {
    for (size_t i = 0; i < 2; ++i) {
        const NozzleNeed& need = changeOf(e).nozzle[i];
        if (need.exchange && std::none_of(m_nozzles.begin(), m_nozzles.end(),
                                          [&](const NozzlePiece& n) { return serves(n, need, variantOf(e).life[i]); }))
            return true;
    }
    return false;
}

void Minutes::dropAll(int p) {
    for (const Place& place : m_order[static_cast<size_t>(p)])
        toDrop.insert(place.job);
}

// "A job with a segment that never finds enough crew for long enough is not placed." "When nothing more can happen
// while printers wait for nozzles, one waiting job is not placed: the last in line among those that no nozzle can serve
// any more, else the last in line; the timetable is computed anew without it."
void Minutes::decideDrop() {
    std::vector<InLine> forNozzles;
    std::set<int> waiting;
    for (const InLine& e : line())
        if (!e.behind && takes(e) && !choose(e)) {
            forNozzles.push_back(e);
            waiting.insert(e.printer);
        }
    std::vector<int> givenStuck;
    for (int p = 0; p < static_cast<int>(m_bays.size()); ++p) {
        const Bay& bay = m_bays[static_cast<size_t>(p)];
        if (bay.over() || waiting.contains(p))
            continue;
        const TimedJob& job = bay.jobs[bay.life[bay.at].job];
        if (job.change)
            toDrop.insert(job.job);
        else
            givenStuck.push_back(p);
    }
    if (!toDrop.empty())
        return;
    // "Running jobs stay"; what comes after them never can.
    for (const int p : givenStuck) {
        dropAll(p);
        for (const TimedJob& given : m_bays[static_cast<size_t>(p)].jobs)
            if (given.job >= 0 && given.complete >= never && !given.change)
                neverOut.insert(given.job);
    }
    if (!toDrop.empty() || forNozzles.empty())
        return;
    InLine last = forNozzles.back();
    for (const InLine& e : forNozzles)
        if (noNozzleAnyMore(e))
            last = e;
    if (!noNozzleAnyMore(last))
        last = forNozzles.back();
    const Bay& bay = m_bays[static_cast<size_t>(last.printer)];
    toDrop.insert(bay.jobs[bay.life[bay.at].job].job);
}

} // namespace interlude::tests
