#pragma once
// When are enough people on shift, without regard to what else they do? An estimate for the search (private to
// model/planning).

#include "model/planning/problem/problem.h"

namespace interlude::planning {

class FreeStretches {
public:
    explicit FreeStretches(const Problem& problem);
    /// The earliest start at or after `from` of so many minutes with so many people on shift throughout, outside the
    /// downtime; `never` if there is none.
    Minute earliest(Minute from, Minute minutes, int people, const std::vector<Span>& down) const;

private:
    Minute onShift(Minute from, Minute minutes, int people) const;

    std::vector<std::vector<Span>> m_stretches; ///< by people; where that many are on shift, ascending, apart
};

} // namespace interlude::planning
