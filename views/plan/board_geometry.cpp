#include "views/plan/board_geometry.h"

#include <algorithm>
#include <cmath>

namespace interlude {

using planning::Minute;

namespace {

/// Above the block: the band with the family's name, then the strip of preparation; below it the due marks.
constexpr double bandTop = 2, bandHeight = 15, blockTop = 22, blockBottom = 10;
/// How far beside a block the pointer still means it.
constexpr double nearPx = 3;

} // namespace

QRectF BoardGeometry::timeArea() const {
    return QRectF(headerWidth, axisHeight, std::max(0.0, view.width() - headerWidth), std::max(0.0, view.height() - axisHeight));
}

Minute BoardGeometry::minute(double px) const {
    return from + static_cast<Minute>(std::floor((px - headerWidth + scrollX) / pxPerMinute));
}

int BoardGeometry::row(double py) const {
    if (py < axisHeight) return -1;
    const double r = std::floor((py - axisHeight + scrollY) / rowHeight);
    return r >= 0 && r < rows ? static_cast<int>(r) : -1;
}

int BoardGeometry::firstRow() const {
    return std::max(0, static_cast<int>(std::floor(scrollY / rowHeight)));
}

int BoardGeometry::lastRow() const {
    return std::min(rows - 1, static_cast<int>(std::floor((scrollY + view.height() - axisHeight) / rowHeight)));
}

QRectF BoardGeometry::rowRect(int row) const {
    return QRectF(headerWidth, y(row), std::max(0.0, view.width() - headerWidth), rowHeight);
}

QRectF BoardGeometry::blockRect(int row, Minute a, Minute b, double least) const {
    const double left = std::clamp(x(a), headerWidth - 64, view.width() + 64);
    const double right = std::clamp(x(b), headerWidth - 64, view.width() + 64);
    return QRectF(left, y(row) + blockTop, std::max(right - left, least), rowHeight - blockTop - blockBottom);
}

QRectF BoardGeometry::bandRect(int row, Minute a, Minute b) const {
    QRectF r = blockRect(row, a, b);
    r.setTop(y(row) + bandTop);
    r.setHeight(bandHeight);
    return r;
}

void BoardGeometry::fillRows() {
    if (rows > 0) rowHeight = std::clamp(std::floor((view.height() - axisHeight) / rows), leastRow, mostRow);
}

double BoardGeometry::fit() const {
    const double width = std::max(64.0, view.width() - headerWidth);
    return std::min(width / static_cast<double>(std::max<Minute>(1, to - from)), mostPxPerMinute);
}

void BoardGeometry::zoom(double px, double factor) {
    const double minutes = (px - headerWidth + scrollX) / pxPerMinute;
    pxPerMinute = std::clamp(pxPerMinute * factor, fit(), mostPxPerMinute);
    scrollX = minutes * pxPerMinute - (px - headerWidth);
    boundScroll();
}

void BoardGeometry::boundScroll() {
    scrollX = std::clamp(scrollX, 0.0, std::max(0.0, contentWidth() - (view.width() - headerWidth)));
    scrollY = std::clamp(scrollY, 0.0, std::max(0.0, contentHeight() - (view.height() - axisHeight)));
}

std::size_t firstEndingAfter(const BoardRow& row, Minute m) {
    const auto at = std::partition_point(row.blocks.begin(), row.blocks.end(), [m](const BoardBlock& b) { return b.to <= m; });
    return static_cast<std::size_t>(at - row.blocks.begin());
}

namespace {

/// The block at that pixel column, or the one that is nearest within a few pixels; -1.
int blockAt(const BoardGeometry& g, const BoardRow& row, double px) {
    int best = -1;
    double distance = nearPx + 0.5;
    for (std::size_t i = firstEndingAfter(row, g.minute(px - nearPx) - 1); i < row.blocks.size(); ++i) {
        const double left = g.x(row.blocks[i].from), right = std::max(g.x(row.blocks[i].to), left + nearPx);
        if (left > px + nearPx) break;
        const double d = px < left ? left - px : px >= right ? px - right + 0.25 : 0;
        if (d < distance) distance = d, best = static_cast<int>(i);
    }
    return best;
}

} // namespace

BoardHit hitTest(const BoardGeometry& g, const std::vector<BoardRow>& rows, const QPointF& at) {
    BoardHit hit;
    hit.row = g.row(at.y());
    if (at.y() < BoardGeometry::axisHeight) {
        hit.what = BoardHit::What::Axis;
        return hit;
    }
    if (hit.row < 0) return hit;
    if (at.x() < BoardGeometry::headerWidth) {
        hit.what = BoardHit::What::Header;
        return hit;
    }
    const BoardRow& row = rows[static_cast<std::size_t>(hit.row)];
    const QRectF lane = g.blockRect(hit.row, 0, 0);
    if (at.y() >= lane.top() && at.y() < lane.bottom()) {
        hit.index = blockAt(g, row, at.x());
        if (hit.index >= 0) hit.what = BoardHit::What::Job;
        return hit;
    }
    for (std::size_t i = 0; i < row.bands.size(); ++i)
        if (g.bandRect(hit.row, row.bands[i].from, row.bands[i].to).contains(at)) {
            hit.what = BoardHit::What::Band;
            hit.index = static_cast<int>(i);
        }
    return hit;
}

std::vector<int> jobsIn(const BoardGeometry& g, const std::vector<BoardRow>& rows, const QRectF& r) {
    std::vector<int> out;
    for (int i = 0; i < static_cast<int>(rows.size()); ++i) {
        const QRectF lane = g.blockRect(i, 0, 0);
        if (r.bottom() < lane.top() || r.top() > lane.bottom()) continue;
        for (const BoardBlock& b : rows[static_cast<std::size_t>(i)].blocks)
            if (b.job >= 0 && g.x(b.printStart) <= r.right() && g.x(b.printEnd) >= r.left()) out.push_back(b.job);
    }
    return out;
}

DropPlace dropAt(const std::vector<BoardRow>& rows, int row, Minute m, const std::vector<char>& carried) {
    if (row < 0) return {};
    const BoardRow& r = rows[static_cast<std::size_t>(row)];
    DropPlace out{row, static_cast<int>(r.blocks.size()), r.orderLength};
    for (std::size_t i = 0; i < r.blocks.size(); ++i) {
        const BoardBlock& b = r.blocks[i];
        const bool looked = b.job >= 0 && static_cast<std::size_t>(b.job) < carried.size() &&
                            carried[static_cast<std::size_t>(b.job)] != 0;
        if (!b.movable() || looked || (b.printStart + b.printEnd) / 2 <= m) continue;
        out.before = static_cast<int>(i);
        out.at = static_cast<std::size_t>(b.place);
        break;
    }
    return out;
}

} // namespace interlude
