// Pixels of the board, by plain numbers.

#include "tests/harness/run_tests.h"
#include "views/plan/board_axis.h"
#include "views/plan/board_geometry.h"

#include <QtTest>

using namespace interlude;
using planning::Minute;

namespace {

/// 1 px a minute from −120 on; two rows of 64 px; the view shows 864 minutes.
BoardGeometry plain() {
    BoardGeometry g;
    g.from = -120;
    g.to = 2880;
    g.pxPerMinute = 1;
    g.rows = 2;
    g.rowHeight = 64;
    g.view = QSizeF(1000, 400);
    return g;
}

BoardBlock block(int job, int place, Minute from, Minute start, Minute end, Minute to, int family = 0) {
    BoardBlock b;
    b.job = job;
    b.place = place;
    b.family = family;
    b.from = from;
    b.printStart = start;
    b.printEnd = end;
    b.to = to;
    return b;
}

/// Row 0: job 0 prints now, then 1 and 2. Row 1: nothing but an order with one job that found no time.
std::vector<BoardRow> twoRows() {
    std::vector<BoardRow> rows(2);
    rows[0].blocks = {block(0, -1, -60, -60, 100, 110), block(1, 0, 110, 150, 300, 306), block(2, 1, 306, 400, 500, 506)};
    rows[0].bands = {{0, 0, 1, 0, -60, 300}};
    rows[0].orderLength = 2;
    rows[1].orderLength = 1;
    return rows;
}

QPointF inLane(const BoardGeometry& g, int row, double x) {
    return {x, g.blockRect(row, 0, 0).center().y()};
}

} // namespace

class BoardGeometryTest final : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void minutesAndPixels() {
        BoardGeometry g = plain();
        QCOMPARE(g.x(-120), BoardGeometry::headerWidth);
        QCOMPARE(g.x(0), BoardGeometry::headerWidth + 120);
        QCOMPARE(g.minute(g.x(77)), Minute(77));
        g.scrollX = 300;
        QCOMPARE(g.minute(BoardGeometry::headerWidth), Minute(180));
        g.pxPerMinute = 0.25; // a pixel is four minutes, and it is the minute at its left edge
        for (const Minute m : {-100, 0, 4, 2000}) QCOMPARE(g.minute(g.x(m)), m);
        QCOMPARE(g.minute(g.x(8) + 0.9), Minute(11));
        QCOMPARE(g.firstVisible(), Minute(-120 + 1200));
    }
    void rowsAndPixels() {
        BoardGeometry g = plain();
        QCOMPARE(g.row(BoardGeometry::axisHeight - 1), -1);
        QCOMPARE(g.row(BoardGeometry::axisHeight), 0);
        QCOMPARE(g.row(BoardGeometry::axisHeight + 64), 1);
        QCOMPARE(g.row(BoardGeometry::axisHeight + 128), -1);
        g.scrollY = 70;
        QCOMPARE(g.row(BoardGeometry::axisHeight), 1);
        QCOMPARE(g.firstRow(), 1);
        QCOMPARE(g.lastRow(), 1);
        g.rows = 0;
        QCOMPARE(g.lastRow(), -1);
    }
    void zoomKeepsTheMinuteUnderThePointer() {
        BoardGeometry g = plain();
        g.scrollX = 400;
        const double x = 600;
        const Minute before = g.minute(x);
        g.zoom(x, 1.5);
        QCOMPARE(g.pxPerMinute, 1.5);
        QVERIFY(std::abs(g.minute(x) - before) <= 1);
        for (int i = 0; i < 40; ++i) g.zoom(x, 1.5);
        QCOMPARE(g.pxPerMinute, BoardGeometry::mostPxPerMinute);
        for (int i = 0; i < 40; ++i) g.zoom(x, 0.5);
        QCOMPARE(g.pxPerMinute, g.fit()); // all is seen, and no more
        QCOMPARE(g.scrollX, 0.0);
        QCOMPARE(g.x(g.to), 1000.0);
    }
    void scrollIsBounded() {
        BoardGeometry g = plain();
        g.scrollX = 1e9;
        g.scrollY = -5;
        g.boundScroll();
        QCOMPARE(g.scrollX, 3000.0 - (1000.0 - BoardGeometry::headerWidth));
        QCOMPARE(g.scrollY, 0.0);
    }
    void rowsFillTheView() {
        BoardGeometry g = plain();
        g.rows = 6;
        g.view = QSizeF(1000, BoardGeometry::axisHeight + 6 * 80 + 3);
        g.fillRows();
        QCOMPARE(g.rowHeight, 80.0);
        g.rows = 60;
        g.fillRows();
        QCOMPARE(g.rowHeight, BoardGeometry::leastRow);
        g.rows = 1;
        g.fillRows();
        QCOMPARE(g.rowHeight, BoardGeometry::mostRow);
    }
    void hugeSpansAreCutNearTheView() {
        const BoardGeometry g = plain();
        const QRectF r = g.blockRect(0, -planning::never / 1024, planning::never / 1024);
        QVERIFY(r.width() < 1200);
        QVERIFY(r.left() < BoardGeometry::headerWidth && r.right() > g.view.width());
        QCOMPARE(g.blockRect(0, 10, 10).width(), 3.0); // still to be hit
    }
    void whatIsUnderThePointer() {
        const BoardGeometry g = plain();
        const auto rows = twoRows();
        const auto at = [&](Minute m) { return hitTest(g, rows, inLane(g, 0, g.x(m))); };
        QVERIFY(at(0).what == BoardHit::What::Job);
        QCOMPARE(at(0).index, 0);
        QCOMPARE(at(120).index, 1); // its changeover is its own
        QCOMPARE(at(299).index, 1);
        QCOMPARE(at(306).index, 2);
        QVERIFY(at(600).what == BoardHit::What::Nothing);
        QCOMPARE(at(600).row, 0);
        QVERIFY(hitTest(g, rows, inLane(g, 1, 400)).what == BoardHit::What::Nothing);
        QVERIFY(hitTest(g, rows, QPointF(400, 10)).what == BoardHit::What::Axis);
        QVERIFY(hitTest(g, rows, inLane(g, 0, 20)).what == BoardHit::What::Header);
        const BoardHit band = hitTest(g, rows, g.bandRect(0, -60, 300).center());
        QVERIFY(band.what == BoardHit::What::Band);
        QCOMPARE(band.index, 0);
        QVERIFY(hitTest(g, rows, QPointF(400, 399)).row == -1);
    }
    void aPrintOfNoWidthIsStillHit() {
        BoardGeometry g = plain();
        g.pxPerMinute = 0.01;
        std::vector<BoardRow> rows(1);
        g.rows = 1;
        rows[0].blocks = {block(7, 0, 1000, 1000, 1001, 1001)};
        QCOMPARE(hitTest(g, rows, inLane(g, 0, g.x(1000) + 1)).index, 0);
        QCOMPARE(hitTest(g, rows, inLane(g, 0, g.x(1000) + 12)).index, -1);
    }
    void whereADropGoes() {
        const auto rows = twoRows();
        const auto at = [&](Minute m, std::vector<char> carried = {}) { return dropAt(rows, 0, m, carried); };
        // Nothing goes before what prints now; the middle of a print divides.
        QVERIFY((at(-100) == DropPlace{0, 1, 0}));
        QVERIFY((at(224) == DropPlace{0, 1, 0}));
        QVERIFY((at(225) == DropPlace{0, 2, 1}));
        QVERIFY((at(449) == DropPlace{0, 2, 1}));
        QVERIFY((at(450) == DropPlace{0, 3, 2}));
        // What is carried is looked through: job 1 over its own place goes before job 2, which changes nothing.
        QVERIFY((at(0, {0, 1, 0}) == DropPlace{0, 2, 1}));
        // Behind everything, also behind what found no time.
        QVERIFY((dropAt(rows, 1, 50, {}) == DropPlace{1, 0, 1}));
        QCOMPARE(dropAt(rows, -1, 50, {}).row, -1);
    }
    void rubberBandTakesWhatItTouches() {
        const BoardGeometry g = plain();
        const auto rows = twoRows();
        const double y = g.blockRect(0, 0, 0).center().y();
        QCOMPARE(jobsIn(g, rows, QRectF(QPointF(g.x(290), y - 5), QPointF(g.x(410), y + 5))), (std::vector<int>{1, 2}));
        QVERIFY(jobsIn(g, rows, QRectF(QPointF(g.x(310), y - 5), QPointF(g.x(390), y + 5))).empty()); // a changeover only
        QVERIFY(jobsIn(g, rows, QRectF(QPointF(g.x(290), g.y(1) + 1), QPointF(g.x(410), g.y(1) + 60))).empty());
    }
    void firstVisibleBlockIsFoundByBisection() {
        const auto rows = twoRows();
        QCOMPARE(firstEndingAfter(rows[0], -1000), std::size_t(0));
        QCOMPARE(firstEndingAfter(rows[0], 109), std::size_t(0));
        QCOMPARE(firstEndingAfter(rows[0], 110), std::size_t(1));
        QCOMPARE(firstEndingAfter(rows[0], 506), std::size_t(3));
    }
    void axisStandsOnLocalHours() {
        const QTimeZone vienna(QByteArrayLiteral("Europe/Vienna"));
        const Instant now = instantOf(QDateTime(QDate(2026, 3, 28), QTime(11, 30), Qt::UTC)); // 12:30 there
        const auto times = axisTimes(now, -60, 36 * 60, 60, vienna);
        for (const AxisTime& t : times) {
            const QDateTime local = toZone(now + std::chrono::minutes(t.at), vienna);
            QCOMPARE(local.time(), t.time);
            QCOMPARE(local.date(), t.date);
            QCOMPARE(t.midnight, t.time == QTime(0, 0));
        }
        // 02:00 of the 29th is skipped there, so 37 hours hold as many marks as there are local hours.
        QCOMPARE(static_cast<int>(times.size()), 37);
        for (const AxisTime& t : times) QVERIFY(!(t.date == QDate(2026, 3, 29) && t.time == QTime(2, 0)));
        QCOMPARE(axisStep(0.02), 24 * 60);
        QCOMPARE(axisStep(44.0 / 60), 60);
        QCOMPARE(axisStep(4), 15);
    }
};

INTERLUDE_TEST(BoardGeometryTest)
#include "board_geometry_test.moc"
