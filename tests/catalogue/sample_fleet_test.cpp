// The folders that the program ships must read without a problem.
#include "model/catalogue/reader.h"
#include "tests/harness/run_tests.h"

#include <QDir>
#include <QTest>

using namespace interlude;

class SampleFleetTest : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void readsWithoutProblems_data() {
        QTest::addColumn<QString>("folder");
        QTest::newRow("sample fleet") << QStringLiteral("sample-fleet");
        QTest::newRow("new fleet") << QStringLiteral("resources/new-fleet");
    }
    void readsWithoutProblems() {
        QFETCH(QString, folder);
        const QString path = QDir(QStringLiteral(INTERLUDE_SOURCE_DIR)).filePath(folder);
        if (!QDir(path).exists()) QSKIP("the folder is not there");
        const CatalogueReading reading = readFleetFolder(path);
        QStringList errors;
        for (const Problem& p : reading.problems)
            if (!p.warning) errors.append(p.text());
        QVERIFY2(errors.isEmpty(), qPrintable(QLatin1Char('\n') + errors.join(QLatin1Char('\n'))));
        QVERIFY(reading.catalogue);
        // What the ledger keeps must read back to the same catalogue.
        const CatalogueReading again = readFleetTexts(reading.catalogue->files);
        QVERIFY(again.catalogue);
        QCOMPARE(again.catalogue->hash, reading.catalogue->hash);
    }
};

INTERLUDE_TEST(SampleFleetTest)
#include "sample_fleet_test.moc"
