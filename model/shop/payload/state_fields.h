#pragma once
// The folded state as JSON: for comparing shops, for take-back and for snapshots. What a payload leaves out is added. The
// same words serve writing and reading, so that a snapshot gives back what was put in.

// Printers are written as changeovers write them: one description, or the linker takes either.
#include "model/changeover/transition_fields.h"
#include "model/shop/payload/job_fields.h"
#include "model/shop/payload/plan_fields.h"
#include "model/shop/payload/printer_fields.h"
#include "model/shop/payload/session_fields.h"
#include "model/shop/session_state.h"

namespace interlude::payload {

/// An enumeration by its number: of this program's own state, never of an event.
template <class A, class E> void numbered(A& a, const char* key, E& e) {
    qint64 number = static_cast<qint64>(e);
    a(key, number);
    if constexpr (A::reading)
        e = static_cast<E>(number);
}
/// A map whose items name themselves, as a list of these.
template <class Kept, class A, class Map, class Key> void listed(A& a, const char* key, Map& map, const Key& keyOf) {
    QList<Kept> items;
    if constexpr (!A::reading)
        for (const auto& item : map)
            items.append(Kept{item});
    a(key, items);
    if constexpr (A::reading)
        for (const Kept& kept : std::as_const(items))
            map.insert(keyOf(kept), kept.item);
}

/// Whole spools, nozzles and jobs, with what only the fold knows.
struct KeptSpool {
    Spool item;
};
struct KeptNozzle {
    Nozzle item;
};
struct KeptJob {
    Job item;
};
struct KeptSession {
    SessionState item;
};
struct KeptPrint {
    PrintRun item;
};

template <class A> void fields(A& a, Ref<A, StockEntry> x) {
    a("at-ms", x.at);
    a("why", x.why);
    a("change-mg", x.change);
    a("reference", x.reference);
}
template <class A> void fields(A& a, Ref<A, KeptSpool> x) {
    a("spool", x.item);
    numbered(a, "where", x.item.where);
    a("position", x.item.position);
    a("entries", x.item.entries);
    a("retired-why", x.item.retiredWhy);
    a("home", x.item.home);
    a("order", x.item.order);
}
template <class A> void fields(A& a, Ref<A, KeptNozzle> x) {
    a("nozzle", x.item);
    a("position", x.item.position);
    a("home", x.item.home);
    a("order", x.item.order);
}
template <class A> void fields(A& a, Ref<A, KeptJob> x) {
    a("job", x.item);
    numbered(a, "state", x.item.state);
    a("rank", x.item.rank);
}
template <class A> void fields(A& a, Ref<A, Surroundings> x) {
    a("printer", x.printer);
    listed<KeptSpool>(a, "spools", x.spools, [](const KeptSpool& k) { return k.item.id; });
    listed<KeptNozzle>(a, "nozzles", x.nozzles, [](const KeptNozzle& k) { return k.item.serial; });
    listed<KeptJob>(a, "jobs", x.jobs, [](const KeptJob& k) { return k.item.id; });
}
template <class A> void fields(A& a, Ref<A, Undo> x) {
    a("step", x.step);
    a("before", x.before);
    a("after", x.after);
}
template <class A> void fields(A& a, Ref<A, StepProgress> x) {
    numbered(a, "state", x.state);
    a("started-ms", x.started);
    a("ended-ms", x.ended);
    a("who", x.who);
    a("entered-late", x.enteredLate);
    a("confirmed", x.confirmed);
    a("skipped", x.skipped);
    a("event", x.event);
    a("start-event", x.startEvent);
}
template <class A> void fields(A& a, Ref<A, SensorReading> x) {
    a("sensor", x.sensor);
    a("value-mc", x.value);
    a("at-ms", x.at);
    a("who", x.who);
    a("instrument", x.instrument);
    a("event", x.event);
}
template <class A> void fields(A& a, Ref<A, Interruption> x) {
    a("from-ms", x.from);
    a("to-ms", x.to);
    a("note", x.note);
    a("who", x.who);
    a("by", x.by);
    a("hand-over", x.handOver);
    a("cause", x.cause);
    a("event", x.event);
    a("mounted", x.mounted);
}
template <class A> void fields(A& a, Ref<A, TakenBackStep> x) {
    a("step", x.step);
    a("why", x.why);
    a("who", x.who);
    a("at-ms", x.at);
    a("event", x.event);
}
template <class A> void fields(A& a, Ref<A, Correction> x) {
    a("what", x.what);
    a("who", x.who);
    a("at-ms", x.at);
    a("event", x.event);
}
template <class A> void fields(A& a, Ref<A, ProblemNote> x) {
    a("what", x.what);
    a("who", x.who);
    a("at-ms", x.at);
}
template <class A> void fields(A& a, Ref<A, SessionState> x) {
    a("number", x.number);
    a("printer", x.printer);
    a("changeover", x.changeover);
    a("overrides", x.overrides);
    a("started-by", x.startedBy);
    a("started-ms", x.started);
    a("ended-ms", x.ended);
    numbered(a, "phase", x.phase);
    a("entered-late", x.enteredLate);
    a("steps", x.steps);
    a("readings", x.readings);
    a("interruptions", x.interruptions);
    a("taken-back", x.takenBack);
    a("corrections", x.corrections);
    a("problems", x.problems);
    a("disposition", x.disposition);
    a("closing-note", x.closingNote);
    a("closed-by", x.closedBy);
    a("run-before", x.runBefore);
    a("run-after", x.runAfter);
    a("printer-before", x.printerBefore);
    a("catalogue-hash", x.catalogueHash);
    a("first-event", x.firstEvent);
    a("last-event", x.lastEvent);
    a("events", x.events);
    a("revision", x.revision);
    a("revision-event", x.revisionEvent);
    std::optional<KeptJob> then;
    if (x.jobThen)
        then = KeptJob{*x.jobThen};
    a("job-then", then);
    if constexpr (A::reading)
        if (then)
            x.jobThen = then->item;
    a("confirmed-order", x.confirmedOrder);
    a("undo", x.undo);
}

template <class A> void fields(A& a, Ref<A, PublishedPlan> x) {
    a("plan", x.plan);
    a("at-ms", x.at);
    a("who", x.who);
    a("event", x.event);
}
template <class A> void fields(A& a, Ref<A, PrintRun> x) {
    a("event", x.event);
    a("printer", x.printer);
    a("job", x.job);
    a("variant", x.variant);
    a("started-ms", x.started);
    a("ended-ms", x.ended);
    a("outcome", x.outcome);
    a("end-event", x.endEvent);
    a("session", x.session);
    a("spools", x.spools);
    a("nozzles", x.nozzles);
}
template <class A> void fields(A& a, Ref<A, KeptSession> x) {
    fields<A>(a, x.item);
}
template <class A> void fields(A& a, Ref<A, KeptPrint> x) {
    fields<A>(a, x.item);
}
template <class A> void fields(A& a, Ref<A, SessionSummary> x) {
    a("number", x.number);
    a("printer", x.printer);
    a("job", x.job);
    a("from", x.from);
    a("to", x.to);
    numbered(a, "phase", x.phase);
    a("started-ms", x.started);
    a("ended-ms", x.ended);
    a("started-by", x.startedBy);
    a("entered-late", x.enteredLate);
    a("overrides", x.overrides);
    a("skipped", x.skipped);
    a("corrections", x.corrections);
    a("problems", x.problems);
}

template <class T> QJsonObject stateOf(const T& value) {
    Writer w;
    fields(w, value);
    return w.object();
}
/// Empty when these words are not those of this version.
template <class T> std::optional<T> stateFrom(const QJsonObject& o) {
    T value;
    std::optional<Fault> fault;
    Reader reader(o, {}, fault);
    fields(reader, value);
    reader.finish();
    return fault ? std::nullopt : std::optional<T>(std::move(value));
}

} // namespace interlude::payload
