// The board's part for the pointer: selecting, the rubber band, and drags within the board, out of it and into it.

#include "views/plan/board.h"

#include "views/look/look.h"
#include "views/plan/board_sentences.h"
#include "views/plan/plan_words.h"

#include <QApplication>
#include <QDrag>
#include <QMimeData>
#include <QMouseEvent>
#include <QPainter>
#include <QScrollBar>

#include <algorithm>
#include <cmath>

namespace interlude {

namespace {

constexpr double edge = 32;      ///< within so many pixels of the edge a drag scrolls
constexpr double mostSpeed = 24; ///< pixels a tick
constexpr int tickMs = 16;

} // namespace

void Board::toggle(int job) {
    std::vector<int> jobs = m_desk.selected();
    if (std::erase(jobs, job) == 0) jobs.push_back(job);
    m_desk.select(jobs);
}

/// From the anchor to this job: on one printer all between them, else all on the printers and in the times between.
void Board::selectThrough(int job) {
    const Spot a = spotOf(m_anchor), b = spotOf(job);
    if (!a.valid() || !b.valid()) return m_desk.select({job});
    const planning::Minute from = std::min(block(a).printStart, block(b).printStart);
    const planning::Minute to = std::max(block(a).printStart, block(b).printStart);
    std::vector<int> jobs;
    for (int row = std::min(a.row, b.row); row <= std::max(a.row, b.row); ++row)
        for (const BoardBlock& x : m_rows[static_cast<std::size_t>(row)].blocks)
            if (x.job >= 0 && x.printStart >= from && x.printStart <= to) jobs.push_back(x.job);
    m_desk.select(jobs);
}

std::vector<int> Board::bandJobs(const BoardHit& hit) const {
    const BoardRow& row = m_rows[static_cast<std::size_t>(hit.row)];
    const BoardBand& band = row.bands[static_cast<std::size_t>(hit.index)];
    std::vector<int> jobs;
    for (int i = band.first; i <= band.last; ++i) jobs.push_back(row.blocks[static_cast<std::size_t>(i)].job);
    return jobs;
}

std::vector<int> Board::inTimeOrder(const std::vector<int>& jobs) const {
    std::vector<int> out = jobs;
    std::stable_sort(out.begin(), out.end(), [this](int a, int b) {
        const Spot s = spotOf(a), t = spotOf(b);
        if (!s.valid() || !t.valid()) return s.valid() && !t.valid();
        return std::pair(s.row, s.block) < std::pair(t.row, t.block);
    });
    return out;
}

void Board::press(const BoardHit& hit, Qt::KeyboardModifiers with) {
    if (hit.what == BoardHit::What::Band) {
        const std::vector<int> jobs = bandJobs(hit);
        m_marks.focus = m_anchor = jobs.front();
        m_focusId = m_desk.problem().jobs[jobs.front()].id;
        m_desk.select(jobs);
        return;
    }
    if (hit.what != BoardHit::What::Job) return;
    const int job = block({hit.row, hit.index}).job;
    if (job < 0) return;
    m_marks.focus = job;
    m_focusId = m_desk.problem().jobs[job].id;
    if (with & Qt::ShiftModifier) selectThrough(job);
    else {
        m_anchor = job;
        const bool isSelected = m_marks.selected[static_cast<std::size_t>(job)] != 0;
        if (with & Qt::ControlModifier) toggle(job);
        else if (!isSelected) m_desk.select({job});
    }
    describe();
    redraw();
}

void Board::mousePressEvent(QMouseEvent* event) {
    if (event->button() != Qt::LeftButton || m_drag.active()) return;
    m_pressed = m_pointer = event->position();
    m_pressedWith = event->modifiers();
    m_pressedOn = hitTest(m_shape, m_rows, m_pressed);
    m_mouse = Mouse::Pressed;
    press(m_pressedOn, m_pressedWith);
}

void Board::mouseMoveEvent(QMouseEvent* event) {
    m_pointer = event->position();
    if (m_mouse == Mouse::Pressed &&
        (m_pointer - m_pressed).manhattanLength() >= QApplication::startDragDistance()) {
        const bool onJobs = m_pressedOn.what == BoardHit::What::Band ||
                            (m_pressedOn.what == BoardHit::What::Job && block({m_pressedOn.row, m_pressedOn.index}).job >= 0);
        if (onJobs) startCarrying();
        else {
            m_mouse = Mouse::Rubber;
            m_beforeRubber = (m_pressedWith & (Qt::ControlModifier | Qt::ShiftModifier)) ? m_desk.selected() : std::vector<int>();
        }
    }
    if (m_mouse == Mouse::Rubber) rubberTo(m_pointer);
    if (m_mouse != Mouse::Carrying) return;
    if (m_pointer.x() < 0) carryOut();
    else carryTo(m_pointer);
}

void Board::rubberTo(const QPointF& to) {
    m_rubber = QRectF(m_pressed, to).normalized();
    std::vector<int> jobs = m_beforeRubber;
    for (const int job : jobsIn(m_shape, m_rows, m_rubber))
        if (std::find(jobs.begin(), jobs.end(), job) == jobs.end()) jobs.push_back(job);
    m_desk.select(jobs);
    viewport()->update();
}

void Board::mouseReleaseEvent(QMouseEvent* event) {
    if (event->button() != Qt::LeftButton) return;
    const Mouse was = m_mouse;
    m_mouse = Mouse::Up;
    if (was == Mouse::Carrying) {
        m_mouse = Mouse::Carrying; // until it is finished
        finishCarrying();
    } else if (was == Mouse::Pressed && !(m_pressedWith & (Qt::ControlModifier | Qt::ShiftModifier))) {
        if (m_pressedOn.what == BoardHit::What::Job) {
            if (const int job = block({m_pressedOn.row, m_pressedOn.index}).job; job >= 0) m_desk.select({job});
        } else if (m_pressedOn.what == BoardHit::What::Nothing) {
            m_desk.select({});
        }
    }
    redraw();
}

void Board::mouseDoubleClickEvent(QMouseEvent* event) {
    const BoardHit hit = hitTest(m_shape, m_rows, event->position());
    if (event->button() != Qt::LeftButton || hit.what != BoardHit::What::Job) return;
    if (const int job = block({hit.row, hit.index}).job; job >= 0) Q_EMIT opened(job);
}

void Board::startCarrying() {
    std::vector<int> jobs;
    if (m_pressedOn.what == BoardHit::What::Band) {
        jobs = bandJobs(m_pressedOn);
    } else {
        const BoardBlock& b = block({m_pressedOn.row, m_pressedOn.index});
        jobs = m_desk.selected();
        if ((m_pressedWith & Qt::AltModifier) && b.movable()) jobs = m_desk.familyRun(b.job);
        else if (std::find(jobs.begin(), jobs.end(), b.job) == jobs.end()) jobs = {b.job};
    }
    m_desk.select(jobs);
    m_mouse = Mouse::Carrying;
    carry(inTimeOrder(jobs));
}

void Board::carry(const std::vector<int>& jobs) {
    m_drag.begin(jobs);
    m_marks.carried = m_drag.carried();
    m_edgeTimer.start(tickMs, this);
    redraw();
}

void Board::carryTo(const QPointF& at) {
    m_pointer = at;
    const int row = m_shape.row(at.y());
    // Over the header a drop means the first place; beyond the right edge what is seen there.
    const double x = std::clamp(at.x(), BoardGeometry::headerWidth, m_shape.view.width());
    if (m_drag.moveTo(dropAt(m_rows, row, m_shape.minute(x), m_drag.carried()))) {
        if (m_drag.pending()) m_offerTimer.start();
        else m_offerTimer.stop();
    }
    viewport()->update();
}

void Board::settle() {
    m_offerTimer.stop();
    m_drag.settle();
    viewport()->update();
}

/// True when the plan has changed.
bool Board::finishCarrying() {
    m_drag.settle();
    const std::vector<int> jobs = m_drag.jobs();
    const QString price = m_drag.text(), where = board::placeText(m_desk, m_rows, m_drag.place());
    const bool nothing = m_drag.place().row < 0 || m_drag.staysPut();
    const QString names = board::jobsText(m_desk, jobs);
    const std::optional<Finding> refusal = m_drag.drop();
    stopCarrying();
    if (refusal) Q_EMIT told(sentence(*refusal));
    else if (!nothing) Q_EMIT told(tr("%1 moved to %2: %3").arg(names, where, price));
    return !refusal && !nothing;
}

void Board::stopCarrying() {
    m_drag.end();
    m_offerTimer.stop();
    m_edgeTimer.stop();
    m_marks.carried.clear();
    m_mouse = Mouse::Up;
    redraw();
}

/// The pointer has left towards the list: from here on the drag is one between widgets.
void Board::carryOut() {
    const std::vector<int> jobs = m_drag.jobs();
    const QString names = board::jobsText(m_desk, jobs);
    stopCarrying();
    if (jobs.empty()) return;
    QPixmap picture(fontMetrics().horizontalAdvance(names) + 16, fontMetrics().height() + 8);
    picture.fill(look::colours().text);
    QPainter p(&picture);
    p.setFont(font());
    p.setPen(look::colours().panel);
    p.drawText(picture.rect(), Qt::AlignCenter, names);
    p.end();
    auto* drag = new QDrag(this); // deletes itself
    auto* data = new QMimeData;
    data->setData(plan_words::mimeType, plan_words::jobsToMime(jobs));
    drag->setMimeData(data);
    drag->setPixmap(picture);
    drag->setHotSpot(plan_words::aboveThePointer(picture.deviceIndependentSize()));
    drag->exec(Qt::MoveAction);
}

QPointF Board::edgePull() const {
    const QRectF area = m_shape.timeArea();
    const auto pull = [](double at, double low, double high) {
        if (at < low + edge) return -std::min(1.0, (low + edge - at) / edge);
        return at > high - edge ? std::min(1.0, (at - high + edge) / edge) : 0.0;
    };
    return QPointF(pull(m_pointer.x(), area.left(), area.right()), pull(m_pointer.y(), area.top(), area.bottom())) * mostSpeed;
}

void Board::scrollAtEdges() {
    const QPoint by = edgePull().toPoint();
    const QPoint before(horizontalScrollBar()->value(), verticalScrollBar()->value());
    horizontalScrollBar()->setValue(before.x() + by.x());
    verticalScrollBar()->setValue(before.y() + by.y());
    if (before != QPoint(horizontalScrollBar()->value(), verticalScrollBar()->value())) carryTo(m_pointer);
}

void Board::timerEvent(QTimerEvent* event) {
    if (event->timerId() != m_edgeTimer.timerId()) return QAbstractScrollArea::timerEvent(event);
    if (m_drag.active()) scrollAtEdges();
    else m_edgeTimer.stop();
}

void Board::dragEnterEvent(QDragEnterEvent* event) {
    const QByteArray numbers = event->mimeData()->data(plan_words::mimeType);
    const std::vector<int> jobs = plan_words::jobsFromMime(numbers, m_desk.problem());
    if (jobs.empty()) return event->ignore();
    m_mouse = Mouse::Up;
    carry(jobs);
    carryTo(event->position());
    event->setDropAction(Qt::MoveAction);
    event->accept();
}

void Board::dragMoveEvent(QDragMoveEvent* event) {
    if (!m_drag.active()) return event->ignore();
    carryTo(event->position());
    event->setDropAction(Qt::MoveAction);
    event->accept();
}

void Board::dragLeaveEvent(QDragLeaveEvent*) {
    stopCarrying();
}

void Board::dropEvent(QDropEvent* event) {
    if (!m_drag.active()) return event->ignore();
    carryTo(event->position());
    const std::vector<int> jobs = m_drag.jobs();
    if (finishCarrying()) m_desk.select(movableOf(m_desk.problem(), jobs));
    // Taken either way: a refusal has been told, and nobody else shall act on it.
    event->setDropAction(Qt::MoveAction);
    event->accept();
    setFocus(Qt::MouseFocusReason);
}

} // namespace interlude
