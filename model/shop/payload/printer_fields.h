#pragma once
// Printers, setups and prints in events.

#include "model/archive/archive.h"
#include "model/shop/happening.h"

namespace interlude::payload {

template <> struct Words<PrintOutcome> {
    static constexpr std::array all{std::pair{PrintOutcome::Good, "good"}, std::pair{PrintOutcome::Failed, "failed"},
                                    std::pair{PrintOutcome::Stopped, "stopped"}};
};

template <class A> void fields(A& a, Ref<A, OpeningResidue> x) {
    a("material", x.material);
    a("chamber-max-mc", x.chamberMax);
    a("nozzle-max-mc", x.nozzleMax);
}
template <class A> void fields(A& a, Ref<A, OpeningSetup> x) {
    a("printer", x.printer);
    a("label", x.label);
    a("part", x.part);
    a("support", x.support);
    a("part-nozzle", x.partNozzle);
    a("support-nozzle", x.supportNozzle);
    a("part-spool", x.partSpool);
    a("support-spool", x.supportSpool);
    a("platform-cover", x.platformCover);
    a("residue", x.residue);
    a("last-print-ms", x.lastPrint);
}

template <class A> void fields(A& a, Ref<A, act::SetupOpening> x) {
    a("setup", x.setup);
}
template <class A> void fields(A& a, Ref<A, OpeningPrint> x) {
    a("printer", x.printer);
    a("job", x.job);
    a("variant", x.variant);
    a("started-ms", x.started);
    a("expected-min", x.expected);
}
template <class A> void fields(A& a, Ref<A, act::PrintOpening> x) {
    a("print", x.print);
}
template <class A> void fields(A& a, Ref<A, act::PrinterDeclared> x) {
    a("printer", x.printer);
    a("setup", x.setup);
    a("why", x.why);
}
template <class A> void fields(A& a, Ref<A, act::PrintStarted> x) {
    a("printer", x.printer);
    a("job", x.job);
    a("variant", x.variant);
    a("expected-min", x.expected);
}
template <class A> void fields(A& a, Ref<A, act::PrintEnded> x) {
    a("printer", x.printer);
    a("outcome", x.outcome);
    a("part-on-platform", x.partOnPlatform);
    a("part-mm3", x.part);
    a("support-mm3", x.support);
    a("note", x.note);
}
template <class A> void fields(A& a, Ref<A, act::PartRemoved> x) {
    a("printer", x.printer);
}
template <class A> void fields(A& a, Ref<A, act::DowntimeBegun> x) {
    a("printer", x.printer);
    a("why", x.why);
    a("until-ms", x.until);
}
template <class A> void fields(A& a, Ref<A, act::DowntimeEnded> x) {
    a("printer", x.printer);
}

} // namespace interlude::payload
