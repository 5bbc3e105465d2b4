#include "model/shop/present_clock.h"

namespace interlude {

namespace {

bool isJump(const Interruption& i) { return i.cause == QStringLiteral("clock") && i.to; }

} // namespace

Instant inPresentClock(const SessionState& session, Instant recorded, qint64 event) {
    Instant moved = recorded;
    for (const Interruption& i : session.interruptions) {
        if (!isJump(i)) continue;
        const bool before = event > 0 && i.event > 0 ? event < i.event : moved <= i.from;
        if (before) moved += *i.to - i.from;
    }
    return moved;
}

std::optional<Instant> endInPresentClock(const SessionState& session, qsizetype interruption) {
    const Interruption& own = session.interruptions[interruption];
    std::optional<Instant> end = own.to;
    for (qsizetype j = interruption + 1; end && j < session.interruptions.size(); ++j)
        if (const Interruption& i = session.interruptions[j]; isJump(i) && i.event > own.event) *end += *i.to - i.from;
    return end;
}

} // namespace interlude
