#include "model/stock/spool.h"

#include <algorithm>

namespace interlude {

Milliseconds exposure(const Spool& s, Instant now) {
    const Milliseconds before = std::max(s.exposedBefore, Milliseconds(0));
    if (!s.exposedFrom || now <= *s.exposedFrom) return before;
    return before + (now - *s.exposedFrom);
}

DryState dryState(const Spool& s, const Material& m, Instant now) {
    if (!m.exposureLimit) return DryState::NoRule;
    if (exposure(s, now) > *m.exposureLimit) return DryState::Overdue;
    if (s.dried) return DryState::Dry;
    // Never dried here. Open for longer than the limit: the drying entry is missing, wherever it lay meanwhile.
    if (s.opened) return now - *s.opened > *m.exposureLimit ? DryState::Overdue : DryState::Dry;
    if (s.exposedFrom || s.exposedBefore > Milliseconds(0)) return DryState::Dry; // counted from the first exposure
    return s.where == SpoolWhere::Loaded ? DryState::Unknown : DryState::Sealed;
}

} // namespace interlude
