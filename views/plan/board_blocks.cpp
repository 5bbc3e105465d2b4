// The painter's part for what lies in a row: prints, changeovers, bands, due marks, downtime.

#include "views/look/look.h"
#include "views/plan/board_painter.h"

#include <QPainter>
#include <QPainterPath>

#include <algorithm>
#include <cmath>

namespace interlude {

using planning::Kind;
using planning::Minute;

namespace {

constexpr double line = 16, markSize = 9, pad = 5;
/// Pieces nearer than that are seen as one.
constexpr double leastGap = 3;

bool has(const std::vector<char>& flags, int job) {
    return job >= 0 && static_cast<std::size_t>(job) < flags.size() && flags[static_cast<std::size_t>(job)] != 0;
}

QRectF snapped(const QRectF& r) {
    const double left = std::round(r.left()), right = std::max(left + 1, std::round(r.right()));
    return QRectF(left, std::round(r.top()), right - left, std::round(r.height()));
}

/// Lateness: a filled triangle.
void drawLate(QPainter& p, double x, double y) {
    const QPointF corners[] = {{x, y + markSize}, {x + markSize / 2, y}, {x + markSize, y + markSize}};
    p.setPen(Qt::NoPen);
    p.setBrush(look::colours().alarm);
    p.drawPolygon(corners, 3);
}

/// Stock short: a box that is filled at its bottom only.
void drawShort(QPainter& p, double x, double y, const QColor& colour) {
    p.setPen(colour);
    p.setBrush(Qt::NoBrush);
    p.drawRect(QRectF(x + 0.5, y + 0.5, markSize - 1, markSize - 1));
    p.fillRect(QRectF(x, y + markSize - 3, markSize, 3), colour);
}

/// Dry first: a drop, as a ring with a point.
void drawDrop(QPainter& p, double x, double y, const QColor& colour) {
    const QPointF corners[] = {{x + markSize / 2, y - 1}, {x + markSize - 1.5, y + 4}, {x + markSize / 2, y + markSize},
                               {x + 1.5, y + 4}};
    p.setPen(QPen(colour, 1.4));
    p.setBrush(Qt::NoBrush);
    p.drawPolygon(corners, 4);
}

/// A padlock.
void drawLock(QPainter& p, double x, double y, const QColor& colour) {
    p.fillRect(QRectF(x, y + 5, markSize, 6), colour);
    p.setPen(QPen(colour, 1.5));
    p.setBrush(Qt::NoBrush);
    p.drawArc(QRectF(x + 1.75, y + 0.5, markSize - 3.5, 9), 0, 180 * 16);
}

} // namespace

void BoardPainter::paintDown(QPainter& p, const BoardGeometry& g, int row) {
    const look::Colours& c = look::colours();
    for (const planning::Span& s : (*m_rows)[static_cast<std::size_t>(row)].down) {
        if (s.from > g.lastVisible()) break;
        if (s.to < g.firstVisible()) continue;
        QRectF r = snapped(g.blockRect(row, s.from, s.to));
        r.adjust(0, -line / 2, 0, line / 4);
        p.fillRect(r, c.line);
        p.fillRect(r, QBrush(c.muted, Qt::BDiagPattern));
        const double left = std::max(r.left(), BoardGeometry::headerWidth) + pad;
        if (!m_down || left + m_down->width + pad > r.right()) continue;
        p.fillRect(QRectF(left - 2, r.top() + 3, m_down->width + 4, line), c.panel);
        p.setPen(c.text);
        drawWord(p, left, r.top() + 3, m_down, m_plain);
    }
}

void BoardPainter::paintBands(QPainter& p, const BoardGeometry& g, int row) {
    const auto& bands = (*m_rows)[static_cast<std::size_t>(row)].bands;
    const Minute first = g.firstVisible(), last = g.lastVisible();
    const auto at = std::partition_point(bands.begin(), bands.end(), [&](const BoardBand& b) { return b.to < first; });
    for (auto b = at; b != bands.end() && b->from <= last; ++b)
        paintBand(p, g, row, static_cast<std::size_t>(b - bands.begin()));
}

void BoardPainter::paintBand(QPainter& p, const BoardGeometry& g, int row, std::size_t band) {
    const look::Colours& c = look::colours();
    const BoardBand& b = (*m_rows)[static_cast<std::size_t>(row)].bands[band];
    const QRectF r = snapped(g.bandRect(row, b.from, b.to));
    const double y = r.center().y() + 0.5;
    p.setPen(c.muted);
    p.drawLine(QPointF(r.left(), y), QPointF(r.right() - 1, y));
    p.drawLine(QPointF(r.left() + 0.5, y), QPointF(r.left() + 0.5, y + 5));
    p.drawLine(QPointF(r.right() - 0.5, y), QPointF(r.right() - 0.5, y + 5));
    const double left = std::max(r.left(), BoardGeometry::headerWidth) + 3 * pad;
    const double right = std::min(r.right(), g.view.width()) - pad;
    const BoardWord* word = m_bandWords[static_cast<std::size_t>(row)][band];
    if (!word || left + word->width + pad > right) word = familyOf(b.family).initials;
    if (!word || left + word->width + pad > right) return;
    p.fillRect(QRectF(left - pad, r.top(), word->width + 2 * pad, r.height()), c.panel);
    p.setPen(c.soft);
    drawWord(p, left, r.top() - 1, word, m_plain);
}

void BoardPainter::paintPreparations(QPainter& p, const BoardGeometry& g, int row) {
    const auto& spans = (*m_rows)[static_cast<std::size_t>(row)].preparations;
    const Minute first = g.firstVisible();
    // They follow one another on a printer, so their ends ascend as well.
    auto s = std::partition_point(spans.begin(), spans.end(), [&](const planning::Span& x) { return x.to < first; });
    for (; s != spans.end() && s->from <= g.lastVisible(); ++s) {
        const QRectF r = snapped(g.blockRect(row, s->from, s->to));
        p.fillRect(QRectF(r.left(), r.top() - 4, r.width(), 3), look::colours().text);
    }
}

void BoardPainter::paintDues(QPainter& p, const BoardGeometry& g, int row, const BoardMarks& marks) {
    const look::Colours& c = look::colours();
    const BoardRow& r = (*m_rows)[static_cast<std::size_t>(row)];
    const double top = g.blockRect(row, 0, 0).bottom() + 1;
    auto d = std::lower_bound(r.dues.begin(), r.dues.end(), std::pair<Minute, int>(g.firstVisible() - 60, -1));
    for (; d != r.dues.end() && d->first <= g.lastVisible() + 60; ++d) {
        const BoardBlock& b = r.blocks[static_cast<std::size_t>(d->second)];
        const bool pointed = has(marks.selected, b.job);
        const double x = std::round(g.x(d->first)) + 0.5;
        const QColor& colour = pointed ? c.accent : b.late > 0 ? c.alarm : c.muted;
        // Which job the mark belongs to is told by a line from its end, for what is selected.
        p.setPen(colour);
        if (pointed) p.drawLine(QPointF(x, top + 7), QPointF(std::clamp(g.x(b.to), -64.0, g.view.width() + 64), top + 7));
        p.drawLine(QPointF(x, top), QPointF(x, top + 8));
        const QPointF pennant[] = {{x, top}, {x - 5, top + 2}, {x, top + 4}};
        p.setBrush(b.late > 0 ? QBrush(colour) : QBrush(c.panel));
        p.drawPolygon(pennant, 3);
    }
}

/// Hands-on work solid, waiting as a light outline. Where the scale leaves no room between two pieces of hands-on work,
/// they are drawn as one: a row of hairs tells nothing.
void BoardPainter::paintPieces(QPainter& p, const BoardGeometry& g, int row, const BoardBlock& b, double shift) {
    const look::Colours& c = look::colours();
    const BoardRow& r = (*m_rows)[static_cast<std::size_t>(row)];
    const Minute first = g.firstVisible() - static_cast<Minute>(shift / g.pxPerMinute) - 1, last = g.lastVisible();
    QRectF solid;
    const auto flush = [&] {
        if (solid.width() > 0) p.fillRect(solid, c.soft);
        solid = {};
    };
    for (std::size_t i = b.firstPiece; i < b.firstPiece + b.pieces; ++i) {
        const BoardPiece& piece = r.pieces[i];
        if (piece.to < first || piece.from > last) continue;
        const QRectF lane = snapped(g.blockRect(row, piece.from, piece.to, 1).translated(shift, 0));
        const double share = piece.kind == Kind::Waiting ? 0.28 : piece.kind == Kind::PartRemoval ? 0.4 : 0.7;
        const double height = std::round(lane.height() * share);
        QRectF box(lane.left(), std::round(lane.center().y() - height / 2), lane.width(), height);
        if (piece.kind == Kind::Waiting) {
            if (box.width() < leastGap) continue;
            p.fillRect(box, c.muted);
            p.fillRect(box.adjusted(1, 1, -1, -1), c.panel);
            continue;
        }
        if (solid.width() > 0 && solid.height() == height && box.left() - solid.right() < leastGap && lane.width() <= 6) {
            solid.setRight(std::max(solid.right(), box.right()));
            continue;
        }
        flush();
        // A hair between segments, where there is room for one.
        solid = box.width() > 6 ? box.adjusted(0, 0, -1, 0) : box;
    }
    flush();
}

void BoardPainter::paintBlock(QPainter& p, const BoardGeometry& g, int row, std::size_t block, const BoardMarks& marks,
                              double shift) {
    const look::Colours& c = look::colours();
    const BoardBlock& b = (*m_rows)[static_cast<std::size_t>(row)].blocks[block];
    const bool carried = has(marks.carried, b.job);
    if (carried) p.setOpacity(0.3);
    paintPieces(p, g, row, b, shift);
    if (b.job >= 0) {
        const QRectF r = snapped(g.blockRect(row, b.printStart, b.printEnd).translated(shift, 0));
        const Family& family = familyOf(b.family);
        p.fillRect(r, family.tint);
        p.fillRect(r, family.hatch);
        p.setBrush(Qt::NoBrush);
        p.setPen(carried ? QPen(c.muted, 1, Qt::DashLine) : QPen(family.edge));
        p.drawRect(r.adjusted(0.5, 0.5, -0.5, -0.5));
        paintTexts(p, r, b, m_faces[static_cast<std::size_t>(row)][block], family);
        if (has(marks.selected, b.job)) {
            p.setPen(QPen(c.accent, 3));
            p.setBrush(Qt::NoBrush);
            p.drawRect(r.adjusted(1.5, 1.5, -1.5, -1.5));
        }
        if (b.job == marks.focus && marks.hasFocus) {
            p.setPen(QPen(c.text, 1, Qt::DotLine));
            p.setBrush(Qt::NoBrush);
            p.drawRect(r.adjusted(-2.5, -2.5, 2.5, 2.5));
        }
    }
    if (carried) p.setOpacity(1);
}

void BoardPainter::paintTexts(QPainter& p, const QRectF& whole, const BoardBlock& b, const Face& face, const Family& family) {
    // What began left of the view says its name at the edge.
    QRectF r = whole;
    if (r.left() < BoardGeometry::headerWidth) r.setLeft(std::min(r.right(), BoardGeometry::headerWidth));
    const look::Colours& c = look::colours();
    const double left = r.left() + pad, room = r.width() - 2 * pad;
    const double top = r.top() + (r.height() >= 3 * line + 6 ? 3 : 1);
    if (face.id && face.id->width > room) return paintNarrow(p, r, b, face, family);
    double used = 0;
    if (face.id) {
        // The hatch stops behind words.
        p.fillRect(QRectF(left - 2, top, face.id->width + 4, line), family.tint);
        p.setPen(c.text);
        drawWord(p, left, top, face.id, m_bold);
        used = face.id->width + pad;
    }
    if (b.locked) { // below the id where there is no room beside it
        const double y = used + markSize <= room ? top : top + line;
        p.fillRect(QRectF(r.right() - pad - markSize - 2, y, markSize + 4, line - 2), family.tint);
        drawLock(p, r.right() - pad - markSize, y + 1, c.text);
    }
    if (!(r.height() >= 3 * line + 2)) return paintBottomLine(p, r, b, face, family, left);
    double x = left;
    const double y = top + line;
    if (family.initials && family.initials->width <= room) {
        p.fillRect(QRectF(x - 2, y, family.initials->width + 4, line), family.tint);
        p.setPen(c.text);
        drawWord(p, x, y, family.initials, m_plain);
        x += family.initials->width + 2 * pad;
    }
    if (face.title && x + face.title->width <= r.right() - pad) {
        p.fillRect(QRectF(x - 2, y, face.title->width + 4, line), family.tint);
        p.setPen(c.text);
        drawWord(p, x, y, face.title, m_plain);
    }
    Family none;
    none.tint = family.tint;
    paintBottomLine(p, r, b, face, none, left);
}

/// Too narrow for its id: that is read upwards. The lock on top (over the edges where it must) and the flags at the bottom stand
/// beside the id where there is room, else above and below it.
void BoardPainter::paintNarrow(QPainter& p, const QRectF& r, const BoardBlock& b, const Face& face, const Family& family) {
    const look::Colours& c = look::colours();
    const bool beside = r.width() >= line + markSize + 3;
    const bool flagged = face.late || b.isShort || b.dryFirst;
    double top = r.top() + 2;
    if (b.locked) {
        const double x = std::round(beside ? r.right() - markSize - 2 : r.center().x() - markSize / 2);
        p.fillRect(QRectF(x - 1, top - 1, markSize + 2, markSize + 4), family.tint);
        drawLock(p, x, top, c.text);
        if (!beside) top += markSize + 4;
    }
    const double bottom = r.bottom() - 2 - (flagged && !beside ? line : 0);
    if (r.width() >= line - 3 && bottom - top >= face.id->width) {
        const double x = std::round(beside ? r.left() + 1 : r.center().x() - line / 2);
        p.fillRect(QRectF(std::max(x, r.left() + 1), bottom - face.id->width - 2, std::min(line, r.width() - 2), face.id->width + 2), family.tint);
        p.save();
        p.translate(x, bottom);
        p.rotate(-90);
        p.setPen(c.text);
        drawWord(p, 0, 0, face.id, m_bold);
        p.restore();
    }
    Family none;
    none.tint = family.tint;
    paintBottomLine(p, r, b, face, none, beside ? r.left() + line : r.left());
}

/// Initials (where there was no line for them), flags, and lateness at the right end: words where there is room, else shapes.
void BoardPainter::paintBottomLine(QPainter& p, const QRectF& r, const BoardBlock& b, const Face& face, const Family& family,
                                   double from) {
    const look::Colours& c = look::colours();
    const double y = r.bottom() - line - 1;
    double right = r.right() - pad;
    if (face.late) {
        const double whole = markSize + pad + face.late->width;
        const bool said = whole <= right - from;
        const double width = said ? whole : markSize;
        const double x = std::max(r.left(), right - width);
        p.fillRect(QRectF(x - 2, y, width + 4, line), c.panel);
        drawLate(p, x, y + 3);
        p.setPen(c.alarm);
        if (said) drawWord(p, x + markSize + pad, y, face.late, m_plain);
        right = x - pad;
    }
    if (family.initials && from + family.initials->width <= right) {
        p.fillRect(QRectF(from - 2, y, family.initials->width + 4, line), family.tint);
        p.setPen(c.text);
        drawWord(p, from, y, family.initials, m_plain);
        from += family.initials->width + 2 * pad;
    }
    const auto flag = [&](bool is, const BoardWord* word, void (*draw)(QPainter&, double, double, const QColor&)) {
        if (!is || !word || from + markSize > right) return;
        const bool said = from + markSize + pad + word->width <= right;
        p.fillRect(QRectF(from - 2, y, markSize + 4 + (said ? pad + word->width : 0), line), c.panel);
        draw(p, from, y + 3, c.caution);
        p.setPen(c.caution);
        if (said) drawWord(p, from + markSize + pad, y, word, m_plain);
        from += markSize + 2 * pad + (said ? pad + word->width : 0);
    };
    flag(b.isShort, m_short, drawShort);
    flag(b.dryFirst, m_dry, drawDrop);
}

} // namespace interlude
