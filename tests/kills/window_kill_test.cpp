// SIGKILL of the window's process at random instants while a person works in it. The child is forked from this program,
// so that each of hundreds of windows starts in a fraction of a second; it opens the ledger, shows the window, and tells a
// pipe of each act once the workbench has confirmed it.
#include "tests/changeover_page/page_driver.h"
#include "tests/harness/run_tests.h"
#include "tests/kills/confirmed.h"

#include "views/window/main_window.h"

#include <QElapsedTimer>
#include <QTemporaryDir>
#include <QThreadPool>

#include <csignal>
#include <random>
#include <sys/wait.h>
#include <unistd.h>

using namespace interlude;
using namespace interlude::tests;

namespace {

/// Works in the window until somebody ends the process.
[[noreturn]] void workInAWindow(const QString& ledger, Instant now, int out) {
    const auto tell = [out](const Event& e) {
        const QByteArray line = QByteArray::number(e.sequence) + ' ' + e.hash.toHex() + '\n';
        if (::write(out, line.constData(), static_cast<size_t>(line.size())) != line.size()) ::_exit(3);
    };
    SampleBench sample(ledger, now);
    QObject::connect(sample.workbench.get(), &Workbench::changed, tell);
    MainWindow window(*sample.bench);
    window.show();
    window.showTab(QStringLiteral("changeover"));
    QCoreApplication::processEvents();
    PageDriver d(sample, qobject_cast<ChangeoverPage*>(window.page(QStringLiteral("changeover"))));
    bool there = false;
    for (;;) {
        if (d.session() && d.session()->isOpen() && !d.desk().guide().finished && d.desk().shown()) {
            d.doStep();
        } else if (!d.session() && sample.shop().sessions().isEmpty()) {
            d.choose(QStringLiteral("bay-1"), QStringLiteral("7402"), 1);
            d.start();
        } else {
            // The changeover is done; a spool that goes to and fro is as good an act as any.
            const QString place = there ? QStringLiteral("shelf-1") : QStringLiteral("cabinet-1");
            if (sample.bench->perform(act::SpoolMoved{QStringLiteral("S-102"), place, false})) there = !there;
            sample.advance(Seconds(1));
        }
        QCoreApplication::processEvents();
    }
}

struct Killed {
    QByteArray said;
    bool byUs = false;
    qint64 firstAct = 0; ///< µs from the start to the first act said
};

/// Lets a window work for so long, counted from its start or from the first act that it confirms, then kills it.
Killed killAfter(const QString& ledger, Instant now, qint64 microseconds, bool fromFirstAct) {
    // Threads that helped to paint here are not in the child, whose pool would wait for them for ever: none is left.
    QThreadPool::globalInstance()->waitForDone();
    int ends[2];
    if (::pipe(ends) != 0) qFatal("no pipe");
    const pid_t child = ::fork();
    if (child < 0) qFatal("no process");
    if (child == 0) {
        ::close(ends[0]);
        workInAWindow(ledger, now, ends[1]);
    }
    ::close(ends[1]);
    // The pipe is read while it works: a full one would hold the window up.
    Killed killed;
    QElapsedTimer timer;
    timer.start();
    bool counting = !fromFirstAct;
    const auto isOver = [&] { return timer.nsecsElapsed() / 1000 >= (counting ? microseconds : 60000000); };
    while (!isOver()) {
        fd_set set;
        FD_ZERO(&set);
        FD_SET(ends[0], &set);
        timeval wait{0, 500};
        char bytes[4096];
        if (::select(ends[0] + 1, &set, nullptr, nullptr, &wait) != 1) continue;
        const ssize_t count = ::read(ends[0], bytes, sizeof bytes);
        if (count <= 0) break; // it has died by itself
        killed.said.append(bytes, count);
        if (!counting) killed.firstAct = timer.nsecsElapsed() / 1000, timer.restart(), counting = true;
    }
    ::kill(child, SIGKILL);
    int status = 0;
    ::waitpid(child, &status, 0);
    killed.byUs = WIFSIGNALED(status) && WTERMSIG(status) == SIGKILL;
    char bytes[4096];
    for (ssize_t count; (count = ::read(ends[0], bytes, sizeof bytes)) > 0;) killed.said.append(bytes, count);
    ::close(ends[0]);
    return killed;
}

} // namespace

class WindowKillTest final : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void whatTheWindowConfirmedIsInTheLedger() {
        const int kills = longRun() ? 300 : 20;
        constexpr int onOneLedger = 12; // then a new one, so that birth, opening and work are all hit
        std::mt19937 random(17);
        Instant now = instantOf(QDateTime(QDate(2026, 5, 4), QTime(8, 0), Qt::UTC));
        const QString fleetId = SampleBench().catalogue->fleet.id;
        {
            // What every window needs once (type faces, drawings) is loaded before the first fork.
            SampleBench sample;
            MainWindow window(*sample.bench);
            window.show();
            QCoreApplication::processEvents();
        }
        qint64 start = 0; // from a window's start to its first act, on this machine, now
        {
            const QTemporaryDir first;
            const Killed killed = killAfter(first.filePath(QStringLiteral("l.sqlite")), now, 1000, true);
            QVERIFY(killed.byUs && killed.firstAct > 0);
            start = killed.firstAct;
        }
        std::unique_ptr<QTemporaryDir> dir;
        QMap<qint64, QByteArray> all;
        qint64 confirmed = 0, unsaid = 0, kept = 0;
        int working = 0;
        for (int n = 0; n < kills; ++n) {
            if (n % onOneLedger == 0) {
                dir = std::make_unique<QTemporaryDir>();
                all.clear();
                kept = 0;
            }
            const QString ledger = dir->filePath(QStringLiteral("l.sqlite"));
            // One of three while it starts, the others while it works.
            const bool atWork = n % 3 != 0;
            const qint64 instant = std::uniform_int_distribution<qint64>(0, atWork ? 250000 : start)(random);
            const Killed killed = killAfter(ledger, now, instant, atWork);
            QVERIFY2(killed.byUs, killed.said.right(200));
            const auto said = confirmedIn(killed.said);
            all.insert(said);
            confirmed += said.size();
            working += !said.isEmpty();
            const qint64 before = kept;
            const QString wrong = stands(ledger, fleetId, all, kept);
            QVERIFY2(wrong.isEmpty(), qPrintable(QStringLiteral("kill %1 after %2 µs: %3").arg(n).arg(instant).arg(wrong)));
            QVERIFY(kept >= before);
            if (!said.isEmpty()) {
                // Durable and not yet said: the act of that moment, with the waits that began by themselves upon it.
                QVERIFY2(kept - said.lastKey() <= 5, qPrintable(QStringLiteral("kept %1, said %2").arg(kept).arg(said.lastKey())));
                unsaid += kept - said.lastKey();
            }
            now += Minutes(5);
        }
        QVERIFY(confirmed > kills);
        qInfo("%d windows killed, %d of them at work, %lld acts said and found again, %lld written but not yet said", kills, working,
              static_cast<long long>(confirmed), static_cast<long long>(unsaid));
    }
};
INTERLUDE_TEST(WindowKillTest)
#include "window_kill_test.moc"
