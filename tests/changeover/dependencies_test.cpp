// Within the layers too dependencies point down: a changeover knows nothing of the shop that folds it, nor an archive of
// what it keeps for either; planning searches over plain numbers; tabs know nothing of each other.

#include "tests/harness/run_tests.h"

#include <QDirIterator>
#include <QFile>
#include <QRegularExpression>
#include <QTest>

class DependenciesTest : public QObject {
    Q_OBJECT
private:
    /// The first include in the folder that is in the pattern, empty when there is none; "few files" where hardly any were read.
    static QString includeIn(const QString& folder, const QString& pattern, bool deep = true) {
        const QRegularExpression wrong(QStringLiteral("#include ") + pattern);
        int files = 0;
        QDirIterator it(QStringLiteral(INTERLUDE_SOURCE_DIR "/") + folder, {"*.h", "*.cpp"}, QDir::Files,
                        deep ? QDirIterator::Subdirectories : QDirIterator::NoIteratorFlags);
        while (it.hasNext()) {
            QFile file(it.next());
            if (!file.open(QIODevice::ReadOnly)) return file.fileName() + QStringLiteral(" cannot be read");
            const auto found = wrong.match(QString::fromUtf8(file.readAll()));
            if (found.hasMatch()) return file.fileName() + QStringLiteral(": ") + found.captured(0);
            ++files;
        }
        return files > 2 ? QString() : QStringLiteral("few files");
    }

private Q_SLOTS:
    void pointDown_data() {
        QTest::addColumn<QStringList>("above");
        QTest::newRow("changeover") << QStringList{"shop", "session", "records", "ledger"};
        QTest::newRow("archive") << QStringList{"changeover", "shop", "session", "records", "ledger"};
        QTest::newRow("catalogue") << QStringList{"changeover", "shop", "session", "records", "ledger", "archive"};
        QTest::newRow("physics") << QStringList{"changeover", "shop", "session", "records", "ledger", "catalogue"};
        QTest::newRow("planning/problem") << QStringList{"planning/plans", "planning/timetable"};
    }
    void pointDown() {
        QFETCH(QStringList, above);
        const QString found = includeIn(QStringLiteral("model/") + QString::fromLatin1(QTest::currentDataTag()),
                                        QStringLiteral("\"model/(%1)/").arg(above.join(QLatin1Char('|'))));
        QVERIFY2(found.isEmpty(), qPrintable(found));
    }
    void planningSearchesOverPlainNumbers() {
        const QString search = includeIn(QStringLiteral("model/planning"), QStringLiteral("(<Q|\"model/(?!planning/)|\"model/planning/plans/)"), false);
        QVERIFY2(search.isEmpty(), qPrintable(search));
        const QString timetable = includeIn(QStringLiteral("model/planning/timetable"), QStringLiteral("(<Q|\"model/(?!planning/(timetable/|problem/problem\\.h)))"));
        QVERIFY2(timetable.isEmpty(), qPrintable(timetable));
    }
    void tabsKnowNothingOfEachOther() {
        const QStringList tabs{"today", "changeover", "plan", "stock", "nozzles", "records"};
        for (const QString& tab : tabs) {
            QStringList others = tabs;
            others.removeAll(tab);
            const QString found = includeIn(QStringLiteral("views/") + tab, QStringLiteral("\"views/(%1|window)/").arg(others.join(QLatin1Char('|'))));
            QVERIFY2(found.isEmpty(), qPrintable(found));
        }
    }
};

INTERLUDE_TEST(DependenciesTest)
#include "dependencies_test.moc"
