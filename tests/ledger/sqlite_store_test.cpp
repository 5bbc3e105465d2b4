#include "tests/harness/run_tests.h"
#include "tests/ledger/fixture.h"

#include <QDir>
#include <QFileInfo>
#include <QProcess>
#include <QStandardPaths>

#include <csignal>
#include <sys/resource.h>
#include <unistd.h>

using namespace interlude;
using namespace interlude::tests;

class SqliteStoreTest final : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void everyEventComesBackAfterReopening();
    void theFileIsAsDocumented();
    void refusedEventsLeaveNothing();
    void aSecondOpenerIsToldWhoHoldsIt();
    void anotherNameOfTheSameFileIsTheSameLedger();
    void readsBesideAWriter();
    void readingOnlyMakesNothing();
    void strangersAreRefused_data();
    void strangersAreRefused();
    void anotherFleetsLedgerIsRefused();
    void newerFormatsAreRefused();
    void aCreationCutShortIsMadeAnew();
    void anEmptiedOrLostLedgerIsNotMadeAnew();
    void placesThatCannotBeWritten();
    void slipsWithADatabaseToolAreStopped();
    void aFullDiskRefusesAndLosesNothing();
    void aFileLimitRefusesUntilReopened();
    void whereTheLedgerLives_data();
    void whereTheLedgerLives();
};

void SqliteStoreTest::everyEventComesBackAfterReopening() {
    const Folder folder;
    fill(folder.file(), 40);
    auto store = opened(folder.file());
    QVERIFY(store);
    QCOMPARE((*store)->lastSequence(), 40);
    QCOMPARE((*store)->location(), folder.file());
    const auto memory = makeMemoryStore(fleet);
    qint64 n = 0;
    const auto read = (*store)->read(0, [&](const Event& e) {
        Event wanted = *memory->append(numbered(++n));
        [&] {
            QCOMPARE(e.sequence, n);
            QCOMPARE(e.recordedAt, wanted.recordedAt);
            QCOMPARE(e.happenedAt, wanted.happenedAt);
            QCOMPARE(e.station, wanted.station);
            QCOMPARE(e.who, wanted.who);
            QCOMPARE(e.kind, wanted.kind);
            QCOMPARE(e.payload, wanted.payload);
            QCOMPARE(e.hash, wanted.hash);
        }();
        return true;
    });
    QCOMPARE(*read, 40);
    QCOMPARE((*store)->lastHash(), memory->lastHash());
    QCOMPARE(*(*store)->read(38, [](const Event&) { return true; }), 2);
    QCOMPARE(*(*store)->read(0, [](const Event& e) { return e.sequence < 7; }), 7);
    QVERIFY(!(*store)->verify());
    QCOMPARE((*store)->append(numbered(41))->sequence, 41);
    QVERIFY(!(*store)->verify());
}

void SqliteStoreTest::theFileIsAsDocumented() {
    const Folder folder;
    auto store = opened(folder.file());
    QVERIFY((*store)->append(numbered(1)));
    {
        // The store's own connection, to see what holds for it.
        const QString name = QSqlDatabase::connectionNames().filter(QStringLiteral("interlude-ledger")).value(0);
        QSqlQuery q(QSqlDatabase::database(name));
        QVERIFY(q.exec(QStringLiteral("PRAGMA synchronous")) && q.next());
        QCOMPARE(q.value(0).toInt(), 2); // FULL
        QVERIFY(q.exec(QStringLiteral("PRAGMA busy_timeout")) && q.next());
        QCOMPARE(q.value(0).toInt(), 5000);
    }
    Sql sql(folder.file());
    QCOMPARE(sql.value(QStringLiteral("PRAGMA journal_mode")).toString(), QStringLiteral("wal"));
    QCOMPARE(sql.value(QStringLiteral("PRAGMA application_id")).toInt(), 0x494c4447);
    QCOMPARE(sql.value(QStringLiteral("PRAGMA user_version")).toInt(), 1);
    QCOMPARE(sql.value(QStringLiteral("SELECT fleet FROM ledger")).toString(), fleet);
    QCOMPARE(sql.value(QStringLiteral("SELECT count(*) FROM pragma_table_list WHERE name IN ('event','ledger') AND strict")).toInt(), 2);
    QCOMPARE(sql.value(QStringLiteral("SELECT canonical FROM event")).toByteArray(), *canonicalBytes([] {
        Event e = numbered(1);
        e.sequence = 1;
        return e;
    }()));
}

void SqliteStoreTest::refusedEventsLeaveNothing() {
    const Folder folder;
    auto store = opened(folder.file());
    Event bad = numbered(1);
    bad.payload.insert(QStringLiteral("grams"), 0.5);
    QCOMPARE((*store)->append(bad).error().place, QStringLiteral("/payload/grams"));
    QCOMPARE((*store)->lastSequence(), 0);
    QCOMPARE((*store)->append(numbered(1))->sequence, 1);
    QVERIFY(!(*store)->verify());
}

void SqliteStoreTest::aSecondOpenerIsToldWhoHoldsIt() {
    const Folder folder;
    auto first = openSqliteStore(folder.file(), fleet, QStringLiteral("bench-7"));
    QVERIFY(first);
    for (int i = 0; i < 2; ++i) { // a refused opener leaves the holder's name in place
        const auto second = opened(folder.file());
        QVERIFY(!second);
        QCOMPARE(second.error().rule, QStringLiteral("ledger-held"));
        QVERIFY2(second.error().reason.contains(QStringLiteral("station bench-7")), qPrintable(second.error().reason));
        QVERIFY(second.error().reason.contains(QStringLiteral("process %1").arg(::getpid())));
        QVERIFY(second.error().reason.contains(QSysInfo::machineHostName()));
    }
    first->reset();
    QVERIFY(opened(folder.file()));
}

void SqliteStoreTest::anotherNameOfTheSameFileIsTheSameLedger() {
    const Folder folder;
    fill(folder.file(), 1);
    const QString link = folder.file(QStringLiteral("desk.sqlite"));
    QVERIFY(QFile::link(folder.file(), link));
    for (const auto& [first, second] : {std::pair(folder.file(), link), std::pair(link, folder.file())}) {
        const auto held = opened(first);
        QVERIFY2(held, held ? "" : qPrintable(sentence(held.error())));
        const auto refused = opened(second);
        QVERIFY(!refused);
        QCOMPARE(refused.error().rule, QStringLiteral("ledger-held"));
    }
}

void SqliteStoreTest::readsBesideAWriter() {
    const Folder folder;
    auto writer = opened(folder.file());
    for (int n = 1; n <= 3; ++n) QVERIFY((*writer)->append(numbered(n)));
    auto reader = opened(folder.file(), true);
    QVERIFY2(reader, qPrintable(reader ? QString() : sentence(reader.error())));
    QCOMPARE((*reader)->lastSequence(), 3);
    QVERIFY((*reader)->location().contains(QStringLiteral("read only")));
    QCOMPARE((*reader)->append(numbered(4)).error().rule, QStringLiteral("ledger-read-only"));
    // The writer goes on while a reader is in the midst of reading.
    int seen = 0;
    QVERIFY((*reader)->read(0, [&](const Event&) { return ++seen && bool((*writer)->append(numbered(4))); }));
    QCOMPARE(seen, 3);
    QCOMPARE((*writer)->lastSequence(), 6);
    QCOMPARE(*(*reader)->read(0, [](const Event&) { return true; }), 6);
    QVERIFY(!(*reader)->verify());
    QVERIFY(!(*writer)->verify());
}

void SqliteStoreTest::readingOnlyMakesNothing() {
    const Folder folder;
    const auto missing = opened(folder.file(QStringLiteral("none/ledger.sqlite")), true);
    QCOMPARE(missing.error().rule, QStringLiteral("ledger-missing"));
    QVERIFY(!QFileInfo::exists(folder.file(QStringLiteral("none"))));
}

void SqliteStoreTest::strangersAreRefused_data() {
    QTest::addColumn<QByteArray>("bytes");
    QTest::newRow("text") << QByteArray("serial,type\nN-031,h04\n");
    QTest::newRow("long text") << QByteArray(20000, 'x');
    QTest::newRow("nearly") << QByteArray("SQLite format 4\0", 16);
    const Folder folder;
    {
        Sql sql(folder.file());
        sql.run(QStringLiteral("CREATE TABLE recipes (name TEXT)"));
    }
    QTest::newRow("another program's database") << bytesOf(folder.file());
}

void SqliteStoreTest::strangersAreRefused() {
    QFETCH(QByteArray, bytes);
    for (const bool readOnly : {false, true}) {
        const Folder folder;
        writeBytes(folder.file(), bytes);
        const auto store = opened(folder.file(), readOnly);
        QVERIFY(!store);
        QCOMPARE(store.error().rule, QStringLiteral("ledger-foreign"));
        QCOMPARE(store.error().place, folder.file());
        QVERIFY(!store.error().remedy.isEmpty());
        QCOMPARE(bytesOf(folder.file()), bytes); // not a byte of a stranger's file is touched
    }
    const Folder folder;
    QCOMPARE(opened(folder.dir.path()).error().rule, QStringLiteral("ledger-foreign"));
}

void SqliteStoreTest::anotherFleetsLedgerIsRefused() {
    const Folder folder;
    fill(folder.file(), 1);
    const auto other = openSqliteStore(folder.file(), QStringLiteral("north"), QStringLiteral("bench-1"));
    QCOMPARE(other.error().rule, QStringLiteral("ledger-fleet"));
    QVERIFY(other.error().reason.contains(QStringLiteral("two-printers")));
    QVERIFY(other.error().reason.contains(QStringLiteral("north")));
}

void SqliteStoreTest::newerFormatsAreRefused() {
    const Folder folder;
    fill(folder.file(), 1);
    { Sql(folder.file()).run(QStringLiteral("PRAGMA user_version = 2")); }
    const auto newer = opened(folder.file());
    QCOMPARE(newer.error().rule, QStringLiteral("ledger-newer"));
    QVERIFY(newer.error().reason.contains(QStringLiteral("format 2")));
}

void SqliteStoreTest::aCreationCutShortIsMadeAnew() {
    const Folder folder;
    writeBytes(folder.file(QStringLiteral("ledger.sqlite.new")), "half a ledger"); // killed before the renaming
    fill(folder.file(), 2);
    QVERIFY(!(*opened(folder.file(), true))->verify());
    QVERIFY(!QFileInfo::exists(folder.file(QStringLiteral("ledger.sqlite.new"))));
}

void SqliteStoreTest::anEmptiedOrLostLedgerIsNotMadeAnew() {
    const Folder folder;
    writeBytes(folder.file(), {});
    for (const bool readOnly : {false, true})
        QCOMPARE(opened(folder.file(), readOnly).error().rule, QStringLiteral("ledger-damaged"));
    QCOMPARE(bytesOf(folder.file()), QByteArray());
    // The ledger's file deleted, its log left: SQLite would replay the log into a new database.
    QFile::remove(folder.file());
    writeBytes(folder.file(QStringLiteral("ledger.sqlite-wal")), "log");
    const auto lost = opened(folder.file());
    QCOMPARE(lost.error().rule, QStringLiteral("ledger-damaged"));
    QVERIFY(lost.error().place.endsWith(QStringLiteral("-wal")));
    QVERIFY(!QFileInfo::exists(folder.file()));
}

void SqliteStoreTest::placesThatCannotBeWritten() {
    const Folder folder;
    writeBytes(folder.file(QStringLiteral("plain")), "x");
    const auto underAFile = opened(folder.file(QStringLiteral("plain/ledger.sqlite")));
    QCOMPARE(underAFile.error().rule, QStringLiteral("ledger-folder"));
    // Nobody, not even root, makes files in /proc.
    const auto inProc = opened(QStringLiteral("/proc/self/ledger.sqlite"));
    QCOMPARE(inProc.error().rule, QStringLiteral("ledger-folder"));
    QVERIFY(!inProc.error().remedy.isEmpty());
    QVERIFY(opened(folder.file(QStringLiteral("new/folder/ledger.sqlite")))); // missing folders are made
    if (::geteuid() == 0) QSKIP("root may write anywhere: the write-protected folder was not tried");
    QVERIFY(QFile::setPermissions(folder.dir.path(), QFileDevice::ReadOwner | QFileDevice::ExeOwner));
    QCOMPARE(opened(folder.file()).error().rule, QStringLiteral("ledger-folder"));
    QFile::setPermissions(folder.dir.path(), QFileDevice::ReadOwner | QFileDevice::WriteOwner | QFileDevice::ExeOwner);
}

void SqliteStoreTest::slipsWithADatabaseToolAreStopped() {
    const Folder folder;
    fill(folder.file(), 2);
    Sql sql(folder.file());
    QVERIFY(sql.run(QStringLiteral("UPDATE event SET who = 'XX' WHERE sequence = 1")).contains(QStringLiteral("only added to")));
    QVERIFY(sql.run(QStringLiteral("DELETE FROM event")).contains(QStringLiteral("only added to")));
    QCOMPARE(sql.value(QStringLiteral("SELECT count(*) FROM event")).toInt(), 2);
}

void SqliteStoreTest::aFullDiskRefusesAndLosesNothing() {
    const Folder folder;
    auto store = opened(folder.file());
    QVERIFY((*store)->append(numbered(1)));
    // SQLite answers SQLITE_FULL at its own page limit as it does when the file system says ENOSPC.
    const QString name = QSqlDatabase::connectionNames().filter(QStringLiteral("interlude-ledger")).value(0);
    const auto limit = [&](int pages) {
        QSqlQuery q(QSqlDatabase::database(name));
        return q.exec(QStringLiteral("PRAGMA max_page_count = %1").arg(pages));
    };
    QVERIFY(limit(12));
    qint64 confirmed = 1;
    Outcome<Event> last = (*store)->append(numbered(2));
    for (; last && confirmed < 5000; last = (*store)->append(numbered(confirmed + 1))) ++confirmed;
    QVERIFY(!last);
    QCOMPARE(last.error().rule, QStringLiteral("ledger-full"));
    QVERIFY(last.error().remedy.contains(QStringLiteral("make room")));
    QCOMPARE((*store)->lastSequence(), confirmed);
    QVERIFY(!(*store)->verify());
    QVERIFY(limit(1000)); // room was made: work goes on without reopening
    QCOMPARE((*store)->append(numbered(confirmed + 1))->sequence, confirmed + 1);
    QVERIFY(!(*store)->verify());
}

void SqliteStoreTest::aFileLimitRefusesUntilReopened() {
    const Folder folder;
    auto store = opened(folder.file());
    rlimit before{};
    QCOMPARE(::getrlimit(RLIMIT_FSIZE, &before), 0);
    const auto oldSignal = ::signal(SIGXFSZ, SIG_IGN);
    rlimit small = before;
    small.rlim_cur = 100000;
    QCOMPARE(::setrlimit(RLIMIT_FSIZE, &small), 0);
    qint64 confirmed = 0;
    Outcome<Event> last = (*store)->append(numbered(1));
    for (; last && confirmed < 5000; last = (*store)->append(numbered(confirmed + 1))) ++confirmed;
    ::setrlimit(RLIMIT_FSIZE, &before);
    ::signal(SIGXFSZ, oldSignal);
    QVERIFY(!last);
    QCOMPARE(last.error().rule, QStringLiteral("ledger-disk")); // a write failed and not for want of room
    // Room is back, but what reached the disk is unknown: nothing is promised until a fresh look.
    QCOMPARE((*store)->append(numbered(1)).error().rule, QStringLiteral("ledger-disk"));
    store->reset();
    store = opened(folder.file());
    QVERIFY(store);
    QVERIFY((*store)->lastSequence() >= confirmed && (*store)->lastSequence() <= confirmed + 1);
    QVERIFY(!(*store)->verify());
    QVERIFY((*store)->append(numbered(1)));
}

void SqliteStoreTest::whereTheLedgerLives_data() {
    QTest::addColumn<QString>("option");
    QTest::addColumn<QString>("fromFleet");
    QTest::addColumn<QString>("expected"); // or, in angle brackets, the rule and a word of the refusal
    QTest::newRow("fleet's") << "" << "sqlite:data/l.sqlite" << "/shop/fleet/data/l.sqlite";
    QTest::newRow("option first") << "sqlite:../other.sqlite" << "sqlite:l.sqlite" << QDir::cleanPath(QDir::currentPath() + "/../other.sqlite");
    QTest::newRow("bare") << "l.sqlite" << "" << QDir::currentPath() + "/l.sqlite";
    QTest::newRow("fleet's, bare") << "" << "l.sqlite" << "/shop/fleet/l.sqlite";
    QTest::newRow("absolute") << "/var/l.sqlite" << "" << "/var/l.sqlite";
    QTest::newRow("absolute with scheme") << "sqlite:/var/l.sqlite" << "" << "/var/l.sqlite";
    QTest::newRow("slashes") << "sqlite:///var/l.sqlite" << "" << "/var/l.sqlite";
    QTest::newRow("home") << "sqlite:~/l.sqlite" << "" << QDir::homePath() + "/l.sqlite";
    QTest::newRow("shared") << "" << "postgresql://db/shop" << "<not in this version>";
    QTest::newRow("strange") << "mysql://db/shop" << "" << "<no kind of ledger called \"mysql:\">";
    QTest::newRow("nothing") << "sqlite:" << "" << "<names no file>";
    QTest::newRow("a folder") << "sqlite:data/" << "" << "<names no file>";
    QTest::newRow("user data") << "" << ""
                               << QStandardPaths::writableLocation(QStandardPaths::GenericDataLocation) + "/interlude/two-printers.sqlite";
}

void SqliteStoreTest::whereTheLedgerLives() {
    QFETCH(QString, option);
    QFETCH(QString, fromFleet);
    QFETCH(QString, expected);
    const auto file = ledgerFile(option, fromFleet, QStringLiteral("/shop/fleet"), fleet);
    if (expected.startsWith('<')) {
        QVERIFY(!file);
        QCOMPARE(file.error().rule, QStringLiteral("ledger-scheme"));
        QVERIFY2(file.error().reason.contains(expected.mid(1, expected.size() - 2)), qPrintable(file.error().reason));
        QVERIFY(!file.error().remedy.isEmpty());
    } else {
        QVERIFY(file);
        QCOMPARE(*file, expected);
    }
    QVERIFY(!ledgerFile({}, {}, QStringLiteral("/shop/fleet"), QStringLiteral("../etc")));
}

INTERLUDE_TEST(SqliteStoreTest)
#include "sqlite_store_test.moc"
