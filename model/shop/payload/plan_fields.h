#pragma once
// The published plan, absences and planned downtime in events.

#include "model/archive/archive.h"
#include "model/shop/happening.h"

namespace interlude::payload {

template <class A> void fields(A& a, Ref<A, PlannedJob> x) {
    a("job", x.job);
    a("variant", x.variant);
    a("locked", x.locked);
    a("changeover-ms", x.changeover);
    a("print-start-ms", x.printStart);
    a("print-end-ms", x.printEnd);
}
template <class A> void fields(A& a, Ref<A, PrinterOrder> x) {
    a("printer", x.printer);
    a("jobs", x.jobs);
}
template <class A> void fields(A& a, Ref<A, ReservedFeedstock> x) {
    a("job", x.job);
    a("material", x.material);
    a("need-mg", x.need);
}
template <class A> void fields(A& a, Ref<A, Plan> x) {
    a("goal", x.goal);
    a("printers", x.printers);
    a("reserved", x.reserved);
}
template <class A> void fields(A& a, Ref<A, PlannedAbsence> x) {
    a("id", x.id);
    a("people", x.people);
    a("from-ms", x.from);
    a("to-ms", x.to);
    a("why", x.why);
}
template <class A> void fields(A& a, Ref<A, PlannedDowntime> x) {
    a("id", x.id);
    a("printer", x.printer);
    a("from-ms", x.from);
    a("to-ms", x.to);
    a("why", x.why);
}

template <class A> void fields(A& a, Ref<A, act::PlanPublished> x) {
    a("plan", x.plan);
}
template <class A> void fields(A& a, Ref<A, act::AbsenceEntered> x) {
    a("absence", x.absence);
}
template <class A> void fields(A& a, Ref<A, act::AbsenceWithdrawn> x) {
    a("id", x.id);
}
template <class A> void fields(A& a, Ref<A, act::DowntimePlanned> x) {
    a("downtime", x.downtime);
}
template <class A> void fields(A& a, Ref<A, act::DowntimeWithdrawn> x) {
    a("id", x.id);
}

} // namespace interlude::payload
