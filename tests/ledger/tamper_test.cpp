// Any byte changed in a stored event is found by verify and named.
#include "tests/harness/run_tests.h"
#include "tests/ledger/fixture.h"

#include <QFileInfo>
#include <QRandomGenerator>

using namespace interlude;
using namespace interlude::tests;

namespace {

std::optional<Misfit> verdict(const QString& file) {
    const auto store = opened(file, true);
    return store ? (*store)->verify() : std::optional(Misfit{-1, store.error().reason});
}

const QStringList columns{"sequence", "recorded_at", "happened_at", "station", "who", "kind", "canonical", "hash"};

} // namespace

class TamperTest final : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void everyByteOfEveryColumn_data();
    void everyByteOfEveryColumn();
    void rowsTakenOutOrExchanged();
    void aForgerWhoRecomputesEverything();
    void everyByteOfTheFile();
    void truncatedFiles();
    void readRefusesWhatItCannotRead();

private:
    /// Flips each byte of one value in turn, checks that `n` is named, puts the value back.
    void flipValue(Sql& sql, const EventStore& store, qint64 n, const QString& column);
};

void TamperTest::flipValue(Sql& sql, const EventStore& store, qint64 n, const QString& column) {
    const QString where = QStringLiteral(" WHERE sequence = %1").arg(n);
    const bool text = column == "station" || column == "who" || column == "kind";
    const bool blob = column == "canonical" || column == "hash";
    const QVariant original = sql.value(QStringLiteral("SELECT %1 FROM event%2").arg(text ? "CAST(" + column + " AS BLOB)" : column, where));
    const QString set = QStringLiteral("UPDATE event SET %1 = %2%3").arg(column, text ? "CAST(? AS TEXT)" : "?", where);
    const QByteArray bytes = text || blob ? original.toByteArray() : QByteArray(8, '\0');
    for (qsizetype i = 0; i < bytes.size(); ++i) {
        QVariant changed;
        qint64 nowAt = n;
        if (text || blob) {
            QByteArray flipped = bytes;
            flipped[i] = static_cast<char>(flipped[i] ^ (1 << (i % 8)));
            changed = flipped;
        } else {
            changed = original.toLongLong() ^ (1LL << (8 * i + i % 7));
            if (column == "sequence") nowAt = changed.toLongLong();
        }
        if (!sql.run(set, {changed}).isEmpty()) continue; // e.g. a number that is taken: nothing was changed
        const auto misfit = store.verify();
        QVERIFY2(misfit, qPrintable(QStringLiteral("event %1, %2, byte %3: not found").arg(n).arg(column).arg(i)));
        if (column != "sequence") QCOMPARE(misfit->sequence, n);
        else QVERIFY(misfit->sequence == n || misfit->sequence == nowAt); // it is missing, or stands where none can
        const QString back = QStringLiteral("UPDATE event SET %1 = %2 WHERE sequence = %3").arg(column, text ? "CAST(? AS TEXT)" : "?").arg(nowAt);
        QCOMPARE(sql.run(back, {original}), QString());
    }
}

void TamperTest::everyByteOfEveryColumn_data() {
    QTest::addColumn<QString>("column");
    for (const QString& column : columns) QTest::newRow(qPrintable(column)) << column;
}

void TamperTest::everyByteOfEveryColumn() {
    QFETCH(QString, column);
    const Folder folder;
    const int count = longRun() ? 30 : 24; // the work grows with the square
    fill(folder.file(), count);
    Sql sql(folder.file());
    sql.unlockEvents();
    QCOMPARE(sql.run(QStringLiteral("PRAGMA synchronous = OFF")), QString());
    const auto store = opened(folder.file(), true);
    QVERIFY(store);
    for (int n = 1; n <= count; ++n) {
        flipValue(sql, **store, n, column);
        if (QTest::currentTestFailed()) return;
    }
    QVERIFY(!(*store)->verify());
}

void TamperTest::rowsTakenOutOrExchanged() {
    const Folder folder;
    fill(folder.file(), 10);
    Sql sql(folder.file());
    sql.unlockEvents();
    const auto store = opened(folder.file(), true);
    QCOMPARE(sql.run("DELETE FROM event WHERE sequence = 10"), QString());
    QCOMPARE((*store)->verify()->sequence, 10); // this station has seen it
    QCOMPARE(sql.run("UPDATE event SET sequence = 99 WHERE sequence = 4"), QString());
    QCOMPARE(sql.run("UPDATE event SET sequence = 4 WHERE sequence = 5"), QString());
    QCOMPARE(sql.run("UPDATE event SET sequence = 5 WHERE sequence = 99"), QString());
    QCOMPARE((*store)->verify()->sequence, 4);
    QCOMPARE(sql.run("DELETE FROM event WHERE sequence = 2"), QString());
    QCOMPARE((*store)->verify()->sequence, 2);
    QVERIFY((*store)->verify()->reason.contains("missing"));
    QCOMPARE(sql.run("DELETE FROM event WHERE sequence = 1"), QString());
    QCOMPARE((*store)->verify()->sequence, 1);
}

// The chain alone cannot tell; a hash printed earlier on a record can, and every later hash changes.
void TamperTest::aForgerWhoRecomputesEverything() {
    const Folder folder;
    fill(folder.file(), 6);
    QByteArray printed;
    QVERIFY((*opened(folder.file(), true))->read(0, [&](const Event& e) { printed = e.hash; return e.sequence < 5; }));
    Sql sql(folder.file());
    sql.unlockEvents();
    QByteArray hash = genesisHash(fleet);
    for (int n = 1; n <= 6; ++n) {
        Event e = numbered(n);
        e.sequence = n;
        if (n == 3) e.who = QStringLiteral("XX");
        const QByteArray canonical = *canonicalBytes(e);
        hash = chainedHash(hash, canonical);
        QCOMPARE(sql.run("UPDATE event SET who = ?, canonical = ?, hash = ? WHERE sequence = ?", {e.who.isNull() ? QString("") : e.who, canonical, hash, n}), QString());
    }
    QVERIFY(!verdict(folder.file()));
    bool found = false;
    QVERIFY((*opened(folder.file(), true))->read(0, [&](const Event& e) { found |= e.hash == printed; return true; }));
    QVERIFY(!found);
}

void TamperTest::everyByteOfTheFile() {
    const Folder folder;
    fill(folder.file(), 24);
    QVERIFY(!QFileInfo::exists(folder.file() + "-wal")); // closed cleanly: all is in the one file
    const QByteArray good = bytesOf(folder.file());
    std::vector<std::pair<qint64, QByteArray>> stored;
    {
        Sql sql(folder.file());
        for (int n = 1; n <= 24; ++n)
            stored.emplace_back(n, sql.value(QStringLiteral("SELECT canonical FROM event WHERE sequence = %1").arg(n)).toByteArray());
    }
    const QString copy = folder.file(QStringLiteral("copy.sqlite"));
    int named = 0;
    for (const auto& [n, canonical] : stored) {
        const qsizetype at = good.indexOf(canonical);
        QVERIFY(at > 0);
        const qsizetype length = canonical.size() + 32; // the hash stands behind it
        for (qsizetype i = 0; i < length; i += longRun() ? 2 : 7) {
            QByteArray bad = good;
            bad[at + i] = static_cast<char>(bad[at + i] ^ 0x20);
            writeBytes(copy, bad);
            const auto misfit = verdict(copy);
            QVERIFY2(misfit && misfit->sequence == n, qPrintable(QStringLiteral("event %1, byte %2").arg(n).arg(i)));
            ++named;
        }
    }
    QVERIFY(named > 24 * 20);
    // Anywhere else: found, or the events are all untouched.
    QRandomGenerator random(20260302);
    for (int i = 0; i < (longRun() ? 3000 : 800); ++i) {
        QByteArray bad = good;
        const qsizetype at = static_cast<qsizetype>(random.bounded(static_cast<quint32>(good.size())));
        bad[at] = static_cast<char>(bad[at] ^ (1 << random.bounded(8)));
        writeBytes(copy, bad);
        if (verdict(copy)) continue;
        const auto store = opened(copy, true);
        QByteArray hash;
        QCOMPARE(*(*store)->read(0, [&](const Event& e) { hash = e.hash; return true; }), 24);
        QVERIFY2(hash == (*opened(folder.file(), true))->lastHash(), qPrintable(QString::number(at)));
    }
}

void TamperTest::truncatedFiles() {
    const Folder folder;
    fill(folder.file(), 24);
    const QByteArray good = bytesOf(folder.file());
    const QString copy = folder.file(QStringLiteral("copy.sqlite"));
    for (qsizetype size = 1; size < good.size(); size += longRun() ? 61 : 509) {
        writeBytes(copy, good.left(size));
        for (const bool readOnly : {true, false}) {
            const auto store = opened(copy, readOnly);
            if (!store) {
                QVERIFY2(store.error().rule == "ledger-damaged" || store.error().rule == "ledger-foreign", qPrintable(store.error().rule));
                QVERIFY(!store.error().remedy.isEmpty());
            } else {
                QVERIFY2((*store)->verify(), qPrintable(QString::number(size)));
            }
        }
    }
}

void TamperTest::readRefusesWhatItCannotRead() {
    const Folder folder;
    fill(folder.file(), 5);
    Sql sql(folder.file());
    sql.unlockEvents();
    const auto store = opened(folder.file(), true);
    const auto readAll = [&] { return (*store)->read(0, [](const Event&) { return true; }); };
    QCOMPARE(*readAll(), 5);
    QCOMPARE(sql.run("UPDATE event SET kind = 'nothing' WHERE sequence = 4"), QString());
    QCOMPARE(readAll().error().rule, QStringLiteral("ledger-damaged"));
    QVERIFY(readAll().error().reason.contains("event 4"));
    QCOMPARE(sql.run("UPDATE event SET canonical = CAST('{}' AS BLOB) WHERE sequence = 3"), QString());
    QVERIFY(readAll().error().reason.contains("event 3"));
    QCOMPARE(sql.run("DELETE FROM event WHERE sequence = 2"), QString());
    QVERIFY(readAll().error().reason.contains("event 2"));
    QVERIFY(readAll().error().reason.contains("missing"));
    QVERIFY(!readAll().error().remedy.isEmpty());
}

INTERLUDE_TEST(TamperTest)
#include "tamper_test.moc"
