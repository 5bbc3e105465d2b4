#pragma once
// What is known of one changeover session, folded from its events. A plain value.

#include "model/shop/happening.h"

namespace interlude {

enum class StepState { Pending, Started, Done, Skipped };

struct StepProgress {
    StepState state = StepState::Pending;
    std::optional<Instant> started; ///< original start; a taken-back step keeps it
    std::optional<Instant> ended;
    QString who;
    bool enteredLate = false;
    act::StepConfirmed confirmed;   ///< scans, answers, readings, notes, overrides
    std::optional<act::Override> skipped;
    qint64 event = 0;               ///< sequence of the confirming (or skipping) event
    qint64 startEvent = 0;          ///< sequence of the event that set `started`
};

struct SensorReading {
    Sensor sensor = Sensor::Chamber;
    Temperature value;
    Instant at;
    QString who, instrument;
    qint64 event = 0; ///< sequence; orders readings, starts and interruptions where a clock was set back between them
};
/// A session that was left alone. Of cause `clock`: `to` is what the wall clock said when the jump was found, `from` what
/// it would have said without: to − from = ClockJumped::by, so `to` lies before `from` when the clock was set back.
struct Interruption {
    Instant from;
    std::optional<Instant> to;
    QString note, who, by; ///< who paused, who went on
    bool handOver = false;
    QString cause; ///< pause, hand-over, restart, clock, suspend
    qint64 event = 0; ///< sequence of the event that began it (clock, restart: of the event that tells of it)
    QMap<QString, QString> mounted; ///< what the incoming person confirmed
};
struct TakenBackStep { StepId step; QString why, who; Instant at; qint64 event = 0; };
struct Correction { act::Corrected what; QString who; Instant at; qint64 event = 0; };
struct ProblemNote { act::ProblemReported what; QString who; Instant at; };
/// The part of the shop that one step can touch: this printer, what is mounted or loaded on it, its job.
struct Surroundings {
    PrinterNow printer;
    QMap<SpoolId, Spool> spools;
    QMap<NozzleSerial, Nozzle> nozzles;
    QMap<JobId, Job> jobs;
};
/// What Take back needs: the surroundings of a confirmation before and after it.
struct Undo { StepId step; Surroundings before, after; };
enum class SessionPhase { Open, Paused, Finished, Stopped };

struct SessionState {
    qint64 number = 0;
    PrinterId printer;
    Changeover changeover;
    QList<act::Override> overrides;
    QString startedBy;
    Instant started;
    std::optional<Instant> ended;
    SessionPhase phase = SessionPhase::Open;
    bool enteredLate = false;
    QMap<StepId, StepProgress> steps;
    QList<SensorReading> readings;
    QList<Interruption> interruptions;
    QList<TakenBackStep> takenBack;
    QList<Correction> corrections;
    QList<ProblemNote> problems;
    QString disposition, closingNote, closedBy;
    QMap<NozzleSerial, RunVolume> runBefore, runAfter; ///< of the nozzles touched
    PrinterNow printerBefore;
    QString catalogueHash;
    qint64 firstEvent = 0, lastEvent = 0;
    QList<qint64> events; ///< sequences of all events of this session
    int revision = 0; ///< of the last record issued
    qint64 revisionEvent = 0;   ///< sequence of the event that issued it
    std::optional<Job> jobThen; ///< the job as it stood when the session began; later changes of it do not reach the record
    /// Confirmed and skipped steps in order, for Take back; `undo` has one entry for each.
    QStringList confirmedOrder;
    QList<Undo> undo;

    /// A pending one when nothing has happened yet.
    const StepProgress& progress(const StepId& id) const;
    /// Done or skipped.
    bool settled(const StepId& id) const;
    /// The step with this effect that is done; null if none.
    const PlannedStep* doneStep(Effect effect) const;
    /// Some of the exchange is done and some is not: the printer is in a mixed state in which no print may start.
    bool leavesMixed() const;
    /// Of a record issued now: the number of the last one while nothing has been added to the session since.
    int nextRevision() const { return revision > 0 && lastEvent == revisionEvent ? revision : revision + 1; }
    bool isOpen() const { return phase == SessionPhase::Open || phase == SessionPhase::Paused; }
};

/// One line of the list of sessions.
struct SessionSummary {
    qint64 number = 0;
    PrinterId printer;
    JobId job;
    MaterialId from, to; ///< part material loaded before, and wanted
    SessionPhase phase = SessionPhase::Open;
    Instant started;
    std::optional<Instant> ended;
    QString startedBy;
    bool enteredLate = false;
    int overrides = 0, skipped = 0, corrections = 0, problems = 0;
    bool operator==(const SessionSummary&) const = default;
};
SessionSummary summaryOf(const SessionState& s);

/// One print from its start to its end: what ran through which nozzle, from which spools.
struct PrintRun {
    qint64 event = 0; ///< sequence of the event that started it
    PrinterId printer;
    JobId job;
    QString variant;
    Instant started;
    std::optional<Instant> ended;
    std::optional<PrintOutcome> outcome; ///< empty while it runs, and of one that nobody ended before the next began
    qint64 endEvent = 0;
    qint64 session = 0; ///< that started it; 0: a person did
    QList<SpoolId> spools; ///< in the positions that it uses, from its start on
    QList<NozzleSerial> nozzles;
    bool operator==(const PrintRun&) const = default;
};

} // namespace interlude
