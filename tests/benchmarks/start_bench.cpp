#include "tests/benchmarks/start_bench.h"

#include "model/catalogue/reader.h"
#include "model/shop/workbench.h"
#include "tests/benchmarks/window_acts.h"
#include "views/look/look.h"
#include "views/look/undressed.h"
#include "views/window/main_window.h"

#include <QApplication>
#include <QCryptographicHash>
#include <QElapsedTimer>
#include <QProcess>
#include <QStandardPaths>
#include <QTemporaryDir>

#include <algorithm>
#include <cstdio>
#include <ctime>

namespace interlude::bench {

namespace {

constexpr int starts = 9;

double since(const QElapsedTimer& t) { return static_cast<double>(t.nsecsElapsed()) / 1e6; }

/// The same work on every machine: SHA-256 over 32 MB.
double referenceMs() {
    QElapsedTimer t;
    t.start();
    QCryptographicHash sum(QCryptographicHash::Sha256);
    const QByteArray piece(1 << 20, 'x');
    for (int i = 0; i < 32; ++i) sum.addData(piece);
    return sum.result().isEmpty() ? 0 : since(t);
}

class FirstPaint final : public QObject {
public:
    bool seen = false;
    bool eventFilter(QObject*, QEvent* event) override {
        seen = seen || event->type() == QEvent::Paint;
        return false;
    }
};

struct Start {
    double application = 0, folder = 0, shop = 0, built = 0, painted = 0, whole = 0, reference = 0, processor = 0;
};

Start startOf(const QString& program, const QString& ledger) {
    QElapsedTimer t;
    t.start();
    QProcess p;
    p.start(program, {QStringLiteral("start-once"), ledger});
    p.waitForFinished(-1);
    const double whole = since(t);
    const QStringList said = QString::fromLatin1(p.readAllStandardOutput()).simplified().split(QLatin1Char(' '));
    if (said.size() < 7) {
        std::fputs(p.readAllStandardError().constData(), stderr);
        return {};
    }
    return {said[0].toDouble(), said[1].toDouble(), said[2].toDouble(), said[3].toDouble(), said[4].toDouble(), whole - said[5].toDouble(), said[5].toDouble(),
            said[6].toDouble()};
}

} // namespace

int startOnce(int argc, char** argv) {
    QElapsedTimer t;
    t.start();
    QApplication app(argc, argv);
    QStandardPaths::setTestModeEnabled(true);
    look::apply(app, look::Theme::Light);
    QApplication::setWindowIcon(look::programIcon());
    const double application = since(t);
    const CatalogueReading reading = readFleetFolder(QStringLiteral(INTERLUDE_SOURCE_DIR "/sample-fleet"));
    const double folder = since(t);
    const SystemClock clock;
    const auto workbench = reading.catalogue && argc > 2 ? openedLedger(reading.catalogue, QString::fromLocal8Bit(argv[2]), clock) : nullptr;
    if (!workbench) return 1;
    const double shop = since(t);
    Bench bench(*workbench);
    std::optional<look::Undressed> building(std::in_place, app);
    MainWindow window(bench, reading.problems);
    building.reset();
    const double built = since(t);
    FirstPaint first;
    window.centralWidget()->installEventFilter(&first);
    window.show();
    while (!first.seen) QCoreApplication::processEvents();
    const double painted = since(t);
    timespec spent{};
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &spent);
    const double processor = static_cast<double>(spent.tv_sec) * 1e3 + static_cast<double>(spent.tv_nsec) / 1e6;
    std::printf("%.2f %.2f %.2f %.2f %.2f %.2f %.2f\n", application, folder - application, shop - folder, built - shop, painted, referenceMs(), processor);
    return 0;
}

int startBench(int argc, char** argv) {
    if (qEnvironmentVariableIsEmpty("QT_QPA_PLATFORM")) qputenv("QT_QPA_PLATFORM", "offscreen");
    QCoreApplication app(argc, argv);
    const QTemporaryDir dir;
    const QString ledger = argc > 2 ? QString::fromLocal8Bit(argv[2]) : dir.filePath(QStringLiteral("sample.sqlite"));
    (void)startOf(QCoreApplication::applicationFilePath(), ledger); // makes the ledger, warms the disk
    QList<Start> all;
    for (int i = 0; i < starts; ++i) all.append(startOf(QCoreApplication::applicationFilePath(), ledger));
    std::sort(all.begin(), all.end(), [](const Start& a, const Start& b) { return a.painted < b.painted; });
    const Start& m = all[starts / 2];
    if (m.painted <= 0) return 1;
    std::printf("%d starts: from main to the first picture %.0f ms in the middle (%.0f to %.0f), %.2f x a reference loop of %.0f ms; %.0f ms of the processor\n", starts,
                m.painted, all.first().painted, all.last().painted, m.painted / m.reference, m.reference, m.processor);
    std::printf("    application %.0f, fleet folder %.0f, ledger %.0f, window built %.0f, shown and painted %.0f ms; the whole process %.0f ms\n", m.application,
                m.folder, m.shop, m.built, m.painted - m.application - m.folder - m.shop - m.built, m.whole);
    return 0;
}

} // namespace interlude::bench
