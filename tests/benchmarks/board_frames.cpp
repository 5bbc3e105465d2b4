#include "tests/benchmarks/board_frames.h"

#include "model/catalogue/reader.h"
#include "views/look/look.h"
#include "views/plan/board.h"

#include <QApplication>
#include <QElapsedTimer>
#include <QFile>
#include <QMouseEvent>
#include <QScrollBar>

#include <algorithm>
#include <cstdio>

namespace interlude::bench {

namespace {

constexpr int labels = 12;

/// Twelve setups in a ring: the further apart, the longer the changeover; the first part of it is hands-on.
QMap<QString, QString> shopOfLabels(int printers, int jobs) {
    QString fleet = QStringLiteral("format: 1\nid: frames\nname: Frames (invented)\ntime-zone: UTC\ncurrency: EUR\n"
                                   "clean-out-rule: going-up\nexample-clock: 2026-03-02T06:00\nshifts:\n"
                                   "  - {name: early, days: [mon, tue, wed, thu, fri], from: \"06:00\", to: \"14:00\", crew: 9}\n"
                                   "  - {name: late, days: [mon, tue, wed, thu, fri], from: \"14:00\", to: \"22:00\", crew: 5}\n"
                                   "printer-types:\n  - {id: plain, part-removal-minutes: 6, hourly-rate: 10}\nprinters:\n");
    QString setups = QStringLiteral("setups:\n"), list = QStringLiteral("jobs:\n");
    QString table = QStringLiteral("from,to,minutes,hands-on-minutes\n");
    for (int p = 1; p <= printers; ++p) {
        fleet += QStringLiteral("  - {id: bay-%1, name: Bay %1, type: plain, measured-changeovers: all.csv}\n").arg(p);
        setups += QStringLiteral("  - {printer: bay-%1, label: setup-%2}\n").arg(p).arg(p % labels);
    }
    for (int from = 0; from < labels; ++from)
        for (int to = 0; to < labels; ++to) {
            if (to == from) continue;
            const int apart = std::min((to - from + labels) % labels, (from - to + labels) % labels);
            const int minutes = 5 + 9 * apart;
            table += QStringLiteral("setup-%1,setup-%2,%3,%4\n").arg(from).arg(to).arg(minutes).arg(std::min(minutes, 5 + 3 * apart));
        }
    for (int j = 0; j < jobs; ++j)
        list += QStringLiteral("  - {id: %1, title: part %1, setup: setup-%2, print-minutes: %3, due: 2026-03-%4T12:00,\n"
                               "     late-cost-per-hour: %5}\n")
                    .arg(7001 + j).arg(j * 7 % labels).arg(90 + j * 131 % 700).arg(3 + j * 17 % 12, 2, 10, QLatin1Char('0')).arg(1 + j % 9);
    return {{QStringLiteral("fleet.yaml"), fleet}, {QStringLiteral("setups.yaml"), setups},
            {QStringLiteral("jobs.yaml"), list}, {QStringLiteral("all.csv"), table}};
}

struct Times {
    std::vector<double> ms;
    template <typename F> void time(F&& frame) {
        QElapsedTimer t;
        t.start();
        frame();
        ms.push_back(static_cast<double>(t.nsecsElapsed()) / 1e6);
    }
    void tell(const char* what) {
        std::sort(ms.begin(), ms.end());
        const auto at = [this](double q) { return ms[static_cast<std::size_t>(q * static_cast<double>(ms.size() - 1))]; };
        std::printf("%-44s %6zu frames  median %7.2f ms  95th %7.2f ms  worst %7.2f ms\n", what, ms.size(), at(0.5), at(0.95), ms.back());
    }
};

void scroll(Board& board, const char* what) {
    Times t;
    for (int i = 0; i < 300; ++i) {
        QScrollBar* bar = i % 3 == 0 ? board.verticalScrollBar() : board.horizontalScrollBar();
        t.time([&] {
            bar->setValue((i * 37) % std::max(1, bar->maximum()));
            board.viewport()->repaint();
        });
    }
    t.tell(what);
}

void mouse(Board& board, QEvent::Type type, const QPointF& at, Qt::MouseButton button) {
    QMouseEvent e(type, at, board.viewport()->mapToGlobal(at), button, Qt::LeftButton, {});
    QCoreApplication::sendEvent(board.viewport(), &e);
}

/// Frames of a drag: moves with their paint, and apart from them the prices that are asked for where the pointer rests.
void drag(Board& board, PlanDesk& desk, const char* folder) {
    const int job = desk.draft().orders().printers[3].at(2).job;
    board.reveal(job);
    const QPointF from = board.rectOf(job).center();
    mouse(board, QEvent::MouseButtonPress, from, Qt::LeftButton);
    Times frames, offers;
    const QRectF area = board.shape().timeArea().adjusted(40, 40, -40, -40);
    for (int i = 0; i < 400; ++i) {
        const QPointF to(area.left() + (i * 13) % static_cast<int>(area.width()), area.top() + (i * 5) % static_cast<int>(area.height()));
        frames.time([&] {
            mouse(board, QEvent::MouseMove, to, Qt::NoButton);
            board.viewport()->repaint();
        });
        if (i % 40 == 39) {
            const DropPlace place = dropAt(board.rows(), board.shape().row(to.y()), board.shape().minute(to.x()), {});
            if (place.row >= 0) offers.time([&] { desk.offer({job}, {place.row, place.at, {}}); });
        }
    }
    QElapsedTimer waited;
    for (waited.start(); board.offered().isEmpty() && waited.elapsed() < 2000;) QCoreApplication::processEvents();
    if (folder) board.grab().save(QStringLiteral("%1/board-drag-1000.png").arg(QString::fromLocal8Bit(folder)));
    frames.tell("dragging one of 1,000 jobs");
    offers.tell("price of a drop (where the pointer rests)");
    QKeyEvent escape(QEvent::KeyPress, Qt::Key_Escape, {});
    QCoreApplication::sendEvent(&board, &escape);
}

void placeAll(PlanDesk& desk) {
    Times t;
    t.time([&] { desk.groupByFamily(); });
    t.tell("group by family and draw up the rows");
}

/// The shop of labels with its board, as the window opens it.
class OpenBoard {
public:
    OpenBoard(int printers, int jobs) {
        const CatalogueReading reading = readFleetTexts(shopOfLabels(printers, jobs));
        for (const Problem& p : reading.problems) std::fprintf(stderr, "%s\n", qPrintable(p.text()));
        if (!reading.catalogue) return;
        auto opened = Workbench::open(reading.catalogue, makeMemoryStore(reading.catalogue->fleet.id), m_clock, QStringLiteral("bench"));
        if (!opened) {
            std::fprintf(stderr, "%s\n", qPrintable(sentence(opened.error())));
            return;
        }
        m_workbench = std::move(*opened);
        m_bench = std::make_unique<Bench>(*m_workbench);
        desk = std::make_unique<PlanDesk>(*m_bench);
        board = std::make_unique<Board>(*desk);
        board->resize(1376, 900);
        board->show();
        QCoreApplication::processEvents();
        placeAll(*desk);
        std::printf("%d printers, %d jobs, %d not placed, view %d x %d\n", printers, jobs, desk->figures().notPlaced,
                    board->viewport()->width(), board->viewport()->height());
    }
    bool isOpen() const { return board != nullptr; }

private:
    ManualClock m_clock{instantOf(QDateTime(QDate(2026, 3, 2), QTime(6, 0), Qt::UTC))};
    std::unique_ptr<Workbench> m_workbench;
    std::unique_ptr<Bench> m_bench;

public:
    std::unique_ptr<PlanDesk> desk;
    std::unique_ptr<Board> board; // goes before its desk
};

/// The price that the label beside the pointer tells, over many jobs and places.
void prices(int printers, int jobs) {
    OpenBoard open(printers, jobs);
    if (!open.isOpen()) return;
    Times t;
    const planning::Orders& orders = open.desk->draft().orders();
    for (int i = 0; i < 60; ++i) {
        const auto& from = orders.printers[static_cast<std::size_t>(i * 7 % printers)];
        const auto to = static_cast<std::size_t>((i * 5 + 1) % printers);
        if (from.empty()) continue;
        const int job = from.at(static_cast<std::size_t>(i) % from.size()).job;
        t.time([&] { open.desk->offer({job}, {static_cast<int>(to), orders.printers[to].size() / 2, {}}); });
    }
    t.tell("price of a drop");
}

/// Arithmetic that never changes, so that figures of two runs can be compared: say them as multiples of it.
void reference() {
    Times t;
    std::uint64_t x = 88172645463325252ULL, sum = 0;
    t.time([&] {
        for (int i = 0; i < 50'000'000; ++i) {
            x ^= x << 13;
            x ^= x >> 7;
            x ^= x << 17;
            sum += x & 1023;
        }
    });
    t.tell(sum > 0 ? "reference loop: 50 million random numbers" : "");
}

/// The most memory that the process has held, as the system counts it.
void memory() {
    QFile status(QStringLiteral("/proc/self/status"));
    if (!status.open(QIODevice::ReadOnly)) return;
    for (const QByteArray& line : status.readAll().split('\n'))
        if (line.startsWith("VmHWM:")) std::printf("memory at most %lld MB\n", line.mid(6).trimmed().split(' ').first().toLongLong() / 1024);
}

} // namespace

int boardFrames(int argc, char** argv) {
    const char* folder = argc > 2 ? argv[2] : nullptr;
    if (!qEnvironmentVariableIsSet("QT_QPA_PLATFORM")) qputenv("QT_QPA_PLATFORM", "offscreen");
    QApplication app(argc, argv);
    look::apply(app, look::Theme::Light);
    reference();
    prices(8, 60);
    prices(40, 500);
    OpenBoard open(60, 1000);
    if (!open.isOpen()) return 1;
    Board& board = *open.board;
    scroll(board, "scrolling at the scale of the start");
    board.fit();
    scroll(board, "scrolling with the whole plan in view");
    if (folder) board.grab().save(QStringLiteral("%1/board-1000.png").arg(QString::fromLocal8Bit(folder)));
    drag(board, *open.desk, folder);
    memory();
    return 0;
}

} // namespace interlude::bench
