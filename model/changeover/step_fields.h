#pragma once
// Steps in events: the frozen copy of a library's step, in the words that procedures.yaml uses.

#include "model/archive/setup_fields.h"

namespace interlude::payload {

template <> struct Words<Effect> {
    static constexpr const auto& all = procedure_words::effects;
};
template <> struct Words<ScanTarget> {
    static constexpr const auto& all = procedure_words::scanTargets;
};
template <> struct Words<DurationKind> {
    static constexpr std::array all{std::pair{DurationKind::Fixed, "fixed"}, std::pair{DurationKind::Heat, "heat"},
                                    std::pair{DurationKind::Cool, "cool"}, std::pair{DurationKind::Purge, "purge"}};
};
template <> struct Words<Subject> {
    static constexpr const auto& all = procedure_words::subjects;
};
template <> struct Words<Power> {
    static constexpr const auto& all = procedure_words::powers;
};
template <> struct Words<SignalWord> {
    static constexpr const auto& all = procedure_words::signalWords;
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
