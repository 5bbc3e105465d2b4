// RFC 8785 as far as the ledger allows it: the examples of sections 3.2.2 and 3.2.3 with their fractional numbers left
// out (the ledger refuses those), and of appendix B the integers within ±(2^53 − 1).
#include "model/ledger/canonical_json.h"
#include "tests/harness/run_tests.h"

#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <QRandomGenerator>
#include <QTest>

using namespace interlude;

namespace {

QByteArray canonicalOf(const QByteArray& json) {
    QJsonParseError error;
    const auto document = QJsonDocument::fromJson("[" + json + "]", &error);
    if (error.error != QJsonParseError::NoError) return "not JSON: " + error.errorString().toUtf8();
    const auto out = canonicalJson(document.array().at(0));
    return out ? *out : "refused: " + sentence(out.error()).toUtf8();
}

QString randomText(QRandomGenerator& random) {
    QString s;
    const int length = random.bounded(12);
    for (int i = 0; i < length; ++i) {
        switch (random.bounded(5)) {
        case 0: s += QChar(random.bounded(0x20)); break;              // control
        case 1: s += QChar(random.bounded(0x20, 0x7f)); break;        // ASCII
        case 2: s += QChar(random.bounded(0x80, 0xd800)); break;      // BMP below the surrogates
        case 3: s += random.bounded(8) == 0 ? QChar(0xfeff) : QChar(random.bounded(0xe000, 0xfffe)); break; // BMP above them
        default: {
            const char32_t c = static_cast<char32_t>(random.bounded(0x10000, 0x110000));
            s += QString::fromUcs4(&c, 1);
        }
        }
    }
    return s;
}

QJsonValue randomValue(QRandomGenerator& random, int depth) {
    switch (random.bounded(depth > 3 ? 4 : 6)) {
    case 0: return QJsonValue::Null;
    case 1: return random.bounded(2) == 0;
    case 2: {
        const qint64 big = static_cast<qint64>(random.generate64() % 9007199254740992ULL);
        return random.bounded(2) == 0 ? big : -big;
    }
    case 3: return randomText(random);
    case 4: {
        QJsonArray a;
        for (int i = random.bounded(5); i > 0; --i) a.append(randomValue(random, depth + 1));
        return a;
    }
    default: {
        QJsonObject o;
        for (int i = random.bounded(5); i > 0; --i) o.insert(randomText(random), randomValue(random, depth + 1));
        return o;
    }
    }
}

/// The same value with its objects filled in the reverse order.
QJsonValue otherOrder(const QJsonValue& v) {
    if (v.isArray()) {
        QJsonArray a;
        for (const QJsonValue& each : v.toArray()) a.append(otherOrder(each));
        return a;
    }
    if (!v.isObject()) return v;
    const QJsonObject o = v.toObject();
    QList<std::pair<QString, QJsonValue>> members;
    for (auto it = o.begin(); it != o.end(); ++it) members.prepend({it.key(), it.value()});
    QJsonObject out;
    for (const auto& [key, value] : members) out.insert(key, otherOrder(value));
    return out;
}

} // namespace

class CanonicalJsonTest final : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void theExampleOfSection322();
    void theSortingExampleOfSection323();
    void integersOfAppendixB_data();
    void integersOfAppendixB();
    void refusals_data();
    void refusals();
    void halfASurrogatePairIsRefused();
    void aByteOrderMarkIsKept();
    void tooDeepIsRefused();
    void randomValuesComeBackAndOrderDoesNotMatter();
};

// RFC 8785 section 3.2.2 (sample) and 3.2.3 (its sorted, serialised form), member "numbers" left out.
void CanonicalJsonTest::theExampleOfSection322() {
    const QByteArray sample = R"({
        "string": "\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/",
        "literals": [null, true, false]
    })";
    const QByteArray expected =
        QByteArray(R"({"literals":[null,true,false],"string":")") + "\xe2\x82\xac" + R"($\u000f\nA'B\"\\\\\"/"})";
    QCOMPARE(canonicalOf(sample), expected);
}

// RFC 8785 section 3.2.3: the property names and the order in which their values must come out.
void CanonicalJsonTest::theSortingExampleOfSection323() {
    const QByteArray sample = R"({
        "\u20ac": "Euro Sign",
        "\r": "Carriage Return",
        "\ufb33": "Hebrew Letter Dalet With Dagesh",
        "1": "One",
        "\ud83d\ude00": "Emoji: Grinning Face",
        "\u0080": "Control",
        "\u00f6": "Latin Small Letter O With Diaeresis"
    })";
    const QList<QByteArray> order{"Carriage Return", "One", "Control", "Latin Small Letter O With Diaeresis",
                                  "Euro Sign", "Emoji: Grinning Face", "Hebrew Letter Dalet With Dagesh"};
    const QByteArray out = canonicalOf(sample);
    qsizetype at = 0;
    for (const QByteArray& each : order) {
        const qsizetype found = out.indexOf('"' + each + '"', at);
        QVERIFY2(found >= at, each + " is out of order in " + out);
        at = found;
    }
    QVERIFY(out.startsWith(R"({"\r":"Carriage Return","1":"One",")"));
}

// RFC 8785 appendix B, the rows that are integers within ±(2^53 − 1): 0, −0, ±9007199254740991 is our own limit.
void CanonicalJsonTest::integersOfAppendixB_data() {
    QTest::addColumn<QByteArray>("json");
    QTest::addColumn<QByteArray>("expected");
    QTest::newRow("zero") << QByteArray("0") << QByteArray("0");
    QTest::newRow("minus zero") << QByteArray("-0") << QByteArray("0");
    QTest::newRow("minus zero, a float") << QByteArray("-0.0") << QByteArray("0");
    QTest::newRow("exponent") << QByteArray("1E3") << QByteArray("1000");
    QTest::newRow("a whole float") << QByteArray("424.0") << QByteArray("424");
    QTest::newRow("2^53 - 1") << QByteArray("9007199254740991") << QByteArray("9007199254740991");
    QTest::newRow("-(2^53 - 1)") << QByteArray("-9007199254740991") << QByteArray("-9007199254740991");
}

void CanonicalJsonTest::integersOfAppendixB() {
    QFETCH(QByteArray, json);
    QFETCH(QByteArray, expected);
    QCOMPARE(canonicalOf(json), expected);
}

void CanonicalJsonTest::refusals_data() {
    QTest::addColumn<QByteArray>("json");
    QTest::addColumn<QString>("place");
    QTest::newRow("fraction") << QByteArray(R"({"a":{"b":[1,2,2.5]}})") << "/a/b/2";
    QTest::newRow("2^53") << QByteArray(R"({"n":9007199254740992})") << "/n";
    QTest::newRow("-2^53") << QByteArray(R"({"n":-9007199254740992})") << "/n";
    QTest::newRow("qint64 max") << QByteArray(R"({"n":9223372036854775807})") << "/n";
    QTest::newRow("1e300") << QByteArray(R"([[1e300]])") << "/0/0";
    QTest::newRow("pointer escapes") << QByteArray(R"({"a/b":{"c~d":0.1}})") << "/a~1b/c~0d";
    QTest::newRow("the value itself") << QByteArray("0.5") << "the value itself";
}

void CanonicalJsonTest::refusals() {
    QFETCH(QByteArray, json);
    QFETCH(QString, place);
    const auto out = canonicalJson(QJsonDocument::fromJson("[" + json + "]").array().at(0));
    QVERIFY(!out);
    QCOMPARE(out.error().rule, QStringLiteral("ledger-json"));
    QCOMPARE(out.error().place, place);
    QVERIFY2(out.error().reason.startsWith(place), qPrintable(out.error().reason));
    QVERIFY(out.error().reason.contains(QStringLiteral("9007199254740991")));
}

void CanonicalJsonTest::halfASurrogatePairIsRefused() {
    const QString half = QStringLiteral("a") + QChar(0xd83d);
    QCOMPARE(canonicalJson(QJsonObject{{QStringLiteral("note"), half}}).error().place, QStringLiteral("/note"));
    QVERIFY(!canonicalJson(QJsonObject{{half, 1}}));
    QVERIFY(!canonicalJson(QJsonValue(QJsonValue::Undefined)));
}

// Found by the random values: Qt's reader drops U+FEFF at the beginning of a text.
void CanonicalJsonTest::aByteOrderMarkIsKept() {
    const QString mark(QChar(0xfeff));
    for (const QString& text : {mark, QString(mark + "S-12"), QString("\"" + mark), QString(mark + mark)}) {
        const QJsonObject o{{text, text}, {QStringLiteral("a"), QJsonArray{text}}};
        const auto bytes = canonicalJson(o);
        QVERIFY(bytes);
        const auto back = parseCanonicalJson(*bytes);
        QVERIFY(back);
        QCOMPARE(back->value(text).toString(), text);
        QCOMPARE(back->value(QStringLiteral("a")).toArray().at(0).toString(), text);
    }
}

void CanonicalJsonTest::tooDeepIsRefused() {
    QJsonValue deep = 1;
    for (int i = 0; i < 490; ++i) deep = QJsonArray{deep};
    const auto held = canonicalJson(deep);
    QVERIFY(held);
    QVERIFY(QJsonDocument::fromJson(*held).isArray()); // what is written can be read
    for (int i = 0; i < 20; ++i) deep = QJsonArray{deep};
    QVERIFY(!canonicalJson(deep));
}

void CanonicalJsonTest::randomValuesComeBackAndOrderDoesNotMatter() {
    QRandomGenerator random(8785);
    const int rounds = tests::longRun() ? 50000 : 3000;
    for (int i = 0; i < rounds; ++i) {
        const QJsonObject value{{QStringLiteral("v"), randomValue(random, 0)}};
        const auto once = canonicalJson(value);
        QVERIFY2(once, qPrintable(once ? QString() : sentence(once.error())));
        const auto back = parseCanonicalJson(*once);
        QVERIFY2(back, *once);
        // Not compared as QJsonObjects: Qt 6.4 orders keys beyond U+FFFF differently after parsing and then calls equal
        // objects different. otherOrder() fills an object anew, in Qt's order for filled ones.
        QCOMPARE(otherOrder(*back).toObject(), otherOrder(value).toObject());
        QCOMPARE(*canonicalJson(*back), *once);
        QCOMPARE(*canonicalJson(otherOrder(value)), *once);
    }
}

INTERLUDE_TEST(CanonicalJsonTest)
#include "canonical_json_test.moc"
