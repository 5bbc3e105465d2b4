#include "model/planning/timetable/crew_profile.h"

#include <algorithm>

namespace interlude::planning {

Minute outsideDowntime(Minute from, Minute length, const std::vector<Span>& down) {
    // Ascending spans: one pass suffices. A print of no minutes still may not begin inside.
    for (const Span& d : down)
        if (from < d.to && from + std::max<Minute>(length, 1) > d.from) from = d.to;
    return from;
}

CrewProfile::CrewProfile(const Problem& problem)
    : m_problem(problem),
      m_alwaysEnough(problem.toolPieces.empty() &&
                     std::all_of(problem.crew.begin(), problem.crew.end(),
                                 [](const CrewFrom& c) { return c.crew >= unlimitedCrew; })) {}

void CrewProfile::forgetBefore(Minute now) {
    std::erase_if(m_uses, [now](const Use& u) { return u.to <= now; });
    m_entry = entryAt(now);
}

namespace {
int piecesOf(const std::vector<int>& tools, int tool) {
    return static_cast<int>(std::count(tools.begin(), tools.end(), tool));
}
} // namespace

/// The entry that holds at t: the last one that begins at or before it. Mostly the one that held before, or the next.
std::size_t CrewProfile::entryAt(Minute t) const {
    const auto& crew = m_problem.crew;
    std::size_t i = m_entry;
    for (int steps = 0; steps < 8; ++steps, ++i)
        if (i + 1 >= crew.size() || crew[i + 1].from > t) return i;
    const auto after = std::upper_bound(crew.begin() + static_cast<std::ptrdiff_t>(i), crew.end(), t,
                                        [](Minute m, const CrewFrom& c) { return m < c.from; });
    return static_cast<std::size_t>(after - crew.begin() - 1);
}

int CrewProfile::freeAt(Minute t) const {
    int free = m_problem.crew[entryAt(t)].crew;
    for (const Use& u : m_uses)
        if (u.from <= t && t < u.to) free -= u.people;
    return free;
}

Minute CrewProfile::nextChange(Minute now) const {
    const std::size_t i = entryAt(now) + 1;
    if (i < m_problem.crew.size() && m_problem.crew[i].from > now) return m_problem.crew[i].from;
    return i + 1 < m_problem.crew.size() ? m_problem.crew[i + 1].from : never;
}

Minute CrewProfile::blockedUntil(Minute from, Minute length, int people, const std::vector<int>& tools,
                                 const std::vector<Span>& down) const {
    const Minute to = from + length;
    Minute blocked = from;
    for (const Span& d : down)
        if (d.from < to && d.to > from) blocked = std::max(blocked, d.to);
    if (blocked > from) return blocked;
    // Between two borders nothing changes, so it is enough to look at each border inside, and at `from`.
    const auto look = [&](Minute t) {
        int free = m_problem.crew[entryAt(t)].crew;
        for (const Use& u : m_uses)
            if (u.from <= t && t < u.to) free -= u.people;
        bool enough = free >= people;
        for (std::size_t i = 0; enough && i < tools.size(); ++i) {
            if (i > 0 && tools[i] == tools[i - 1]) continue;
            int pieces = m_problem.toolPieces[static_cast<std::size_t>(tools[i])] - piecesOf(tools, tools[i]);
            for (const Use& u : m_uses)
                if (u.tools && u.from <= t && t < u.to) pieces -= piecesOf(*u.tools, tools[i]);
            enough = pieces >= 0;
        }
        if (enough) return;
        // It stays so until the next border after t.
        Minute next = nextChange(t);
        for (const Use& u : m_uses)
            for (const Minute border : {u.from, u.to})
                if (border > t) next = std::min(next, border);
        blocked = std::max(blocked, next);
    };
    look(from);
    for (Minute t = nextChange(from); t < to; t = nextChange(t)) look(t);
    for (const Use& u : m_uses)
        if (u.from > from && u.from < to) look(u.from);
    return blocked;
}

Minute CrewProfile::earliest(Minute now, Minute length, int people, const std::vector<int>& tools,
                             const std::vector<Span>& down) const {
    if (m_alwaysEnough) return outsideDowntime(now, length, down);
    Minute start = now;
    while (start < never) {
        const Minute blocked = blockedUntil(start, length, people, tools, down);
        if (blocked == start) return start;
        start = blocked;
    }
    return never;
}

} // namespace interlude::planning
