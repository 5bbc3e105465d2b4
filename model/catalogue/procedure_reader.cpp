#include "model/catalogue/did_you_mean.h"
#include "model/catalogue/procedure_words.h"
#include "model/catalogue/readers.h"

#include <cmath>

namespace interlude {

namespace {

const QStringList& cautionSubjects() {
    static const QStringList words{QStringLiteral("hot-surface"), QStringLiteral("electricity"), QStringLiteral("crushing"),
                                   QStringLiteral("sharp"),       QStringLiteral("corrosive"),   QStringLiteral("general"),
                                   QStringLiteral("fumes"),       QStringLiteral("lifting")};
    return words;
}

void readTerms(Reading& r, const YamlNode& list, Condition& out) {
    if (list.items.empty())
        r.complain(list.where, QStringLiteral("`when` names nothing"), QStringLiteral("name facts, or write `when: always`"));
    const QStringList words = conditionWords();
    for (const YamlNode& item : list.items) {
        const auto found = choiceOf(r, item, QStringLiteral("when"), words);
        if (found) out.terms.append(words[*found]);
    }
}

void readWhen(Fields& f, Condition& out) {
    const YamlNode* n = f.take(QStringLiteral("when"), Need::Required);
    if (!n) return;
    if (n->kind == YamlNode::Kind::Scalar) {
        const QStringList words = conditionWords() + QStringList{QStringLiteral("always")};
        const auto found = choiceOf(f.reading(), *n, QStringLiteral("when"), words);
        if (found && words[*found] != QStringLiteral("always")) out.terms.append(words[*found]);
    } else if (n->kind == YamlNode::Kind::Sequence) {
        readTerms(f.reading(), *n, out);
    } else if (n->kind == YamlNode::Kind::Map && n->entries.size() == 1 &&
               (n->entries.front().key == QStringLiteral("all") || n->entries.front().key == QStringLiteral("any")) &&
               n->entries.front().value.kind == YamlNode::Kind::Sequence) {
        out.all = n->entries.front().key == QStringLiteral("all");
        readTerms(f.reading(), n->entries.front().value, out);
    } else {
        f.complain(QStringLiteral("when"), QStringLiteral("`when` is not understood"),
                   QStringLiteral("write [fact, fact] for any of them, {all: [fact, fact]}, or always"));
    }
}

void readConsumables(Fields& f, StepTemplate& s) {
    const YamlNode* n = f.take(QStringLiteral("consumables"));
    if (!n) return;
    if (n->kind != YamlNode::Kind::Map) {
        f.complain(QStringLiteral("consumables"), QStringLiteral("`consumables` is not a map"), QStringLiteral("write {wipe: 2}"));
        return;
    }
    for (const YamlEntry& e : n->entries) {
        f.reading().refer(Kind::Consumable, e.key, e.where);
        if (const auto count = wholeOf(f.reading(), e.value, e.key, {1, 1000, {}})) s.consumables.insert(e.key, *count);
    }
}

void readCautions(Fields& f, StepTemplate& s) {
    for (const YamlNode* n : f.list(QStringLiteral("cautions"))) {
        Fields g(f.reading(), *n, QStringLiteral("a caution"));
        Caution c;
        g.choice(QStringLiteral("word"), c.word, wordsIn(procedure_words::signalWords), Need::Required);
        if (const YamlNode* subject = g.take(QStringLiteral("subject"), Need::Required))
            if (const auto found = choiceOf(g.reading(), *subject, QStringLiteral("subject"), cautionSubjects()))
                c.subject = cautionSubjects()[*found];
        g.text(QStringLiteral("text"), c.text, Need::Required, 1000);
        s.cautions.append(c);
    }
    for (const YamlNode* n : f.list(QStringLiteral("protection")))
        if (const auto id = idOf(f.reading(), *n, QStringLiteral("protection"))) s.protection.append(*id);
}

void readEffect(Fields& f, StepTemplate& s) {
    QList<WordFor<Effect>> effects = wordsIn(procedure_words::effects);
    effects.removeIf([](const WordFor<Effect>& e) { return e.value == Effect::None; }); // is left out, not written
    f.choice(QStringLiteral("effect"), s.effect, effects);
}

void checkExternal(Fields& f, const StepTemplate& s) {
    if (!s.external) return;
    if (s.effect != Effect::None)
        f.complain(QStringLiteral("effect"), QStringLiteral("an external step has the effect `%1`").arg(word(s.effect)),
                   QStringLiteral("what is done while the printer prints cannot change what it wears"));
    if (s.duration != DurationKind::Fixed)
        f.complain(QStringLiteral("external"), QStringLiteral("an external step heats, cools or purges the printer"),
                   QStringLiteral("write `external: false`, or give `minutes`"));
}

void readMeasuredAt(Fields& f, StepTemplate& s) {
    f.celsius(QStringLiteral("only-below-c"), s.onlyBelow);
    if (s.duration == DurationKind::Cool) s.measuredAt = sensorOf(s.subject);
    f.choice(QStringLiteral("measured-at"), s.measuredAt, wordsIn(procedure_words::sensors));
    if (f.has(QStringLiteral("measured-at")) && !f.has(QStringLiteral("only-below-c")))
        f.complain(QStringLiteral("measured-at"), QStringLiteral("`measured-at` without `only-below-c`"),
                   QStringLiteral("say below which temperature the step closes, or remove it"));
    if (s.duration == DurationKind::Cool && !f.has(QStringLiteral("to-c")) && !f.has(QStringLiteral("only-below-c")))
        f.complain(QStringLiteral("cool"), QStringLiteral("a cooling without an end"), QStringLiteral("add `to-c` or `only-below-c`"));
}

/// What the order of the steps rests on.
void readOrder(Fields& f, StepTemplate& s) {
    f.defines(Kind::Step, QStringLiteral("id"), s.id);
    f.refersToAll(Kind::PrinterType, QStringLiteral("printer-types"), s.printerTypes, Empty::Refused);
    f.refersToAll(Kind::Step, QStringLiteral("after"), s.after);
    f.whole(QStringLiteral("people"), s.people, {0, 20, QStringLiteral("people")});
    f.yesNo(QStringLiteral("external"), s.external);
    readEffect(f, s);
}

StepTemplate readStep(Fields& f) {
    StepTemplate s;
    const int before = f.reading().errors();
    readOrder(f, s);
    if (f.reading().errors() > before) f.reading().doubtOrder();
    f.text(QStringLiteral("group"), s.group, Need::Optional, 100);
    f.text(QStringLiteral("title"), s.title, Need::Required);
    f.text(QStringLiteral("detail"), s.detail, Need::Optional, 4000);
    readWhen(f, s.when);
    f.refersToAll(Kind::Tool, QStringLiteral("tools"), s.tools);
    readConsumables(f, s);
    readDuration(f, s);
    f.yesNo(QStringLiteral("mandatory"), s.mandatory);
    readCautions(f, s);
    f.choice<Power>(QStringLiteral("power"), s.power,
                    {{QStringLiteral("on"), Power::On}, {QStringLiteral("off"), Power::Off}, {QStringLiteral("isolated"), Power::Isolated}});
    readMeasuredAt(f, s);
    readConfirmation(f, s.confirm);
    checkExternal(f, s);
    return s;
}

/// With the keys that are unknown or missing, one of which may be a misspelt `after`.
StepTemplate readWholeStep(Reading& r, const YamlNode& node) {
    auto f = std::make_unique<Fields>(r, node, QStringLiteral("a step"));
    StepTemplate s = readStep(*f);
    const int before = r.errors();
    f.reset();
    if (r.errors() > before) r.doubtOrder();
    return s;
}

} // namespace

void readDuration(Fields& f, StepTemplate& s) {
    using S = Subject;
    const auto subject = [](S v) { return WordFor<S>{word(v), v}; };
    const QList<WordFor<S>> heads{subject(S::Chamber), subject(S::HeadPart), subject(S::HeadSupport)};
    struct Computed {
        QString key;
        DurationKind kind;
        QList<WordFor<S>> subjects;
    };
    const Computed computed[] = {
        {QStringLiteral("heat"), DurationKind::Heat, heads + QList<WordFor<S>>{subject(S::Platform)}},
        {QStringLiteral("cool"), DurationKind::Cool, heads},
        {QStringLiteral("purge"), DurationKind::Purge, {subject(S::Part), subject(S::Support)}}};
    QString given = f.has(QStringLiteral("minutes")) ? QStringLiteral("minutes") : QString();
    f.minutes(QStringLiteral("minutes"), s.minutes);
    for (const Computed& c : computed) {
        if (f.choice<S>(c.key, s.subject, c.subjects)) s.duration = c.kind;
        if (!f.has(c.key)) continue;
        if (!given.isEmpty())
            f.complain(c.key, QStringLiteral("`%1` beside `%2`").arg(c.key, given), QStringLiteral("a step has one duration; keep one"));
        given = c.key;
    }
    if (given.isEmpty() && s.people == 0 && f.isMap())
        f.reading().complain(f.node().where, QStringLiteral("a waiting step without a duration"),
                             QStringLiteral("add `minutes`, `heat`, `cool` or `purge`, or the `people` who do it"));
    f.minutes(QStringLiteral("settle-minutes"), s.settle);
    if (f.has(QStringLiteral("settle-minutes")) && !f.has(QStringLiteral("heat")))
        f.complain(QStringLiteral("settle-minutes"), QStringLiteral("`settle-minutes` without `heat`"), QStringLiteral("add it to `minutes` instead"));
    f.celsius(QStringLiteral("to-c"), s.to);
    if (f.has(QStringLiteral("to-c")) && !f.has(QStringLiteral("cool")))
        f.complain(QStringLiteral("to-c"), QStringLiteral("`to-c` without `cool`"), QStringLiteral("a heating ends at the set-point of the job"));
}

void readProcedures(Reading& r, const YamlNode& root, Catalogue& out) {
    Fields top(r, root, QStringLiteral("procedures.yaml"));
    top.text(QStringLiteral("version"), out.procedures.version, Need::Required, 40);
    for (const YamlNode* node : top.list(QStringLiteral("steps"), Need::Required)) {
        const StepTemplate s = readWholeStep(r, *node);
        if (!s.id.isEmpty()) out.procedures.steps.append(s);
    }
}

} // namespace interlude
