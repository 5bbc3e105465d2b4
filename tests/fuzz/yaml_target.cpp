// Bytes → tree. A tree without problems holds no key twice and nothing broken, and says the same when it is written out.

#include "model/catalogue/text_file.h"
#include "model/catalogue/yaml_tree.h"
#include "tests/fuzz/target.h"

#include <QSet>

using namespace interlude;
using namespace interlude::tests;

namespace {

QString quoted(const QString& text) {
    QString out(QLatin1Char('"'));
    for (const QChar c : text) {
        if (c == QLatin1Char('"') || c == QLatin1Char('\\')) out += QLatin1Char('\\');
        if (c == QLatin1Char('\n')) out += QStringLiteral("\\n");
        else if (c == QLatin1Char('\t')) out += QStringLiteral("\\t");
        else out += c;
    }
    return out + QLatin1Char('"');
}

QString written(const YamlNode& n) {
    QStringList parts;
    switch (n.kind) {
    case YamlNode::Kind::Null: return QStringLiteral("~");
    case YamlNode::Kind::Scalar: return quoted(n.text);
    case YamlNode::Kind::Sequence:
        for (const YamlNode& item : n.items) parts << written(item);
        return QLatin1Char('[') + parts.join(QStringLiteral(", ")) + QLatin1Char(']');
    case YamlNode::Kind::Map:
        // A key of the longer form, since the short one may have 1024 characters only.
        for (const YamlEntry& e : n.entries) parts << QStringLiteral("? ") + quoted(e.key) + QStringLiteral(" : ") + written(e.value);
        return QLatin1Char('{') + parts.join(QStringLiteral(", ")) + QLatin1Char('}');
    case YamlNode::Kind::Broken: break;
    }
    qFatal("a promise is broken: something broken was not complained of");
}

void check(const YamlNode& n, int depth) {
    promise(depth <= 41, "nesting is bounded");
    promise(n.where.line >= 1 && n.where.column >= 1, "everything stands somewhere");
    QSet<QString> keys;
    for (const YamlEntry& e : n.entries) {
        promise(!keys.contains(e.key), "a key twice was not complained of", e.key);
        keys.insert(e.key);
        check(e.value, depth + 1);
    }
    for (const YamlNode& item : n.items) check(item, depth + 1);
}

} // namespace

INTERLUDE_FUZZ_TARGET(yaml) {
    Problems problems;
    const auto text = textOf(QStringLiteral("f.yaml"), input, problems);
    promise(text.has_value() == problems.isEmpty(), "what is no text is a problem");
    if (!text) return;
    const auto tree = readYaml(QStringLiteral("f.yaml"), *text, problems);
    for (const Problem& p : problems) promise(!p.what.isEmpty() && p.line >= 0 && p.column >= 0, "a problem says what and where", p.text());
    if (!tree) promise(!problems.isEmpty(), "an unreadable file is a problem");
    if (!tree || !problems.isEmpty()) return;
    check(*tree, 0);
    Problems again;
    const QString out = written(*tree);
    const auto same = readYaml(QStringLiteral("f.yaml"), out, again);
    promise(same && again.isEmpty(), "what was read can be written and read", again.isEmpty() ? out : again.first().text() + QLatin1Char('\n') + out);
    promise(written(*same) == out, "what was written says the same", out);
}
