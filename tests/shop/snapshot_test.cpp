// A shop opened with a snapshot is the shop of the whole ledger, whatever happens to the snapshot.

#include "model/shop/snapshot/snapshot.h"
#include "tests/harness/run_tests.h"
#include "tests/shop/random_history.h"

#include <QDir>
#include <QFile>
#include <QSqlQuery>
#include <QTemporaryDir>

using namespace interlude;
using namespace interlude::tests;

namespace {

/// A ledger in memory that outlives its workbench, and counts what is read of it.
struct Shelf {
    std::shared_ptr<EventStore> kept = makeMemoryStore(QStringLiteral("tiny"));
    mutable qint64 read = 0;
    void copyTo(Shelf& other) const {
        (void)kept->read(0, [&](const Event& e) { return other.kept->append(e).has_value(); });
    }
};
class Borrowed final : public EventStore {
public:
    explicit Borrowed(const Shelf& shelf) : m_shelf(shelf) {}
    qint64 lastSequence() const override { return m_shelf.kept->lastSequence(); }
    QByteArray lastHash() const override { return m_shelf.kept->lastHash(); }
    Outcome<Event> append(Event e) override { return m_shelf.kept->append(std::move(e)); }
    Outcome<qint64> read(qint64 after, const std::function<bool(const Event&)>& each) const override {
        return m_shelf.kept->read(after, [&](const Event& e) {
            ++m_shelf.read;
            return each(e);
        });
    }
    std::optional<Misfit> verify() const override { return m_shelf.kept->verify(); }
    QString location() const override { return QStringLiteral("a shelf"); }

private:
    const Shelf& m_shelf;
};

class SnapshotPlace {
public:
    QString file() const { return m_dir.filePath(QStringLiteral("tiny.sqlite.snapshot")); }
    /// Changes the file behind the program's back.
    void tamper(const QString& statement) const {
        sqlite::Connection connection(file(), false);
        QVERIFY(connection.database.open());
        QSqlQuery query(connection.database);
        QVERIFY2(query.exec(statement), qPrintable(statement));
    }
    void replace(const QByteArray& content) const {
        for (const char* end : {"-wal", "-shm"})
            QFile::remove(file() + QString::fromLatin1(end));
        QFile f(file());
        QVERIFY(f.open(QIODevice::WriteOnly));
        f.write(content);
    }

private:
    QTemporaryDir m_dir;
};

std::unique_ptr<Workbench> open(const Shelf& shelf, const Clock& clock, const QString& file) {
    auto bench = Workbench::open(tinyCatalogue(), std::make_unique<Borrowed>(shelf), clock, QStringLiteral("bench"), file);
    if (!bench)
        qFatal("open: %s", qUtf8Printable(sentence(bench.error())));
    return std::move(*bench);
}

std::unique_ptr<Workbench> look(const Shelf& shelf, const Clock& clock, const QString& file) {
    auto bench = Workbench::look(tinyCatalogue(), std::make_unique<Borrowed>(shelf), clock, file);
    if (!bench)
        qFatal("look: %s", qUtf8Printable(sentence(bench.error())));
    return std::move(*bench);
}

/// The whole ledger folded with everything at hand.
QByteArray folded(const Shelf& shelf) {
    Shop shop(tinyCatalogue());
    (void)shelf.kept->read(0, [&](const Event& e) {
        if (const auto done = shop.apply(e); !done)
            qFatal("fold: %s", qUtf8Printable(sentence(done.error())));
        return true;
    });
    return World::digestOf(shop);
}

constexpr qsizetype page = 4096, frame = page + 24; // of SQLite's file, and of its log after 32 bytes

QByteArray contentOf(const QString& file) {
    QFile f(file);
    return f.open(QIODevice::ReadOnly) ? f.readAll() : QByteArray();
}

void writeTo(const QString& file, const QByteArray& content) {
    QFile f(file);
    QVERIFY(f.open(QIODevice::WriteOnly));
    f.write(content);
}

/// Lengths to which a file of so many bytes may be cut: a byte before and after borders of its pieces, and between them.
QList<qsizetype> cuts(qsizetype size, qsizetype piece, qsizetype head) {
    QList<qsizetype> out{0, 1, 16, 31, 99};
    const qsizetype pieces = (size - head) / piece, step = std::max<qsizetype>(1, pieces / 2);
    for (qsizetype i = 0; i < pieces; i += step)
        for (const qsizetype beside : {qsizetype(-1), qsizetype(1), piece / 2})
            if (const qsizetype length = head + i * piece + beside; length >= 0 && length < size) out.append(length);
    return out;
}

/// A shop of some history, its snapshot written at the end.
void live(Shelf& shelf, ManualClock& clock, const QString& file, quint32 seed, int acts) {
    const auto bench = open(shelf, clock, file);
    RandomHistory(seed).steps(*bench, clock, acts);
}

} // namespace

class SnapshotTest : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void initTestCase() {
        ManualClock clock(interlude::tests::at(0));
        for (quint32 seed = 5; seed < 8; ++seed)
            live(m_lived, clock, m_livedPlace.file(), seed, 250);
        // Chance has made what there is to be put away of each kind.
        const auto seen = look(m_lived, clock, m_livedPlace.file());
        const Shop& shop = seen->shop();
        const auto finished = [](const SessionSummary& s) { return s.phase == SessionPhase::Finished; };
        const QList<SessionSummary> sessions = shop.sessionList();
        QVERIFY(std::count_if(sessions.begin(), sessions.end(), finished) > 2);
        QVERIFY(shop.allPrints().size() > 2);
        QVERIFY(shop.allJobs().size() > shop.jobs().size());
        QVERIFY(shop.allSpools().size() > shop.stock().spools.size());
        QVERIFY(shop.allNozzles().size() > shop.stock().nozzles.size());
    }

    void givesTheSameShop_data() {
        QTest::addColumn<quint32>("seed");
        for (quint32 seed = 1; seed <= (longRun() ? 12 : 3); ++seed)
            QTest::addRow("%u", seed) << seed;
    }
    void givesTheSameShop() {
        QFETCH(quint32, seed);
        const SnapshotPlace place;
        Shelf shelf;
        ManualClock clock(interlude::tests::at(0));
        RandomHistory history(seed);
        for (int day = 0; day < 6; ++day) {
            const auto bench = open(shelf, clock, place.file());
            QCOMPARE(World::digestOf(bench->shop()), folded(shelf));
            history.steps(*bench, clock, 20 + static_cast<int>(seed * 7 % 90));
            QCOMPARE(World::digestOf(bench->shop()), folded(shelf));
            QCOMPARE(World::digestOf(look(shelf, clock, place.file())->shop()), folded(shelf));
            clock.advance(Minutes(600));
        }
        shelf.read = 0;
        const auto bench = open(shelf, clock, place.file());
        QVERIFY2(shelf.read < 60, qPrintable(QString::number(shelf.read))); // it was the snapshot that was opened
        QVERIFY(bench->shop().lastSession() > bench->shop().sessions().size());
        QVERIFY(!shelf.kept->verify());
    }

    void deletingItCostsNothing() {
        const SnapshotPlace place;
        Shelf shelf;
        ManualClock clock(interlude::tests::at(0));
        live(shelf, clock, place.file(), 3, 200);
        QVERIFY(QFile::exists(place.file()));
        QVERIFY(QFile::remove(place.file()));
        const auto bench = open(shelf, clock, place.file());
        QCOMPARE(World::digestOf(bench->shop()), folded(shelf));
    }

    void whatIsWrongWithItIsFoundOut_data() {
        QTest::addColumn<QString>("statement");
        for (const char* table : {"live", "session", "summary", "print", "job", "spool", "nozzle", "opening"})
            QTest::newRow(table) << QStringLiteral("UPDATE %1 SET bytes = CAST(substr(bytes, 1, 40) || x'07' || substr(bytes, 42) AS BLOB)")
                                        .arg(QString::fromLatin1(table));
        QTest::newRow("another program") << QStringLiteral("UPDATE live SET fingerprint = x'00'");
        QTest::newRow("another chain") << QStringLiteral("UPDATE live SET hash = x'00'");
        QTest::newRow("another event") << QStringLiteral("UPDATE live SET sequence = sequence - 1");
        QTest::newRow("the future") << QStringLiteral("UPDATE live SET sequence = sequence + 1000");
        QTest::newRow("no table") << QStringLiteral("DROP TABLE session");
        QTest::newRow("another layout") << QStringLiteral("PRAGMA user_version = 99");
        QTest::newRow("cut") << QStringLiteral("UPDATE session SET bytes = x'0102'");
    }
    void whatIsWrongWithItIsFoundOut() {
        QFETCH(QString, statement);
        const SnapshotPlace place;
        Shelf shelf;
        ManualClock clock(interlude::tests::at(20000));
        m_lived.copyTo(shelf);
        QVERIFY(QFile::copy(m_livedPlace.file(), place.file()));
        place.tamper(statement);
        {
            const auto bench = open(shelf, clock, place.file());
            QCOMPARE(World::digestOf(bench->shop()), folded(shelf));
            RandomHistory(9).steps(*bench, clock, 60);
            QCOMPARE(World::digestOf(bench->shop()), folded(shelf));
            QCOMPARE(World::digestOf(look(shelf, clock, place.file())->shop()), folded(shelf));
        }
        const auto again = open(shelf, clock, place.file());
        QCOMPARE(World::digestOf(again->shop()), folded(shelf));
    }

    void aFileThatIsNoneIsReplaced() {
        const SnapshotPlace place;
        Shelf shelf;
        ManualClock clock(interlude::tests::at(0));
        live(shelf, clock, place.file(), 4, 120);
        for (const QByteArray& content : {QByteArray(), QByteArray("no database at all"), QByteArray(5000, 'x')}) {
            place.replace(content);
            for (int i = 0; i < 2; ++i) {
                shelf.read = 0;
                const auto bench = open(shelf, clock, place.file());
                QCOMPARE(shelf.read < shelf.kept->lastSequence() / 2, i == 1); // the second time there is a snapshot again
                QCOMPARE(World::digestOf(bench->shop()), folded(shelf));
            }
        }
        // A folder of that name cannot be replaced: then without.
        QVERIFY(QFile::remove(place.file()));
        QVERIFY(QDir().mkpath(place.file() + QStringLiteral("/in")));
        const auto without = open(shelf, clock, place.file());
        QCOMPARE(World::digestOf(without->shop()), folded(shelf));
    }

    void cutAnywhereWhileItIsWrittenTheLedgerCounts_data() {
        QTest::addColumn<bool>("beside");
        QTest::newRow("the file") << false;
        QTest::newRow("what is not yet in it") << true;
    }
    /// A kill, a full disk or a lost cache may end the file, or the log that SQLite keeps beside it, at any byte.
    void cutAnywhereWhileItIsWrittenTheLedgerCounts() {
        QFETCH(bool, beside);
        const SnapshotPlace source;
        Shelf lived;
        ManualClock clock(interlude::tests::at(20000));
        m_lived.copyTo(lived);
        QVERIFY(QFile::copy(m_livedPlace.file(), source.file()));
        QByteArray file, log;
        {
            const auto reader = look(lived, clock, source.file()); // as long as it looks, the log stays beside the file
            live(lived, clock, source.file(), 51, 120);
            file = contentOf(source.file());
            log = contentOf(source.file() + QStringLiteral("-wal"));
        }
        QVERIFY(file.size() > 3 * page && log.size() > 3 * frame);
        const QByteArray whole = folded(lived);
        const auto opens = [&](const QByteArray& main, const QByteArray& wal) {
            const SnapshotPlace place;
            place.replace(main);
            writeTo(place.file() + QStringLiteral("-wal"), wal);
            // Looking adds no event: what is cut must not be believed, and nobody need fold twice to see that.
            const bool right = World::digestOf(look(lived, clock, place.file())->shop()) == whole;
            Shelf mine;
            lived.copyTo(mine);
            const auto bench = open(mine, clock, place.file());
            return right && World::digestOf(bench->shop()) == folded(mine);
        };
        QVERIFY(opens(file, log));
        const QByteArray& cut = beside ? log : file;
        for (const qsizetype length : cuts(cut.size(), beside ? frame : page, beside ? 32 : 0)) {
            const QByteArray left = cut.left(length);
            QVERIFY2(beside ? opens(file, left) : opens(left, log), qPrintable(QStringLiteral("%1 of %2 bytes").arg(length).arg(cut.size())));
            if (!beside) QVERIFY2(opens(left, {}), qPrintable(QStringLiteral("%1 of %2 bytes alone").arg(length).arg(cut.size())));
        }
    }

    void aLedgerFromABackupDoesNotMeetTheFutureOfAnother() {
        const SnapshotPlace place;
        ManualClock clock(interlude::tests::at(0));
        Shelf first, second;
        live(first, clock, place.file(), 11, 200);
        ManualClock back(interlude::tests::at(0));
        live(second, back, {}, 12, 260); // as long or longer, another chain
        const auto bench = open(second, back, place.file());
        QCOMPARE(World::digestOf(bench->shop()), folded(second));
    }

    void aReaderKeepsWhatItFoundWhileTheWindowGoesOn() {
        const SnapshotPlace place;
        Shelf shelf;
        ManualClock clock(interlude::tests::at(0));
        live(shelf, clock, place.file(), 21, 300);
        const auto reader = look(shelf, clock, place.file());
        const QByteArray then = World::digestOf(reader->shop());
        live(shelf, clock, place.file(), 22, 300);
        live(shelf, clock, place.file(), 23, 300);
        QCOMPARE(World::digestOf(reader->shop()), then);
        QCOMPARE(World::digestOf(look(shelf, clock, place.file())->shop()), folded(shelf));
    }

    void aLongLedgerIsPutAwayWhileItIsRead() {
        const SnapshotPlace place;
        Shelf shelf;
        ManualClock clock(interlude::tests::at(0));
        {
            const auto bench = open(shelf, clock, {});
            RandomHistory history(31);
            for (int year = 0; year < 3; ++year) {
                history.steps(*bench, clock, longRun() ? 1500 : 300);
                for (int i = 0; i < 1500; ++i) { // fills it up cheaply
                    QVERIFY(bench->perform(act::AbsenceEntered{{QStringLiteral("often"), 1, clock.now(), clock.now() + Minutes(5), QStringLiteral("tea")}},
                                           QStringLiteral("ML")));
                    QVERIFY(bench->perform(act::AbsenceWithdrawn{QStringLiteral("often")}, QStringLiteral("ML")));
                }
            }
        }
        QVERIFY(shelf.kept->lastSequence() > 8000);
        const QByteArray whole = folded(shelf);
        const auto bench = look(shelf, clock, {});
        QCOMPARE(World::digestOf(bench->shop()), whole);
        {
            const auto first = open(shelf, clock, place.file());
            QCOMPARE(World::digestOf(first->shop()), folded(shelf));
            QVERIFY(first->shop().lastSession() > first->shop().sessions().size());
        }
        const auto again = open(shelf, clock, place.file());
        QCOMPARE(World::digestOf(again->shop()), folded(shelf));
    }

    void aBrokenChainAfterItIsToldAtOpening() {
        const SnapshotPlace place;
        Shelf shelf;
        ManualClock clock(interlude::tests::at(0));
        live(shelf, clock, place.file(), 41, 150);
        // The same ledger, but its last event says something else than what its hash is of.
        class Forged final : public EventStore {
        public:
            explicit Forged(const Shelf& shelf) : m_shelf(shelf) {}
            qint64 lastSequence() const override { return m_shelf.kept->lastSequence(); }
            QByteArray lastHash() const override { return m_shelf.kept->lastHash(); }
            Outcome<Event> append(Event e) override { return m_shelf.kept->append(std::move(e)); }
            Outcome<qint64> read(qint64 after, const std::function<bool(const Event&)>& each) const override {
                return m_shelf.kept->read(after, [&](Event e) {
                    if (e.sequence == lastSequence())
                        e.who = QStringLiteral("XX");
                    return each(e);
                });
            }
            std::optional<Misfit> verify() const override { return m_shelf.kept->verify(); }
            QString location() const override { return QStringLiteral("a forged shelf"); }

        private:
            const Shelf& m_shelf;
        };
        (void)open(shelf, clock, {}); // something after the snapshot
        const auto refused = Workbench::open(tinyCatalogue(), std::make_unique<Forged>(shelf), clock, QStringLiteral("bench"), place.file());
        QVERIFY(!refused);
        QCOMPARE(refused.error().rule, QStringLiteral("ledger-damaged"));
        QVERIFY(refused.error().reason.contains(QString::number(shelf.kept->lastSequence())));
    }

private:
    Shelf m_lived; ///< a ledger with its snapshot, to be copied
    SnapshotPlace m_livedPlace;
};

INTERLUDE_TEST(SnapshotTest)
#include "snapshot_test.moc"
