// The real window on the sample fleet: whole changeovers by keys and scans only and by mouse, and a window that is killed
// half way (SIGKILL of its process) and opened again on the same ledger.

#include "tests/changeover_page/page_driver.h"
#include "tests/harness/accessible.h"
#include "tests/harness/run_tests.h"

#include "views/records/records_page.h"
#include "views/window/main_window.h"

#include <QGraphicsView>
#include <QListWidget>
#include <QProcess>
#include <QRadioButton>
#include <QTemporaryDir>

#include <csignal>
#include <cstdio>
#include <cstdlib>

using namespace interlude;
using namespace interlude::tests;

namespace {

constexpr auto ledgerVariable = "INTERLUDE_DRIVEN_LEDGER";
constexpr auto dieVariable = "INTERLUDE_DRIVEN_DIE_AFTER";
const QString bay = QStringLiteral("bay-1");
const QString job = QStringLiteral("7402");
constexpr int coarse = 1;

/// A window on the sample fleet, its Changeover page, and fingers for both.
struct Driven {
    explicit Driven(const QString& ledger = {}, std::optional<Instant> start = {}) : sample(ledger, start) {
        window = std::make_unique<MainWindow>(*sample.bench);
        window->resize(1366, 768);
        window->show();
        Q_UNUSED(QTest::qWaitForWindowActive(window.get()));
        page = qobject_cast<ChangeoverPage*>(window->page(QStringLiteral("changeover")));
        d = std::make_unique<PageDriver>(sample, page);
    }
    void settle() const {
        QCoreApplication::processEvents();
        QCoreApplication::sendPostedEvents(nullptr, QEvent::DeferredDelete);
    }
    void key(Qt::Key k, Qt::KeyboardModifiers with = Qt::NoModifier) const {
        QWidget* to = QApplication::focusWidget();
        QTest::keyClick(to ? to : window.get(), k, with);
        settle();
    }
    /// Presses Tab until that widget has the focus, as a person does who uses no mouse.
    bool tabTo(const std::function<bool(QWidget*)>& there) const {
        for (int guard = 0; guard < 120; ++guard) {
            if (QApplication::focusWidget() && there(QApplication::focusWidget())) return true;
            key(Qt::Key_Tab);
        }
        return false;
    }
    bool tabTo(const QString& name) const {
        return tabTo([&](QWidget* w) { return w->objectName() == name; });
    }
    /// Whatever can have the focus at this step has a name and a role, and a chart that is shown says its sentence.
    void sayable(const StepId& step) const {
        const AccessibleWalk walk = walkAccessible(window.get());
        QVERIFY2(walk.faults.isEmpty(), qPrintable(step + QStringLiteral(": ") + walk.faults.join(QStringLiteral("; "))));
        for (const auto* chart : window->findChildren<QGraphicsView*>())
            if (chart->isVisible()) QVERIFY2(!chart->accessibleDescription().isEmpty(), qPrintable(step));
    }
    /// All that is left, by scanner and keys.
    void finishSteps(bool saying = false) const {
        for (int guard = 0; guard < 120 && d->session() && !d->desk().guide().finished; ++guard) {
            const StepId step = d->desk().shown()->step.id;
            const qint64 number = d->session()->number;
            if (saying) sayable(step);
            d->doStep();
            QVERIFY2(sample.shop().session(number)->progress(step).state == StepState::Done,
                     qPrintable(step + QStringLiteral(": ") + d->message()));
        }
    }

    SampleBench sample;
    std::unique_ptr<MainWindow> window;
    ChangeoverPage* page = nullptr;
    std::unique_ptr<PageDriver> d;
};

} // namespace

class WindowTest final : public QObject {
    Q_OBJECT
public:
    WindowTest() {
        // The same program, started again by this test, is the window that is killed.
        if (qEnvironmentVariableIsSet(ledgerVariable)) workAndDie();
    }

private:
    /// Starts a changeover and goes on until so many steps are confirmed; says each, then dies without a farewell.
    [[noreturn]] static void workAndDie() {
        const int dieAfter = qEnvironmentVariableIntValue(dieVariable);
        Driven w(qEnvironmentVariable(ledgerVariable));
        w.window->showTab(QStringLiteral("changeover"));
        w.d->choose(bay, job, coarse);
        w.d->start();
        if (!w.d->session()) std::_Exit(3);
        for (int done = 0; done < dieAfter; ++done) {
            const StepId step = w.d->desk().shown()->step.id;
            const qint64 number = w.d->session()->number;
            w.d->doStep();
            if (w.sample.shop().session(number)->progress(step).state != StepState::Done) std::_Exit(4);
            std::printf("done %s\n", qPrintable(step));
        }
        std::printf("now %lld\n", static_cast<long long>(toMs(w.sample.clock.now())));
        for (const Countdown& c : w.d->desk().guide().waits)
            if (c.due) std::printf("wait %s %lld\n", qPrintable(c.step), static_cast<long long>(toMs(*c.due)));
        // In the middle of a step: something is given and not confirmed.
        const QList<Missing> missing = w.d->desk().missing();
        if (!missing.isEmpty() && missing.first().what != Missing::What::Measure) w.d->giveNext();
        std::fflush(stdout);
        std::raise(SIGKILL);
        std::abort();
    }

private Q_SLOTS:
    void wholeByKeysAndScansOnly() {
        Driven w;
        w.key(Qt::Key_2, Qt::ControlModifier);
        QCOMPARE(w.window->currentTab(), QStringLiteral("changeover"));
        // The printer, then the job by typing its number into the filter, then its coarser variant.
        QVERIFY(w.tabTo(QStringLiteral("printerList")));
        w.key(Qt::Key_Home);
        QCOMPARE(w.page->startPanel().draft().printer, bay);
        QVERIFY(w.tabTo([](QWidget* f) { return qobject_cast<QLineEdit*>(f) != nullptr; }));
        QTest::keyClicks(QApplication::focusWidget(), job);
        w.settle();
        QVERIFY(w.tabTo([](QWidget* f) { return qobject_cast<QAbstractItemView*>(f) && f->objectName() != QStringLiteral("printerList"); }));
        w.key(Qt::Key_Down);
        w.key(Qt::Key_Home);
        QCOMPARE(w.page->startPanel().draft().job, job);
        QVERIFY(w.tabTo([](QWidget* f) { return qobject_cast<QRadioButton*>(f) != nullptr; }));
        w.key(Qt::Key_Down);
        QCOMPARE(w.page->startPanel().draft().variant, coarse);
        QVERIFY(w.tabTo(QStringLiteral("startButton")));
        w.key(Qt::Key_Space);
        QVERIFY(w.d->session());
        const qint64 number = w.d->session()->number;
        QCOMPARE(QApplication::focusWidget(), w.d->scanField());
        w.finishSteps(true);
        QCOMPARE(w.d->confirmText(), QStringLiteral("Finish"));
        QVERIFY(w.tabTo(QStringLiteral("disposition0")));
        w.key(Qt::Key_Space);
        w.key(Qt::Key_Return);
        QCOMPARE(w.sample.shop().session(number)->phase, SessionPhase::Finished);
        QCOMPARE(w.window->currentTab(), QStringLiteral("records"));
        auto* records = qobject_cast<RecordsPage*>(w.window->page(QStringLiteral("records")));
        QCOMPARE(records->current(), number);
        QTemporaryDir dir;
        QVERIFY(records->savePdf(dir.filePath(QStringLiteral("record.pdf"))));
        QVERIFY(QFileInfo(dir.filePath(QStringLiteral("record.pdf"))).size() > 10000);
    }

    void killedHalfWayAndResumed_data() {
        QTest::addColumn<int>("after");
        for (const int n : longRun() ? QList<int>{0, 1, 3, 5, 8, 11, 14, 19, 23, 27} : QList<int>{1, 8, 19})
            QTest::addRow("after %d steps", n) << n;
    }
    void killedHalfWayAndResumed() {
        QFETCH(int, after);
        QTemporaryDir dir;
        const QString ledger = dir.filePath(QStringLiteral("shop.ledger"));
        QProcess child;
        QProcessEnvironment environment = QProcessEnvironment::systemEnvironment();
        environment.insert(QString::fromLatin1(ledgerVariable), ledger);
        environment.insert(QString::fromLatin1(dieVariable), QString::number(after));
        child.setProcessEnvironment(environment);
        child.setProcessChannelMode(QProcess::ForwardedErrorChannel);
        child.start(QCoreApplication::applicationFilePath(), {QStringLiteral("--class"), QStringLiteral("WindowTest")});
        QVERIFY(child.waitForFinished(120000));
        QCOMPARE(child.exitStatus(), QProcess::CrashExit);
        QStringList done;
        Instant died{};
        QMap<StepId, Instant> due;
        for (const QByteArray& line : child.readAllStandardOutput().split('\n')) {
            if (line.startsWith("done ")) done << QString::fromUtf8(line.mid(5));
            if (line.startsWith("wait "))
                due.insert(QString::fromUtf8(line.split(' ').at(1)), instantFromMs(line.split(' ').at(2).toLongLong()));
            if (line.startsWith("now ")) died = instantFromMs(line.mid(4).toLongLong());
        }
        QCOMPARE(done.size(), after);

        // Ten minutes later somebody opens the window again.
        Driven w(ledger, died + Minutes(10));
        QVERIFY(!w.sample.workbench->store().verify());
        w.window->showTab(QStringLiteral("changeover"));
        w.settle();
        QVERIFY2(w.d->session(), "the page opens on what was being done");
        const qint64 number = w.d->session()->number;
        for (const PlannedStep& s : w.d->session()->changeover.steps)
            QVERIFY2((w.d->session()->progress(s.step.id).state == StepState::Done) == done.contains(s.step.id),
                     qPrintable(s.step.id));
        QVERIFY(w.d->desk().shown());
        QVERIFY(!done.contains(w.d->desk().shown()->step.id));
        // A countdown counts on from its recorded start: it ends when it would have ended.
        QMap<StepId, Instant> dueNow;
        for (const Countdown& c : w.d->desk().guide().waits)
            if (c.due) dueNow.insert(c.step, *c.due);
        QCOMPARE(dueNow, due);
        w.finishSteps();
        w.d->click(QStringLiteral("disposition0"));
        w.key(Qt::Key_Return);
        QCOMPARE(w.sample.shop().session(number)->phase, SessionPhase::Finished);
        QVERIFY(!w.sample.workbench->store().verify());
    }

    void stoppedHalfWayContinuesFromTheMixedState() {
        Driven w;
        w.window->showTab(QStringLiteral("changeover"));
        w.d->choose(bay, job, coarse);
        w.d->start();
        w.d->until(QStringLiteral("mount-support-nozzle"));
        const qint64 number = w.d->session()->number;
        auto* stop = w.page->findChild<QAction*>(QStringLiteral("stopAction"));
        QVERIFY(stop);
        stop->trigger();
        w.settle();
        QWidget* dialog = QApplication::activeModalWidget();
        QVERIFY(dialog);
        QTest::keyClicks(QApplication::focusWidget(), QStringLiteral("support nozzle would not come out"));
        auto* accept = dialog->findChild<QPushButton*>(QStringLiteral("askAccept"));
        QVERIFY(accept);
        QTest::mouseClick(accept, Qt::LeftButton);
        w.settle();
        QCOMPARE(w.sample.shop().session(number)->phase, SessionPhase::Stopped);
        // The part nozzle has been exchanged, the support nozzle is out: that is what the next one begins with.
        const PrinterNow* now = w.sample.shop().printer(bay);
        QVERIFY(!now->part.nozzle.isEmpty());
        QVERIFY(now->support.nozzle.isEmpty());
        w.d->choose(bay, job, coarse);
        const auto& result = w.page->startPanel().result();
        QVERIFY(result && result->changeover);
        for (const PlannedStep& s : result->changeover->steps)
            QVERIFY2(s.step.effect != Effect::RemoveNozzlePart, qPrintable(s.step.id));
        w.d->start();
        QVERIFY(w.d->session());
        QVERIFY(w.d->session()->number != number);
        w.finishSteps();
        w.d->click(QStringLiteral("disposition0"));
        w.key(Qt::Key_Return);
        QCOMPARE(w.sample.shop().printer(bay)->activity, Activity::Printing);
    }
};
INTERLUDE_TEST(WindowTest)
#include "window_test.moc"
