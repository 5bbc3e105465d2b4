#pragma once
// What the technician sees of an open session: which step now, what it wants, what may be done meanwhile. Computed from
// the state; holds nothing itself.

#include "model/session/countdown.h"

namespace interlude {

enum class StepMark { Done, Skipped, Current, Running, Ready, Waiting };

struct GuideStep {
    StepId id;
    QString group, title;
    Minutes planned{0};
    StepMark mark = StepMark::Waiting;
    bool external = false, handsOn = true, critical = false;
};

/// Something useful during a wait, here or at another printer.
struct Meanwhile {
    PrinterId printer;
    qint64 session = 0; ///< 0: not part of a session (a part to take out, say)
    StepId step;
    QString text; ///< "Bay 5: part out, 6 min, ready since 10:31"
};

struct Guide {
    QList<GuideStep> steps;
    StepId current;           ///< hands-on step to do now; empty while only waits run (or all is done)
    StepId next;
    QList<Countdown> waits;
    QList<Meanwhile> meanwhile;
    Minutes handsOnLeft{0};
    Instant readyAt;          ///< estimate, upper ends used
    int index = 0;            ///< "step 9 of 21"
    bool finished = false;    ///< nothing is left to confirm
    QString blockedBecause;   ///< e.g. "A reading is needed: the session was interrupted for 12 minutes"
};

Guide guide(const Shop& shop, const SessionState& session, Instant now);

/// Whether this scan is what is expected; a scan that does not match never confirms. The finding explains what was
/// scanned instead ("S-40 is a spool of ACR; expected nozzle N-118").
Outcome<QString> matchScan(const Shop& shop, const SessionState& session, const StepId& step, int scanIndex,
                           const QString& scanned);

/// True when a measured value of this step must be taken (again) now: none yet, older than 60 s, or an interruption of
/// more than a minute since.
bool needsFreshReading(const SessionState& session, const StepId& step, Instant now);
/// Waiting steps that may start now without anybody confirming anything, while the printer still prints only external ones;
/// the caller performs StepStarted for each.
QStringList startableWaits(const Shop& shop, const SessionState& session);

} // namespace interlude
