#pragma once
// Steps in events: the frozen copy of a library's step, in the words that procedures.yaml uses.

#include "model/archive/setup_fields.h"

namespace interlude::payload {

template <> struct Words<Effect> {
    static constexpr std::array all{std::pair{Effect::None, "none"},
                                    std::pair{Effect::RemovePart, "remove-part"},
                                    std::pair{Effect::UnloadPart, "unload-part"},
                                    std::pair{Effect::UnloadSupport, "unload-support"},
                                    std::pair{Effect::RemoveNozzlePart, "remove-nozzle-part"},
                                    std::pair{Effect::RemoveNozzleSupport, "remove-nozzle-support"},
                                    std::pair{Effect::MountNozzlePart, "mount-nozzle-part"},
                                    std::pair{Effect::MountNozzleSupport, "mount-nozzle-support"},
                                    std::pair{Effect::LoadPart, "load-part"},
                                    std::pair{Effect::LoadSupport, "load-support"},
                                    std::pair{Effect::PurgePart, "purge-part"},
                                    std::pair{Effect::PurgeSupport, "purge-support"},
                                    std::pair{Effect::FitCover, "fit-cover"},
                                    std::pair{Effect::CleanOut, "clean-out"},
                                    std::pair{Effect::ClearWiper, "clear-wiper"},
                                    std::pair{Effect::Align, "align"},
                                    std::pair{Effect::StartPrint, "start-print"}};
};
template <> struct Words<ScanTarget> {
    static constexpr std::array all{std::pair{ScanTarget::Printer, "printer"},
                                    std::pair{ScanTarget::NozzleOutPart, "nozzle-out-part"},
                                    std::pair{ScanTarget::NozzleOutSupport, "nozzle-out-support"},
                                    std::pair{ScanTarget::NozzleInPart, "nozzle-in-part"},
                                    std::pair{ScanTarget::NozzleInSupport, "nozzle-in-support"},
                                    std::pair{ScanTarget::SpoolOutPart, "spool-out-part"},
                                    std::pair{ScanTarget::SpoolOutSupport, "spool-out-support"},
                                    std::pair{ScanTarget::SpoolInPart, "spool-in-part"},
                                    std::pair{ScanTarget::SpoolInSupport, "spool-in-support"},
                                    std::pair{ScanTarget::PlatformCover, "platform-cover"},
                                    std::pair{ScanTarget::Place, "place"}};
};
template <> struct Words<DurationKind> {
    static constexpr std::array all{std::pair{DurationKind::Fixed, "fixed"}, std::pair{DurationKind::Heat, "heat"},
                                    std::pair{DurationKind::Cool, "cool"}, std::pair{DurationKind::Purge, "purge"}};
};
template <> struct Words<Subject> {
    static constexpr std::array all{std::pair{Subject::Chamber, "chamber"},
                                    std::pair{Subject::HeadPart, "head-part"},
                                    std::pair{Subject::HeadSupport, "head-support"},
                                    std::pair{Subject::Platform, "platform"},
                                    std::pair{Subject::Part, "part"},
                                    std::pair{Subject::Support, "support"}};
};
template <> struct Words<Power> {
    static constexpr std::array all{std::pair{Power::NoMatter, "no-matter"}, std::pair{Power::On, "on"},
                                    std::pair{Power::Off, "off"}, std::pair{Power::Isolated, "isolated"}};
};
template <> struct Words<SignalWord> {
    static constexpr std::array all{std::pair{SignalWord::Notice, "notice"}, std::pair{SignalWord::Caution, "caution"},
                                    std::pair{SignalWord::Warning, "warning"}, std::pair{SignalWord::Danger, "danger"}};
};
/// In millionths: limits, residuals and theta are kept at that.
template <> struct Integer<double> {
    static qint64 out(double v) { return std::llround(v * 1e6); }
    static double in(qint64 v) { return static_cast<double>(v) / 1e6; }
    static constexpr qint64 most = largestInteger;
};

template <class A> void fields(A& a, Ref<A, Caution> x) {
    a("word", x.word);
    a("subject", x.subject);
    a("text", x.text);
}
template <class A> void fields(A& a, Ref<A, ScanWanted> x) {
    a("target", x.target);
}
template <class A> void fields(A& a, Ref<A, AnswerWanted> x) {
    a("question", x.question);
    a("must-be", x.mustBe);
}
template <class A> void fields(A& a, Ref<A, ReadingWanted> x) {
    a("name", x.name);
    a("unit", x.unit);
    a("min-millionths", x.min);
    a("max-millionths", x.max);
    a("instrument", x.instrument);
    a("times", x.times);
}
template <class A> void fields(A& a, Ref<A, Confirmation> x) {
    a("scans", x.scans);
    a("answers", x.answers);
    a("readings", x.readings);
}
template <class A> void fields(A& a, Ref<A, Condition> x) {
    a("all", x.all);
    a("terms", x.terms);
}
template <class A> void fields(A& a, Ref<A, StepTemplate> x) {
    a("id", x.id);
    a("group", x.group);
    a("title", x.title);
    a("detail", x.detail);
    a("when", x.when);
    a("printer-types", x.printerTypes);
    a("after", x.after);
    a("people", x.people);
    a("tools", x.tools);
    a("consumables", x.consumables);
    a("duration", x.duration);
    a("subject", x.subject);
    a("minutes", x.minutes);
    a("settle-min", x.settle);
    a("to-mc", x.to);
    a("external", x.external);
    a("mandatory", x.mandatory);
    a("cautions", x.cautions);
    a("protection", x.protection);
    a("power", x.power);
    a("only-below-mc", x.onlyBelow);
    a("measured-at", x.measuredAt);
    a("confirm", x.confirm);
    a("effect", x.effect);
}

} // namespace interlude::payload
