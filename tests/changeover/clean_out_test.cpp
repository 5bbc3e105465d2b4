#include "model/changeover/clean_out.h"
#include "tests/harness/run_tests.h"

#include <QTest>

using namespace interlude;

namespace {

Temperature c(double celsius) {
    return Temperature::fromCelsius(celsius);
}

CleanOutQuestion absThenPc() {
    CleanOutQuestion q;
    q.residue = {{QStringLiteral("abs"), c(105), c(90)}};
    q.lastPart = QStringLiteral("abs");
    q.nextPart = QStringLiteral("pc");
    q.next = c(125);
    return q;
}

} // namespace

class CleanOutTest : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void theReasonCarriesTheFigures() {
        const CleanOutVerdict v = judgeCleanOut(absThenPc());
        QCOMPARE(v.level, CleanOut::Mandatory);
        QCOMPARE(v.because, QStringList({"abs"}));
        for (const char* figure : {"125 °C", "95 °C", "105 °C", "10 K", "90 °C"})
            QVERIFY2(v.reason.contains(QString::fromUtf8(figure)), qPrintable(v.reason));
    }

    void unknownResidueIsMandatoryAtAnyTemperature() {
        CleanOutQuestion q = absThenPc();
        q.next = c(25);
        q.nextPart = q.lastPart;
        q.residue.append({QString(), {}, {}});
        for (CleanOutRule rule : {CleanOutRule::GoingUp, CleanOutRule::Strict}) {
            q.rule = rule;
            const CleanOutVerdict v = judgeCleanOut(q);
            QCOMPARE(v.level, CleanOut::Mandatory);
            QCOMPARE(v.because, QStringList({"unknown"}));
        }
    }

    void whatWasNeverSeenWarmCounts() {
        CleanOutQuestion q = absThenPc();
        q.next = c(95); // = 105 − 10
        q.residue[0].seen = c(95);
        QCOMPARE(judgeCleanOut(q).level, CleanOut::Advised); // not above 95
        q.residue[0].seen.reset();
        QCOMPARE(judgeCleanOut(q).level, CleanOut::Mandatory);
        q.next = c(94.999);
        QCOMPARE(judgeCleanOut(q).level, CleanOut::Advised);
    }

    void nothingLeftIsNone() {
        CleanOutQuestion q = absThenPc();
        q.residue.clear();
        QCOMPARE(judgeCleanOut(q).level, CleanOut::None);
        QVERIFY(judgeCleanOut(q).because.isEmpty());
    }

    void aSupportThatComesOrGoesChangesThePair() {
        CleanOutQuestion q = absThenPc();
        q.nextPart = q.lastPart;
        q.next = c(90);
        QCOMPARE(judgeCleanOut(q).level, CleanOut::None);
        q.nextSupport = QStringLiteral("acr");
        QCOMPARE(judgeCleanOut(q).level, CleanOut::Advised);
        q.lastSupport = q.nextSupport;
        QCOMPARE(judgeCleanOut(q).level, CleanOut::None);
    }

    void theOldPairLeftBehindIsNotSomethingElse() {
        CleanOutQuestion q = absThenPc();
        q.nextPart = q.lastPart;
        q.next = c(200);
        q.residue.append(q.residue.first());
        QCOMPARE(judgeCleanOut(q).level, CleanOut::None); // several deposits of the same pair
        q.residue.append({QStringLiteral("pei"), c(217), c(190)});
        QCOMPARE(judgeCleanOut(q).level, CleanOut::Mandatory); // 200 >= 95 and > 90, of the abs
    }

    void severalReasonsAreNamedOnceEach() {
        CleanOutQuestion q = absThenPc();
        q.residue.append({QStringLiteral("ps"), c(100), c(90)});
        q.residue.append({QStringLiteral("abs"), c(105), c(80)});
        const CleanOutVerdict v = judgeCleanOut(q);
        QCOMPARE(v.because, QStringList({"ps", "abs"})); // what softens first comes first
        QVERIFY(v.reason.contains(QStringLiteral("same holds for abs")));
    }

    void wiperAndBinSpeakOfDecomposition() {
        CleanOutQuestion q = absThenPc();
        q.place = ResiduePlace::WiperAndBin;
        q.residue = {{QStringLiteral("abs"), c(280), c(265)}};
        q.next = c(270); // = 280 − 10, and above 265
        const CleanOutVerdict v = judgeCleanOut(q);
        QCOMPARE(v.level, CleanOut::Mandatory);
        QVERIFY(v.reason.contains(QStringLiteral("nozzle temperature")));
        QVERIFY(v.reason.contains(QStringLiteral("decompose")));
        q.next = c(269.9);
        QCOMPARE(judgeCleanOut(q).level, CleanOut::Advised);
    }

    void whatIsMandatoryGoingUpIsMandatoryStrictly() {
        // going-up only removes: over a grid of figures it never says more than the strict rule
        int differ = 0;
        for (int limit = 90; limit <= 220; limit += 10)
            for (int seen = 20; seen <= 220; seen += 20)
                for (int next = 20; next <= 220; next += 10) {
                    CleanOutQuestion q = absThenPc();
                    q.residue = {{QStringLiteral("x"), c(limit), c(seen)}};
                    q.next = c(next);
                    const bool up = judgeCleanOut(q).level == CleanOut::Mandatory;
                    q.rule = CleanOutRule::Strict;
                    const bool strict = judgeCleanOut(q).level == CleanOut::Mandatory;
                    QVERIFY(!up || strict);
                    QCOMPARE(strict, next >= limit - 10);
                    QCOMPARE(up, next >= limit - 10 && next > seen);
                    differ += up != strict;
                }
        QVERIFY(differ > 0);
    }
};

INTERLUDE_TEST(CleanOutTest)
#include "clean_out_test.moc"
