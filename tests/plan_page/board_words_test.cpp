// What the board says in small places.

#include "tests/harness/run_tests.h"
#include "views/plan/board_sentences.h"

#include <QtTest>

using namespace interlude;

class BoardWordsTest final : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void wordsForSmallPlaces() {
        QCOMPARE(board::lateText(40), QStringLiteral("late 40 min"));
        QCOMPARE(board::lateText(150), QStringLiteral("late 2.5 h"));
        QCOMPARE(board::lateText(180), QStringLiteral("late 3 h"));
        QCOMPARE(board::lateText(30 * 60 + 20), QStringLiteral("late 30 h"));
        QCOMPARE(board::lateText(100 * 60), QStringLiteral("late 4 d"));
        planning::Price p;
        QCOMPARE(board::priceText(p, QStringLiteral("EUR")), QStringLiteral("cost the same · turnaround the same · lateness the same"));
        p.cost = 2100;
        p.turnaround = 48;
        p.lateJobs = -1;
        QCOMPARE(board::priceText(p, QStringLiteral("EUR")), QStringLiteral("+21 EUR · turnaround +48 min · 1 job fewer late"));
        p = {};
        p.cost = -40;
        p.turnaround = -65;
        p.weightedTardiness = 3;
        p.notPlaced = 2;
        QCOMPARE(board::priceText(p, QStringLiteral("EUR")),
                 QStringLiteral("−0.40 EUR · turnaround −1 h 05 min · late jobs later · 2 more jobs without a place"));
    }
};

INTERLUDE_TEST(BoardWordsTest)
#include "board_words_test.moc"
