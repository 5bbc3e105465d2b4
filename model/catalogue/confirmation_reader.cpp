#include "model/catalogue/procedure_words.h"
#include "model/catalogue/readers.h"

namespace interlude {

namespace {

void readScan(Fields& f, Confirmation& out) {
    ScanWanted scan;
    if (f.choice(QStringLiteral("scan"), scan.target, wordsIn(procedure_words::scanTargets))) out.scans.append(scan);
}

void readAnswer(Fields& f, Confirmation& out) {
    AnswerWanted answer;
    f.text(QStringLiteral("answer"), answer.question, Need::Optional, 500);
    bool must = false;
    if (f.yesNo(QStringLiteral("must-be"), must)) answer.mustBe = must;
    if (!answer.question.isEmpty()) out.answers.append(answer);
}

void readReading(Fields& f, Confirmation& out) {
    ReadingWanted reading;
    f.text(QStringLiteral("reading"), reading.name, Need::Optional, 100);
    f.text(QStringLiteral("unit"), reading.unit, Need::Required, 20);
    const auto limit = [&](const QString& key, std::optional<double>& to) {
        double v = 0;
        if (f.number(key, v, {-1e6, 1e6, {}})) to = v;
    };
    limit(QStringLiteral("min"), reading.min);
    limit(QStringLiteral("max"), reading.max);
    if (reading.min && reading.max && *reading.min > *reading.max)
        f.complain(QStringLiteral("min"), QStringLiteral("`min` is greater than `max`"), QStringLiteral("no reading could ever be within; check both"));
    f.refersTo(Kind::Instrument, QStringLiteral("instrument"), reading.instrument);
    f.whole(QStringLiteral("times"), reading.times, {1, 50, {}});
    for (const ReadingWanted& other : out.readings)
        if (!reading.name.isEmpty() && other.name == reading.name)
            f.complain(QStringLiteral("reading"), QStringLiteral("two readings of this step are named `%1`").arg(reading.name),
                       QStringLiteral("give each its own name, or use `times`"));
    if (!reading.name.isEmpty()) out.readings.append(reading);
}

} // namespace

void readConfirmation(Fields& step, Confirmation& out) {
    for (const YamlNode* node : step.list(QStringLiteral("confirm"))) {
        Fields f(step.reading(), *node, QStringLiteral("a confirmation"));
        const int kinds = int(f.has(QStringLiteral("scan"))) + int(f.has(QStringLiteral("answer"))) + int(f.has(QStringLiteral("reading")));
        if (kinds != 1 && f.isMap()) {
            if (kinds == 0 && f.has(QStringLiteral("must-be")))
                f.complain(QStringLiteral("must-be"), QStringLiteral("`must-be` without a question"), QStringLiteral("add `answer:` with the question"));
            else
                f.reading().complain(node->where, QStringLiteral("a confirmation is one of `scan`, `answer` and `reading`"),
                                     QStringLiteral("write one of them, each as its own item of the list"));
            for (const char* key : {"scan", "answer", "must-be", "reading", "unit", "min", "max", "instrument", "times"})
                f.take(QString::fromLatin1(key));
            continue;
        }
        if (f.has(QStringLiteral("answer")))
            readAnswer(f, out);
        else if (f.has(QStringLiteral("reading")))
            readReading(f, out);
        else
            readScan(f, out);
        if (!f.has(QStringLiteral("answer")) && f.take(QStringLiteral("must-be")))
            f.complain(QStringLiteral("must-be"), QStringLiteral("`must-be` without a question"), QStringLiteral("put it beside `answer`"));
    }
}

} // namespace interlude
