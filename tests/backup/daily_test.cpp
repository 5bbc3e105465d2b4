// The daily backup: made once a day, the last n kept, and a warning when the last one is old.
#include "app/verbs/daily_backup.h"
#include "tests/backup/small_fleet.h"
#include "tests/changeover_page/sample_bench.h"
#include "tests/harness/run_tests.h"

#include <QSignalSpy>

using namespace interlude;
using namespace interlude::tests;

namespace {
const QTimeZone utc("UTC");
Instant day(int n) { return monday + std::chrono::hours(24 * n); }
} // namespace

class DailyTest final : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void whereDailyBackupsLie() {
        Fleet fleet;
        QCOMPARE(dailyRule(fleet, "/shop", "/data/l.sqlite").folder, QStringLiteral("/data/l.sqlite.backups"));
        QCOMPARE(dailyRule(fleet, "/shop", "/data/l.sqlite").keep, 7);
        fleet.backupFolder = "../kept";
        fleet.backupKeep = 2;
        QCOMPARE(dailyRule(fleet, "/shop", "/data/l.sqlite").folder, QStringLiteral("/kept"));
        fleet.backupFolder = "/mnt/other";
        QCOMPARE(dailyRule(fleet, "/shop", "/data/l.sqlite").folder, QStringLiteral("/mnt/other"));
        fleet.backupFolder = "~/b";
        QCOMPARE(dailyRule(fleet, "/shop", "/data/l.sqlite").folder, QDir::homePath() + "/b");
    }
    void oneADayAndTheOldestGo() {
        const Folder f;
        fill(f.file(), 3);
        const DailyRule rule{f.file("d"), 3};
        QVERIFY(QDir().mkpath(f.file("d/my-own-copy")));
        QVERIFY(QDir().mkpath(f.file("d/two-printers-2020-01-01"))); // bears such a name and is no backup
        for (int n = 0; n < 5; ++n) {
            const QString due = dueDaily(rule, fleet, toUtc(day(n)).date());
            QCOMPARE(due, f.file(QStringLiteral("d/two-printers-2026-03-0%1").arg(2 + n)));
            const auto made = makeDaily(rule, sourceOf(f.file(), day(n)), due);
            QVERIFY2(made, made ? "" : qPrintable(sentence(made.error())));
            QVERIFY(dueDaily(rule, fleet, toUtc(day(n)).date()).isEmpty());
            QCOMPARE(lastBackup(f.file())->folder, due);
        }
        QCOMPARE(below(f.file("d")), QStringList({"my-own-copy", "two-printers-2020-01-01", "two-printers-2026-03-04",
                                                  "two-printers-2026-03-05", "two-printers-2026-03-06"}));
        for (const char* name : {"d/two-printers-2026-03-04", "d/two-printers-2026-03-06"}) QVERIFY(verifyBackup(f.file(name)));
        QVERIFY(dueDaily({f.file("d"), 0}, fleet, QDate(2026, 4, 1)).isEmpty());
    }
    void aBackupUnderAnEarlierDateIsNotTheOldest() {
        const Folder f;
        fill(f.file(), 3);
        const DailyRule rule{f.file("d"), 2};
        for (const int n : {10, 11}) QVERIFY(makeDaily(rule, sourceOf(f.file(), day(n)), dueDaily(rule, fleet, toUtc(day(n)).date())));
        // The machine's clock was set back: what is made now is new all the same.
        const QString due = dueDaily(rule, fleet, toUtc(day(0)).date());
        QVERIFY(makeDaily(rule, sourceOf(f.file(), day(0)), due));
        QVERIFY(verifyBackup(due));
        QVERIFY(dueDaily(rule, fleet, toUtc(day(0)).date()).isEmpty());
        QCOMPARE(below(f.file("d")).size(), 2);
    }
    void aFailedBackupDeletesNone() {
        const Folder f;
        fill(f.file(), 3);
        const DailyRule rule{f.file("d"), 1};
        QVERIFY(makeDaily(rule, sourceOf(f.file()), f.file("d/two-printers-2026-03-02")));
        BackupSource wrong = sourceOf(f.file());
        wrong.ledger = f.file("nothing.sqlite");
        QVERIFY(!makeDaily(rule, wrong, f.file("d/two-printers-2026-03-03")));
        QCOMPARE(below(f.file("d")), QStringList{"two-printers-2026-03-02"});
        QVERIFY(verifyBackup(f.file("d/two-printers-2026-03-02")));
    }
    void anOldBackupIsWarnedOf() {
        const Folder f;
        auto store = opened(f.file());
        QVERIFY(!oldBackup(**store, {}, utc)); // nothing to lose yet
        QVERIFY((*store)->append(at(day(0))));
        const auto never = oldBackup(**store, {}, utc);
        QVERIFY(never && never->warning);
        QVERIFY(never->what.contains("no backup"));
        QVERIFY(never->right.contains("interlude backup"));
        const auto note = makeBackup(sourceOf(f.file()), f.file("b"));
        QVERIFY(note);
        QVERIFY(!oldBackup(**store, *note, utc));
        // Days on which nobody worked do not count: the fourth is the third day of use.
        for (const int n : {0, 1, 1, 9}) QVERIFY((*store)->append(at(day(n))));
        const auto third = oldBackup(**store, *note, utc);
        QVERIFY(third);
        QVERIFY2(third->what.contains("2026-03-02") && third->what.contains("more than 2 days"), qPrintable(third->what));
        QVERIFY(!oldBackup(**store, *makeBackup(sourceOf(f.file()), f.file("c")), utc));
    }
    void twoDaysOfUseAreNotOld() {
        const Folder f;
        auto store = opened(f.file());
        QVERIFY((*store)->append(at(day(0))));
        const auto note = makeBackup(sourceOf(f.file()), f.file("b"));
        for (const int n : {5, 5, 8}) QVERIFY((*store)->append(at(day(n))));
        QVERIFY(!oldBackup(**store, *note, utc));
    }
    void aBackupOfAnotherChainIsNone() {
        const Folder f, other;
        fill(f.file(), 4);
        auto store = opened(other.file());
        for (int n = 11; n < 16; ++n) QVERIFY((*store)->append(numbered(n)));
        const auto note = makeBackup(sourceOf(f.file()), f.file("b"));
        QVERIFY(oldBackup(**store, *note, utc));
    }

    void theWindowMakesItsBackupByItself() {
        const Folder f;
        SampleBench sample(f.file());
        app::DailyBackup daily(*sample.workbench, QStringLiteral(INTERLUDE_SOURCE_DIR "/sample-fleet"), f.file(), sample.clock);
        daily.look();
        QVERIFY(daily.isBusy());
        QVERIFY(sample.bench->perform(act::SpoolMoved{QStringLiteral("S-102"), QStringLiteral("cabinet-1"), false})); // nobody waits for it
        QTRY_VERIFY(!daily.isBusy());
        QVERIFY2(daily.problems().isEmpty(), daily.problems().isEmpty() ? "" : qPrintable(daily.problems().first().text()));
        const QStringList made = below(f.file("ledger.sqlite.backups"));
        QCOMPARE(made, QStringList{"northern-yard-2026-05-04"});
        const auto note = verifyBackup(f.file("ledger.sqlite.backups/" + made.first()));
        QVERIFY(note);
        QVERIFY(note->sums.contains("fleet/procedures.yaml"));
        daily.look(); // the same day: nothing to do
        QVERIFY(!daily.isBusy());
        sample.advance(std::chrono::hours(24));
        daily.look();
        QTRY_VERIFY(!daily.isBusy());
        QCOMPARE(below(f.file("ledger.sqlite.backups")).size(), 2);
    }
    void aBackupThatFailsIsAProblemInTheList() {
        const Folder f;
        SampleBench sample(f.file());
        writeBytes(f.file("ledger.sqlite.backups"), "a file stands where the folder should be");
        app::DailyBackup daily(*sample.workbench, QStringLiteral(INTERLUDE_SOURCE_DIR "/sample-fleet"), f.file(), sample.clock);
        QSignalSpy told(&daily, &app::DailyBackup::problemsChanged);
        daily.look();
        QTRY_COMPARE(told.size(), 1);
        QCOMPARE(daily.problems().size(), 2);
        QVERIFY(daily.problems().at(0).what.contains("could not be made"));
        QVERIFY(daily.problems().at(1).what.contains("no backup"));
        QVERIFY(QFile::remove(f.file("ledger.sqlite.backups")));
        sample.advance(std::chrono::hours(24));
        daily.look();
        QTRY_COMPARE(told.size(), 2);
        QVERIFY(daily.problems().isEmpty());
    }
};
INTERLUDE_TEST(DailyTest)
#include "daily_test.moc"
