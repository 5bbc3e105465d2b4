// One value at a time: numbers, ids, dates, local times, and the closed lists of words.
#include "model/catalogue/fields.h"
#include "tests/harness/run_tests.h"

#include <QTest>

using namespace interlude;

namespace {
Reading nothing() {
    return Reading([](const QString&, Problems&) { return std::optional<QString>(); });
}
YamlNode scalar(const QString& text) {
    YamlNode n;
    n.kind = YamlNode::Kind::Scalar;
    n.where = {QStringLiteral("t"), 1, 1};
    n.text = text;
    return n;
}
Instant utc(const char* iso8601) {
    return instantOf(QDateTime::fromString(QString::fromLatin1(iso8601), Qt::ISODate));
}
} // namespace

class ValuesTest : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void numbers_data() {
        QTest::addColumn<QString>("text");
        QTest::addColumn<bool>("good");
        QTest::addColumn<double>("value");
        for (const char* good : {"0", "5", "+5", "0.5", ".5", "5.", "1e1", "10"})
            QTest::newRow(good) << QString::fromLatin1(good) << true << QString::fromLatin1(good).toDouble();
        for (const char* bad : {"", "-1", "10.01", "1e2", "nan", "NaN", "inf", "-inf", ".inf", "0x5", "1_0", "1,5",
                                "5 g", "5e", "e5", "--5", "1e999", "1e9999999", "٣"})
            QTest::newRow(bad) << QString::fromUtf8(bad) << false << 0.0;
    }
    void numbers() {
        QFETCH(QString, text);
        QFETCH(bool, good);
        QFETCH(double, value);
        Reading r = nothing();
        const auto got = numberOf(r, scalar(text), QStringLiteral("x"), {0, 10, {}});
        QCOMPARE(got.has_value(), good);
        QCOMPARE(r.problems().size(), good ? 0 : 1);
        if (got)
            QCOMPARE(*got, value);
    }
    void theLowerEndMayBeExcluded() {
        Reading r = nothing();
        QVERIFY(!numberOf(r, scalar(QStringLiteral("0")), QStringLiteral("x"), {0, 10, QStringLiteral("g"), true}));
        QCOMPARE(r.problems().first().text(), QStringLiteral("t:1:1: `x` is `0`; give more than 0 and at most 10 g"));
    }
    void ids_data() {
        QTest::addColumn<QString>("text");
        QTest::addColumn<bool>("good");
        for (const char* good : {"a", "7401", "N-031", "S_12.b", "A1"})
            QTest::newRow(good) << QString::fromLatin1(good) << true;
        for (const char* bad : {"", "-a", ".", "..", "a b", "a/b", "ä", "a\tb", "a,b", "a:b"})
            QTest::newRow(bad) << QString::fromUtf8(bad) << false;
        QTest::newRow("64 letters") << QString(64, u'x') << true;
        QTest::newRow("65 letters") << QString(65, u'x') << false;
    }
    void ids() {
        QFETCH(QString, text);
        QFETCH(bool, good);
        Reading r = nothing();
        QCOMPARE(idOf(r, scalar(text), QStringLiteral("id")).has_value(), good);
        QCOMPARE(r.problems().size(), good ? 0 : 1);
    }
    void yesAndNo() {
        Reading r = nothing();
        QCOMPARE(yesNoOf(r, scalar(QStringLiteral("true")), QStringLiteral("x")), std::optional(true));
        QCOMPARE(yesNoOf(r, scalar(QStringLiteral("no")), QStringLiteral("x")), std::optional(false));
        QVERIFY(!yesNoOf(r, scalar(QStringLiteral("1")), QStringLiteral("x")));
    }
    void timesOfDay() {
        Reading r = nothing();
        QCOMPARE(clockTimeOf(r, scalar(QStringLiteral("06:30")), QStringLiteral("x")), std::optional(QTime(6, 30)));
        QCOMPARE(clockTimeOf(r, scalar(QStringLiteral("24:00")), QStringLiteral("x"), true),
                 std::optional(QTime(0, 0)));
        for (const char* bad : {"24:00", "6:30", "06:60", "0630", "25:00", "06:30:00"})
            QVERIFY2(!clockTimeOf(r, scalar(QString::fromLatin1(bad)), QStringLiteral("x")), bad);
    }
    // The rules of Europe/Vienna: clocks go from 02:00 to 03:00 on 29 March 2026 and from 03:00 to 02:00 on 25 October
    // 2026, both at 01:00 UTC (Directive 2000/84/EC: last Sunday of March and October at 01:00 GMT).
    void localTimes_data() {
        QTest::addColumn<QByteArray>("zone");
        QTest::addColumn<QString>("text");
        QTest::addColumn<QString>("expected");
        const QByteArray vienna = "Europe/Vienna";
        QTest::newRow("winter") << vienna << "2026-01-15T12:00"
                                << "2026-01-15T11:00:00Z";
        QTest::newRow("summer") << vienna << "2026-07-15T12:00"
                                << "2026-07-15T10:00:00Z";
        QTest::newRow("with seconds") << vienna << "2026-07-15T12:00:30"
                                      << "2026-07-15T10:00:30Z";
        QTest::newRow("before the gap") << vienna << "2026-03-29T01:59"
                                        << "2026-03-29T00:59:00Z";
        QTest::newRow("gap begins") << vienna << "2026-03-29T02:00"
                                    << "";
        QTest::newRow("gap ends") << vienna << "2026-03-29T02:59"
                                  << "";
        QTest::newRow("after the gap") << vienna << "2026-03-29T03:00"
                                       << "2026-03-29T01:00:00Z";
        QTest::newRow("twice: the first") << vienna << "2026-10-25T02:30"
                                          << "2026-10-25T00:30:00Z";
        QTest::newRow("after twice") << vienna << "2026-10-25T03:00"
                                     << "2026-10-25T02:00:00Z";
        QTest::newRow("UTC") << QByteArray("UTC") << "2026-03-29T02:30"
                             << "2026-03-29T02:30:00Z";
        QTest::newRow("far east") << QByteArray("Pacific/Kiritimati") << "2026-01-01T00:00"
                                  << "2025-12-31T10:00:00Z";
        QTest::newRow("far west") << QByteArray("Pacific/Pago_Pago") << "2026-01-01T00:00"
                                  << "2026-01-01T11:00:00Z";
        // Samoa crossed the date line: 30 December 2011 does not exist there (IANA tzdata, Pacific/Apia).
        QTest::newRow("a day left out") << QByteArray("Pacific/Apia") << "2011-12-30T12:00"
                                        << "";
        for (const char* bad :
             {"2026-02-29T12:00", "2026-13-01T12:00", "2026-01-01 12:00", "2026-01-01T24:00", "2026-01-01T12:00Z",
              "2026-01-01T12:00+01:00", "2026-01-01", "1969-12-31T12:00", "2201-01-01T12:00", "tomorrow"})
            QTest::newRow(bad) << vienna << QString::fromLatin1(bad) << "";
    }
    void localTimes() {
        QFETCH(QByteArray, zone);
        QFETCH(QString, text);
        QFETCH(QString, expected);
        Reading r = nothing();
        r.zone = QTimeZone(zone);
        const auto got = localTimeOf(r, scalar(text), QStringLiteral("x"));
        QCOMPARE(got ? iso(*got) : QString(), expected);
        QCOMPARE(r.problems().isEmpty(), !expected.isEmpty());
    }
    void aDayAloneIsItsStart() {
        Reading r = nothing();
        r.zone = QTimeZone("Europe/Vienna");
        QCOMPARE(localTimeOf(r, scalar(QStringLiteral("2026-01-15")), QStringLiteral("x"), true),
                 std::optional(utc("2026-01-14T23:00:00Z")));
    }
    void wordsGoBothWays() {
        for (int e = 0; e <= static_cast<int>(Effect::StartPrint); ++e)
            QCOMPARE(effectFromWord(word(static_cast<Effect>(e))), std::optional(static_cast<Effect>(e)));
        for (int t = 0; t <= static_cast<int>(ScanTarget::Place); ++t)
            QCOMPARE(scanTargetFromWord(word(static_cast<ScanTarget>(t))), std::optional(static_cast<ScanTarget>(t)));
        for (int s = 0; s <= static_cast<int>(Sensor::Platform); ++s)
            QCOMPARE(sensorFromWord(word(static_cast<Sensor>(s))), std::optional(static_cast<Sensor>(s)));
        for (int s = 0; s <= static_cast<int>(SignalWord::Danger); ++s)
            QCOMPARE(signalWordFromWord(word(static_cast<SignalWord>(s))), std::optional(static_cast<SignalWord>(s)));
        for (int s = 0; s <= static_cast<int>(Subject::Support); ++s)
            QCOMPARE(subjectFromWord(word(static_cast<Subject>(s))), std::optional(static_cast<Subject>(s)));
        for (int p = 0; p <= static_cast<int>(Power::Isolated); ++p)
            QVERIFY(!word(static_cast<Power>(p)).isEmpty());
        QVERIFY(!effectFromWord(QStringLiteral("dance")) && !sensorFromWord(QString()) &&
                !subjectFromWord(QStringLiteral("Part")));
        const QStringList conditions = conditionWords();
        QCOMPARE(conditions.size(), 16);
        QCOMPARE(QSet<QString>(conditions.begin(), conditions.end()).size(), 16);
    }
};

INTERLUDE_TEST(ValuesTest)
#include "values_test.moc"
