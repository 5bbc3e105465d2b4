// A restore: what it refuses, what it keeps aside, what is there afterwards.
#include "tests/backup/small_fleet.h"
#include "tests/harness/run_tests.h"

using namespace interlude;
using namespace interlude::tests;

namespace {

RestoreRequest request(const Folder& f, bool replaceNewer = false) {
    return {f.file("b"), f.file(), fleet, QStringLiteral("bench-1"), monday, replaceNewer};
}

/// A ledger of 6 events with its backup.
void withBackup(const Folder& f) {
    fill(f.file(), 6);
    QVERIFY(makeBackup(sourceOf(f.file()), f.file("b")));
}

} // namespace

class RestoreTest final : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void aLostLedgerComesBack() {
        const Folder f;
        withBackup(f);
        QVERIFY(QFile::remove(f.file()));
        const auto done = restoreLedger(request(f));
        QVERIFY2(done, done ? "" : qPrintable(sentence(done.error())));
        QVERIFY(done->aside.isEmpty());
        auto store = opened(f.file());
        QVERIFY(store && !(*store)->verify());
        QCOMPARE((*store)->lastSequence(), 6);
        QVERIFY((*store)->append(numbered(7)));
        QVERIFY(verifyBackup(f.file("b"))); // the backup itself was not touched
    }
    void whatWasRestoredIsTheLastBackup() {
        const Folder f;
        withBackup(f);
        {
            auto store = opened(f.file());
            QVERIFY((*store)->append(numbered(7)));
        }
        const auto later = makeBackup(sourceOf(f.file()), f.file("later"));
        QVERIFY(later && rememberBackup(f.file(), *later));
        QVERIFY(restoreLedger(request(f, true)));
        const auto store = opened(f.file());
        QVERIFY(!oldBackup(**store, lastBackup(f.file()), QTimeZone("UTC"))); // that of 7 events is none of this ledger
        QCOMPARE(lastBackup(f.file())->position.events, 6);
    }
    void newerEventsAreNotReplacedUnlessToldSo() {
        const Folder f;
        withBackup(f);
        {
            auto store = opened(f.file());
            for (int n = 7; n <= 9; ++n) QVERIFY((*store)->append(numbered(n)));
        }
        const QByteArray before = bytesOf(f.file());
        const auto refused = restoreLedger(request(f));
        QVERIFY(!refused);
        QCOMPARE(refused.error().rule, QStringLiteral("restore-newer"));
        QVERIFY2(refused.error().reason.contains("3 events"), qPrintable(refused.error().reason));
        QVERIFY(refused.error().remedy.contains("--replace-newer"));
        QCOMPARE(bytesOf(f.file()), before);
        QVERIFY(below(f.dir.path()).filter("before-restore").isEmpty());

        const auto done = restoreLedger(request(f, true));
        QVERIFY2(done, done ? "" : qPrintable(sentence(done.error())));
        QCOMPARE(done->lacking, 3);
        QCOMPARE(verifiedPosition(f.file(), fleet)->events, 6);
        QCOMPARE(QFileInfo(done->aside).fileName(), QStringLiteral("ledger.sqlite.before-restore-20260302T063000Z"));
        QCOMPARE(verifiedPosition(done->aside, fleet)->events, 9);
    }
    void aLedgerThatWentAnotherWayIsNewerToo() {
        const Folder f;
        withBackup(f);
        QVERIFY(QFile::remove(f.file()));
        {
            auto store = opened(f.file());
            for (int n = 1; n <= 3; ++n) QVERIFY((*store)->append(numbered(n)));
            QVERIFY((*store)->append(numbered(40))); // another fourth event
        }
        const auto refused = restoreLedger(request(f));
        QVERIFY(!refused);
        QVERIFY2(refused.error().reason.contains("1 events"), qPrintable(refused.error().reason));
    }
    void anOlderLedgerOfTheSameChainIsReplacedAndKept() {
        const Folder f;
        fill(f.file(), 6);
        QVERIFY(QFile::copy(f.file(), f.file("old.sqlite")));
        QVERIFY(opened(f.file())->get()->append(numbered(7)));
        QVERIFY(makeBackup(sourceOf(f.file()), f.file("b")));
        QVERIFY(QFile::remove(f.file()) && QFile::rename(f.file("old.sqlite"), f.file()));
        const auto done = restoreLedger(request(f));
        QVERIFY2(done, done ? "" : qPrintable(sentence(done.error())));
        QCOMPARE(done->lacking, 0);
        QCOMPARE(verifiedPosition(f.file(), fleet)->events, 7);
        QCOMPARE(verifiedPosition(done->aside, fleet)->events, 6);
    }
    void aBackupThatDoesNotVerifyIsRefused() {
        const Folder f;
        withBackup(f);
        QByteArray bytes = bytesOf(f.file("b/ledger.sqlite"));
        bytes[bytes.size() / 2] = static_cast<char>(bytes[bytes.size() / 2] ^ 1);
        writeBytes(f.file("b/ledger.sqlite"), bytes);
        const QByteArray before = bytesOf(f.file());
        const auto refused = restoreLedger(request(f, true));
        QVERIFY(!refused);
        QCOMPARE(refused.error().rule, QStringLiteral("backup-damaged"));
        QCOMPARE(bytesOf(f.file()), before);
    }
    void aBackupOfAnotherFleetIsRefused() {
        const Folder f;
        withBackup(f);
        RestoreRequest r = request(f, true);
        r.fleetId = QStringLiteral("northern-yard");
        const auto refused = restoreLedger(r);
        QVERIFY(!refused);
        QCOMPARE(refused.error().rule, QStringLiteral("backup-fleet"));
    }
    void neverUnderAHeldStationLock() {
        const Folder f;
        withBackup(f);
        const auto store = opened(f.file());
        const auto refused = restoreLedger(request(f, true));
        QVERIFY(!refused);
        QCOMPARE(refused.error().rule, QStringLiteral("ledger-held"));
        QVERIFY((*store)->append(numbered(7)));
    }
    void aDamagedLedgerIsReplacedOnlyWhenToldSoAndKeptAsItWas() {
        const Folder f;
        withBackup(f);
        const QByteArray wrecked(5000, '?');
        writeBytes(f.file(), wrecked);
        writeBytes(f.file("ledger.sqlite-wal"), "log of the wreck");
        const auto refused = restoreLedger(request(f));
        QVERIFY(!refused);
        QCOMPARE(refused.error().rule, QStringLiteral("restore-newer"));
        const auto done = restoreLedger(request(f, true));
        QVERIFY2(done, done ? "" : qPrintable(sentence(done.error())));
        QCOMPARE(bytesOf(done->aside), wrecked);
        QCOMPARE(bytesOf(done->aside + "-wal"), QByteArray("log of the wreck"));
        QCOMPARE(verifiedPosition(f.file(), fleet)->events, 6);
    }
    void aRestoreBrokenOffIsSaidAndNothingIsBegunInItsPlace() {
        const Folder f;
        withBackup(f);
        QVERIFY(QFile::rename(f.file(), f.file("ledger.sqlite.restoring")));
        for (const bool readOnly : {false, true}) {
            const auto store = opened(f.file(), readOnly);
            QVERIFY(!store);
            QCOMPARE(store.error().rule, QStringLiteral("ledger-restoring"));
        }
        QVERIFY(restoreLedger(request(f)));
        QCOMPARE(verifiedPosition(f.file(), fleet)->events, 6);
        QVERIFY(below(f.dir.path()).filter("restoring").isEmpty());
    }
    void photosComeBackAndThoseThatAreThereStay() {
        const Folder f;
        fill(f.file(), 2);
        const QString photos = photosBeside(f.file());
        QVERIFY(QDir().mkpath(photos));
        writeBytes(photos + "/a.jpg", "one");
        writeBytes(photos + "/b.jpg", "two");
        QVERIFY(makeBackup(sourceOf(f.file()), f.file("b")));
        QVERIFY(QFile::remove(photos + "/a.jpg"));
        QVERIFY(restoreLedger(request(f)));
        QCOMPARE(bytesOf(photos + "/a.jpg"), QByteArray("one"));
        QCOMPARE(below(photos), QStringList({"a.jpg", "b.jpg"}));
    }
    void theFleetFolderComesOutOfTheBackup() {
        const Folder f;
        withBackup(f);
        const auto note = verifyBackup(f.file("b"));
        QVERIFY(restoreFleetFolder(f.file("b"), *note, f.file("shop")));
        QCOMPARE(below(f.file("shop")), QStringList({"bay-1.csv", "fleet.yaml"}));
        QCOMPARE(bytesOf(f.file("shop/fleet.yaml")), bytesOf(f.file("b/fleet/fleet.yaml")));
        const auto again = restoreFleetFolder(f.file("b"), *note, f.file("shop"));
        QVERIFY(!again);
    }
};
INTERLUDE_TEST(RestoreTest)
#include "restore_test.moc"
