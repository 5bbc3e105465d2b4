#pragma once
// Everything a person can do, and everything that can have happened: one struct each, one event kind each (the closed
// list). A proposed act and the recorded event are the same value: `objections` says whether it may happen, the ledger
// keeps it, `Shop::apply` folds it in.
//
// To add one: a struct with `kind`, a place in the variant, its fields in payload/, its effect in fold/, its objections in
// objections/, and a line in the fixture of every kind under tests/shop.

#include "model/changeover/changeover.h"
#include "model/ledger/event.h"
#include "model/stock/plan.h"

#include <variant>

namespace interlude {

namespace act {

// -- catalogue and opening entries -------------------------------------------------------------------------------
/// The catalogue's version changed (first opening included).
struct CatalogueRead { static constexpr auto kind = "catalogue-read"; QString hash; QMap<QString, QString> files; };
/// First opening of an example fleet: the shop's clock = the machine's clock + offset.
struct ExampleStarted { static constexpr auto kind = "example-started"; Milliseconds offset{0}; };
struct SpoolOpening { static constexpr auto kind = "spool-opening"; Spool spool; };
struct NozzleOpening { static constexpr auto kind = "nozzle-opening"; Nozzle nozzle; };
struct SetupOpening { static constexpr auto kind = "setup-opening"; OpeningSetup setup; };
struct PrintOpening { static constexpr auto kind = "print-opening"; OpeningPrint print; };
struct JobOpening { static constexpr auto kind = "job-opening"; Job job; };
/// The new entries of one CSV, all in one event: a file comes in whole or not at all. `file` is its name, without a folder.
struct Imported { static constexpr auto kind = "imported"; QString file; QList<Spool> spools; QList<Nozzle> nozzles; QList<Job> jobs; };

// -- spools -------------------------------------------------------------------------------------------------------
struct SpoolReceived { static constexpr auto kind = "spool-received"; Spool spool; };
/// Gross weight with the tare (kept or stated now); without any tare the stock becomes unknown.
struct SpoolWeighed { static constexpr auto kind = "spool-weighed"; SpoolId spool; Mass gross; std::optional<Mass> tare; Mass se; };
struct SpoolDried { static constexpr auto kind = "spool-dried"; SpoolId spool; Temperature at; Instant from, to; };
/// Taken out of (or put back into) a dry, sealed place.
struct SpoolMoved { static constexpr auto kind = "spool-moved"; SpoolId spool; QString place; bool exposed = false; };
struct SpoolLoaded { static constexpr auto kind = "spool-loaded"; SpoolId spool; PrinterId printer; Role position = Role::Part; };
struct SpoolUnloaded { static constexpr auto kind = "spool-unloaded"; SpoolId spool; QString place; };
struct SpoolRetired { static constexpr auto kind = "spool-retired"; SpoolId spool; QString why; };

// -- nozzles ------------------------------------------------------------------------------------------------------
struct NozzleReceived { static constexpr auto kind = "nozzle-received"; Nozzle nozzle; };
/// The use so far of a used nozzle: a number (zero allowed) or no history.
struct NozzleUseStated { static constexpr auto kind = "nozzle-use-stated"; NozzleSerial nozzle; RunVolume run; };
struct NozzleMeasured { static constexpr auto kind = "nozzle-measured"; NozzleSerial nozzle; Length orifice; QString instrument; };
struct NozzleRetired { static constexpr auto kind = "nozzle-retired"; NozzleSerial nozzle; QString why; };

// -- printers -----------------------------------------------------------------------------------------------------
/// A person states what is in and on a printer, whatever the program believed; needs a reason.
struct PrinterDeclared { static constexpr auto kind = "printer-declared"; PrinterId printer; OpeningSetup setup; QString why; };
struct PrintStarted { static constexpr auto kind = "print-started"; PrinterId printer; JobId job; QString variant; Minutes expected{0}; };
struct PrintEnded {
    static constexpr auto kind = "print-ended";
    PrinterId printer; PrintOutcome outcome = PrintOutcome::Good; bool partOnPlatform = true;
    /// Extruded; empty = as the variant says, of a failed or stopped print the share of its time that had passed.
    std::optional<Volume> part, support;
    QString note;
};
struct PartRemoved { static constexpr auto kind = "part-removed"; PrinterId printer; };
struct DowntimeBegun { static constexpr auto kind = "downtime-begun"; PrinterId printer; QString why; std::optional<Instant> until; };
struct DowntimeEnded { static constexpr auto kind = "downtime-ended"; PrinterId printer; };

// -- jobs ---------------------------------------------------------------------------------------------------------
struct JobAdded { static constexpr auto kind = "job-added"; Job job; };
struct JobChanged { static constexpr auto kind = "job-changed"; Job job; };
struct JobWithdrawn { static constexpr auto kind = "job-withdrawn"; JobId job; QString why; };

// -- plan ---------------------------------------------------------------------------------------------------------
/// The plan that the shop follows from now on, with the feedstock that it reserves.
struct PlanPublished { static constexpr auto kind = "plan-published"; Plan plan; };
struct AbsenceEntered { static constexpr auto kind = "absence-entered"; PlannedAbsence absence; };
struct AbsenceWithdrawn { static constexpr auto kind = "absence-withdrawn"; QString id; };
struct DowntimePlanned { static constexpr auto kind = "downtime-planned"; PlannedDowntime downtime; };
struct DowntimeWithdrawn { static constexpr auto kind = "downtime-withdrawn"; QString id; };

// -- sessions -----------------------------------------------------------------------------------------------------
/// An override of one refusal, or the skipping of a mandatory step: reason, and second person (empty in a shop of one).
struct Override { QString rule; QString reason; QString approver; };
struct SessionStarted {
    static constexpr auto kind = "session-started";
    qint64 session = 0; PrinterId printer; Changeover changeover; QList<Override> overrides; bool enteredLate = false;
};
struct ScanDone { QString value; bool typed = false; };
struct AnswerDone { bool yes = false; };
/// `value` in thousandths of the unit, an integer, so that it can be hashed.
struct ReadingDone { QString name; qint64 thousandths = 0; QString unit; QString instrument; Instant at; };
/// A waiting step (or a hands-on one) was begun; countdowns run from here.
struct StepStarted { static constexpr auto kind = "step-started"; qint64 session = 0; StepId step; };
struct StepConfirmed {
    static constexpr auto kind = "step-confirmed";
    qint64 session = 0; StepId step;
    QList<ScanDone> scans; QList<AnswerDone> answers; QList<ReadingDone> readings;
    std::optional<Temperature> measured; ///< for only-below steps, with …
    std::optional<Instant> measuredAt;   ///< … the moment of the reading
    std::optional<RunVolume> useSoFar;   ///< of a used nozzle mounted here
    QList<Override> overrides;           ///< e.g. a reading outside its limits
    QString note; bool enteredLate = false;
};
struct StepSkipped { static constexpr auto kind = "step-skipped"; qint64 session = 0; StepId step; Override because; };
struct TemperatureRead {
    static constexpr auto kind = "temperature-read";
    qint64 session = 0; Sensor sensor = Sensor::Chamber; Temperature value; QString instrument;
};
struct SessionPaused { static constexpr auto kind = "session-paused"; qint64 session = 0; QString note; bool handOver = false; };
/// The (incoming) person goes on, having confirmed what is mounted: position → serial.
struct SessionResumed { static constexpr auto kind = "session-resumed"; qint64 session = 0; QMap<QString, QString> mounted; };
/// Undoes the last confirmation of an open session.
struct TakenBack { static constexpr auto kind = "taken-back"; qint64 session = 0; StepId step; QString why; };
/// A later, dated correction of something recorded; the original stays.
struct Corrected {
    static constexpr auto kind = "corrected";
    qint64 session = 0; qint64 event = 0; ///< sequence of the event corrected
    QString field, original, corrected, reason;
};
/// `stop`: the work was stopped because of it; SessionStopped is an act of its own. `photos`: SHA-256 of each photo's file as
/// lower-case hex; the files lie beside the ledger.
struct ProblemReported {
    static constexpr auto kind = "problem-reported";
    qint64 session = 0; StepId step; QString note; bool stop = false; QStringList photos = {};
};
struct SessionStopped { static constexpr auto kind = "session-stopped"; qint64 session = 0; QString why; };
struct SessionFinished { static constexpr auto kind = "session-finished"; qint64 session = 0; QString disposition; QString note; };
struct RecordIssued { static constexpr auto kind = "record-issued"; qint64 session = 0; int revision = 1; QString sha256; };

// -- the program itself -------------------------------------------------------------------------------------------
/// The program was started; open sessions were interrupted since the last event.
struct ProgramStarted { static constexpr auto kind = "program-started"; QString version; };
/// The wall clock moved by `by` against the running clock, or the machine slept for `slept` (or both).
struct ClockJumped { static constexpr auto kind = "clock-jumped"; Milliseconds by{0}; Milliseconds slept{0}; };

} // namespace act

using Happening = std::variant<
    act::CatalogueRead, act::ExampleStarted, act::SpoolOpening, act::NozzleOpening, act::SetupOpening, act::JobOpening,
    act::PrintOpening, act::Imported,
    act::SpoolReceived, act::SpoolWeighed, act::SpoolDried, act::SpoolMoved, act::SpoolLoaded, act::SpoolUnloaded,
    act::SpoolRetired, act::NozzleReceived, act::NozzleUseStated, act::NozzleMeasured, act::NozzleRetired,
    act::PrinterDeclared, act::PrintStarted, act::PrintEnded, act::PartRemoved, act::DowntimeBegun, act::DowntimeEnded,
    act::JobAdded, act::JobChanged, act::JobWithdrawn, act::PlanPublished,
    act::AbsenceEntered, act::AbsenceWithdrawn, act::DowntimePlanned, act::DowntimeWithdrawn, act::SessionStarted, act::StepStarted, act::StepConfirmed,
    act::StepSkipped, act::TemperatureRead, act::SessionPaused, act::SessionResumed, act::TakenBack, act::Corrected,
    act::ProblemReported, act::SessionStopped, act::SessionFinished, act::RecordIssued, act::ProgramStarted,
    act::ClockJumped>;

QString kindOf(const Happening& h);
/// Payload of the event; integers only.
QJsonObject toPayload(const Happening& h);
/// Refused when the kind is unknown or the payload is malformed, saying which field.
Outcome<Happening> fromPayload(const QString& kind, const QJsonObject& payload);

} // namespace interlude
