#include "tests/harness/run_tests.h"

#include "views/words/words.h"

#include <QtTest>

using namespace interlude;

class WordsTest final : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void countdownRoundsUp() {
        QCOMPARE(words::countdown(Milliseconds(1)), QStringLiteral("00:01"));
        QCOMPARE(words::countdown(Minutes(18) + Seconds(40)), QStringLiteral("18:40"));
        QCOMPARE(words::countdown(Milliseconds(59999)), QStringLiteral("01:00"));
        QCOMPARE(words::countdown(Minutes(62) + Seconds(10)), QStringLiteral("1:02:10"));
        QCOMPARE(words::countdown(Milliseconds(0)), QStringLiteral("00:00"));
        QCOMPARE(words::countdown(-Milliseconds(900)), QStringLiteral("00:00"));
        QCOMPARE(words::countdown(-Seconds(130)), QStringLiteral("+02:10"));
    }
    void durations() {
        QCOMPARE(words::minutes(Minutes(59)), QStringLiteral("59 min"));
        QCOMPARE(words::minutes(Minutes(65)), QStringLiteral("1 h 05 min"));
        QCOMPARE(words::stretch(Milliseconds(40500)), QStringLiteral("41 s"));
        QCOMPARE(words::stretch(Seconds(61)), QStringLiteral("2 min"));
    }
    void numbersAsPeopleWriteThem() {
        QCOMPARE(*words::readNumber(QStringLiteral("0,05")), 0.05);
        QCOMPARE(*words::readNumber(QStringLiteral(" -.5 mm"), QStringLiteral("mm")), -0.5);
        QCOMPARE(*words::readNumber(QStringLiteral("−0.15")), -0.15);
        QCOMPARE(*words::readNumber(QStringLiteral("58 °C")), 58.0);
        for (const char* bad : {"", "1,234.5", "1.2.3", "12a", "N-118", "1 000", "--1", "nan", "1e3"})
            QVERIFY2(!words::readNumber(QString::fromUtf8(bad)), bad);
    }
    void useSoFar() {
        auto run = words::readRunVolume(QStringLiteral("412 80,5"));
        QVERIFY(run);
        QCOMPARE(run->plain, Volume::fromCm3(412));
        QCOMPARE(run->abrasive, Volume::fromCm3(80.5));
        QVERIFY(run->known);
        QVERIFY(!words::readRunVolume(QStringLiteral("no history"))->known);
        QCOMPARE(words::readRunVolume(QStringLiteral("0"))->plain, Volume());
        QVERIFY(words::readRunVolume(QStringLiteral("0"))->known);
        for (const char* bad : {"", "-3", "1 2 3", "about 400"})
            QVERIFY2(!words::readRunVolume(QString::fromUtf8(bad)), bad);
        QCOMPARE(words::runVolume(RunVolume{false, {}, {}}), QStringLiteral("no history"));
    }
    void limitsInWords() {
        ReadingWanted w;
        w.unit = QStringLiteral("mm");
        QCOMPARE(words::limits(w), QString());
        w.min = -0.1;
        QCOMPARE(words::limits(w), QStringLiteral("at least −0.1 mm"));
        w.max = 0.1;
        QCOMPARE(words::limits(w), QStringLiteral("−0.1 to 0.1 mm"));
        QCOMPARE(words::number(-0.0001), QStringLiteral("0"));
    }
};
INTERLUDE_TEST(WordsTest)
#include "words_test.moc"
