// Every write, sync, open, cut and delete of a scripted changeover fails, one after the other: alone, and with all that
// follow. Each act is then either durable or refused with a clear message; the shop in memory is the one in the file.
#include "tests/failures/shift.h"
#include "tests/harness/run_tests.h"

#include <QElapsedTimer>
#include <QFile>
#include <QTemporaryDir>
#include <QTest>

using namespace interlude::tests;

namespace {

/// A folder with an opened ledger in it, watched and about to fail.
class Bench {
public:
    Bench(int nth, disk::Trouble trouble, bool onwards, unsigned calls) {
        QFile file(ledger());
        if (!file.open(QIODevice::WriteOnly) || file.write(openedLedger()) != openedLedger().size()) qFatal("no room for the test");
        file.close();
        disk::watch(m_dir.path());
        disk::strike(nth, trouble, onwards, calls);
    }
    ~Bench() { disk::release(); }
    QString ledger() const { return ledgerIn(m_dir.path()); }

private:
    QTemporaryDir m_dir;
};

} // namespace

class EveryCallTest final : public QObject {
    Q_OBJECT
private:
    /// How many calls of these kinds a shift without trouble makes.
    static int callsOfAShift(unsigned calls) {
        const Bench bench(0, disk::Trouble::Error, false, calls);
        Claim claim;
        const QString wrong = work(bench.ledger(), claim);
        if (!wrong.isEmpty() || !claim.done) qFatal("the shift without trouble: %s", qPrintable(wrong));
        return disk::count(calls);
    }

private Q_SLOTS:
    void cleanup() { disk::release(); }

    void oneShiftWithoutTrouble() {
        const Bench bench(0, disk::Trouble::Error, false, disk::Changes);
        Claim claim;
        QElapsedTimer timer;
        timer.start();
        QCOMPARE(work(bench.ledger(), claim), QString());
        const qint64 took = timer.elapsed();
        QVERIFY(claim.done);
        QCOMPARE(claim.refused, 0);
        QCOMPARE(look(bench.ledger(), claim), QString());
        qInfo("%d acts, %lld events; %d writes, %d syncs, %d opens, %d cuts, %d deletes, %d reads; %lld ms", claim.confirmed,
              static_cast<long long>(claim.sequence), disk::count(disk::Write), disk::count(disk::Sync), disk::count(disk::Open),
              disk::count(disk::Truncate), disk::count(disk::Name), disk::count(disk::Read), static_cast<long long>(took));
    }

    void eachActIsDurableOrRefused_data() {
        QTest::addColumn<int>("trouble");
        QTest::addColumn<bool>("onwards");
        QTest::addColumn<unsigned>("calls");
        const auto row = [](const char* name, disk::Trouble t, bool onwards, unsigned calls) {
            QTest::addRow("%s", name) << static_cast<int>(t) << onwards << calls;
        };
        row("an error, once", disk::Trouble::Error, false, disk::Changes);
        row("an error, from then on", disk::Trouble::Error, true, disk::Changes);
        row("the disk full, once", disk::Trouble::Full, false, disk::Changes);
        row("the disk full, from then on", disk::Trouble::Full, true, disk::Changes);
        row("no sync, once", disk::Trouble::Error, false, disk::Sync);
        row("no sync, from then on", disk::Trouble::Error, true, disk::Sync);
        row("no right to open, once", disk::Trouble::Forbidden, false, disk::Open);
        row("no right to open, from then on", disk::Trouble::Forbidden, true, disk::Open);
        row("unreadable, once", disk::Trouble::Error, false, disk::Read);
        row("unreadable, from then on", disk::Trouble::Error, true, disk::Read);
    }
    void eachActIsDurableOrRefused() {
        QFETCH(int, trouble);
        QFETCH(bool, onwards);
        QFETCH(unsigned, calls);
        const int all = callsOfAShift(calls);
        QVERIFY(all > 3);
        const int step = longRun() ? 1 : std::max(1, all / 25);
        int struck = 0, refused = 0, unsure = 0;
        for (int n = 1; n <= all; n += step) {
            const Bench bench(n, static_cast<disk::Trouble>(trouble), onwards, calls);
            Claim claim;
            QString wrong = work(bench.ledger(), claim);
            const QString where = QStringLiteral("call %1 of %2 (%3): ").arg(n).arg(all).arg(disk::struck());
            QVERIFY2(wrong.isEmpty(), qPrintable(where + wrong));
            QVERIFY2(!disk::struck().isEmpty(), qPrintable(where + QStringLiteral("was never made")));
            disk::heal();
            wrong = look(bench.ledger(), claim);
            QVERIFY2(wrong.isEmpty(), qPrintable(where + wrong));
            if (n % 7 == 0) QVERIFY2((wrong = carryOn(bench.ledger())).isEmpty(), qPrintable(where + wrong));
            ++struck;
            refused += claim.refused > 0;
            unsure += claim.unsure;
        }
        qInfo("%d of %d calls failed; acts were refused in %d shifts, in %d of them it was not known what the disk held", struck, all,
              refused, unsure);
    }
};
INTERLUDE_TEST(EveryCallTest)
#include "every_call_test.moc"
