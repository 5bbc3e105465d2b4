// Text of a file → our tree, and what is refused on the way.
#include "model/catalogue/text_file.h"
#include "model/catalogue/yaml_tree.h"
#include "tests/harness/run_tests.h"

#include <QTest>

using namespace interlude;

namespace {
struct Read {
    std::optional<YamlNode> root;
    Problems problems;
    explicit Read(const QString& text) { root = readYaml(QStringLiteral("t.yaml"), text, problems); }
    QString said() const {
        QStringList out;
        for (const Problem& p : problems)
            out.append(p.text());
        return out.join(QLatin1Char('\n'));
    }
};
QString at(const Where& w) {
    return QStringLiteral("%1:%2").arg(w.line).arg(w.column);
}
} // namespace

class YamlTreeTest : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void kindsTextsAndPlaces() {
        const Read r(QStringLiteral("a: 1\nb: [x, \"y z\"]\nc:\n  d: ~\n  'e f': |\n    two\n    lines\n"));
        QCOMPARE(r.said(), QString());
        QCOMPARE(r.root->kind, YamlNode::Kind::Map);
        QCOMPARE(r.root->find("a")->text, QStringLiteral("1"));
        QCOMPARE(at(r.root->find("a")->where), QStringLiteral("1:4"));
        QCOMPARE(r.root->find("b")->items.at(1).text, QStringLiteral("y z"));
        QCOMPARE(at(r.root->find("b")->items.at(1).where), QStringLiteral("2:8"));
        QCOMPARE(r.root->find("c")->find("d")->kind, YamlNode::Kind::Null);
        QCOMPARE(r.root->find("c")->find("e f")->text, QStringLiteral("two\nlines\n"));
        QCOMPARE(at(r.root->find("c")->entries.at(1).where), QStringLiteral("5:3"));
        QVERIFY(!r.root->find("nothing"));
    }
    void columnsCountCharacters() {
        const Read r(QStringLiteral("{ä: ö, €uro: 😀, z: 1}"));
        QCOMPARE(at(r.root->find("z")->where), QStringLiteral("1:20"));
    }
    void lineEndsDoNotMatter() {
        for (const QString end : {"\n", "\r\n", "\r"}) {
            const Read r(QStringLiteral("a: 1") + end + QStringLiteral("b: 2") + end);
            QCOMPARE(r.said(), QString());
            QCOMPARE(at(r.root->find("b")->where), QStringLiteral("2:4"));
        }
    }
    void aQuoteLeftOpenIsSaidWhereItBegins_data() {
        QTest::addColumn<QString>("text");
        QTest::addColumn<QString>("begins");
        const auto row = [](const char* name, const char* text, const char* begins) { QTest::newRow(name) << QString::fromUtf8(text) << QString::fromLatin1(begins); };
        row("up to the end", "jobs:\n  - id: 1\n    title: \"lid\n    quantity: 2\n  - id: 2\n    title: lid\n", "3:12");
        row("up to another that closes", "jobs:\n  - id: 1\n    title: \"lid\n    quantity: 2\n  - id: 2\n    title: lid\"\n", "3:12");
        row("up to another that begins", "jobs:\n  - {id: 1, title: 'lid}\n  - {id: 2, title: 'lid'}\n", "2:20");
        row("on one line", "a: {from: \"06:00, to: \"14:00\", crew: 2}\n", "1:11");
        row("after quotes that are none", "a: it's 2\" wide # \"so\nb: |\n  say \"\n  'x: 1\nc: \"lid\nd: 1\ne: \"f\"\n", "5:4");
    }
    void aQuoteLeftOpenIsSaidWhereItBegins() {
        QFETCH(QString, text);
        QFETCH(QString, begins);
        const Read r(text);
        QVERIFY(!r.root);
        QCOMPARE(r.said(), QStringLiteral("t.yaml:%1: this quote is not closed where its text ends; close it there").arg(begins));
    }
    void quotesThatAreClosedAreNotBlamed_data() {
        QTest::addColumn<QString>("text");
        QTest::newRow("over lines") << QStringLiteral("a: \"one\n  two: three\n  four\"\nb: 'it''s'\nc: \"6\\\"\"\n");
        QTest::newRow("in a plain text") << QStringLiteral("a: b, \"c\nd: 1\ne: 2\nf: 3, \"g\n");
        QTest::newRow("in a block text") << QStringLiteral("a: >\n  \"so\n  b: 1\n  c: 2\nd: [\"e\", 'f']\n");
        QTest::newRow("in a comment") << QStringLiteral("# \"so\na: 1 # '\nb: 2\nc: 3\n");
    }
    void quotesThatAreClosedAreNotBlamed() {
        QFETCH(QString, text);
        const Read r(text);
        QCOMPARE(r.said(), QString());
        QVERIFY(r.root && r.root->kind == YamlNode::Kind::Map);
    }
    void emptyIsNull() {
        QCOMPARE(Read(QString()).root->kind, YamlNode::Kind::Null);
        QCOMPARE(Read(QStringLiteral("# only this\n")).root->kind, YamlNode::Kind::Null);
    }
    void everyDuplicateKeyIsReportedAndTheFirstKept() {
        const Read r(QStringLiteral("a: 1\nb: 2\na: 3\nb: 4\n"));
        QCOMPARE(r.said(),
                 QStringLiteral("t.yaml:3:1: the key `a` is given twice; it stands on line 1 already; keep one\n"
                                "t.yaml:4:1: the key `b` is given twice; it stands on line 2 already; keep one"));
        QCOMPARE(r.root->find("a")->text, QStringLiteral("1"));
    }
    void theSameKeyInTwoMapsIsFine() { QCOMPARE(Read(QStringLiteral("- {a: 1}\n- {a: 1}\n")).said(), QString()); }
    void anAliasIsBrokenAndNotFollowed() {
        const Read r(QStringLiteral("a: &x [1]\nb: *x\n"));
        QCOMPARE(r.problems.size(), 2);
        QCOMPARE(r.root->find("b")->kind, YamlNode::Kind::Broken);
    }
    void depth() {
        QCOMPARE(Read(QString(40, u'[') + QString(40, u']')).said(), QString());
        QVERIFY(Read(QString(41, u'[') + QString(41, u']')).said().contains(QStringLiteral("deeper than 40")));
        QVERIFY(Read(QString(200'000, u'[')).said().contains(QStringLiteral("deeper than 40")));
        QVERIFY(Read(QString(QStringLiteral("- ")).repeated(5000)).said().contains(QStringLiteral("deeper than 40")));
    }
    void count() {
        const Read r(QLatin1Char('[') + QString(QStringLiteral("1,")).repeated(300'001) + QLatin1Char(']'));
        QVERIFY(!r.root);
        QVERIFY2(r.said().contains(QStringLiteral("more than 300000 values")), qPrintable(r.said().left(200)));
    }
    void utf8_data() {
        QTest::addColumn<QByteArray>("bytes");
        QTest::addColumn<QString>("expected");
        QTest::newRow("plain") << QByteArray("a") << "";
        QTest::newRow("mark at the start") << QByteArray("\xEF\xBB\xBF"
                                                         "a: 1")
                                           << "";
        QTest::newRow("last of each length") << QByteArray("\xDF\xBF\xEF\xBF\xBD\xF4\x8F\xBF\xBF") << "";
        QTest::newRow("tab and line ends") << QByteArray("a\tb\r\nc\rd\n") << "";
        QTest::newRow("lone continuation")
            << QByteArray("ok\nab\x80") << "t:2:3: byte 0x80 is not UTF-8; save the file as UTF-8";
        QTest::newRow("cut short") << QByteArray("\xE2\x82") << "t:1:1: byte 0xE2 is not UTF-8; save the file as UTF-8";
        QTest::newRow("overlong") << QByteArray("\xC1\xBF") << "t:1:1: byte 0xC1 is not UTF-8; save the file as UTF-8";
        QTest::newRow("overlong of three")
            << QByteArray("\xE0\x9F\xBF") << "t:1:1: byte 0xE0 is not UTF-8; save the file as UTF-8";
        QTest::newRow("surrogate") << QByteArray("\xED\xA0\x80")
                                   << "t:1:1: byte 0xED is not UTF-8; save the file as UTF-8";
        QTest::newRow("beyond Unicode") << QByteArray("\xF4\x90\x80\x80")
                                        << "t:1:1: byte 0xF4 is not UTF-8; save the file as UTF-8";
        QTest::newRow("after CRLF") << QByteArray("a\r\nb\r\n\xFF")
                                    << "t:3:1: byte 0xFF is not UTF-8; save the file as UTF-8";
        QTest::newRow("bell") << QByteArray("\xC3\xA4\a")
                              << "t:1:2: control character 0x07; remove it, or save the file as UTF-8 text";
    }
    void utf8() {
        QFETCH(QByteArray, bytes);
        QFETCH(QString, expected);
        Problems problems;
        const auto text = textOf(QStringLiteral("t"), bytes, problems);
        QCOMPARE(problems.isEmpty() ? QString() : problems.first().text(), expected);
        QCOMPARE(text.has_value(), expected.isEmpty());
    }
    void theMarkIsNotText() {
        Problems problems;
        QCOMPARE(textOf(QStringLiteral("t"),
                        "\xEF\xBB\xBF"
                        "a",
                        problems)
                     .value(),
                 QStringLiteral("a"));
    }
};

INTERLUDE_TEST(YamlTreeTest)
#include "yaml_tree_test.moc"
