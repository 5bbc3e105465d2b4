// What a backup holds, and what counts as one.
#include "tests/backup/small_fleet.h"
#include "tests/harness/run_tests.h"

#include <QJsonDocument>
#include <QJsonObject>

using namespace interlude;
using namespace interlude::tests;

class BackupTest final : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void aBackupHoldsLedgerFleetFolderAndPhotos() {
        const Folder f;
        fill(f.file(), 8);
        QVERIFY(QDir().mkpath(photosBeside(f.file())));
        writeBytes(photosBeside(f.file()) + QStringLiteral("/abc.jpg"), "jpeg");
        const QString folder = f.file("b/one");
        const auto made = makeBackup(sourceOf(f.file()), folder);
        QVERIFY2(made, made ? "" : qPrintable(sentence(made.error())));
        QCOMPARE(below(folder), QStringList({"backup.json", "fleet", "ledger.sqlite", "photos"}));
        QCOMPARE(below(f.file("b")), QStringList{"one"}); // nothing else is left beside it
        QCOMPARE(bytesOf(folder + "/fleet/fleet.yaml"), QStringLiteral("id: two-printers # ä\n").toUtf8());
        QCOMPARE(bytesOf(folder + "/photos/abc.jpg"), QByteArray("jpeg"));
        QCOMPARE(made->position.events, 8);
        const QJsonObject note = QJsonDocument::fromJson(bytesOf(folder + "/backup.json")).object();
        QCOMPARE(note.value("fleet").toString(), fleet);
        QCOMPARE(note.value("events").toInt(), 8);
        QCOMPARE(note.value("made-at").toString(), QStringLiteral("2026-03-02T06:30:00Z"));
        QCOMPARE(note.value("sha256").toObject().size(), 4);
        QVERIFY(verifyBackup(folder));
    }
    void aBackupOfALedgerInUseIsWholeAndDisturbsNothing() {
        const Folder f;
        fill(f.file(), 5);
        auto store = opened(f.file());
        QVERIFY(store && (*store)->append(numbered(6))); // in the log, not yet in the file
        const auto made = makeBackup(sourceOf(f.file()), f.file("b"));
        QVERIFY2(made, made ? "" : qPrintable(sentence(made.error())));
        QCOMPARE(made->position.events, 6);
        QCOMPARE(made->position.hash, (*store)->lastHash());
        QVERIFY((*store)->append(numbered(7)));
        QCOMPARE(verifyBackup(f.file("b"))->position.events, 6);
    }
    void nothingIsOverwritten() {
        const Folder f;
        fill(f.file(), 1);
        QVERIFY(makeBackup(sourceOf(f.file()), f.file("b")));
        const auto again = makeBackup(sourceOf(f.file()), f.file("b"));
        QVERIFY(!again);
        QCOMPARE(again.error().rule, QStringLiteral("backup-there"));
    }
    void aLedgerThatDoesNotVerifyGivesNoBackup() {
        const Folder f;
        fill(f.file(), 5);
        {
            Sql sql(f.file());
            sql.unlockEvents();
            QCOMPARE(sql.run("UPDATE event SET canonical = CAST(replace(CAST(canonical AS TEXT), 'line', 'lime') AS BLOB) WHERE sequence = 3"), QString());
        }
        const auto made = makeBackup(sourceOf(f.file()), f.file("b"));
        QVERIFY(!made);
        QCOMPARE(made.error().rule, QStringLiteral("ledger-damaged"));
        QVERIFY2(made.error().reason.contains("event 3"), qPrintable(made.error().reason));
        QVERIFY(!QFileInfo::exists(f.file("b")));
        QVERIFY(!below(f.dir.path()).join(' ').contains("unfinished"));
    }
    void everyChangedByteOfABackupIsFound_data() {
        QTest::addColumn<QString>("file");
        for (const char* name : {"backup.json", "ledger.sqlite", "fleet/fleet.yaml", "fleet/bay-1.csv"}) QTest::newRow(name) << QString(name);
    }
    void everyChangedByteOfABackupIsFound() {
        QFETCH(QString, file);
        const Folder f;
        fill(f.file(), 3);
        QVERIFY(makeBackup(sourceOf(f.file()), f.file("b")));
        const QString path = f.file("b/" + file);
        const QByteArray good = bytesOf(path);
        const qsizetype step = std::max<qsizetype>(1, good.size() / 40);
        int found = 0;
        for (qsizetype at = 0; at < good.size(); at += step) {
            QByteArray bad = good;
            bad[at] = static_cast<char>(bad[at] ^ 0x41);
            writeBytes(path, bad);
            found += !verifyBackup(f.file("b"));
            // In the note only what is verified counts: a letter of the program's version or of the time does not.
            if (file != "backup.json") QVERIFY2(!verifyBackup(f.file("b")), qPrintable(QString::number(at)));
        }
        QVERIFY(found > 10 || good.size() < 30);
        QVERIFY(QFile::remove(path));
        QVERIFY(!verifyBackup(f.file("b")));
        writeBytes(path, good);
        QVERIFY(verifyBackup(f.file("b")));
    }
    void aNoteDoesNotReachOutsideItsFolder() {
        const Folder f;
        fill(f.file(), 1);
        const auto made = makeBackup(sourceOf(f.file()), f.file("b"));
        QVERIFY(made);
        for (const char* name : {"../x", "/etc/hostname", "fleet/../../x", ""}) {
            QJsonObject note = QJsonDocument::fromJson(bytesOf(f.file("b/backup.json"))).object();
            QJsonObject sums = note.value("sha256").toObject();
            sums.insert(name, QString(64, '0'));
            note.insert("sha256", sums);
            const QByteArray good = bytesOf(f.file("b/backup.json"));
            writeBytes(f.file("b/backup.json"), QJsonDocument(note).toJson());
            const auto read = verifyBackup(f.file("b"));
            QVERIFY(!read);
            QVERIFY2(read.error().reason.contains("outside"), qPrintable(read.error().reason));
            writeBytes(f.file("b/backup.json"), good);
        }
    }
    void whatIsNoBackupIsSaidToBeNone() {
        const Folder f;
        for (const char* text : {"", "{}", "[1]", "{\"backup\": 1}", "{\"backup\": 2, \"fleet\": \"x\"}"}) {
            writeBytes(f.file("backup.json"), text);
            const auto read = readBackup(f.dir.path());
            QVERIFY(!read);
            QCOMPARE(read.error().rule, QStringLiteral("backup-foreign"));
            QVERIFY(!read.error().remedy.isEmpty());
        }
        QVERIFY(!readBackup(f.file("not-there")));
    }
    void theLastBackupIsRememberedBesideTheLedger() {
        const Folder f;
        QVERIFY(!lastBackup(f.file()));
        fill(f.file(), 2);
        const auto made = makeBackup(sourceOf(f.file()), f.file("b"));
        QVERIFY(rememberBackup(f.file(), *made));
        QCOMPARE(lastBackup(f.file())->position.events, 2);
        QCOMPARE(lastBackup(f.file())->folder, f.file("b"));
        writeBytes(f.file("ledger.sqlite.last-backup"), "garbage");
        QVERIFY(!lastBackup(f.file()));
    }
};
INTERLUDE_TEST(BackupTest)
#include "backup_test.moc"
