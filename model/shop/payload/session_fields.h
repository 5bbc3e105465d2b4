#pragma once
// Sessions in events, and the program itself.

#include "model/shop/payload/stock_fields.h"

namespace interlude::payload {

template <> struct OwnJson<Changeover> {
    static QJsonObject out(const Changeover& c) { return toJson(c); }
    static Outcome<Changeover> in(const QJsonObject& o) { return changeoverFromJson(o); }
};

template <class A> void fields(A& a, Ref<A, act::Override> x) {
    a("rule", x.rule);
    a("reason", x.reason);
    a("approver", x.approver);
}
template <class A> void fields(A& a, Ref<A, act::ScanDone> x) {
    a("value", x.value);
    a("typed", x.typed);
}
template <class A> void fields(A& a, Ref<A, act::AnswerDone> x) {
    a("yes", x.yes);
}
template <class A> void fields(A& a, Ref<A, act::ReadingDone> x) {
    a("name", x.name);
    a("thousandths", x.thousandths);
    a("unit", x.unit);
    a("instrument", x.instrument);
    a("at-ms", x.at);
}

template <class A> void fields(A& a, Ref<A, act::SessionStarted> x) {
    a("session", x.session);
    a("printer", x.printer);
    a("changeover", x.changeover);
    a("overrides", x.overrides);
    a("entered-late", x.enteredLate);
}
template <class A> void fields(A& a, Ref<A, act::StepStarted> x) {
    a("session", x.session);
    a("step", x.step);
}
template <class A> void fields(A& a, Ref<A, act::StepConfirmed> x) {
    a("session", x.session);
    a("step", x.step);
    a("scans", x.scans);
    a("answers", x.answers);
    a("readings", x.readings);
    a("measured-mc", x.measured);
    a("measured-at-ms", x.measuredAt);
    a("use-so-far", x.useSoFar);
    a("overrides", x.overrides);
    a("note", x.note);
    a("entered-late", x.enteredLate);
}
template <class A> void fields(A& a, Ref<A, act::StepSkipped> x) {
    a("session", x.session);
    a("step", x.step);
    a("because", x.because);
}
template <class A> void fields(A& a, Ref<A, act::TemperatureRead> x) {
    a("session", x.session);
    a("sensor", x.sensor);
    a("value-mc", x.value);
    a("instrument", x.instrument);
}
template <class A> void fields(A& a, Ref<A, act::SessionPaused> x) {
    a("session", x.session);
    a("note", x.note);
    a("hand-over", x.handOver);
}
template <class A> void fields(A& a, Ref<A, act::SessionResumed> x) {
    a("session", x.session);
    a("mounted", x.mounted);
}
template <class A> void fields(A& a, Ref<A, act::TakenBack> x) {
    a("session", x.session);
    a("step", x.step);
    a("why", x.why);
}
template <class A> void fields(A& a, Ref<A, act::Corrected> x) {
    a("session", x.session);
    a("event", x.event);
    a("field", x.field);
    a("original", x.original);
    a("corrected", x.corrected);
    a("reason", x.reason);
}
template <class A> void fields(A& a, Ref<A, act::ProblemReported> x) {
    a("session", x.session);
    a("step", x.step);
    a("note", x.note);
    a("stop", x.stop);
    a.later("photos", x.photos);
}
template <class A> void fields(A& a, Ref<A, act::SessionStopped> x) {
    a("session", x.session);
    a("why", x.why);
}
template <class A> void fields(A& a, Ref<A, act::SessionFinished> x) {
    a("session", x.session);
    a("disposition", x.disposition);
    a("note", x.note);
}
template <class A> void fields(A& a, Ref<A, act::RecordIssued> x) {
    a("session", x.session);
    a("revision", x.revision);
    a("sha256", x.sha256);
}

template <class A> void fields(A& a, Ref<A, act::CatalogueRead> x) {
    a("hash", x.hash);
    a("files", x.files);
}
template <class A> void fields(A& a, Ref<A, act::ExampleStarted> x) {
    a("offset-ms", x.offset);
}
template <class A> void fields(A& a, Ref<A, act::ProgramStarted> x) {
    a("version", x.version);
}
template <class A> void fields(A& a, Ref<A, act::ClockJumped> x) {
    a("by-ms", x.by);
    a("slept-ms", x.slept);
}

} // namespace interlude::payload
