#pragma once
// The sample fleet with a desk and a board on it, everything that fits anywhere placed by family.

#include "tests/window/opened_shop.h"
#include "views/plan/board.h"
#include "views/plan/plan_words.h"

#include <QtWidgets>

namespace interlude::tests {

class PlanBench {
public:
    explicit PlanBench(bool placed = true) {
        if (!shop.open(&problems)) return;
        shop.bench->signIn(QStringLiteral("AV"));
        makeDesk(placed);
    }
    void makeDesk(bool placed = true) {
        board.reset();
        desk = std::make_unique<PlanDesk>(*shop.bench);
        if (placed) desk->groupByFamily();
        board = std::make_unique<Board>(*desk);
        board->resize(1000, 640);
        board->show();
        Q_UNUSED(QTest::qWaitForWindowActive(board.get()));
        board->setFocus();
        QCoreApplication::processEvents();
    }

    const planning::Orders& orders() const { return desk->draft().orders(); }
    /// The n-th job of a printer's order.
    int job(std::size_t printer, std::size_t n) const { return orders().printers[printer].at(n).job; }
    QString id(int job) const { return desk->problem().jobs[job].id; }
    std::size_t printerOf(int job) const {
        for (std::size_t p = 0; p < orders().printers.size(); ++p)
            for (const planning::Place& x : orders().printers[p])
                if (x.job == job) return p;
        return orders().printers.size();
    }
    bool fits(int job, std::size_t printer) const {
        for (const planning::VariantNumbers& v : desk->problem().problem.jobs[static_cast<std::size_t>(job)].variants)
            if (v.print[printer] >= 0) return true;
        return false;
    }
    /// A placed job that is not locked and fits (or does not fit) on that other printer.
    int placedJob(std::size_t other, bool thatFits) const {
        for (std::size_t p = 0; p < orders().printers.size(); ++p)
            for (const planning::Place& x : orders().printers[p])
                if (p != other && fits(x.job, other) == thatFits) return x.job;
        return -1;
    }
    QPoint middle(int job) const { return board->rectOf(job).center().toPoint(); }
    /// Brings it into view; the pointer then finds it.
    QPoint show(int job) {
        board->reveal(job);
        QCoreApplication::processEvents();
        return middle(job);
    }
    void click(int job, Qt::KeyboardModifiers with = {}) { QTest::mouseClick(board->viewport(), Qt::LeftButton, with, show(job)); }
    void move(const QPoint& to) {
        QMouseEvent e(QEvent::MouseMove, to, board->viewport()->mapToGlobal(to), Qt::NoButton, Qt::LeftButton, m_with);
        QCoreApplication::sendEvent(board->viewport(), &e);
    }
    /// Presses there and goes so far that it is a drag; the button stays down.
    void grab(const QPoint& at, Qt::KeyboardModifiers with = {}) {
        m_with = with;
        QTest::mousePress(board->viewport(), Qt::LeftButton, with, at);
        move(at + QPoint(0, QApplication::startDragDistance() + 2));
    }
    void release(const QPoint& at) { QTest::mouseRelease(board->viewport(), Qt::LeftButton, m_with, at); }
    void key(Qt::Key k, Qt::KeyboardModifiers with = {}) {
        QTest::keyClick(board.get(), k, with);
        QCoreApplication::processEvents();
    }
    /// A point in a printer's row at that pixel column.
    QPoint inRow(std::size_t printer, double x) const {
        return QPoint(static_cast<int>(x), static_cast<int>(board->shape().rowRect(static_cast<int>(printer)).center().y()));
    }

    QString problems;
    OpenedShop shop;
    std::unique_ptr<PlanDesk> desk;
    std::unique_ptr<Board> board;

private:
    Qt::KeyboardModifiers m_with;
};

} // namespace interlude::tests
