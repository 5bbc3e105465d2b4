#pragma once
// What every rule needs: the shop, who asks, when, and where the findings go. Each kind of happening has one `object`
// in the file of its noun.

#include "model/shop/shop.h"

namespace interlude {

struct Asking {
    const Shop& shop;
    QString who;
    Instant now;
    Instant happened;
    Findings found;

    void refuse(const char* rule, const QString& reason, const QString& remedy = {}, const QString& place = {},
                bool overridable = false);
    void warn(const char* rule, const QString& reason, const QString& remedy = {}, const QString& place = {});

    /// Whether it is stated to have happened before that moment. Only what somebody states can be: now is after all that is on
    /// record, whatever the clock was set to meanwhile.
    bool statedBefore(Instant t) const { return happened < now && happened < t; }

    // -- things by id; null, and refused, when there is no such thing
    const Spool* spool(const SpoolId& id);
    const Nozzle* nozzle(const NozzleSerial& id);
    const PrinterNow* printer(const PrinterId& id);
    /// What people call that printer; its id where it has no name.
    QString named(const PrinterId& id) const;
    /// A moment as the shop's clock shows it: 2026-03-02 05:40.
    QString local(Instant t) const;
    const Job* job(const JobId& id);
    const SessionState* session(qint64 number);
    /// The session, which must be open and not paused.
    const SessionState* runningSession(qint64 number);

    // -- common rules
    /// Refused when blank; `what` is the field in plain words.
    bool stated(const QString& text, const QString& what, const char* place);
    void notNegative(qint64 value, const QString& what, const char* place);
    /// Something that a person dates: not in the future, not before `years` ago.
    void dated(Instant t, const QString& what, const char* place, int years = 20);
    void knownPlace(const QString& place);
    void knownInstrument(const QString& id, const QString& use);
    /// A stated run volume: no negative number.
    void runVolume(const RunVolume& run, const RunVolume& before);
    /// An override needs its reason, and in a shop of more than one a second person.
    bool overrideHolds(const act::Override& o, const QString& what);
};

/// "part position", "support position".
QString positionWords(Role role);

// -- what may be done with a printer; shared by a person's act and a session's step
void askLoad(Asking& a, const PrinterNow& p, Role role, const SpoolId& id);
void askMount(Asking& a, const PrinterNow& p, Role role, const NozzleSerial& serial, const MaterialId& material);
/// The job can be printed now as far as printer and job are concerned.
void askPrint(Asking& a, const PrinterNow& p, const JobId& job, const QString& variant);
/// Another session than `except` that has chosen this nozzle or spool; null if none.
const SessionState* reservedBy(const Shop& shop, const QString& id, qint64 except);
/// The open session that is about this job; null if none.
const SessionState* sessionOfJob(const Shop& shop, const JobId& job);
void askSetup(Asking& a, const OpeningSetup& s);

// -- one for each kind
void object(Asking& a, const act::CatalogueRead& x);
void object(Asking& a, const act::ExampleStarted& x);
void object(Asking& a, const act::SpoolOpening& x);
void object(Asking& a, const act::NozzleOpening& x);
void object(Asking& a, const act::SetupOpening& x);
void object(Asking& a, const act::JobOpening& x);
void object(Asking& a, const act::PrintOpening& x);
void object(Asking& a, const act::Imported& x);
void object(Asking& a, const act::SpoolReceived& x);
void object(Asking& a, const act::SpoolWeighed& x);
void object(Asking& a, const act::SpoolDried& x);
void object(Asking& a, const act::SpoolMoved& x);
void object(Asking& a, const act::SpoolLoaded& x);
void object(Asking& a, const act::SpoolUnloaded& x);
void object(Asking& a, const act::SpoolRetired& x);
void object(Asking& a, const act::NozzleReceived& x);
void object(Asking& a, const act::NozzleUseStated& x);
void object(Asking& a, const act::NozzleMeasured& x);
void object(Asking& a, const act::NozzleRetired& x);
void object(Asking& a, const act::PrinterDeclared& x);
void object(Asking& a, const act::PrintStarted& x);
void object(Asking& a, const act::PrintEnded& x);
void object(Asking& a, const act::PartRemoved& x);
void object(Asking& a, const act::DowntimeBegun& x);
void object(Asking& a, const act::DowntimeEnded& x);
void object(Asking& a, const act::JobAdded& x);
void object(Asking& a, const act::JobChanged& x);
void object(Asking& a, const act::JobWithdrawn& x);
void object(Asking& a, const act::PlanPublished& x);
void object(Asking& a, const act::AbsenceEntered& x);
void object(Asking& a, const act::AbsenceWithdrawn& x);
void object(Asking& a, const act::DowntimePlanned& x);
void object(Asking& a, const act::DowntimeWithdrawn& x);
void object(Asking& a, const act::SessionStarted& x);
void object(Asking& a, const act::StepStarted& x);
void object(Asking& a, const act::StepConfirmed& x);
void object(Asking& a, const act::StepSkipped& x);
void object(Asking& a, const act::TemperatureRead& x);
void object(Asking& a, const act::SessionPaused& x);
void object(Asking& a, const act::SessionResumed& x);
void object(Asking& a, const act::TakenBack& x);
void object(Asking& a, const act::Corrected& x);
void object(Asking& a, const act::ProblemReported& x);
void object(Asking& a, const act::SessionStopped& x);
void object(Asking& a, const act::SessionFinished& x);
void object(Asking& a, const act::RecordIssued& x);
void object(Asking& a, const act::ProgramStarted& x);
void object(Asking& a, const act::ClockJumped& x);

} // namespace interlude
