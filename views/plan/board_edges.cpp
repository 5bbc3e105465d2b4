// The painter's part for what stays in place: axis and headers; and what a drag lays over the board.

#include "views/look/look.h"
#include "views/plan/board_painter.h"
#include "views/plan/board_sentences.h"

#include <QFontMetricsF>
#include <QPainter>

#include <algorithm>
#include <cmath>

namespace interlude {

using planning::Minute;

namespace {

constexpr double dayTop = 3, hourTop = 20, crewTop = 37, pad = 5;

} // namespace

const std::vector<BoardPainter::Mark>& BoardPainter::marksOf(const BoardGeometry& g) {
    if (g.from != m_marksFrom || g.to != m_marksTo) m_marks.clear();
    m_marksFrom = g.from;
    m_marksTo = g.to;
    const int step = axisStep(g.pxPerMinute);
    const auto [at, isNew] = m_marks.try_emplace(step);
    if (!isNew) return at->second;
    const QTimeZone& zone = m_desk.bench().catalogue().fleet.zone;
    Mark* day = nullptr;
    auto& marks = at->second;
    const auto times = axisTimes(m_desk.problem().now, g.from - 24 * 60, g.to + 24 * 60, step, zone);
    marks.reserve(times.size()); // `day` points into it
    for (const AxisTime& t : times) {
        Mark m;
        m.at = t.at;
        m.hour = m_plain.of(t.time.toString(step < 60 ? QStringLiteral("HH:mm") : QStringLiteral("HH")));
        if (t.midnight) {
            m.day = m_bold.of(t.date.toString(QStringLiteral("ddd d MMM")));
            m.shortDay = m_bold.of(t.date.toString(t.date.dayOfWeek() == Qt::Monday ? QStringLiteral("d MMM") : QStringLiteral("d")));
            if (day) day->dayEnd = t.at;
        }
        marks.push_back(m);
        if (t.midnight) day = &marks.back();
    }
    if (day) day->dayEnd = day->at + 24 * 60;
    return marks;
}

void BoardPainter::paintAxis(QPainter& p, const BoardGeometry& g, const BoardMarks& marks) {
    const look::Colours& c = look::colours();
    p.fillRect(QRectF(0, 0, g.view.width(), BoardGeometry::axisHeight), c.panel);
    p.save();
    p.setClipRect(QRectF(BoardGeometry::headerWidth, 0, g.view.width(), BoardGeometry::axisHeight));
    paintDays(p, g);
    if (axisStep(g.pxPerMinute) < 24 * 60) {
        p.setPen(c.muted);
        for (const Mark& m : marksOf(g)) {
            const double x = g.x(m.at);
            if (x > g.view.width()) break;
            if (x >= BoardGeometry::headerWidth - 1) drawWord(p, x + 2, hourTop, m.hour, m_plain);
        }
    }
    paintCrew(p, g);
    paintNow(p, g, marks, QRectF(BoardGeometry::headerWidth, hourTop, g.view.width(), BoardGeometry::axisHeight - hourTop));
    p.restore();
    p.setPen(c.muted);
    if (m_crew) drawWord(p, BoardGeometry::headerWidth - pad - m_crew->width, crewTop, m_crew, m_plain);
    p.setPen(c.line);
    const double y = BoardGeometry::axisHeight - 0.5;
    p.drawLine(QPointF(0, y), QPointF(g.view.width(), y));
}

void BoardPainter::paintDays(QPainter& p, const BoardGeometry& g) {
    const look::Colours& c = look::colours();
    double free = BoardGeometry::headerWidth; // no day over the one before
    for (const Mark& m : marksOf(g)) {
        if (!m.day) continue;
        const double left = g.x(m.at), right = g.x(m.dayEnd);
        if (left > g.view.width()) break;
        if (right < BoardGeometry::headerWidth) continue;
        p.setPen(c.line);
        p.drawLine(QPointF(std::round(left) + 0.5, 0), QPointF(std::round(left) + 0.5, BoardGeometry::axisHeight));
        const double x = std::max(left, BoardGeometry::headerWidth) + pad; // today's name stays at the edge
        const BoardWord* word = x + m.day->width + pad <= right ? m.day : m.shortDay;
        if (x + word->width + pad > right && x < free) continue;
        if (x < free || (x + word->width > right && left < BoardGeometry::headerWidth)) continue;
        p.setPen(c.text);
        drawWord(p, x, dayTop, word, m_bold);
        free = x + word->width + pad;
    }
}

void BoardPainter::paintCrew(QPainter& p, const BoardGeometry& g) {
    const look::Colours& c = look::colours();
    const auto& crew = m_desk.problem().problem.crew;
    for (std::size_t i = 0; i < crew.size() && i < m_crewWords.size(); ++i) {
        const double left = std::max(g.x(crew[i].from), BoardGeometry::headerWidth);
        const double right = i + 1 < crew.size() ? g.x(crew[i + 1].from) : g.view.width();
        if (left > g.view.width()) break;
        if (right < BoardGeometry::headerWidth) continue;
        const double end = std::min(right, g.view.width());
        if (crew[i].crew == 0)
            p.fillRect(QRectF(left, crewTop - 1, end - left, BoardGeometry::axisHeight - crewTop + 1), c.ground);
        const auto [said, number] = m_crewWords[i];
        const BoardWord* word = said && left + said->width + 2 * pad <= right ? said : number;
        if (!word || left + word->width + 2 > right) continue;
        p.setPen(crew[i].crew == 0 ? c.muted : c.soft);
        drawWord(p, left + std::min(pad, (right - left - word->width) / 2), crewTop, word, m_plain);
    }
}

void BoardPainter::paintHeaders(QPainter& p, const BoardGeometry& g) {
    const look::Colours& c = look::colours();
    p.save();
    p.setClipRect(QRectF(0, BoardGeometry::axisHeight, BoardGeometry::headerWidth, g.view.height()));
    for (int row = g.firstRow(); row <= g.lastRow(); ++row) {
        const Header& h = m_headers[static_cast<std::size_t>(row)];
        const bool three = g.rowHeight >= 72;
        double y = g.y(row) + std::floor((g.rowHeight - (three ? 3 : 2) * 17) / 2);
        p.setPen(c.text);
        drawWord(p, 2 * look::unit, y, h.name, m_bold);
        p.setPen(c.muted);
        if (three || !h.overdue) drawWord(p, 2 * look::unit, y += 17, h.setup, m_plain);
        if (h.overdue) p.setPen(c.alarm);
        if (three || h.overdue) drawWord(p, 2 * look::unit, y + 17, h.state, m_plain);
        p.setPen(c.line);
        const double bottom = g.y(row) + g.rowHeight - 0.5;
        p.drawLine(QPointF(0, bottom), QPointF(BoardGeometry::headerWidth, bottom));
    }
    p.drawLine(QPointF(BoardGeometry::headerWidth - 0.5, 0), QPointF(BoardGeometry::headerWidth - 0.5, g.view.height()));
    p.restore();
}

void BoardPainter::paintGhost(QPainter& p, const BoardGeometry& g, const BoardGap& gap, const std::vector<int>& jobs,
                              bool refused) {
    if (gap.row < 0 || jobs.empty()) return;
    const look::Colours& c = look::colours();
    QRectF r = g.blockRect(gap.row, 0, 0);
    r.setLeft(std::round(gap.left) + 3);
    r.setWidth(std::max(8.0, gap.width - 6));
    p.save();
    p.setClipRect(g.timeArea());
    const auto& variants = m_desk.problem().problem.jobs[static_cast<std::size_t>(jobs.front())].variants;
    const Family& family = familyOf(variants.empty() ? -1 : variants.front().family);
    p.fillRect(r, refused ? c.panel : family.tint);
    p.setPen(QPen(refused ? c.alarm : c.accent, 2, Qt::DashLine));
    p.setBrush(Qt::NoBrush);
    p.drawRect(r.adjusted(1, 1, -1, -1));
    if (refused) { // crossed out: not here
        p.setPen(QPen(c.alarm, 2));
        p.drawLine(r.topLeft(), r.bottomRight());
        p.drawLine(r.bottomLeft(), r.topRight());
    } else {
        p.setPen(c.text);
        p.setFont(m_bold.font());
        const QString id = m_desk.problem().jobs[jobs.front()].id;
        const QString text = jobs.size() == 1 ? id : QStringLiteral("%1 +%2").arg(id).arg(jobs.size() - 1);
        p.drawText(r.adjusted(pad, 2, 0, 0), Qt::AlignLeft | Qt::AlignTop, text);
    }
    p.restore();
}

void BoardPainter::paintLabel(QPainter& p, const BoardGeometry& g, const QPointF& at, const QString& text,
                              const QString& place, bool refused) {
    const look::Colours& c = look::colours();
    const QFontMetricsF bold(m_bold.font()), plain(m_plain.font());
    const double most = std::min(440.0, g.view.width() - 4 * pad);
    const QRectF said = bold.boundingRect(QRectF(0, 0, most, 400), Qt::TextWordWrap, text);
    const double sign = refused ? 18 : 0;
    QRectF box(0, 0, std::max(said.width() + sign, plain.horizontalAdvance(place)) + 4 * pad, said.height() + 17 + 3 * pad);
    box.moveTopLeft(at + QPointF(18, 14));
    if (box.right() > g.view.width()) box.moveRight(at.x() - 12);
    if (box.bottom() > g.view.height()) box.moveBottom(at.y() - 12);
    box.moveLeft(std::max(box.left(), 2.0));
    p.save();
    p.setRenderHint(QPainter::Antialiasing);
    p.setPen(Qt::NoPen);
    p.setBrush(c.text);
    p.drawRoundedRect(box, look::radius, look::radius);
    if (refused) {
        const QPointF middle(box.left() + 2 * pad + 6, box.top() + 1.5 * pad + 8);
        p.setPen(QPen(c.panel, 2));
        p.setBrush(Qt::NoBrush);
        p.drawEllipse(middle, 6, 6);
        p.drawLine(middle + QPointF(-4, 4), middle + QPointF(4, -4));
    }
    p.setPen(c.panel);
    p.setFont(m_bold.font());
    p.drawText(QRectF(box.left() + 2 * pad + sign, box.top() + 1.5 * pad, said.width() + 2, said.height()), Qt::TextWordWrap, text);
    p.setFont(m_plain.font());
    p.drawText(QPointF(box.left() + 2 * pad, box.bottom() - 2 * pad), place);
    p.restore();
}

} // namespace interlude
