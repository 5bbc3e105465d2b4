// The real window on a disk that fails: what could not be kept is said, and no label claims it.
#include "tests/changeover_page/page_driver.h"
#include "tests/failures/disk.h"
#include "tests/harness/run_tests.h"

#include "views/window/foot.h"
#include "views/window/main_window.h"
#include "views/window/message_bar.h"

#include <QTemporaryDir>

using namespace interlude;
using namespace interlude::tests;

class ScreenTest final : public QObject {
    Q_OBJECT
private:
    static QString footSays(const MainWindow& window) {
        QString all;
        for (const QLabel* label : window.findChild<Foot*>()->findChildren<QLabel*>()) all += label->text() + QLatin1Char('\n');
        return all;
    }
    static qint64 eventsIn(const QString& ledger, const QString& fleetId) {
        const auto store = openSqliteStore(ledger, fleetId, {}, true);
        return store ? (*store)->lastSequence() : -1;
    }

private Q_SLOTS:
    void cleanup() { disk::release(); }

    void theScreenNeverClaimsWhatTheDiskDidNotKeep_data() {
        QTest::addColumn<int>("trouble");
        QTest::addColumn<bool>("recovers");
        QTest::newRow("the disk full") << static_cast<int>(disk::Trouble::Full) << true;
        QTest::newRow("an error") << static_cast<int>(disk::Trouble::Error) << false;
    }
    void theScreenNeverClaimsWhatTheDiskDidNotKeep() {
        QFETCH(int, trouble);
        QFETCH(bool, recovers);
        const QTemporaryDir dir;
        const QString ledger = dir.filePath(QStringLiteral("ledger.sqlite"));
        SampleBench sample(ledger);
        MainWindow window(*sample.bench);
        window.show();
        window.showTab(QStringLiteral("changeover"));
        PageDriver d(sample, qobject_cast<ChangeoverPage*>(window.page(QStringLiteral("changeover"))));
        d.choose(QStringLiteral("bay-1"), QStringLiteral("7402"), 1);
        d.start();
        QVERIFY(d.session());
        d.doStep();
        const StepId step = d.desk().shown()->step.id;
        const qint64 number = d.session()->number, before = sample.shop().lastSequence();

        disk::watch(dir.path());
        disk::strike(1, static_cast<disk::Trouble>(trouble), true);
        d.doStep();
        QCoreApplication::processEvents();
        QVERIFY(!disk::struck().isEmpty());
        QVERIFY2(d.message().contains(QStringLiteral("could not be written")), qPrintable(d.message()));
        QVERIFY(sample.shop().session(number)->progress(step).state != StepState::Done);
        QCOMPARE(d.desk().shown()->step.id, step);
        // An act from another page is refused in the bar that every page has.
        QVERIFY(!sample.bench->perform(act::SpoolMoved{QStringLiteral("S-102"), QStringLiteral("cabinet-1"), false}));
        const auto* bar = window.findChild<MessageBar*>();
        QVERIFY(bar->isVisibleTo(&window));
        QVERIFY2(bar->text().contains(QStringLiteral("Not recorded: the ledger could not be written")), qPrintable(bar->text()));
        QCOMPARE(sample.shop().lastSequence(), before);
        QVERIFY(footSays(window).contains(QStringLiteral("event %1").arg(before)));

        disk::heal();
        QCOMPARE(eventsIn(ledger, sample.catalogue->fleet.id), before);
        d.doStep();
        QCOMPARE(sample.shop().session(number)->progress(step).state == StepState::Done, recovers);
        QVERIFY2(d.message().contains(QStringLiteral("could not be written")) != recovers, qPrintable(d.message()));
        QCOMPARE(eventsIn(ledger, sample.catalogue->fleet.id), sample.shop().lastSequence());
        QVERIFY(footSays(window).contains(QStringLiteral("event %1").arg(sample.shop().lastSequence())));
    }
};
INTERLUDE_TEST(ScreenTest)
#include "screen_test.moc"
