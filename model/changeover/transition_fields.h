#pragma once
// Transitions in events.

#include "model/changeover/step_fields.h"
#include "model/changeover/transition.h"

namespace interlude::payload {

template <> struct Words<Severity> {
    static constexpr std::array all{std::pair{Severity::Notice, "notice"}, std::pair{Severity::Advice, "advice"},
                                    std::pair{Severity::Warning, "warning"},
                                    std::pair{Severity::Mandatory, "mandatory"},
                                    std::pair{Severity::Refusal, "refusal"}};
};
template <> struct Words<CleanOut> {
    static constexpr std::array all{std::pair{CleanOut::None, "none"}, std::pair{CleanOut::Advised, "advised"},
                                    std::pair{CleanOut::Mandatory, "mandatory"}};
};
template <> struct Words<Activity> {
    static constexpr std::array all{std::pair{Activity::Idle, "idle"}, std::pair{Activity::Printing, "printing"},
                                    std::pair{Activity::PartLying, "part-lying"},
                                    std::pair{Activity::InChangeover, "in-changeover"},
                                    std::pair{Activity::Down, "down"}};
};
template <> struct Integer<Seconds> {
    static qint64 out(Seconds v) { return v.count(); }
    static Seconds in(qint64 v) { return Seconds(v); }
    static constexpr qint64 most = 253402300799;
};

template <class A> void fields(A& a, Ref<A, ResidueItem> x) {
    a("material", x.material);
    a("chamber-seen-mc", x.chamberSeen);
    a("nozzle-seen-mc", x.nozzleSeen);
}
template <class A> void fields(A& a, Ref<A, PositionNow> x) {
    a("nozzle", x.nozzle);
    a("spool", x.spool);
    a("loaded", x.loaded);
    a("in-melt", x.inMelt);
}
template <class A> void fields(A& a, Ref<A, PrinterNow> x) {
    a("id", x.id);
    a("label", x.label);
    a("part", x.part);
    a("support", x.support);
    a("platform-cover", x.platformCover);
    a("residue", x.residue);
    a("wiper", x.wiper);
    a("last-part", x.lastPart);
    a("last-support", x.lastSupport);
    a("chamber-set-mc", x.chamberSet);
    a("nozzle-set-mc", x.nozzleSet);
    a("activity", x.activity);
    a("job", x.job);
    a("variant", x.variant);
    a("print-started-ms", x.printStarted);
    a("print-expected-end-ms", x.printExpectedEnd);
    a("last-print-end-ms", x.lastPrintEnd);
    a("down-why", x.downWhy);
    a("down-since-ms", x.downSince);
    a("down-until-ms", x.downUntil);
    a("open", x.open);
}
template <class A> void fields(A& a, Ref<A, TransitionRequest> x) {
    a("now", x.now);
    a("wanted", x.wanted);
    a("job", x.job);
    a("variant", x.variant);
    a("part-mm3", x.partVolume);
    a("support-mm3", x.supportVolume);
    a("print-min", x.print);
    a("envelope", x.envelope);
    a("allowed-printers", x.allowedPrinters);
    a("same-lot", x.sameLot);
    a("take-advised-clean-out", x.takeAdvisedCleanOut);
    a("choose-part-nozzle", x.choosePartNozzle);
    a("choose-support-nozzle", x.chooseSupportNozzle);
    a("choose-part-spool", x.choosePartSpool);
    a("choose-support-spool", x.chooseSupportSpool);
    // A set has no order of its own; the stored bytes must have one.
    QStringList notFree(x.notFree.begin(), x.notFree.end());
    notFree.sort();
    a("not-free", notFree);
    if constexpr (A::reading)
        x.notFree = QSet<NozzleSerial>(notFree.begin(), notFree.end());
}
template <class A> void fields(A& a, Ref<A, Finding> x) {
    a("severity", x.severity);
    a("rule", x.rule);
    a("reason", x.reason);
    a("remedy", x.remedy);
    a("place", x.place);
    a("overridable", x.overridable);
}
template <class A> void fields(A& a, Ref<A, CleanOutVerdict> x) {
    a("level", x.level);
    a("because", x.because);
    a("reason", x.reason);
}
template <class A> void fields(A& a, Ref<A, NozzleChange> x) {
    a("role", x.role);
    a("exchange", x.exchange);
    a("out", x.out);
    a("in", x.in);
}
template <class A> void fields(A& a, Ref<A, PurgePlan> x) {
    a("role", x.role);
    a("needed", x.needed);
    a("prime-only", x.primeOnly);
    a("from", x.from);
    a("to", x.to);
    a("residual-millionths", x.residual);
    a("theta-millionths", x.theta);
    a("volume-mm3", x.volume);
    a("time-s", x.time);
}
template <class A> void fields(A& a, Ref<A, SpoolChange> x) {
    a("role", x.role);
    a("unload", x.unload);
    a("load", x.load);
    a("out", x.out);
    a("in", x.in);
    a("need-mg", x.need);
}
template <class A> void fields(A& a, Ref<A, Transition> x) {
    a("request", x.request);
    a("facts", x.facts);
    a("verdicts", x.verdicts);
    a("chamber", x.chamber);
    a("wiper", x.wiper);
    a("clean-out", x.cleanOut);
    a("clear-wiper", x.clearWiper);
    a("nozzles", x.nozzles);
    a("purges", x.purges);
    a("spools", x.spools);
    a("chamber-before-mc", x.chamberBefore);
    a("chamber-after-mc", x.chamberAfter);
    a("part-nozzle-after-mc", x.partNozzleAfter);
    a("support-nozzle-after-mc", x.supportNozzleAfter);
}

} // namespace interlude::payload
