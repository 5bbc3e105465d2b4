#pragma once
// A technician who never errs: what the next act of the longest changeover of the sample fleet's bay 3 is, given what the
// shop says now. Moves the clock over the waits. Knows no ledger: the caller performs the acts, and may be refused.

#include "model/clock/clock.h"
#include "model/session/guide.h"
#include "model/shop/workbench.h"

namespace interlude::tests {

/// The sample fleet, read once.
CataloguePtr sampleFleet();

class Technician {
public:
    /// Who signs.
    static const QString& initials();

    /// Both are borrowed; `clock` is the workbench's machine clock.
    Technician(Workbench& bench, ManualClock& clock) : m_bench(bench), m_clock(clock) {}

    /// The last session of the shop; null before there is one.
    const SessionState* session() const;
    /// True when there was a session and it is over.
    bool isDone() const;
    /// What is to be done now; nothing when there is nothing left or the technician is at a loss (then `lost` says why).
    std::optional<Happening> next();
    QString lost() const { return m_lost; }
    /// The confirmation of a step, with everything that it asks for.
    act::StepConfirmed confirmation(const PlannedStep& step) const;

private:
    std::optional<Happening> wait(const SessionState& session, const Countdown& c);
    std::optional<Happening> atALoss(const QString& why);

    Workbench& m_bench;
    ManualClock& m_clock;
    QString m_lost;
};

} // namespace interlude::tests
