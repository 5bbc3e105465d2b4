// Within the model too dependencies point down: a changeover knows nothing of the shop that folds it, nor an archive of
// what it keeps for either.

#include "tests/harness/run_tests.h"

#include <QDirIterator>
#include <QFile>
#include <QRegularExpression>
#include <QTest>

class DependenciesTest : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void pointDown_data() {
        QTest::addColumn<QStringList>("above");
        QTest::newRow("changeover") << QStringList{"shop", "session", "records", "ledger"};
        QTest::newRow("archive") << QStringList{"changeover", "shop", "session", "records", "ledger"};
        QTest::newRow("catalogue") << QStringList{"changeover", "shop", "session", "records", "ledger", "archive"};
        QTest::newRow("physics") << QStringList{"changeover", "shop", "session", "records", "ledger", "catalogue"};
    }
    void pointDown() {
        QFETCH(QStringList, above);
        const QRegularExpression upwards(
            QStringLiteral("#include \"model/(%1)/").arg(above.join(QLatin1Char('|'))));
        int files = 0;
        QDirIterator it(QStringLiteral(INTERLUDE_SOURCE_DIR "/model/") + QString::fromLatin1(QTest::currentDataTag()),
                        {"*.h", "*.cpp"}, QDir::Files, QDirIterator::Subdirectories);
        while (it.hasNext()) {
            QFile file(it.next());
            QVERIFY(file.open(QIODevice::ReadOnly));
            const auto found = upwards.match(QString::fromUtf8(file.readAll()));
            QVERIFY2(!found.hasMatch(), qPrintable(file.fileName() + QStringLiteral(": ") + found.captured(0)));
            ++files;
        }
        QVERIFY(files > 2);
    }
};

INTERLUDE_TEST(DependenciesTest)
#include "dependencies_test.moc"
