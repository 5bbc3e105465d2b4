// The board's part for the keyboard: everything that the pointer does, with prices told before and after.

#include "views/plan/board.h"

#include "views/plan/board_sentences.h"

#include <QKeyEvent>

#include <algorithm>

namespace interlude {

using planning::Minute;

bool Board::event(QEvent* event) {
    if (event->type() == QEvent::ShortcutOverride) {
        const auto* key = static_cast<QKeyEvent*>(event);
        const bool plain = !(key->modifiers() & (Qt::ControlModifier | Qt::MetaModifier));
        const bool arrow = key->key() >= Qt::Key_Left && key->key() <= Qt::Key_Down;
        const bool ours = arrow || key->key() == Qt::Key_Delete || key->key() == Qt::Key_L || key->key() == Qt::Key_F ||
                          key->key() == Qt::Key_Plus || key->key() == Qt::Key_Minus || key->key() == Qt::Key_0 ||
                          (key->key() == Qt::Key_Escape && (m_drag.active() || m_mouse != Mouse::Up));
        const bool altLetter = (key->modifiers() & Qt::AltModifier) && !arrow; // a menu's
        if (plain && ours && !altLetter) {
            event->accept();
            return true;
        }
    }
    return QAbstractScrollArea::event(event);
}

void Board::keyPressEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_Escape && (m_drag.active() || m_mouse == Mouse::Rubber)) {
        if (m_mouse == Mouse::Rubber) m_desk.select(m_beforeRubber);
        stopCarrying();
        return;
    }
    if (m_drag.active()) return; // one thing at a time
    if (moveKey(event) || walkKey(event) || viewKey(event)) return event->accept();
    if (event->key() == Qt::Key_Escape && !m_desk.selected().empty()) return m_desk.select({});
    event->ignore(); // not ours: the window may want it
}

bool Board::viewKey(QKeyEvent* event) {
    switch (event->key()) {
    case Qt::Key_Plus:
    case Qt::Key_Equal: zoomIn(); return true;
    case Qt::Key_Minus: zoomOut(); return true;
    case Qt::Key_0: fit(); return true;
    case Qt::Key_Return:
    case Qt::Key_Enter:
        if (m_marks.focus < 0) return false;
        Q_EMIT opened(m_marks.focus);
        return true;
    default: return false;
    }
}

bool Board::walkKey(QKeyEvent* event) {
    const bool extends = event->modifiers() & Qt::ShiftModifier;
    switch (event->key()) {
    case Qt::Key_Left:
    case Qt::Key_Right:
    case Qt::Key_Up:
    case Qt::Key_Down:
    case Qt::Key_Home:
    case Qt::Key_End: walk(event->key(), extends); return true;
    case Qt::Key_F:
        if (event->modifiers() != Qt::NoModifier) return false;
        selectFamilyRun();
        return true;
    case Qt::Key_A: {
        if (!(event->modifiers() & Qt::ControlModifier)) return false;
        std::vector<int> jobs;
        for (const BoardRow& row : m_rows)
            for (const BoardBlock& b : row.blocks)
                if (b.job >= 0) jobs.push_back(b.job);
        m_desk.select(jobs);
        return true;
    }
    default: return false;
    }
}

bool Board::moveKey(QKeyEvent* event) {
    if (event->key() == Qt::Key_Delete) return takeOut(), true;
    if (event->key() == Qt::Key_L && event->modifiers() == Qt::NoModifier) return lock(), true;
    if (!(event->modifiers() & Qt::AltModifier)) return false;
    switch (event->key()) {
    case Qt::Key_Left: moveInRow(-1); return true;
    case Qt::Key_Right: moveInRow(1); return true;
    case Qt::Key_Up: moveToRow(-1); return true;
    case Qt::Key_Down: moveToRow(1); return true;
    default: return false;
    }
}

void Board::focusOn(int job, bool extends) {
    reveal(job);
    if (extends && spotOf(m_anchor).valid()) {
        selectThrough(job);
    } else {
        m_anchor = job;
        m_desk.select({job});
    }
    describe();
    redraw();
}

namespace {

/// The job in that row whose print starts nearest to `m`; -1 when it has none.
int nearestIn(const BoardRow& row, Minute m) {
    int best = -1;
    Minute distance = planning::never;
    for (const BoardBlock& b : row.blocks) {
        const Minute d = std::abs(b.printStart - m);
        if (b.job >= 0 && d < distance) distance = d, best = b.job;
    }
    return best;
}

/// The next block with a job, going by `step` from there; -1.
int nextJob(const BoardRow& row, int from, int step) {
    for (int i = from + step; i >= 0 && i < static_cast<int>(row.blocks.size()); i += step)
        if (row.blocks[static_cast<std::size_t>(i)].job >= 0) return row.blocks[static_cast<std::size_t>(i)].job;
    return -1;
}

} // namespace

void Board::walk(int key, bool extends) {
    const Spot s = spotOf(m_marks.focus);
    const int count = static_cast<int>(m_rows.size());
    if (!s.valid()) { // nothing yet: the first job that there is
        for (int row = 0; row < count; ++row)
            if (const int job = nextJob(m_rows[static_cast<std::size_t>(row)], -1, 1); job >= 0) return focusOn(job);
        return Q_EMIT told(tr("There is no job on the board"));
    }
    const BoardRow& row = m_rows[static_cast<std::size_t>(s.row)];
    int to = -1;
    switch (key) {
    case Qt::Key_Left: to = nextJob(row, s.block, -1); break;
    case Qt::Key_Right: to = nextJob(row, s.block, 1); break;
    case Qt::Key_Home: to = nextJob(row, -1, 1); break;
    case Qt::Key_End: to = nextJob(row, static_cast<int>(row.blocks.size()), -1); break;
    default: {
        const int step = key == Qt::Key_Up ? -1 : 1;
        for (int r = s.row + step; r >= 0 && r < count && to < 0; r += step)
            to = nearestIn(m_rows[static_cast<std::size_t>(r)], block(s).printStart);
    }
    }
    if (to >= 0) focusOn(to, extends);
}

void Board::selectFamilyRun() {
    const Spot s = spotOf(m_marks.focus);
    if (!s.valid()) return;
    if (!block(s).movable()) return m_desk.select({m_marks.focus});
    m_desk.select(m_desk.familyRun(m_marks.focus));
    Q_EMIT told(tr("%1 selected").arg(board::jobsText(m_desk, m_desk.selected())));
}

/// What is selected (or has the focus) and may be moved, in order of printers and times. Tells why there is nothing.
std::vector<int> Board::movableSelection() {
    std::vector<int> jobs = m_desk.selected();
    if (jobs.empty() && m_marks.focus >= 0) jobs = {m_marks.focus};
    std::vector<int> movable;
    for (const int job : inTimeOrder(movableOf(m_desk.problem(), jobs)))
        if (spotOf(job).valid()) movable.push_back(job);
    if (movable.empty()) Q_EMIT told(sentence(fixedFinding(m_desk.problem(), jobs)));
    return movable;
}

void Board::moveInRow(int by) {
    const std::vector<int> jobs = movableSelection();
    if (jobs.empty()) return;
    const Spot first = spotOf(jobs.front()), last = spotOf(jobs.back());
    if (first.row != last.row) return Q_EMIT told(tr("The selected jobs are on several printers; select those of one"));
    const auto& blocks = m_rows[static_cast<std::size_t>(first.row)].blocks;
    const QString& printer = m_desk.bench().catalogue().fleet.printers[first.row].name;
    DropPlace place{first.row, 0, 0};
    if (by < 0) {
        place.before = first.block - 1;
        if (place.before < 0 || !blocks[static_cast<std::size_t>(place.before)].movable())
            return Q_EMIT told(tr("%1 is the first on %2 already").arg(board::jobsText(m_desk, jobs), printer));
        place.at = static_cast<std::size_t>(blocks[static_cast<std::size_t>(place.before)].place);
    } else {
        if (last.block + 1 >= static_cast<int>(blocks.size()))
            return Q_EMIT told(tr("%1 is the last on %2 already").arg(board::jobsText(m_desk, jobs), printer));
        place.before = last.block + 2;
        place.at = static_cast<std::size_t>(blocks[static_cast<std::size_t>(last.block) + 1].place) + 1;
    }
    dropSelected(jobs, place);
}

/// The nearest printer in that direction on which they fit; those passed over are told with their reason.
void Board::moveToRow(int by) {
    const std::vector<int> jobs = movableSelection();
    if (jobs.empty()) return;
    const Spot first = spotOf(jobs.front());
    std::vector<char> carried(m_spots.size(), 0);
    for (const int job : jobs) carried[static_cast<std::size_t>(job)] = 1;
    QStringList passed;
    for (int row = first.row + by; row >= 0 && row < static_cast<int>(m_rows.size()); row += by) {
        const DropPlace place = dropAt(m_rows, row, block(first).printStart, carried);
        const PlanDesk::Offer offer = m_desk.offer(jobs, {row, place.at, {}});
        if (!offer.refusal || offer.refusal->rule != QStringLiteral("does-not-fit")) {
            dropSelected(jobs, place, passed.isEmpty() ? QString() : passed.join(QStringLiteral(". ")) + QStringLiteral(". "));
            return;
        }
        passed << tr("%1: %2").arg(m_desk.bench().catalogue().fleet.printers[row].name, offer.refusal->reason);
    }
    if (passed.isEmpty())
        passed << (by < 0 ? tr("There is no printer above") : tr("There is no printer below"));
    Q_EMIT told(passed.join(QStringLiteral(". ")));
}

/// Tells the price, drops, tells what came of it; or tells the refusal. `before` is said first.
bool Board::dropSelected(const std::vector<int>& jobs, const DropPlace& place, const QString& before) {
    const planning::Drop drop{place.row, place.at, {}};
    const PlanDesk::Offer offer = m_desk.offer(jobs, drop);
    if (offer.refusal) {
        Q_EMIT told(before + sentence(*offer.refusal));
        return false;
    }
    const QString names = board::jobsText(m_desk, jobs);
    const QString price = board::priceText(offer.price, m_desk.bench().catalogue().fleet.currency);
    Q_EMIT told(before + tr("%1 to %2 would be %3").arg(names, board::placeText(m_desk, m_rows, place), price));
    if (const auto refusal = m_desk.drop(jobs, drop)) {
        Q_EMIT told(sentence(*refusal));
        return false;
    }
    m_desk.select(jobs);
    reveal(jobs.front());
    const Spot s = spotOf(jobs.front());
    Q_EMIT told(s.valid() ? tr("Moved. %1; %2").arg(board::jobSentence(m_desk, m_rows, s.row, s.block), price)
                          : tr("Moved, but %1 finds no time there").arg(names));
    return true;
}

void Board::takeOut() {
    const std::vector<int> jobs = movableSelection();
    if (jobs.empty()) return;
    const planning::Drop out{};
    const PlanDesk::Offer offer = m_desk.offer(jobs, out);
    const QString names = board::jobsText(m_desk, jobs);
    const auto refusal = offer.refusal ? offer.refusal : m_desk.drop(jobs, out);
    if (refusal) Q_EMIT told(sentence(*refusal));
    else Q_EMIT told(tr("%1 left out of the plan: %2").arg(names, board::priceText(offer.price, m_desk.bench().catalogue().fleet.currency)));
}

void Board::lock() {
    const std::vector<int> jobs = movableSelection();
    if (jobs.empty()) return;
    const bool all = std::all_of(jobs.begin(), jobs.end(), [this](int job) { return block(spotOf(job)).locked; });
    const QString names = board::jobsText(m_desk, jobs);
    m_desk.setLocked(jobs, !all);
    Q_EMIT told(all ? tr("%1 unlocked").arg(names) : tr("%1 locked: it keeps printer and position").arg(names));
}

} // namespace interlude
