#include "model/planning/free_stretches.h"

#include "model/planning/timetable/crew_profile.h"

#include <algorithm>

namespace interlude::planning {

namespace {

constexpr int mostPeople = 16; // a segment for more than that is estimated as for so many

std::vector<Span> stretches(const std::vector<CrewFrom>& crew, int people) {
    std::vector<Span> out;
    for (std::size_t i = 0; i < crew.size(); ++i) {
        if (crew[i].crew < people)
            continue;
        const Minute from = i == 0 ? std::min<Minute>(crew[i].from, 0) : crew[i].from;
        const Minute to = i + 1 < crew.size() ? crew[i + 1].from : never;
        if (!out.empty() && out.back().to == from)
            out.back().to = to;
        else
            out.push_back({from, to});
    }
    return out;
}

} // namespace

FreeStretches::FreeStretches(const Problem& problem) {
    for (int people = 0; people <= mostPeople; ++people)
        m_stretches.push_back(stretches(problem.crew, people));
}

Minute FreeStretches::onShift(Minute from, Minute minutes, int people) const {
    const auto& list = m_stretches[static_cast<std::size_t>(std::min(people, mostPeople))];
    auto at = std::upper_bound(list.begin(), list.end(), from, [](Minute t, const Span& s) { return t < s.to; });
    for (; at != list.end(); ++at) {
        const Minute start = std::max(from, at->from);
        if (start + minutes <= at->to)
            return start;
    }
    return never;
}

Minute FreeStretches::earliest(Minute from, Minute minutes, int people, const std::vector<Span>& down) const {
    if (people <= 0)
        return outsideDowntime(from, minutes, down);
    for (;;) {
        const Minute start = onShift(from, minutes, people);
        if (start >= never || down.empty())
            return start;
        from = outsideDowntime(start, minutes, down);
        if (from == start)
            return start;
    }
}

} // namespace interlude::planning
