#include "model/catalogue/did_you_mean.h"
#include "tests/harness/run_tests.h"

#include <QRandomGenerator>
#include <QTest>

using namespace interlude;

namespace {
/// The same distance by its recursive definition, for short words.
int plainly(const QString& a, const QString& b) {
    if (a.isEmpty()) return static_cast<int>(b.size());
    if (b.isEmpty()) return static_cast<int>(a.size());
    const QString a1 = a.chopped(1), b1 = b.chopped(1);
    int best = std::min({plainly(a1, b) + 1, plainly(a, b1) + 1, plainly(a1, b1) + (a.back() == b.back() ? 0 : 1)});
    if (a.size() > 1 && b.size() > 1 && a.back() == b[b.size() - 2] && a[a.size() - 2] == b.back())
        best = std::min(best, plainly(a.chopped(2), b.chopped(2)) + 1);
    return best;
}
} // namespace

class DidYouMeanTest : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void distance_data() {
        QTest::addColumn<QString>("a");
        QTest::addColumn<QString>("b");
        QTest::addColumn<int>("expected");
        QTest::newRow("same") << "nozzle" << "nozzle" << 0;
        QTest::newRow("one left out") << "nozle" << "nozzle" << 1;
        QTest::newRow("one too many") << "nozzzle" << "nozzle" << 1;
        QTest::newRow("one wrong") << "nozzlr" << "nozzle" << 1;
        QTest::newRow("swapped") << "nozzel" << "nozzle" << 1;
        QTest::newRow("empty") << "" << "abc" << 3;
        QTest::newRow("kitten") << "kitten" << "sitting" << 3;
    }
    void distance() {
        QFETCH(QString, a);
        QFETCH(QString, b);
        QFETCH(int, expected);
        QCOMPARE(editDistance(a, b, 10), expected);
        QCOMPARE(editDistance(b, a, 10), expected);
    }
    void theBoundIsKept() {
        QCOMPARE(editDistance(QStringLiteral("kitten"), QStringLiteral("sitting"), 2), 3);
        QCOMPARE(editDistance(QStringLiteral("a"), QStringLiteral("abcdefgh"), 2), 3);
    }
    void agreesWithTheDefinition() {
        QRandomGenerator random(7);
        const auto any = [&] {
            QString s;
            for (int n = random.bounded(6); n > 0; --n) s += QChar(u'a' + random.bounded(3));
            return s;
        };
        for (int i = 0; i < 500; ++i) {
            const QString a = any(), b = any();
            QVERIFY2(editDistance(a, b, 20) == plainly(a, b), qPrintable(a + QLatin1Char(' ') + b));
        }
    }
    void suggests_data() {
        QTest::addColumn<QString>("word");
        QTest::addColumn<QString>("expected");
        QTest::newRow("misspelt") << "chamber-fmaily" << "chamber-family";
        QTest::newRow("case alone") << "ID" << "id";
        QTest::newRow("unit left out") << "price" << "price-per-kg";
        QTest::newRow("two could be meant") << "chamber" << "";
        QTest::newRow("nothing near") << "colour" << "";
        QTest::newRow("empty") << "" << "";
        QTest::newRow("endless") << QString(5000, u'x') << "";
        QTest::newRow("short words are near to nothing") << "xy" << "";
    }
    void suggests() {
        QFETCH(QString, word);
        QFETCH(QString, expected);
        const QStringList known{"id", "name", "chamber-family", "chamber-c", "price-per-kg", "abrasive"};
        QCOMPARE(didYouMean(word, known).value_or(QString()), expected);
    }
    void theNearestWinsAndTiesGoToTheFirst() {
        QCOMPARE(didYouMean("h05", {"h055", "h04", "h06"}).value(), QStringLiteral("h055"));
        QCOMPARE(didYouMean("h05", {"s05x", "h04", "h06"}).value(), QStringLiteral("h04"));
    }
};

INTERLUDE_TEST(DidYouMeanTest)
#include "did_you_mean_test.moc"
