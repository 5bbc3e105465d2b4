#pragma once
// Minutes and printers to pixels of the board and back: what is where, what is under the pointer, where a drop would go.
// Plain, tested; knows no widget.

#include "views/plan/board_rows.h"

#include <QRectF>

namespace interlude {

struct BoardGeometry {
    planning::Minute from = -120, to = 16 * 60; ///< all that can be scrolled to
    double pxPerMinute = 14.0 / 60;
    int rows = 0;
    double rowHeight = 64;
    QSizeF view;                 ///< of the viewport, with header column and axis
    double scrollX = 0, scrollY = 0;

    static constexpr double headerWidth = 136, axisHeight = 54;
    static constexpr double leastRow = 64, mostRow = 104;
    static constexpr double startPxPerMinute = 14.0 / 60, mostPxPerMinute = 4;

    double contentWidth() const { return static_cast<double>(to - from) * pxPerMinute; }
    double contentHeight() const { return rows * rowHeight; }
    /// The part of the viewport that shows time.
    QRectF timeArea() const;
    double x(planning::Minute m) const { return headerWidth + static_cast<double>(m - from) * pxPerMinute - scrollX; }
    /// The minute that a pixel column lies in.
    planning::Minute minute(double x) const;
    double y(int row) const { return axisHeight + row * rowHeight - scrollY; }
    /// -1 above the first (and in the axis) and below the last.
    int row(double y) const;
    planning::Minute firstVisible() const { return minute(headerWidth); }
    planning::Minute lastVisible() const { return minute(view.width()) + 1; }
    int firstRow() const;
    int lastRow() const; ///< -1 when there is none

    QRectF rowRect(int row) const;
    /// Cut to what is near the view, so that a print of a year is no rectangle of a million pixels. At least `least` wide.
    QRectF blockRect(int row, planning::Minute a, planning::Minute b, double least = 3) const;
    QRectF bandRect(int row, planning::Minute a, planning::Minute b) const;

    /// Row height that fills the view, within bounds.
    void fillRows();
    /// The scale at which the whole plan is seen at once.
    double fit() const;
    /// Keeps the minute under `x` where it is.
    void zoom(double x, double factor);
    void boundScroll();
};

struct BoardHit {
    enum class What { Nothing, Axis, Header, Band, Job } what = What::Nothing;
    int row = -1;
    int index = -1; ///< of the block or the band
};
BoardHit hitTest(const BoardGeometry& g, const std::vector<BoardRow>& rows, const QPointF& at);

/// Index of the first block that ends after that minute.
std::size_t firstEndingAfter(const BoardRow& row, planning::Minute m);
/// Jobs whose print touches the rectangle (rubber band), in order of rows and time.
std::vector<int> jobsIn(const BoardGeometry& g, const std::vector<BoardRow>& rows, const QRectF& r);

/// Where dropped jobs would stand.
struct DropPlace {
    int row = -1;    ///< -1: on no printer
    int before = -1; ///< block before which the gap opens; the number of blocks: behind the last
    std::size_t at = 0;
    bool operator==(const DropPlace&) const = default;
};
/// `carried`: by job, not 0 for those that are dragged: they are looked through.
DropPlace dropAt(const std::vector<BoardRow>& rows, int row, planning::Minute m, const std::vector<char>& carried);

} // namespace interlude
