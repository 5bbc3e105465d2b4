// Opening a ledger that must be read from its beginning: it tells how far it is, and may be stopped without harm.
#include "app/verbs/opened_shop.h"
#include "model/shop/snapshot/snapshot.h"
#include "tests/harness/run_tests.h"

#include <QDir>
#include <QFile>
#include <QTemporaryDir>

using namespace interlude;
using namespace interlude::app;

class LongOpeningTest : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void initTestCase() {
        m_options.folder = QStringLiteral(INTERLUDE_SOURCE_DIR "/sample-fleet");
        m_options.ledger = QStringLiteral("sqlite:") + file();
        const auto bench = openShop(m_options, Access::Write, m_clock);
        QVERIFY(bench);
        for (int i = 0; i < 300; ++i) {
            const act::AbsenceEntered away{{QStringLiteral("often"), 1, bench->now(), bench->now() + Minutes(5), QStringLiteral("tea")}};
            QVERIFY(bench->perform(away, QStringLiteral("ML")).has_value());
            QVERIFY(bench->perform(act::AbsenceWithdrawn{QStringLiteral("often")}, QStringLiteral("ML")).has_value());
        }
        m_events = bench->shop().lastSequence();
    }
    void init() { QFile::remove(Snapshot::fileBeside(file())); }

    void tellsHowFarItIs() {
        QList<std::pair<qint64, qint64>> told;
        const auto bench = openShop(m_options, Access::Write, m_clock, complain, [&](qint64 read, qint64 all) {
            told.append({read, all});
            return true;
        });
        QVERIFY(bench);
        QVERIFY(told.size() >= 2);
        for (const auto& [read, all] : told) QVERIFY(read > 0 && read <= all && all >= m_events);
        QVERIFY(told.first().first < told.last().first);
        // Later readings are nobody's wait.
        const auto before = told.size();
        QVERIFY(bench->store().read(0, [](const Event&) { return true; }).has_value());
        QCOMPARE(told.size(), before);
    }

    void stoppingItLosesNothing() {
        for (const Access access : {Access::Write, Access::Look}) {
            QStringList reasons;
            const auto stopped = openShop(m_options, access, m_clock, [&](const QString& line) { reasons.append(line); },
                                          [](qint64, qint64) { return false; });
            QVERIFY(!stopped);
            QVERIFY2(reasons.isEmpty(), qPrintable(reasons.join('\n'))); // the person knows
        }
        const auto bench = openShop(m_options, Access::Write, m_clock);
        QVERIFY(bench);
        QVERIFY(bench->shop().lastSequence() > m_events);
        QVERIFY(!bench->store().verify());
    }

    void aSnapshotMakesItShort() {
        (void)openShop(m_options, Access::Write, m_clock);
        int told = 0;
        const auto bench = openShop(m_options, Access::Write, m_clock, complain, [&](qint64, qint64) { return ++told > 0; });
        QVERIFY(bench);
        QCOMPARE(told, 0);
    }

private:
    QString file() const { return m_dir.filePath(QStringLiteral("l.sqlite")); }

    QTemporaryDir m_dir;
    SystemClock m_clock;
    FleetOptions m_options;
    qint64 m_events = 0;
};

INTERLUDE_TEST(LongOpeningTest)
#include "long_opening_test.moc"
