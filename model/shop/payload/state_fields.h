#pragma once
// The folded state as JSON: written only, for comparing shops and for take-back. What a payload leaves out is added.

// Printers are written as changeovers write them: one description, or the linker takes either.
#include "model/changeover/transition_fields.h"
#include "model/shop/payload/job_fields.h"
#include "model/shop/payload/printer_fields.h"
#include "model/shop/payload/session_fields.h"
#include "model/shop/session_state.h"

namespace interlude::payload {

inline qint64 number(auto e) {
    return static_cast<qint64>(e);
}

inline void fields(Writer& w, const StockEntry& x) {
    w("at-ms", x.at);
    w("why", x.why);
    w("change-mg", x.change);
    w("reference", x.reference);
}
struct SpoolState {
    Spool spool;
};
inline void fields(Writer& w, const SpoolState& x) {
    w("spool", x.spool);
    w("where", number(x.spool.where));
    w("position", x.spool.position);
    w("entries", x.spool.entries);
    w("retired-why", x.spool.retiredWhy);
    w("home", x.spool.home);
    w("order", x.spool.order);
}
struct NozzleState {
    Nozzle nozzle;
};
inline void fields(Writer& w, const NozzleState& x) {
    w("nozzle", x.nozzle);
    w("position", x.nozzle.position);
    w("home", x.nozzle.home);
    w("order", x.nozzle.order);
}
struct KeptJob {
    Job job;
};
inline void fields(Writer& w, const KeptJob& x) {
    w("job", x.job);
    w("state", number(x.job.state));
    w("rank", x.job.rank);
}
inline void fields(Writer& w, const Surroundings& x) {
    w("printer", x.printer);
    QList<SpoolState> spools;
    for (const Spool& s : x.spools)
        spools.append({s});
    w("spools", spools);
    QList<NozzleState> nozzles;
    for (const Nozzle& n : x.nozzles)
        nozzles.append({n});
    w("nozzles", nozzles);
    QList<KeptJob> jobs;
    for (const Job& j : x.jobs)
        jobs.append({j});
    w("jobs", jobs);
}
inline void fields(Writer& w, const Undo& x) {
    w("step", x.step);
    w("before", x.before);
    w("after", x.after);
}
inline void fields(Writer& w, const StepProgress& x) {
    w("state", number(x.state));
    w("started-ms", x.started);
    w("ended-ms", x.ended);
    w("who", x.who);
    w("entered-late", x.enteredLate);
    w("confirmed", x.confirmed);
    w("skipped", x.skipped);
    w("event", x.event);
    w("start-event", x.startEvent);
}
inline void fields(Writer& w, const SensorReading& x) {
    w("sensor", x.sensor);
    w("value-mc", x.value);
    w("at-ms", x.at);
    w("who", x.who);
    w("instrument", x.instrument);
    w("event", x.event);
}
inline void fields(Writer& w, const Interruption& x) {
    w("from-ms", x.from);
    w("to-ms", x.to);
    w("note", x.note);
    w("who", x.who);
    w("by", x.by);
    w("hand-over", x.handOver);
    w("cause", x.cause);
    w("event", x.event);
    w("mounted", x.mounted);
}
inline void fields(Writer& w, const TakenBackStep& x) {
    w("step", x.step);
    w("why", x.why);
    w("who", x.who);
    w("at-ms", x.at);
    w("event", x.event);
}
inline void fields(Writer& w, const Correction& x) {
    w("what", x.what);
    w("who", x.who);
    w("at-ms", x.at);
    w("event", x.event);
}
inline void fields(Writer& w, const ProblemNote& x) {
    w("what", x.what);
    w("who", x.who);
    w("at-ms", x.at);
}
inline void fields(Writer& w, const SessionState& x) {
    w("number", x.number);
    w("printer", x.printer);
    w("changeover", x.changeover);
    w("overrides", x.overrides);
    w("started-by", x.startedBy);
    w("started-ms", x.started);
    w("ended-ms", x.ended);
    w("phase", number(x.phase));
    w("entered-late", x.enteredLate);
    w("steps", x.steps);
    w("readings", x.readings);
    w("interruptions", x.interruptions);
    w("taken-back", x.takenBack);
    w("corrections", x.corrections);
    w("problems", x.problems);
    w("disposition", x.disposition);
    w("closing-note", x.closingNote);
    w("run-before", x.runBefore);
    w("run-after", x.runAfter);
    w("printer-before", x.printerBefore);
    w("catalogue-hash", x.catalogueHash);
    w("first-event", x.firstEvent);
    w("last-event", x.lastEvent);
    w("events", x.events);
    w("revision", x.revision);
    w("revision-event", x.revisionEvent);
    w("job-then", x.jobThen);
    w("confirmed-order", x.confirmedOrder);
    w("undo", x.undo);
}

template <class T> QJsonObject stateOf(const T& value) {
    Writer w;
    fields(w, value);
    return w.object();
}

} // namespace interlude::payload
