#pragma once
// Jobs in events; state and rank are the fold's.

#include "model/archive/setup_fields.h"
#include "model/shop/happening.h"

namespace interlude::payload {

template <class A> void fields(A& a, Ref<A, Variant> x) {
    a("name", x.name);
    a("setup", x.setup);
    a("print-min", x.print);
    a("print-on-min", x.printOn);
    a("part-mm3", x.partVolume);
    a("support-mm3", x.supportVolume);
}
template <class A> void fields(A& a, Ref<A, Job> x) {
    a("id", x.id);
    a("title", x.title);
    a("part-number", x.partNumber);
    a("revision", x.revision);
    a("order", x.order);
    a("build-file", x.buildFile);
    a("build-sha256", x.buildSha256);
    a("quantity", x.quantity);
    a("release-ms", x.release);
    a("due-ms", x.due);
    a("late-cost-per-hour-cents", x.lateCostPerHour);
    a("holding-cost-per-hour-cents", x.holdingCostPerHour);
    a("same-lot", x.sameLot);
    a("printers", x.printers);
    a("envelope", x.envelope);
    a("variants", x.variants);
}

template <class A> void fields(A& a, Ref<A, act::JobOpening> x) {
    a("job", x.job);
}
template <class A> void fields(A& a, Ref<A, act::JobAdded> x) {
    a("job", x.job);
}
template <class A> void fields(A& a, Ref<A, act::JobChanged> x) {
    a("job", x.job);
}
template <class A> void fields(A& a, Ref<A, act::JobWithdrawn> x) {
    a("job", x.job);
    a("why", x.why);
}

} // namespace interlude::payload
