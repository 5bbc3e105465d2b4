// The board by keys alone.

#include "tests/harness/run_tests.h"
#include "tests/plan_page/plan_bench.h"

#include <QSignalSpy>

using namespace interlude;
using namespace interlude::tests;

class BoardKeysTest final : public QObject {
    Q_OBJECT
private:
    std::unique_ptr<PlanBench> b;
    std::unique_ptr<QSignalSpy> told;

    QString last() { return told->isEmpty() ? QString() : told->last().first().toString(); }
    QString said(int i) { return told->at(i).first().toString(); }
    void at(int job) {
        b->click(job);
        told->clear();
    }
    std::size_t busyPrinter(std::size_t jobs = 3) {
        for (std::size_t p = 0; p < b->orders().printers.size(); ++p)
            if (b->orders().printers[p].size() >= jobs) return p;
        return 0;
    }

private Q_SLOTS:
    void init() {
        b = std::make_unique<PlanBench>();
        QVERIFY2(b->board, qPrintable(b->problems));
        told = std::make_unique<QSignalSpy>(b->board.get(), &Board::told);
    }
    void cleanup() {
        told.reset();
        b.reset();
    }

    void arrowsSelectNeighbours() {
        b->key(Qt::Key_Right); // nothing had the focus yet
        QCOMPARE(b->desk->selected(), std::vector<int>{b->job(0, 0)});
        b->key(Qt::Key_Right);
        QCOMPARE(b->board->focusJob(), b->job(0, 1));
        b->key(Qt::Key_Left);
        b->key(Qt::Key_Left); // there is nothing further left
        QCOMPARE(b->board->focusJob(), b->job(0, 0));
        b->key(Qt::Key_End);
        QCOMPARE(b->board->focusJob(), b->board->rows()[0].blocks.back().job);
        QVERIFY(b->board->rectOf(b->board->focusJob()).intersects(b->board->shape().timeArea())); // scrolled to
        b->key(Qt::Key_Home);
        QCOMPARE(b->board->focusJob(), b->job(0, 0));
    }
    void upAndDownGoToTheNearestInTime() {
        const int from = b->job(0, 2);
        at(from);
        const auto start = b->desk->timed(from)->printStart;
        std::size_t next = 1;
        while (b->board->rows()[next].blocks.empty()) ++next;
        planning::Minute best = planning::never;
        for (const BoardBlock& x : b->board->rows()[next].blocks) best = std::min(best, std::abs(x.printStart - start));
        b->key(Qt::Key_Down);
        QCOMPARE(b->printerOf(b->board->focusJob()), next);
        QCOMPARE(std::abs(b->desk->timed(b->board->focusJob())->printStart - start), best);
        b->key(Qt::Key_Up);
        QCOMPARE(b->printerOf(b->board->focusJob()), std::size_t(0));
    }
    void shiftExtends() {
        const std::size_t p = busyPrinter(4);
        at(b->job(p, 1));
        b->key(Qt::Key_Right, Qt::ShiftModifier);
        b->key(Qt::Key_Right, Qt::ShiftModifier);
        QCOMPARE(b->desk->selected(), (std::vector<int>{b->job(p, 1), b->job(p, 2), b->job(p, 3)}));
        b->key(Qt::Key_Left, Qt::ShiftModifier);
        QCOMPARE(b->desk->selected(), (std::vector<int>{b->job(p, 1), b->job(p, 2)}));
        b->key(Qt::Key_Escape);
        QVERIFY(b->desk->selected().empty());
        b->key(Qt::Key_A, Qt::ControlModifier);
        std::size_t all = 0;
        for (const BoardRow& row : b->board->rows()) all += row.blocks.size();
        QCOMPARE(b->desk->selected().size(), all);
    }
    void altArrowsMoveOnThePrinter() {
        const std::size_t p = busyPrinter();
        const int job = b->job(p, 1), before = b->job(p, 0), after = b->job(p, 2);
        at(job);
        b->key(Qt::Key_Left, Qt::AltModifier);
        QCOMPARE(b->job(p, 0), job);
        QCOMPARE(b->job(p, 1), before);
        // The price is told before, what came of it after.
        QCOMPARE(told->size(), 2);
        QVERIFY2(said(0).contains(QStringLiteral("would be")) && said(0).contains(QStringLiteral("turnaround")), qPrintable(said(0)));
        QVERIFY2(said(1).startsWith(QStringLiteral("Moved.")) && said(1).contains(b->id(job)), qPrintable(said(1)));
        QCOMPARE(b->board->focusJob(), job);
        const planning::Orders first = b->orders();
        b->key(Qt::Key_Left, Qt::AltModifier);
        QVERIFY(b->orders() == first);
        QVERIFY2(last().contains(QStringLiteral("is the first on")), qPrintable(last()));
        b->key(Qt::Key_Right, Qt::AltModifier);
        b->key(Qt::Key_Right, Qt::AltModifier);
        QCOMPARE(b->job(p, 1), after);
        QCOMPARE(b->job(p, 2), job);
        at(b->orders().printers[p].back().job);
        b->key(Qt::Key_Right, Qt::AltModifier);
        QVERIFY2(last().contains(QStringLiteral("is the last on")), qPrintable(last()));
    }
    void severalMoveTogether() {
        const std::size_t p = busyPrinter(4);
        const int first = b->job(p, 0), two = b->job(p, 1), three = b->job(p, 2), four = b->job(p, 3);
        at(two);
        b->key(Qt::Key_Right, Qt::ShiftModifier);
        b->key(Qt::Key_Left, Qt::AltModifier);
        QCOMPARE(b->job(p, 0), two);
        QCOMPARE(b->job(p, 1), three);
        QCOMPARE(b->job(p, 2), first);
        QCOMPARE(b->job(p, 3), four);
        QCOMPARE(b->desk->selected(), (std::vector<int>{two, three}));
    }
    void altUpAndDownMoveToAnotherPrinter() {
        const int job = b->placedJob(1, true);
        QVERIFY(job >= 0);
        const std::size_t from = b->printerOf(job);
        at(job);
        const Qt::Key key = from < 1 ? Qt::Key_Down : Qt::Key_Up;
        b->key(key, Qt::AltModifier);
        const std::size_t to = b->printerOf(job);
        QVERIFY(to != from && to < b->orders().printers.size());
        QVERIFY((key == Qt::Key_Down) == (to > from));
        // Every printer passed over is one that cannot take it, and was told.
        for (std::size_t p = std::min(from, to) + 1; p < std::max(from, to); ++p) {
            QVERIFY(!b->fits(job, p));
            QVERIFY(said(0).contains(plan_words::printer(*b->desk, static_cast<int>(p))));
        }
        QCOMPARE(b->board->focusJob(), job);
    }
    void aRefusedMoveTellsTheReason() {
        const std::size_t p = busyPrinter();
        const int locked = b->job(p, 0), job = b->job(p, 1);
        at(locked);
        b->key(Qt::Key_L);
        QVERIFY(b->orders().locked[static_cast<std::size_t>(locked)] != 0);
        QVERIFY(last().contains(QStringLiteral("locked")));
        const planning::Orders before = b->orders();
        b->key(Qt::Key_Right, Qt::AltModifier);
        QVERIFY(b->orders() == before);
        QVERIFY2(last().contains(QStringLiteral("Job %1 is locked").arg(b->id(locked))), qPrintable(last()));
        at(job);
        b->key(Qt::Key_Left, Qt::AltModifier);
        QVERIFY(b->orders() == before);
        QVERIFY2(last().contains(QStringLiteral("would push job %1").arg(b->id(locked))), qPrintable(last()));
        at(locked);
        b->key(Qt::Key_L);
        QVERIFY(b->orders().locked[static_cast<std::size_t>(locked)] == 0);
    }
    void nowhereElseToGo() {
        // The lowest printer that has jobs: further down nothing takes it, or nothing is there.
        const std::size_t bottom = b->orders().printers.size() - 1;
        QVERIFY(!b->orders().printers[bottom].empty());
        at(b->job(bottom, 0));
        const planning::Orders before = b->orders();
        b->key(Qt::Key_Down, Qt::AltModifier);
        QVERIFY(b->orders() == before);
        QCOMPARE(last(), QStringLiteral("There is no printer below"));
    }
    void jobsOfSeveralPrintersDoNotMoveAlong() {
        at(b->job(0, 0));
        b->click(b->job(1, 0), Qt::ControlModifier);
        const planning::Orders before = b->orders();
        b->key(Qt::Key_Right, Qt::AltModifier);
        QVERIFY(b->orders() == before);
        QVERIFY(last().contains(QStringLiteral("several printers")));
    }
    void deleteTakesOut() {
        const int job = b->job(0, 0);
        at(job);
        b->key(Qt::Key_Delete);
        QVERIFY(std::binary_search(b->orders().leftOut.begin(), b->orders().leftOut.end(), job));
        QVERIFY2(last().contains(QStringLiteral("left out of the plan")), qPrintable(last()));
        QVERIFY(!b->board->rectOf(job).isValid());
        b->desk->undo();
        QVERIFY(b->board->rectOf(job).isValid());
    }
    void theFamilyRunBySingleKey() {
        for (std::size_t p = 0; p < b->orders().printers.size(); ++p) {
            if (b->board->rows()[p].bands.empty()) continue;
            const BoardBand& band = b->board->rows()[p].bands.front();
            const int job = b->board->rows()[p].blocks[static_cast<std::size_t>(band.first) + 1].job;
            at(job);
            b->key(Qt::Key_F);
            QCOMPARE(static_cast<int>(b->desk->selected().size()), band.last - band.first + 1);
            return;
        }
        QFAIL("no band on the board");
    }
    void enterOpens() {
        QSignalSpy opened(b->board.get(), &Board::opened);
        b->key(Qt::Key_Return); // nothing has the focus yet
        QCOMPARE(opened.size(), 0);
        at(b->job(0, 0));
        b->key(Qt::Key_Return);
        QCOMPARE(opened.size(), 1);
    }
    void anEmptyBoardSaysSo() {
        b = std::make_unique<PlanBench>(false);
        told = std::make_unique<QSignalSpy>(b->board.get(), &Board::told);
        b->key(Qt::Key_Right);
        QCOMPARE(last(), QStringLiteral("There is no job on the board"));
        for (const Qt::Key k : {Qt::Key_Delete, Qt::Key_L, Qt::Key_F, Qt::Key_0, Qt::Key_Plus, Qt::Key_Home}) b->key(k);
        b->key(Qt::Key_Left, Qt::AltModifier);
        b->key(Qt::Key_Down, Qt::AltModifier);
        QVERIFY2(last().contains(QStringLiteral("No job is selected")), qPrintable(last()));
    }
};

INTERLUDE_TEST(BoardKeysTest)
#include "board_keys_test.moc"
