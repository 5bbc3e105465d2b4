#include "views/plan/board.h"

#include "views/look/look.h"
#include "views/plan/board_sentences.h"

#include <QHelpEvent>
#include <QPainter>
#include <QScrollBar>
#include <QToolTip>
#include <QWheelEvent>

#include <algorithm>
#include <cmath>

namespace interlude {

using planning::Minute;

namespace {

/// A plan that goes on for longer is scrolled no further: there is nobody on shift by then.
constexpr Minute mostMinutes = 500 * 24 * 60;
constexpr double zoomStep = 1.25;
/// The pointer has to rest that long on a place before its price is asked for; sweeping over the board asks for nothing.
constexpr int offerAfterMs = 25;

} // namespace

Board::Board(PlanDesk& desk, QWidget* parent) : QAbstractScrollArea(parent), m_desk(desk), m_painter(desk), m_drag(desk) {
    setObjectName(QStringLiteral("planBoard"));
    setAccessibleName(tr("Plan board"));
    setFrameShape(QFrame::NoFrame);
    // Always there: a bar that came and went would change the height of the rows.
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOn);
    setFocusPolicy(Qt::StrongFocus);
    setAcceptDrops(true);
    viewport()->setAcceptDrops(true);
    viewport()->setMouseTracking(false);
    viewport()->setAttribute(Qt::WA_OpaquePaintEvent);
    m_offerTimer.setSingleShot(true);
    m_offerTimer.setInterval(offerAfterMs);
    connect(&m_offerTimer, &QTimer::timeout, this, &Board::settle);
    connect(&desk, &PlanDesk::changed, this, &Board::rebuild);
    connect(&desk, &PlanDesk::selectionChanged, this, &Board::readSelection);
    connect(&desk.bench(), &Bench::ticked, this, &Board::moveNow);
    rebuild();
}

Board::~Board() = default;

void Board::rebuild() {
    // Numbers and places may be others now; a drag begun before would mean something else.
    if (m_drag.active()) {
        stopCarrying();
        Q_EMIT told(tr("The plan has changed meanwhile; nothing was moved"));
    }
    if (m_mouse == Mouse::Pressed) m_mouse = Mouse::Up;
    m_rows = boardRows(m_desk.problem(), m_desk.timetable(), m_desk.draft().orders(), m_desk.reservations());
    m_spots.assign(m_desk.problem().problem.jobs.size(), {});
    for (std::size_t r = 0; r < m_rows.size(); ++r)
        for (std::size_t b = 0; b < m_rows[r].blocks.size(); ++b)
            if (const int job = m_rows[r].blocks[b].job; job >= 0)
                m_spots[static_cast<std::size_t>(job)] = {static_cast<int>(r), static_cast<int>(b)};
    m_painter.prepare(m_rows);
    m_marks.focus = m_desk.problem().jobNumbers.value(m_focusId, -1);
    if (!spotOf(m_marks.focus).valid()) m_marks.focus = -1;
    if (!spotOf(m_anchor).valid()) m_anchor = m_marks.focus;
    m_shape.rows = static_cast<int>(m_rows.size());
    m_shape.to = std::clamp<Minute>(lastEnd(m_rows) + 120, 16 * 60, mostMinutes);
    readSelection();
    moveNow();
    measure();
}

void Board::readSelection() {
    m_marks.selected.assign(m_desk.problem().problem.jobs.size(), 0);
    for (const int job : m_desk.selected()) m_marks.selected[static_cast<std::size_t>(job)] = 1;
    // Selected elsewhere (list, Why): the keys go on from there.
    if (!m_desk.selected().empty()) {
        const int job = m_desk.selected().back();
        const bool focused = m_marks.focus >= 0 && m_marks.selected[static_cast<std::size_t>(m_marks.focus)] != 0;
        if (!focused && spotOf(job).valid()) {
            m_marks.focus = m_anchor = job;
            m_focusId = m_desk.problem().jobs[job].id;
        }
    }
    describe();
    redraw();
}

void Board::describe() {
    QString text = board::summary(m_desk, m_rows);
    if (const Spot s = spotOf(m_marks.focus); s.valid()) {
        text += QStringLiteral(". ") + board::jobSentence(m_desk, m_rows, s.row, s.block);
        if (m_marks.selected[static_cast<std::size_t>(m_marks.focus)] != 0) text += tr(", selected");
    }
    if (text != accessibleDescription()) setAccessibleDescription(text);
}

void Board::moveNow() {
    const Minute now = std::chrono::floor<std::chrono::minutes>(m_desk.bench().now() - m_desk.problem().now).count();
    if (now == m_marks.now) return;
    m_marks.now = now;
    redraw();
}

void Board::redraw() {
    m_layerValid = false;
    viewport()->update();
}

const BoardBlock& Board::block(const Spot& s) const {
    return m_rows[static_cast<std::size_t>(s.row)].blocks[static_cast<std::size_t>(s.block)];
}

Board::Spot Board::spotOf(int job) const {
    return job >= 0 && static_cast<std::size_t>(job) < m_spots.size() ? m_spots[static_cast<std::size_t>(job)] : Spot();
}

QRectF Board::rectOf(int job) const {
    const Spot s = spotOf(job);
    return s.valid() ? m_shape.blockRect(s.row, block(s).printStart, block(s).printEnd) : QRectF();
}

void Board::measure() {
    m_shape.view = viewport()->size();
    m_shape.fillRows();
    if (m_fitted) m_shape.pxPerMinute = m_shape.fit();
    else if (!m_zoomed) m_shape.pxPerMinute = std::max(m_shape.fit(), BoardGeometry::startPxPerMinute);
    else m_shape.pxPerMinute = std::max(m_shape.pxPerMinute, m_shape.fit());
    m_shape.boundScroll();
    showBars();
    redraw();
}

void Board::showBars() {
    // Bars that come and go resize the viewport, and that comes back here.
    m_settingBars = true;
    const QSizeF area = m_shape.timeArea().size();
    horizontalScrollBar()->setRange(0, static_cast<int>(std::ceil(std::max(0.0, m_shape.contentWidth() - area.width()))));
    horizontalScrollBar()->setPageStep(static_cast<int>(area.width()));
    horizontalScrollBar()->setSingleStep(5 * look::unit);
    horizontalScrollBar()->setValue(static_cast<int>(std::lround(m_shape.scrollX)));
    verticalScrollBar()->setRange(0, static_cast<int>(std::ceil(std::max(0.0, m_shape.contentHeight() - area.height()))));
    verticalScrollBar()->setPageStep(static_cast<int>(area.height()));
    verticalScrollBar()->setSingleStep(static_cast<int>(m_shape.rowHeight / 2));
    verticalScrollBar()->setValue(static_cast<int>(std::lround(m_shape.scrollY)));
    m_settingBars = false;
    readBars();
}

void Board::readBars() {
    m_shape.scrollX = horizontalScrollBar()->value();
    m_shape.scrollY = verticalScrollBar()->value();
}

void Board::resizeEvent(QResizeEvent*) {
    measure();
}

void Board::scrollContentsBy(int, int) {
    if (m_settingBars) return;
    readBars();
    redraw();
}

void Board::zoomAround(double x, double factor) {
    m_zoomed = true;
    m_fitted = false;
    m_shape.zoom(x, factor);
    showBars();
    redraw();
}

void Board::zoomIn() {
    const QRectF focus = rectOf(m_marks.focus);
    const bool seen = focus.intersects(m_shape.timeArea());
    zoomAround(seen ? std::max(focus.left(), m_shape.timeArea().left()) : m_shape.timeArea().center().x(), zoomStep);
}

void Board::zoomOut() {
    const QRectF focus = rectOf(m_marks.focus);
    const bool seen = focus.intersects(m_shape.timeArea());
    zoomAround(seen ? std::max(focus.left(), m_shape.timeArea().left()) : m_shape.timeArea().center().x(), 1 / zoomStep);
}

void Board::fit() {
    m_fitted = true;
    measure();
}

void Board::reveal(const QRectF& r) {
    const QRectF area = m_shape.timeArea();
    const double side = 3 * look::unit;
    if (r.left() < area.left() + side) m_shape.scrollX += r.left() - area.left() - side;
    else if (r.right() > area.right() - side)
        m_shape.scrollX += std::min(r.right() - area.right() + side, r.left() - area.left() - side);
    if (r.top() < area.top() + side) m_shape.scrollY += r.top() - area.top() - side;
    else if (r.bottom() > area.bottom() - side) m_shape.scrollY += r.bottom() - area.bottom() + side;
    m_shape.boundScroll();
    showBars();
    redraw();
}

void Board::reveal(int job) {
    const Spot s = spotOf(job);
    if (!s.valid()) return;
    m_marks.focus = job;
    m_focusId = m_desk.problem().jobs[job].id;
    // Not by `rectOf`, which is cut near the view.
    QRectF r = m_shape.rowRect(s.row);
    r.setLeft(m_shape.x(block(s).printStart));
    r.setRight(m_shape.x(block(s).printEnd));
    reveal(r);
    describe();
}

void Board::wheelEvent(QWheelEvent* event) {
    if (event->modifiers() & Qt::ControlModifier) {
        zoomAround(event->position().x(), std::pow(zoomStep, event->angleDelta().y() / 120.0));
        event->accept();
        return;
    }
    const bool sideways = (event->modifiers() & Qt::ShiftModifier) || verticalScrollBar()->maximum() == 0 ||
                          std::abs(event->angleDelta().x()) > std::abs(event->angleDelta().y());
    QScrollBar* bar = sideways ? horizontalScrollBar() : verticalScrollBar();
    const QPoint turned = event->pixelDelta().isNull() ? event->angleDelta() : event->pixelDelta();
    const int by = std::abs(turned.x()) > std::abs(turned.y()) ? turned.x() : turned.y();
    bar->setValue(bar->value() - by);
    event->accept();
}

/// Under the pointer where there is room between the neighbours; else what follows gives way.
BoardGap Board::gap() const {
    if (m_drag.place().row < 0 || m_drag.jobs().empty()) return {};
    BoardGap out{m_drag.place().row, m_drag.place().before, 0, 0, 0};
    Minute minutes = 0;
    for (const int job : m_drag.jobs()) {
        const auto& variants = m_desk.problem().problem.jobs[static_cast<std::size_t>(job)].variants;
        if (!variants.empty()) minutes += std::max<Minute>(0, variants.front().print[static_cast<std::size_t>(out.row)]);
    }
    // Wide enough for a name, and never so wide that what follows is out of sight.
    out.width = std::clamp(static_cast<double>(minutes) * m_shape.pxPerMinute, 56.0,
                           std::max(56.0, 0.4 * m_shape.timeArea().width()));
    const auto& blocks = m_rows[static_cast<std::size_t>(out.row)].blocks;
    const auto before = static_cast<std::size_t>(out.before);
    double earliest = m_shape.x(0);
    for (std::size_t i = 0; i < before; ++i) // what is carried away leaves its room
        if (blocks[i].job < 0 || m_drag.carried()[static_cast<std::size_t>(blocks[i].job)] == 0)
            earliest = std::max(earliest, m_shape.x(blocks[i].to));
    out.left = std::max(earliest, m_pointer.x() - out.width / 2);
    if (before >= blocks.size()) return out;
    const double next = m_shape.x(blocks[before].from);
    out.left = std::max(earliest, std::min(out.left, next - out.width));
    out.shift = std::max(0.0, out.left + out.width - next);
    return out;
}

void Board::paintOverlay(QPainter& p) {
    if (m_mouse == Mouse::Rubber) {
        QColor inside = look::colours().accent;
        inside.setAlphaF(0.12F);
        p.setClipRect(m_shape.timeArea());
        p.fillRect(m_rubber, inside);
        p.setPen(QPen(look::colours().accent, 1, Qt::DashLine));
        p.drawRect(m_rubber);
    }
    if (!m_drag.active()) return;
    const BoardGap opened = gap();
    if (opened.row >= 0) {
        m_painter.paintRow(p, m_shape, opened.row, m_marks, opened);
        m_painter.paintGhost(p, m_shape, opened, m_drag.jobs(), m_drag.refused());
    }
    const QString text = m_drag.place().row < 0    ? tr("on no printer: nothing is moved")
                         : m_drag.text().isEmpty() ? tr("reckoning …")
                                                   : m_drag.text();
    QString where = board::placeText(m_desk, m_rows, m_drag.place());
    if (!m_drag.prints().isEmpty()) where += QStringLiteral(" · ") + m_drag.prints();
    m_painter.paintLabel(p, m_shape, m_pointer, text, where, m_drag.refused());
}

void Board::paintEvent(QPaintEvent*) {
    QPainter p(viewport());
    const bool moves = m_drag.active() || m_mouse == Mouse::Rubber;
    if (!moves) {
        m_layer = {};
        m_painter.paint(p, m_shape, m_marks);
    } else {
        if (!m_layerValid || m_layer.isNull()) {
            m_layer = QPixmap(viewport()->size() * devicePixelRatioF());
            m_layer.setDevicePixelRatio(devicePixelRatioF());
            QPainter layer(&m_layer);
            m_painter.paint(layer, m_shape, m_marks);
            m_layerValid = true;
        }
        p.drawPixmap(0, 0, m_layer);
        paintOverlay(p);
    }
    if (!hasFocus()) return;
    p.setClipping(false);
    p.setPen(QPen(look::colours().accent, 2));
    p.setBrush(Qt::NoBrush);
    p.drawRect(QRectF(1, 1, m_shape.view.width() - 2, m_shape.view.height() - 2));
}

void Board::focusInEvent(QFocusEvent* event) {
    m_marks.hasFocus = true;
    QAbstractScrollArea::focusInEvent(event);
    redraw();
}

void Board::focusOutEvent(QFocusEvent* event) {
    m_marks.hasFocus = false;
    QAbstractScrollArea::focusOutEvent(event);
    redraw();
}

void Board::changeEvent(QEvent* event) {
    QAbstractScrollArea::changeEvent(event);
    const bool other = event->type() == QEvent::PaletteChange || event->type() == QEvent::StyleChange ||
                       event->type() == QEvent::FontChange || event->type() == QEvent::LanguageChange;
    if (!other) return;
    m_painter.prepare(m_rows);
    redraw();
}

bool Board::viewportEvent(QEvent* event) {
    if (event->type() != QEvent::ToolTip) return QAbstractScrollArea::viewportEvent(event);
    const auto* help = static_cast<QHelpEvent*>(event);
    const BoardHit hit = hitTest(m_shape, m_rows, help->pos());
    if (hit.what == BoardHit::What::Job && !m_drag.active())
        QToolTip::showText(help->globalPos(), board::tip(m_desk, m_rows[static_cast<std::size_t>(hit.row)], block({hit.row, hit.index})),
                           viewport());
    else QToolTip::hideText();
    return true;
}

} // namespace interlude
