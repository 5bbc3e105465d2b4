// The power goes at every n-th change to a file: what was not synced is kept, lost or torn. The ledger opens from what is
// left, verifies, and holds whatever was confirmed. Then trouble again while it recovers.
#include "tests/failures/shift.h"
#include "tests/harness/run_tests.h"

#include <QDirIterator>
#include <QFile>
#include <QTemporaryDir>
#include <QTest>

using namespace interlude::tests;

namespace {

/// A folder with a copy of another one's files.
struct Copy {
    explicit Copy(const QString& from) {
        for (const QFileInfo& file : QDir(from).entryInfoList(QDir::Files | QDir::Hidden)) QFile::copy(file.filePath(), dir.filePath(file.fileName()));
    }
    QTemporaryDir dir;
};

/// What a loss of power at the n-th change leaves.
struct Left {
    Claim claim;
    QString wrong, where;
    std::vector<std::unique_ptr<QTemporaryDir>> images; ///< all lost, none lost, torn, torn otherwise
};

Left loseAt(int n, std::mt19937& random) {
    Left left;
    const QTemporaryDir dir;
    QFile file(ledgerIn(dir.path()));
    if (!file.open(QIODevice::WriteOnly) || file.write(openedLedger()) < 0) qFatal("no room for the test");
    file.close();
    disk::watch(dir.path());
    disk::strike(n, disk::Trouble::Power, true);
    left.wrong = work(ledgerIn(dir.path()), left.claim);
    left.where = QStringLiteral("power lost at change %1 (%2)").arg(n).arg(disk::struck());
    for (const disk::Loss loss : {disk::Loss::All, disk::Loss::None, disk::Loss::Torn, disk::Loss::Torn}) {
        left.images.push_back(std::make_unique<QTemporaryDir>());
        disk::leave(left.images.back()->path(), loss, random);
    }
    disk::release();
    return left;
}

int changesOfAShift() {
    const QTemporaryDir dir;
    QFile file(ledgerIn(dir.path()));
    if (!file.open(QIODevice::WriteOnly) || file.write(openedLedger()) < 0) qFatal("no room for the test");
    file.close();
    disk::watch(dir.path());
    disk::strike(0, disk::Trouble::Error, false);
    Claim claim;
    if (const QString wrong = work(ledgerIn(dir.path()), claim); !wrong.isEmpty()) qFatal("%s", qPrintable(wrong));
    const int all = disk::count();
    disk::release();
    return all;
}

} // namespace

class PowerLossTest final : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void cleanup() { disk::release(); }

    void whatWasConfirmedSurvivesALossOfPowerAtEveryChange() {
        std::mt19937 random(12);
        const int all = changesOfAShift();
        const int step = longRun() ? 1 : std::max(1, all / 40);
        int images = 0, confirmed = 0, more = 0;
        for (int n = 1; n <= all; n += step) {
            Left left = loseAt(n, random);
            QVERIFY2(left.wrong.isEmpty(), qPrintable(left.where + QStringLiteral(": ") + left.wrong));
            for (size_t i = 0; i < left.images.size(); ++i) {
                const QString wrong = look(ledgerIn(left.images[i]->path()), left.claim);
                QVERIFY2(wrong.isEmpty(), qPrintable(QStringLiteral("%1, image %2: %3").arg(left.where).arg(i).arg(wrong)));
                ++images;
            }
            confirmed += left.claim.confirmed;
            if (n % 11 != 0) continue;
            const QString wrong = carryOn(ledgerIn(left.images[static_cast<size_t>(n / 11) % 4]->path()));
            QVERIFY2(wrong.isEmpty(), qPrintable(left.where + QStringLiteral(", next morning: ") + wrong));
            ++more;
        }
        QVERIFY(confirmed > all / step);
        qInfo("power lost at %d of %d changes, %d images opened, %d confirmed acts found again, %d changeovers finished after it",
              (all + step - 1) / step, all, images, confirmed, more);
    }

    /// Recovering is itself work on the disk; each of its calls fails, and each leaves another image.
    void troubleWhileRecoveringFromTrouble_data() {
        QTest::addColumn<int>("trouble");
        QTest::addColumn<bool>("onwards");
        QTest::newRow("an error, once") << static_cast<int>(disk::Trouble::Error) << false;
        QTest::newRow("the disk full, from then on") << static_cast<int>(disk::Trouble::Full) << true;
        QTest::newRow("unreadable, once") << -1 << false;
        QTest::newRow("the power again") << static_cast<int>(disk::Trouble::Power) << true;
    }
    void troubleWhileRecoveringFromTrouble() {
        QFETCH(int, trouble);
        QFETCH(bool, onwards);
        const bool reads = trouble < 0;
        std::mt19937 random(13);
        const int all = changesOfAShift();
        const int cases = longRun() ? 8 : 3;
        int second = 0;
        for (int c = 0; c < cases; ++c) {
            Left left = loseAt(2 + (all - 2) * c / cases, random);
            QVERIFY2(left.wrong.isEmpty(), qPrintable(left.where + QStringLiteral(": ") + left.wrong));
            const QString image = left.images[static_cast<size_t>(c) % 4]->path();
            // Opening, recovery and the first acts: about as many calls as this.
            for (int m = 1; m <= 40; m += longRun() ? 1 : 3) {
                const Copy copy(image);
                disk::watch(copy.dir.path());
                disk::strike(m, reads ? disk::Trouble::Error : static_cast<disk::Trouble>(trouble), onwards,
                             reads ? disk::Read : disk::Changes);
                Claim claim;
                QString wrong = work(ledgerIn(copy.dir.path()), claim);
                const QString where = QStringLiteral("%1, then call %2 (%3): ").arg(left.where).arg(m).arg(disk::struck());
                QVERIFY2(wrong.isEmpty(), qPrintable(where + wrong));
                if (trouble == static_cast<int>(disk::Trouble::Power)) {
                    const QTemporaryDir again;
                    disk::leave(again.path(), static_cast<disk::Loss>(m % 3), random);
                    disk::release();
                    wrong = look(ledgerIn(again.path()), claim);
                    if (wrong.isEmpty() && m % 9 == 0) wrong = carryOn(ledgerIn(again.path()));
                } else {
                    disk::heal();
                    wrong = look(ledgerIn(copy.dir.path()), claim);
                }
                QVERIFY2(wrong.isEmpty(), qPrintable(where + wrong));
                // What had been confirmed before the first trouble is still there after the second.
                if (trouble != static_cast<int>(disk::Trouble::Power)) {
                    Claim first = left.claim;
                    first.state.clear();
                    QVERIFY2((wrong = look(ledgerIn(copy.dir.path()), first)).isEmpty(), qPrintable(where + wrong));
                }
                ++second;
            }
        }
        qInfo("%d second troubles after %d losses of power", second, cases);
    }
};
INTERLUDE_TEST(PowerLossTest)
#include "power_loss_test.moc"
