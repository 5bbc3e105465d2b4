// Every call of a backup and of a restore fails, and the power goes at every change: a backup that bears its name verifies,
// and in the ledger's place is the old one, the new one, or nothing that could be taken for a ledger.
#include "model/backup/restore.h"
#include "tests/failures/disk.h"
#include "tests/harness/run_tests.h"
#include "tests/ledger/fixture.h"

#include <QDirIterator>

using namespace interlude;
using namespace interlude::tests;

namespace {

const Instant when = instantFromMs(1772500000000);
constexpr int inBackup = 12, afterBackup = 5;

BackupSource source(const QString& ledger) {
    return {fleet, ledger, {{QStringLiteral("fleet.yaml"), QStringLiteral("format: 1\n")}, {QStringLiteral("bay-1.csv"), QStringLiteral("from,to\n")}}, {}, when};
}

struct Place {
    QTemporaryDir dir;
    QString ledger() const { return dir.filePath(QStringLiteral("ledger.sqlite")); }
    QString backup() const { return dir.filePath(QStringLiteral("kept/b1")); }
};

/// A ledger, its backup, and some events that came later.
void prepare(const Place& place) {
    fill(place.ledger(), inBackup);
    const auto made = makeBackup(source(place.ledger()), place.backup());
    QVERIFY2(made, made ? "" : qPrintable(sentence(made.error())));
    auto store = opened(place.ledger());
    QVERIFY(store);
    for (int n = 1; n <= afterBackup; ++n) QVERIFY((*store)->append(numbered(inBackup + n)));
}

void damage(const QString& ledger) {
    QByteArray bytes = bytesOf(ledger);
    bytes.replace(0, 100, QByteArray(100, 'x'));
    writeBytes(ledger, bytes);
}

RestoreRequest request(const Place& place) {
    return {place.backup(), place.ledger(), fleet, QStringLiteral("bench-1"), when, true};
}

QString unclear(const Finding& f) {
    return f.reason.isEmpty() || f.remedy.isEmpty() ? QStringLiteral("an unclear refusal: ") + f.rule + sentence(f) : QString();
}

/// Where the ledger stands when it is opened; −1 with the reason in `why` when it does not open.
qint64 eventsAt(const QString& ledger, QString& why) {
    const auto at = verifiedPosition(ledger, fleet);
    if (at) return at->events;
    why = at.error().rule;
    return -1;
}

/// What must hold in a folder in which a restore was disturbed. `wasDamaged`: the old ledger could not be opened.
QString afterRestore(const QString& folder, bool wasDamaged) {
    const QString ledger = folder + QStringLiteral("/ledger.sqlite");
    QString why;
    const qint64 events = eventsAt(ledger, why);
    const bool restored = events == inBackup, old = wasDamaged ? events < 0 && why == QStringLiteral("ledger-foreign") : events == inBackup + afterBackup;
    // In between nothing opens, and nothing new is begun.
    const auto begun = opened(ledger);
    const bool between = wasDamaged && !begun && begun.error().rule == QStringLiteral("ledger-restoring");
    if (!restored && !old && !between) return QStringLiteral("there is something else in the ledger's place: %1 events, %2").arg(events).arg(why);
    if (!restored) return {};
    for (const QFileInfo& f : QDir(folder).entryInfoList({QStringLiteral("ledger.sqlite.before-restore-*Z")}, QDir::Files))
        if (wasDamaged ? bytesOf(f.filePath()).startsWith("xxx") : eventsAt(f.filePath(), why) == inBackup + afterBackup) return {};
    return QStringLiteral("the old ledger was not kept aside");
}

} // namespace

class BackupTroubleTest final : public QObject {
    Q_OBJECT
private:
    static void troubles() {
        QTest::addColumn<int>("trouble");
        QTest::addColumn<bool>("onwards");
        QTest::newRow("an error, once") << static_cast<int>(disk::Trouble::Error) << false;
        QTest::newRow("an error, from then on") << static_cast<int>(disk::Trouble::Error) << true;
        QTest::newRow("the disk full, once") << static_cast<int>(disk::Trouble::Full) << false;
        QTest::newRow("the disk full, from then on") << static_cast<int>(disk::Trouble::Full) << true;
        QTest::newRow("the power goes") << static_cast<int>(disk::Trouble::Power) << true;
    }
    static QString whole(const QString& folder) {
        if (!QFileInfo::exists(folder)) return {};
        const auto good = verifyBackup(folder);
        return good ? QString() : QStringLiteral("a backup bears its name and does not verify: ") + sentence(good.error());
    }

private Q_SLOTS:
    void cleanup() { disk::release(); }

    void aBackupThatHasItsNameIsWhole_data() { troubles(); }
    void aBackupThatHasItsNameIsWhole() {
        QFETCH(int, trouble);
        QFETCH(bool, onwards);
        std::mt19937 random(15);
        int n = 0, refused = 0;
        for (bool struck = true; struck;) {
            const Place place;
            fill(place.ledger(), inBackup);
            disk::watch(place.dir.path());
            disk::strike(++n, static_cast<disk::Trouble>(trouble), onwards);
            const auto made = makeBackup(source(place.ledger()), place.backup());
            struck = !disk::struck().isEmpty();
            const QString where = QStringLiteral("change %1 (%2): ").arg(n).arg(disk::struck());
            if (!made) QVERIFY2(unclear(made.error()).isEmpty(), qPrintable(where + unclear(made.error())));
            refused += !made;
            if (trouble == static_cast<int>(disk::Trouble::Power)) {
                for (const disk::Loss loss : {disk::Loss::All, disk::Loss::None, disk::Loss::Torn}) {
                    const QTemporaryDir image;
                    disk::leave(image.path(), loss, random);
                    const QString folder = image.filePath(QStringLiteral("kept/b1"));
                    QVERIFY2(whole(folder).isEmpty(), qPrintable(where + whole(folder)));
                    // What was said to be made is there, whatever was lost.
                    if (made) QVERIFY2(QFileInfo::exists(folder), qPrintable(where + QStringLiteral("the backup is gone")));
                }
            }
            disk::release();
            QVERIFY2(made || trouble == static_cast<int>(disk::Trouble::Power) || !QFileInfo::exists(place.backup()) || whole(place.backup()).isEmpty(),
                     qPrintable(where + QStringLiteral("refused, and something was left under its name")));
            QString why;
            QCOMPARE(eventsAt(place.ledger(), why), inBackup);
            // The next attempt is not hindered by what the first one left.
            if (!QFileInfo::exists(place.backup())) QVERIFY2(makeBackup(source(place.ledger()), place.backup()), qPrintable(where));
        }
        QVERIFY(refused > 10);
        qInfo("%d of %d calls made the backup fail", refused, n - 1);
    }

    void aDisturbedRestoreLeavesTheOldLedgerOrTheNew_data() {
        QTest::addColumn<bool>("damaged");
        QTest::addColumn<int>("trouble");
        QTest::addColumn<bool>("onwards");
        for (const bool damaged : {false, true})
            for (const bool onwards : {false, true})
                for (const auto& [name, t] : {std::pair("an error", disk::Trouble::Error), std::pair("the disk full", disk::Trouble::Full),
                                              std::pair("the power goes", disk::Trouble::Power)})
                    if (t != disk::Trouble::Power || onwards)
                        QTest::addRow("%s ledger, %s, %s", damaged ? "damaged" : "good", name, onwards ? "from then on" : "once")
                            << damaged << static_cast<int>(t) << onwards;
    }
    void aDisturbedRestoreLeavesTheOldLedgerOrTheNew() {
        QFETCH(bool, damaged);
        QFETCH(int, trouble);
        QFETCH(bool, onwards);
        std::mt19937 random(16);
        int n = 0, refused = 0;
        for (bool struck = true; struck;) {
            const Place place;
            prepare(place);
            if (damaged) damage(place.ledger());
            disk::watch(place.dir.path());
            disk::strike(++n, static_cast<disk::Trouble>(trouble), onwards);
            const auto done = restoreLedger(request(place));
            struck = !disk::struck().isEmpty();
            const QString where = QStringLiteral("change %1 (%2): ").arg(n).arg(disk::struck());
            if (!done) QVERIFY2(unclear(done.error()).isEmpty(), qPrintable(where + unclear(done.error())));
            refused += !done;
            QString wrong;
            if (trouble == static_cast<int>(disk::Trouble::Power)) {
                for (const disk::Loss loss : {disk::Loss::All, disk::Loss::None, disk::Loss::Torn}) {
                    const QTemporaryDir image;
                    disk::leave(image.path(), loss, random);
                    wrong = afterRestore(image.path(), damaged);
                    QVERIFY2(wrong.isEmpty(), qPrintable(where + QString::number(static_cast<int>(loss)) + QStringLiteral(": ") + wrong));
                }
                disk::release();
            } else {
                disk::heal();
                wrong = afterRestore(place.dir.path(), damaged);
                QVERIFY2(wrong.isEmpty(), qPrintable(where + wrong));
                disk::release();
            }
            // Once more, on a good disk.
            const auto again = restoreLedger(request(place));
            QVERIFY2(again, again ? "" : qPrintable(where + sentence(again.error())));
            QString why;
            QCOMPARE(eventsAt(place.ledger(), why), inBackup);
        }
        QVERIFY(refused > 5);
        qInfo("%d of %d calls made the restore fail", refused, n - 1);
    }
};
INTERLUDE_TEST(BackupTroubleTest)
#include "backup_trouble_test.moc"
