#pragma once
// Carries out a changeover at full speed on a clock that is moved by hand, answering every step as a careful technician
// would: used by the rehearsal, and by tests that need a whole session behind them.

#include "model/session/guide.h"
#include "model/shop/workbench.h"

namespace interlude::app {

class SessionDriver {
public:
    /// All borrowed. `who` does the work, `other` approves where a second person is needed.
    SessionDriver(Workbench& bench, ManualClock& clock, QString who);

    /// Starts the changeover to that job's variant; the session's number.
    Outcome<qint64> start(const PrinterId& printer, const JobId& job, const QString& variant);
    /// Carries out the next thing: a step to be confirmed or a wait to its end. False when nothing is left.
    Outcome<bool> next(qint64 session);
    /// All that is left, then the closing disposition.
    Outcome<qint64> finish(qint64 session);

private:
    Outcome<bool> confirm(const SessionState& session, const PlannedStep& step);
    Outcome<bool> waitFor(const SessionState& session, const Guide& guide);
    act::StepConfirmed rightAnswers(const SessionState& session, const PlannedStep& step) const;

    void letPass(Milliseconds time);

    Workbench& m_bench;
    ManualClock& m_clock;
    QString m_who;
};

} // namespace interlude::app
