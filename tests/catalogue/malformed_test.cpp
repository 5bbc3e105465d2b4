// The corpus: each folder under malformed/ holds what differs from base/, and in expected.txt every line that must be said.
#include "tests/catalogue/folders.h"
#include "tests/harness/run_tests.h"

#include <QTest>

using namespace interlude;
using namespace interlude::tests;

namespace {

void layOver(const QString& target, const QDir& overlay) {
    for (const QFileInfo& info : overlay.entryInfoList(QDir::Files | QDir::Dirs | QDir::NoDotAndDotDot)) {
        const QString path = target + QLatin1Char('/') + info.fileName();
        if (info.fileName() == QStringLiteral("expected.txt")) continue;
        QFile::remove(path);
        if (info.isDir())
            QVERIFY(QDir().mkpath(path));
        else
            QVERIFY(QFile::copy(info.filePath(), path));
    }
}

} // namespace

class MalformedTest : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void says_data() {
        QTest::addColumn<QString>("folder");
        const QDir corpus(catalogueTests() + QStringLiteral("/malformed"));
        const QStringList names = corpus.entryList(QDir::Dirs | QDir::NoDotAndDotDot);
        QVERIFY2(names.size() >= 70, "the corpus is not there");
        for (const QString& name : names) QTest::newRow(qPrintable(name)) << corpus.filePath(name);
    }
    void says() {
        QFETCH(QString, folder);
        QTemporaryDir target;
        layOver(target.path(), QDir(catalogueTests() + QStringLiteral("/base")));
        layOver(target.path(), QDir(folder));
        const CatalogueReading reading = readFleetFolder(target.path());
        const QString expected = QString::fromUtf8(bytesOf(folder + QStringLiteral("/expected.txt")));
        QVERIFY(!expected.isEmpty());
        QCOMPARE(linesOf(reading.problems), expected);
        const bool onlyWarnings = std::all_of(reading.problems.begin(), reading.problems.end(), [](const Problem& p) { return p.warning; });
        QCOMPARE(reading.catalogue != nullptr, onlyWarnings);
    }
    void theBaseItselfIsGood() {
        const CatalogueReading reading = readFleetFolder(catalogueTests() + QStringLiteral("/base"));
        QCOMPARE(linesOf(reading.problems), QString());
        QVERIFY(reading.catalogue);
    }
    void aFolderThatIsNotThere() {
        const CatalogueReading reading = readFleetFolder(QStringLiteral("/nowhere/at/all"));
        QVERIFY(!reading.catalogue);
        QCOMPARE(linesOf(reading.problems),
                 QStringLiteral("/nowhere/at/all: there is no such folder; name the folder that holds fleet.yaml\n"));
    }
    void anEmptyFolder() {
        QTemporaryDir empty;
        QCOMPARE(linesOf(readFleetFolder(empty.path()).problems),
                 QStringLiteral("fleet.yaml: there is no such file; a fleet folder has at least fleet.yaml\n"));
    }
    void aFileThatMayNotBeRead() {
        QTemporaryDir target;
        layOver(target.path(), QDir(catalogueTests() + QStringLiteral("/base")));
        const QString path = target.filePath(QStringLiteral("jobs.yaml"));
        QVERIFY(QFile::setPermissions(path, QFileDevice::Permissions()));
        if (QFile probe(path); probe.open(QIODevice::ReadOnly)) QSKIP("this user may read everything");
        const CatalogueReading reading = readFleetFolder(target.path());
        QVERIFY(!reading.catalogue);
        QVERIFY(linesOf(reading.problems).startsWith(QStringLiteral("jobs.yaml: the file cannot be opened")));
    }
    void aLinkThatLeadsNowhere() {
        QTemporaryDir target;
        layOver(target.path(), QDir(catalogueTests() + QStringLiteral("/base")));
        QFile::remove(target.filePath(QStringLiteral("jobs.yaml")));
        QVERIFY(QFile::link(QStringLiteral("/nowhere/jobs.yaml"), target.filePath(QStringLiteral("jobs.yaml"))));
        QCOMPARE(linesOf(readFleetFolder(target.path()).problems),
                 QStringLiteral("jobs.yaml: there is no such file; add it to the fleet folder\n"));
    }
    void aFileTooLarge() {
        QTemporaryDir target;
        layOver(target.path(), QDir(catalogueTests() + QStringLiteral("/base")));
        QVERIFY(write(target.filePath(QStringLiteral("jobs.yaml")), QByteArray(8 * 1024 * 1024 + 1, '#')));
        QCOMPARE(linesOf(readFleetFolder(target.path()).problems),
                 QStringLiteral("jobs.yaml: the file is larger than 8 MiB; shorten it; jobs, spools and nozzles can be imported from CSV as well\n"));
    }
    void aStrangeFileIsOnlyWarnedOf() {
        QTemporaryDir target;
        layOver(target.path(), QDir(catalogueTests() + QStringLiteral("/base")));
        QVERIFY(write(target.filePath(QStringLiteral("material.yaml")), "materials: []\n"));
        const CatalogueReading reading = readFleetFolder(target.path());
        QVERIFY(reading.catalogue);
        QCOMPARE(linesOf(reading.problems), QStringLiteral("material.yaml: warning: this file is not read; did you mean `materials.yaml`?\n"));
    }
};

INTERLUDE_TEST(MalformedTest)
#include "malformed_test.moc"
