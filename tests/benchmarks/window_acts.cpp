#include "tests/benchmarks/window_acts.h"

#include "model/catalogue/reader.h"
#include "model/session/guide.h"
#include "model/shop/snapshot/snapshot.h"
#include "views/window/main_window.h"

#include <QApplication>
#include <QElapsedTimer>
#include <QStandardPaths>
#include <QThread>

#include <algorithm>
#include <cstdio>
#include <ctime>

namespace interlude::bench {

namespace {

double since(const QElapsedTimer& t) { return static_cast<double>(t.nsecsElapsed()) / 1e6; }

/// One act, over and over.
struct Act {
    const char* name;
    QList<double> shown, thread, after;
};

/// Of the window's thread, in ms: told beside the elapsed time, for a machine that others use too.
double threadMs() {
    timespec t{};
    clock_gettime(CLOCK_THREAD_CPUTIME_ID, &t);
    return static_cast<double>(t.tv_sec) * 1e3 + static_cast<double>(t.tv_nsec) / 1e6;
}

double at(QList<double> ms, double q) {
    std::sort(ms.begin(), ms.end());
    return ms.isEmpty() ? 0 : ms[static_cast<qsizetype>(q * static_cast<double>(ms.size() - 1))];
}

class Hand {
public:
    Hand(Workbench& workbench, QWidget* window) : m_workbench(workbench), m_window(window) {}

    void act(Act& a, const Happening& h) {
        settle();
        QElapsedTimer t;
        t.start();
        const double thread = threadMs();
        const bool done = m_workbench.perform(h, QStringLiteral("ML")).has_value();
        show();
        const double shown = since(t);
        const double worked = threadMs() - thread, after = settle();
        if (!done) return;
        a.shown.append(shown);
        a.thread.append(worked);
        a.after.append(after);
    }

private:
    /// What was asked to be laid out and drawn is, as the next turn of the event loop would do.
    void show() {
        QCoreApplication::processEvents();
        if (!m_window) return;
        QEvent draw(QEvent::UpdateRequest);
        QCoreApplication::sendEvent(m_window, &draw);
    }
    /// The longest turn of the event loop in what comes afterwards: so long a next act may wait. Ends after 60 ms of quiet.
    double settle() {
        if (!m_window) return 0;
        double longest = 0;
        QElapsedTimer all, quiet;
        all.start();
        quiet.start();
        while (quiet.elapsed() < 60 && all.elapsed() < 5000) {
            QElapsedTimer turn;
            turn.start();
            show();
            const double took = since(turn);
            longest = std::max(longest, took);
            if (took > 1) quiet.restart();
            QThread::usleep(500);
        }
        return longest;
    }

    Workbench& m_workbench;
    QWidget* m_window;
};

/// The changeover to some job on some printer that is free.
std::optional<std::pair<PrinterId, Changeover>> someChangeover(const Workbench& w) {
    const Shop& shop = w.shop();
    for (const PrinterNow& p : shop.printers()) {
        if (shop.openSession(p.id) || p.activity == Activity::Printing) continue;
        for (const Job& job : shop.jobs()) {
            if (job.state != JobState::Open || (!job.printers.isEmpty() && !job.printers.contains(p.id))) continue;
            for (const Variant& v : job.variants) {
                const Transition t = judgeTransition(shop.catalogue(), shop.stock(), requestFor(p, job, v), w.now());
                const auto c = t.possible() ? planChangeover(shop.catalogue(), shop.stock(), t, w.now()) : tl::unexpected<Finding>(Finding());
                if (c) return std::pair(p.id, *c);
            }
        }
    }
    return {};
}

act::StepConfirmed confirmation(const Workbench& w, qint64 session, const PlannedStep& p) {
    act::StepConfirmed x;
    x.session = session;
    x.step = p.step.id;
    for (const QString& expected : p.expectedScans) x.scans.append({expected.isEmpty() ? w.catalogue().fleet.places.first().id : expected, false});
    for (const AnswerWanted& a : p.step.confirm.answers) x.answers.append(act::AnswerDone{a.mustBe.value_or(true)});
    for (const ReadingWanted& r : p.step.confirm.readings)
        for (int i = 0; i < r.times; ++i) x.readings.append({r.name, 20, r.unit, r.instrument, w.now()});
    if (p.step.onlyBelow) {
        x.measured = p.step.onlyBelow->plusKelvin(-1);
        x.measuredAt = w.now();
    }
    return x;
}

void session(Workbench& w, Hand& hand, Act& started, Act& confirmed, Act& stopped) {
    const auto some = someChangeover(w);
    if (!some) return;
    const qint64 number = w.shop().nextSession();
    hand.act(started, act::SessionStarted{number, some->first, some->second, {}, false});
    for (int i = 0; i < 8; ++i) {
        const SessionState* s = w.shop().session(number);
        const Guide g = s ? guide(w.shop(), *s, w.now()) : Guide();
        if (g.current.isEmpty()) break;
        hand.act(confirmed, confirmation(w, number, *s->changeover.step(g.current)));
    }
    hand.act(stopped, act::SessionStopped{number, QStringLiteral("enough")});
}

void acts(Workbench& w, QWidget* window, const QString& where) {
    Act moved{"move a spool", {}, {}, {}}, added{"add a job", {}, {}, {}}, corrected{"correct a record", {}, {}, {}}, issued{"issue a record", {}, {}, {}},
        started{"start a session", {}, {}, {}}, confirmed{"confirm a step", {}, {}, {}}, stopped{"stop a session", {}, {}, {}};
    Hand hand(w, window);
    const QStringList spools = w.shop().stock().spools.keys();
    for (int i = 0; i < 11; ++i) {
        hand.act(moved, act::SpoolMoved{spools.at(i), w.catalogue().fleet.places.first().id, i % 2 == 0});
        Job j = w.catalogue().openings.jobs.first();
        j.id = QStringLiteral("x%1").arg(w.shop().lastSequence());
        hand.act(added, act::JobAdded{j});
        const JobId mine = j.id;
        const qint64 old = 1 + i * (w.shop().lastSession() - 1) / 11; // of years ago
        const SessionState* s = w.shop().session(old);
        if (s && !s->isOpen()) {
            hand.act(corrected, act::Corrected{old, s->firstEvent, QStringLiteral("note"), QStringLiteral("was"), QStringLiteral("is"), QStringLiteral("slip")});
            hand.act(issued, act::RecordIssued{old, w.shop().session(old)->nextRevision(), QString(64, QLatin1Char('b'))});
        }
        // As many jobs at hand at the end as at the beginning.
        (void)w.perform(act::JobWithdrawn{mine, QStringLiteral("bench")}, QStringLiteral("ML"));
    }
    session(w, hand, started, confirmed, stopped);
    for (const Act* a : {&moved, &added, &corrected, &issued, &started, &confirmed, &stopped}) {
        if (a->shown.isEmpty()) continue;
        std::printf("    %-16s %-16s shown: middle %6.1f, longest %6.1f ms of %2lld (of the processor %6.1f, %6.1f); longest turn afterwards %6.1f ms\n",
                    qPrintable(where), a->name, at(a->shown, 0.5), at(a->shown, 1), static_cast<long long>(a->shown.size()), at(a->thread, 0.5),
                    at(a->thread, 1), at(a->after, 1));
    }
}

} // namespace

std::unique_ptr<Workbench> openedLedger(const std::shared_ptr<const Catalogue>& catalogue, const QString& file, const Clock& clock) {
    auto store = openSqliteStore(file, catalogue->fleet.id, QStringLiteral("bench-pc"));
    auto workbench = store ? Workbench::open(catalogue, std::move(*store), clock, QStringLiteral("bench-pc"), Snapshot::fileBeside(file))
                           : tl::unexpected<Finding>(store.error());
    if (!workbench) std::fprintf(stderr, "%s\n", qPrintable(sentence(workbench.error())));
    return workbench ? std::move(*workbench) : nullptr;
}

void windowActs(Workbench& workbench) {
    Bench bench(workbench);
    bench.signIn(QStringLiteral("ML"));
    std::printf("    at hand: %lld jobs, %lld spools, %lld nozzles, %lld sessions of %lld\n", static_cast<long long>(workbench.shop().jobs().size()),
                static_cast<long long>(workbench.shop().stock().spools.size()), static_cast<long long>(workbench.shop().stock().nozzles.size()),
                static_cast<long long>(workbench.shop().sessions().size()), static_cast<long long>(workbench.shop().lastSession()));
    acts(workbench, nullptr, QStringLiteral("no window"));
    QElapsedTimer t;
    t.start();
    MainWindow window(bench);
    window.resize(1366, 768);
    window.show();
    QCoreApplication::processEvents();
    std::printf("    window built and first shown in %.1f ms\n", since(t));
    for (const QString& tab : MainWindow::tabNames()) {
        t.restart();
        window.showTab(tab);
        QCoreApplication::processEvents();
        window.grab();
        std::printf("    tab %-12s first shown in %8.1f ms\n", qPrintable(tab), since(t));
        acts(workbench, &window, QStringLiteral("tab ") + tab);
    }
}

int windowBench(int argc, char** argv) {
    if (qEnvironmentVariableIsEmpty("QT_QPA_PLATFORM")) qputenv("QT_QPA_PLATFORM", "offscreen");
    QApplication app(argc, argv);
    QStandardPaths::setTestModeEnabled(true);
    std::setvbuf(stdout, nullptr, _IOLBF, 0);
    if (argc < 3) return 2;
    const CatalogueReading reading = readFleetFolder(QStringLiteral(INTERLUDE_SOURCE_DIR "/sample-fleet"));
    const SystemClock clock;
    const auto workbench = reading.catalogue ? openedLedger(reading.catalogue, QString::fromLocal8Bit(argv[2]), clock) : nullptr;
    if (!workbench) return 1;
    windowActs(*workbench);
    return 0;
}

} // namespace interlude::bench
