#pragma once
// One event folded into the shop. Deterministic: no clock, no locale, nothing but the shop and the event. All times are
// those of `happenedAt`. A trouble means that the event cannot be folded; then nothing was changed.

#include "model/shop/fold/printer_effects.h"
#include "model/shop/shop.h"

namespace interlude {

class Fold {
public:
    using Trouble = std::optional<Finding>;

    Fold(Shop& shop, const Event& event) : m_shop(shop), m_event(event), m_at(event.happenedAt) {}

    Trouble fold(const Happening& h) {
        return std::visit([this](const auto& act) { return on(act); }, h);
    }

private:
    // -- one for each kind, in the order of the list
    Trouble on(const act::CatalogueRead& x);
    Trouble on(const act::ExampleStarted& x);
    Trouble on(const act::SpoolOpening& x);
    Trouble on(const act::NozzleOpening& x);
    Trouble on(const act::SetupOpening& x);
    Trouble on(const act::JobOpening& x);
    Trouble on(const act::PrintOpening& x);
    Trouble on(const act::Imported& x);
    Trouble on(const act::SpoolReceived& x);
    Trouble on(const act::SpoolWeighed& x);
    Trouble on(const act::SpoolDried& x);
    Trouble on(const act::SpoolMoved& x);
    Trouble on(const act::SpoolLoaded& x);
    Trouble on(const act::SpoolUnloaded& x);
    Trouble on(const act::SpoolRetired& x);
    Trouble on(const act::NozzleReceived& x);
    Trouble on(const act::NozzleUseStated& x);
    Trouble on(const act::NozzleMeasured& x);
    Trouble on(const act::NozzleRetired& x);
    Trouble on(const act::PrinterDeclared& x);
    Trouble on(const act::PrintStarted& x);
    Trouble on(const act::PrintEnded& x);
    Trouble on(const act::PartRemoved& x);
    Trouble on(const act::DowntimeBegun& x);
    Trouble on(const act::DowntimeEnded& x);
    Trouble on(const act::JobAdded& x);
    Trouble on(const act::JobChanged& x);
    Trouble on(const act::JobWithdrawn& x);
    Trouble on(const act::PlanPublished& x);
    Trouble on(const act::AbsenceEntered& x);
    Trouble on(const act::AbsenceWithdrawn& x);
    Trouble on(const act::DowntimePlanned& x);
    Trouble on(const act::DowntimeWithdrawn& x);
    Trouble on(const act::SessionStarted& x);
    Trouble on(const act::StepStarted& x);
    Trouble on(const act::StepConfirmed& x);
    Trouble on(const act::StepSkipped& x);
    Trouble on(const act::TemperatureRead& x);
    Trouble on(const act::SessionPaused& x);
    Trouble on(const act::SessionResumed& x);
    Trouble on(const act::TakenBack& x);
    Trouble on(const act::Corrected& x);
    Trouble on(const act::ProblemReported& x);
    Trouble on(const act::SessionStopped& x);
    Trouble on(const act::SessionFinished& x);
    Trouble on(const act::RecordIssued& x);
    Trouble on(const act::ProgramStarted& x);
    Trouble on(const act::ClockJumped& x);

    Finding unknown(const QString& what, const QString& id) const;
    Finding repeated(const QString& what, const QString& id) const;
    Spool* spool(const SpoolId& id);
    Nozzle* nozzle(const NozzleSerial& id);
    PrinterNow* printer(const PrinterId& id);
    Job* job(const JobId& id);
    SessionState* session(qint64 number);
    SessionState* openSession(const PrinterId& printer);

    // -- stock
    void keepSpool(Spool s);
    void keepNozzle(Nozzle n);
    void keepJob(const Job& j);
    void enter(Spool& s, const QString& why, Mass change, const QString& reference);
    /// Takes a volume of feedstock from a spool; without a density the stock becomes unknown.
    void use(const SpoolId& id, Volume v, const QString& why, const QString& reference);
    void expose(Spool& s);
    void seal(Spool& s);
    /// A volume of a material went through a nozzle.
    void run(const NozzleSerial& serial, Volume v, const MaterialId& material);
    void serveFamily(const NozzleSerial& serial, const MaterialId& material);
    MaterialOf materialOf() const {
        return [this](const MaterialId& id) { return m_shop.material(id); };
    }

    // -- printers; shared by a person's act and a session's step
    void dress(PrinterNow& p, const OpeningSetup& s);
    void undress(PrinterNow& p);
    void load(PrinterNow& p, Role role, const SpoolId& id);
    void unload(PrinterNow& p, Role role, const QString& place);
    void mount(PrinterNow& p, Role role, const NozzleSerial& serial, const std::optional<RunVolume>& useSoFar);
    void dismount(PrinterNow& p, Role role, const QString& place);
    void purge(PrinterNow& p, Role role, Volume v, std::optional<Temperature> nozzle, const QString& reference);
    void startPrint(PrinterNow& p, Job& j, const QString& variant, Instant started, Minutes expected,
                    qint64 session = 0);
    /// What the tracing of parts needs of a print.
    void noteStart(const PrinterNow& p, const Variant* variant, qint64 session);
    void noteEnd(const PrinterNow& p, std::optional<PrintOutcome> outcome);
    PrintRun* runningPrint(const PrinterId& printer);
    /// Feedstock of the running print that came from spools taken off it since: as estimated then, or as weighed since.
    Volume takenOff(const PrinterNow& p, Role role) const;
    /// A spool taken off in the middle of a print: what it gave so far, by the share of the time, no more than it held.
    void useSoFar(PrinterNow& p, Role role);
    void takePartOut(PrinterNow& p);
    /// What a printer does when it neither prints nor is down.
    Activity restingActivity(const PrinterNow& p);

    // -- sessions
    Surroundings surroundings(const SessionState& s, const PlannedStep& step, const act::StepConfirmed& x);
    void effect(SessionState& s, const PlannedStep& step, const act::StepConfirmed& x);
    void effectAt(SessionState& s, PrinterNow& p, Role role, const PlannedStep& step, const act::StepConfirmed& x);
    void touch(SessionState& s);
    void noteRuns(SessionState& s);
    Instant begunAt(const SessionState& s, const PlannedStep& step) const;
    void close(SessionState& s, SessionPhase phase);
    void interruptAll(Instant from, Instant to, const QString& cause, const QString& note);

    Shop& m_shop;
    const Event& m_event;
    Instant m_at;
};

} // namespace interlude
