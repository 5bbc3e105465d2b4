#include "tests/benchmarks/ledger_bench.h"

#include "model/catalogue/reader.h"
#include "model/shop/snapshot/snapshot.h"
#include "model/shop/workbench.h"
#include "tests/benchmarks/ledger_maker.h"
#include "tests/benchmarks/window_acts.h"

#include <QApplication>
#include <QDir>
#include <QElapsedTimer>
#include <QFile>
#include <QFileInfo>
#include <QProcess>
#include <QStandardPaths>

#include <cstdio>
#include <cstring>
#include <ctime>
#include <fcntl.h>
#include <unistd.h>

namespace interlude::bench {

namespace {

const QString sampleFolder = QStringLiteral(INTERLUDE_SOURCE_DIR "/sample-fleet");

double since(const QElapsedTimer& t) { return static_cast<double>(t.nsecsElapsed()) / 1e6; }

struct Times {
    QList<double> ms;
    template <typename F> void time(F&& what) {
        QElapsedTimer t;
        t.start();
        what();
        ms.append(since(t));
    }
    double at(double q) {
        std::sort(ms.begin(), ms.end());
        return ms.isEmpty() ? 0 : ms[static_cast<qsizetype>(q * static_cast<double>(ms.size() - 1))];
    }
};

/// Resident set, now and at most, in MB: proc(5).
double statusMb(const char* key) {
    QFile f(QStringLiteral("/proc/self/status"));
    if (!f.open(QIODevice::ReadOnly)) return 0;
    for (const QByteArray& line : f.readAll().split('\n'))
        if (line.startsWith(key)) return line.mid(static_cast<qsizetype>(std::strlen(key))).simplified().split(' ').value(0).toDouble() / 1024;
    return 0;
}

/// Of this process so far, in ms: told beside the elapsed time, for a machine that others use too.
double processorMs() {
    timespec t{};
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
    return static_cast<double>(t.tv_sec) * 1e3 + static_cast<double>(t.tv_nsec) / 1e6;
}

struct Opening {
    double folder = 0, shop = 0, processor = 0, rss = 0, peak = 0;
    qint64 events = 0;
};

/// In another process. `program`: this one.
Opening openingOf(const QString& program, const QString& file) {
    QProcess p;
    p.start(program, {QStringLiteral("ledger-opening"), file});
    p.waitForFinished(-1);
    const QStringList said = QString::fromLatin1(p.readAllStandardOutput()).simplified().split(QLatin1Char(' '));
    std::fputs(p.readAllStandardError().constData(), stderr);
    if (said.size() < 6) return {};
    return {said[0].toDouble(), said[1].toDouble(), said[2].toDouble(), said[3].toDouble(), said[4].toDouble(), said[5].toLongLong()};
}

/// The middle one of several.
Opening middle(const QString& program, const QString& file) {
    QList<Opening> all;
    for (int i = 0; i < 7; ++i) all.append(openingOf(program, file));
    std::sort(all.begin(), all.end(), [](const Opening& a, const Opening& b) { return a.shop < b.shop; });
    return all[all.size() / 2];
}

double megabytes(const QString& file) { return static_cast<double>(QFileInfo(file).size()) / 1e6; }

Opening tellOpening(const QString& program, const QString& file) {
    QFile::remove(Snapshot::fileBeside(file));
    const Opening first = openingOf(program, file);
    const Opening usual = middle(program, file);
    std::printf("%9lld events, ledger %7.1f MB, snapshot %6.1f MB\n", static_cast<long long>(usual.events), megabytes(file),
                megabytes(Snapshot::fileBeside(file)));
    std::printf("    without a snapshot  opened in %9.1f ms, at most %6.1f MB resident\n", first.shop, first.peak);
    std::printf("    with it             opened in %9.1f ms, %.1f ms of the processor (+ %.1f ms for the fleet folder), %6.1f MB resident\n",
                usual.shop, usual.processor, usual.folder, usual.rss);
    std::fflush(stdout);
    return usual;
}

/// Acts as people do them, on the shop alone and with the window around it.
void acts(const CataloguePtr& catalogue, const QString& file) {
    const SystemClock clock;
    if (const auto workbench = openedLedger(catalogue, file, clock)) windowActs(*workbench);
    std::printf("    with the window at most %.1f MB resident\n", statusMb("VmHWM:"));
}

Event moved(int number) {
    Event e;
    e.recordedAt = e.happenedAt = SystemClock().now();
    e.station = QStringLiteral("bench-pc");
    e.who = QStringLiteral("ML");
    e.kind = QStringLiteral("spool-moved");
    e.payload = toPayload(act::SpoolMoved{QStringLiteral("S-%1").arg(number), QStringLiteral("cabinet-1"), false});
    return e;
}

/// Appends of the ledger and a bare loop, turn by turn on one disk.
void appends(const CataloguePtr& catalogue, const QDir& folder) {
    const QString file = folder.filePath(QStringLiteral("appends.sqlite"));
    for (const char* end : {"", "-wal", "-shm", ".lock"}) QFile::remove(file + QString::fromLatin1(end));
    auto store = openSqliteStore(file, catalogue->fleet.id, QStringLiteral("bench-pc"));
    const int bare = ::open(QFile::encodeName(folder.filePath(QStringLiteral("bare"))).constData(), O_RDWR | O_CREAT | O_TRUNC, 0600);
    if (!store || bare < 0) return;
    // In turns of a hundred: one after the other, each would wait for what the other has left to the file system.
    Times ledger, loop;
    qint64 wrote = 0;
    double ledgerSum = 0, loopSum = 0;
    for (int turn = 0; turn < 20; ++turn) {
        QList<QByteArray> written;
        QElapsedTimer t;
        t.start();
        for (int i = 0; i < 100; ++i) {
            const Event e = moved(turn * 100 + i);
            ledger.time([&] {
                const auto done = (*store)->append(e);
                if (done) written.append(*canonicalBytes(*done) + done->hash);
            });
        }
        ledgerSum += since(t);
        t.restart();
        for (const QByteArray& bytes : written)
            loop.time([&] {
                wrote += ::write(bare, bytes.constData(), static_cast<size_t>(bytes.size()));
                ::fsync(bare);
            });
        loopSum += since(t);
    }
    ::close(bare);
    const auto count = static_cast<long long>(ledger.ms.size());
    std::printf("%lld appends, in turns with a bare loop of write and fsync of the same %lld bytes each: %.2f x its time"
                " (middle %.3f and %.3f ms: %.2f x; 9 in 10 within %.3f and %.3f ms: %.2f x)\n",
                count, static_cast<long long>(wrote) / count, ledgerSum / loopSum, ledger.at(0.5), loop.at(0.5), ledger.at(0.5) / loop.at(0.5),
                ledger.at(0.9), loop.at(0.9), ledger.at(0.9) / loop.at(0.9));
}

QString made(const CataloguePtr& catalogue, const QDir& folder, qint64 events) {
    const QString file = folder.filePath(QStringLiteral("%1.sqlite").arg(events));
    if (QFile::exists(file)) return file;
    QElapsedTimer t;
    t.start();
    if (!LedgerMaker(catalogue).make(file, events)) {
        QFile::remove(file);
        return {};
    }
    std::printf("%s made in %.0f s\n", qPrintable(file), since(t) / 1000);
    std::fflush(stdout);
    return file;
}

} // namespace

int ledgerOpening(int argc, char** argv) {
    QCoreApplication app(argc, argv);
    if (argc < 3) return 2;
    QElapsedTimer t;
    t.start();
    const CatalogueReading reading = readFleetFolder(sampleFolder);
    if (!reading.catalogue) return 1;
    const double folder = since(t), processor = processorMs();
    t.restart();
    const SystemClock clock;
    const auto bench = openedLedger(reading.catalogue, QString::fromLocal8Bit(argv[2]), clock);
    if (!bench) return 1;
    const double shop = since(t);
    std::printf("%.3f %.3f %.3f %.1f %.1f %lld\n", folder, shop, processorMs() - processor, statusMb("VmRSS:"), statusMb("VmHWM:"),
                static_cast<long long>(bench->shop().lastSequence()));
    return 0;
}

int ledgerBench(int argc, char** argv) {
    if (qEnvironmentVariableIsEmpty("QT_QPA_PLATFORM")) qputenv("QT_QPA_PLATFORM", "offscreen");
    QApplication app(argc, argv);
    QStandardPaths::setTestModeEnabled(true);
    std::setvbuf(stdout, nullptr, _IOLBF, 0);
    const QString where = argc > 2 ? QString::fromLocal8Bit(argv[2]) : QDir::temp().filePath(QStringLiteral("interlude-ledgers"));
    const qint64 many = argc > 3 ? QString::fromLocal8Bit(argv[3]).toLongLong() : 1'000'000;
    const QDir folder(where);
    const CatalogueReading reading = readFleetFolder(sampleFolder);
    if (!folder.mkpath(QStringLiteral(".")) || !reading.catalogue) return 1;
    appends(reading.catalogue, folder);
    if (many == 0) return 0;
    const QString small = made(reading.catalogue, folder, 10'000), large = made(reading.catalogue, folder, many);
    if (small.isEmpty() || large.isEmpty()) return 1;
    const QString program = QCoreApplication::applicationFilePath();
    const Opening few = tellOpening(program, small), all = tellOpening(program, large);
    std::printf("opening the large one takes %.2f x the small one, %.2f x its processor time (with the fleet folder %.2f x)\n",
                all.shop / few.shop, all.processor / few.processor, (all.shop + all.folder) / (few.shop + few.folder));
    std::printf("acts on the small one\n");
    acts(reading.catalogue, small);
    std::printf("acts on the large one\n");
    acts(reading.catalogue, large);
    listFrames();
    return 0;
}

} // namespace interlude::bench
