// The board by mouse: what it shows, selecting, dragging within it and into it.

#include "tests/harness/run_tests.h"
#include "tests/plan_page/plan_bench.h"
#include "views/plan/board_sentences.h"

#include <QAccessible>
#include <QSignalSpy>

using namespace interlude;
using namespace interlude::tests;
using planning::Minute;

class BoardTest final : public QObject {
    Q_OBJECT
private:
    std::unique_ptr<PlanBench> b;

    /// A printer with at least so many jobs in its order.
    std::size_t busyPrinter(std::size_t jobs = 3) {
        for (std::size_t p = 0; p < b->orders().printers.size(); ++p)
            if (b->orders().printers[p].size() >= jobs) return p;
        return 0;
    }
    const BoardBlock* blockOf(int job) {
        for (const BoardRow& row : b->board->rows())
            for (const BoardBlock& x : row.blocks)
                if (x.job == job) return &x;
        return nullptr;
    }
    /// Where dropping puts it first in a printer's order: left of everything.
    QPoint firstPlace(std::size_t printer) { return b->inRow(printer, BoardGeometry::headerWidth + 40); }
    bool drop(const QPoint& at, const std::vector<int>& jobs, bool let = true) {
        QMimeData data;
        data.setData(plan_words::mimeType, plan_words::jobsToMime(jobs));
        QDragEnterEvent enter(at, Qt::MoveAction, &data, Qt::LeftButton, Qt::NoModifier);
        QCoreApplication::sendEvent(b->board->viewport(), &enter);
        if (!enter.isAccepted()) return false;
        QDragMoveEvent move(at, Qt::MoveAction, &data, Qt::LeftButton, Qt::NoModifier);
        QCoreApplication::sendEvent(b->board->viewport(), &move);
        if (!let) {
            QDragLeaveEvent leave;
            QCoreApplication::sendEvent(b->board->viewport(), &leave);
            return true;
        }
        QDropEvent drop(at, Qt::MoveAction, &data, Qt::LeftButton, Qt::NoModifier);
        QCoreApplication::sendEvent(b->board->viewport(), &drop);
        return drop.isAccepted();
    }

private Q_SLOTS:
    void init() {
        b = std::make_unique<PlanBench>();
        QVERIFY2(b->board, qPrintable(b->problems));
    }
    void cleanup() { b.reset(); }

    void rowsSayWhatTheTimetableSays() {
        const planning::Timetable& t = b->desk->timetable();
        QCOMPARE(b->board->rows().size(), t.printers.size());
        int late = 0;
        for (std::size_t p = 0; p < t.printers.size(); ++p) {
            const BoardRow& row = b->board->rows()[p];
            QCOMPARE(row.blocks.size(), t.printers[p].size());
            for (std::size_t i = 0; i < row.blocks.size(); ++i) {
                const BoardBlock& x = row.blocks[i];
                const planning::TimedJob& j = t.printers[p][i];
                QCOMPARE(x.job, j.job);
                QCOMPARE(x.printStart, j.printStart);
                QCOMPARE(x.printEnd, j.printEnd);
                QCOMPARE(b->orders().printers[p].at(static_cast<std::size_t>(x.place)).job, x.job);
                if (i > 0) QVERIFY(x.from >= row.blocks[i - 1].to); // what bisection rests on
                late += x.late > 0 ? 1 : 0;
            }
            for (const BoardBand& band : row.bands)
                for (int i = band.first; i <= band.last; ++i)
                    QCOMPARE(row.blocks[static_cast<std::size_t>(i)].family, band.family);
            QVERIFY(std::is_sorted(row.preparations.begin(), row.preparations.end(),
                                   [](const planning::Span& x, const planning::Span& y) { return x.to < y.to; }));
        }
        QCOMPARE(late, t.totals.lateJobs);
    }
    void aPrintThatRunsIsShownAndStays() {
        const int first = b->job(0, 0);
        const QString id = b->id(first);
        const QString variant = b->desk->problem().jobs[first].variants[0].name;
        QVERIFY(b->shop.bench->perform(act::PrintStarted{b->shop.bench->catalogue().fleet.printers[0].id, id, variant, Minutes(300)}));
        b->makeDesk();
        const int job = b->desk->problem().jobNumbers.value(id);
        QVERIFY(blockOf(job));
        QVERIFY(blockOf(job)->running && !blockOf(job)->movable());
        QSignalSpy told(b->board.get(), &Board::told);
        b->grab(b->show(job));
        const QPoint to = firstPlace(1);
        b->move(to);
        QTRY_VERIFY(b->board->offered().contains(QStringLiteral("has begun")));
        const planning::Orders before = b->orders();
        b->release(to);
        QVERIFY(b->orders() == before);
        QVERIFY(told.last().first().toString().contains(QStringLiteral("has begun")));
        b->click(job);
        b->key(Qt::Key_Delete);
        QVERIFY(b->orders() == before);
        QVERIFY(told.last().first().toString().contains(QStringLiteral("has begun")));
    }
    void clicksSelect() {
        const std::size_t p = busyPrinter(4);
        const int one = b->job(p, 0), three = b->job(p, 2);
        b->click(one);
        QCOMPARE(b->desk->selected(), std::vector<int>{one});
        QCOMPARE(b->board->focusJob(), one);
        b->click(three, Qt::ControlModifier);
        QCOMPARE(b->desk->selected(), (std::vector<int>{one, three}));
        b->click(one, Qt::ControlModifier);
        QCOMPARE(b->desk->selected(), std::vector<int>{three});
        b->click(one);
        b->click(three, Qt::ShiftModifier);
        QCOMPARE(b->desk->selected(), (std::vector<int>{one, b->job(p, 1), three}));
        // A plain click into several selects the one, but only when it was no drag.
        b->click(three);
        QCOMPARE(b->desk->selected(), std::vector<int>{three});
    }
    void aClickBesideSelectsNothing() {
        b->click(b->job(0, 0));
        b->board->fit();
        const QRectF lane = b->board->shape().blockRect(0, 0, 0);
        QTest::mouseClick(b->board->viewport(), Qt::LeftButton, {}, QPoint(static_cast<int>(BoardGeometry::headerWidth) + 3, static_cast<int>(lane.center().y())));
        QVERIFY(b->desk->selected().empty());
    }
    void rubberBand() {
        b->board->fit();
        const QRectF area = b->board->shape().timeArea();
        const int y = static_cast<int>(b->board->shape().rowRect(0).top()) + 1;
        const QPoint from(static_cast<int>(area.left()) + 2, y), to(static_cast<int>(area.right()) - 1, static_cast<int>(b->board->shape().rowRect(1).bottom()) - 1);
        QTest::mousePress(b->board->viewport(), Qt::LeftButton, {}, from);
        b->move(from + QPoint(20, 20));
        b->move(to);
        b->release(to);
        QCOMPARE(b->desk->selected().size(), b->board->rows()[0].blocks.size() + b->board->rows()[1].blocks.size());
        // Esc in the middle of another one gives back what was selected before.
        const auto before = b->desk->selected();
        QTest::mousePress(b->board->viewport(), Qt::LeftButton, Qt::ControlModifier, from + QPoint(0, static_cast<int>(b->board->shape().rowHeight * 2)));
        b->move(to + QPoint(0, static_cast<int>(b->board->shape().rowHeight)));
        QVERIFY(b->desk->selected().size() > before.size());
        b->key(Qt::Key_Escape);
        QCOMPARE(b->desk->selected(), before);
        b->release(to);
    }
    void doubleClickOpens() {
        QSignalSpy opened(b->board.get(), &Board::opened);
        const int job = b->job(1, 0);
        QTest::mouseDClick(b->board->viewport(), Qt::LeftButton, {}, b->show(job));
        QCOMPARE(opened.size(), 1);
        QCOMPARE(opened.first().first().toInt(), job);
    }

    void dragBetweenPrinters() {
        const int job = b->placedJob(1, true);
        QVERIFY(job >= 0);
        b->grab(b->show(job));
        QVERIFY(b->board->dragging());
        const QPoint to = firstPlace(1);
        b->move(to);
        QTRY_VERIFY(!b->board->offered().isEmpty());
        // What the label says is what the drop then costs.
        const QString offered = b->board->offered();
        const planning::Totals before = b->desk->figures();
        const DropPlace place = dropAt(b->board->rows(), 1, b->board->shape().minute(to.x()), {});
        QSignalSpy told(b->board.get(), &Board::told);
        b->release(to);
        QVERIFY(!b->board->dragging());
        QCOMPARE(b->printerOf(job), std::size_t(1));
        QCOMPARE(b->job(1, place.at), job);
        const QString cost = board::priceText(planning::priceBetween(before, b->desk->figures()), b->shop.bench->catalogue().fleet.currency);
        QCOMPARE(offered, cost);
        QCOMPARE(told.size(), 1);
        QVERIFY(told.first().first().toString().contains(cost));
        b->desk->undo();
        QVERIFY(b->printerOf(job) != 1);
    }
    void severalAreCarriedInTheirOrder() {
        const std::size_t p = busyPrinter(4);
        const std::vector<int> jobs{b->job(p, 1), b->job(p, 2)};
        b->desk->select({jobs[1], jobs[0]}); // the order of selection is another one
        b->grab(b->show(jobs[0]));
        const QPoint to = firstPlace(p);
        b->move(to);
        b->release(to); // not even the price has been waited for
        const DropPlace first = dropAt(b->board->rows(), static_cast<int>(p), -1000, {});
        QCOMPARE(first.at, std::size_t(0));
        if (b->job(p, 0) != jobs[0]) QSKIP("the first job began left of the view");
        QCOMPARE(b->job(p, 1), jobs[1]);
    }
    void aDragOverItsOwnPlaceChangesNothing() {
        const int job = b->job(0, 0);
        const QPoint at = b->show(job);
        b->grab(at);
        b->move(at + QPoint(15, 3));
        QTRY_COMPARE(b->board->offered(), QStringLiteral("stays where it is"));
        QSignalSpy changed(b->desk.get(), &PlanDesk::changed);
        b->release(at + QPoint(15, 3));
        QCOMPARE(changed.size(), 0);
    }
    void priceIsAskedForOncePerPlace() {
        const int job = b->placedJob(1, true);
        b->grab(b->show(job));
        const QPoint to = firstPlace(1);
        b->move(to);
        QTRY_VERIFY(!b->board->offered().isEmpty());
        const QString offered = b->board->offered();
        // Another pixel within the same place does not take the price away to ask again.
        b->move(to + QPoint(1, 1));
        QCOMPARE(b->board->offered(), offered);
        b->key(Qt::Key_Escape);
    }
    void escLeavesAllAsItWas() {
        const planning::Orders before = b->orders();
        const int job = b->placedJob(1, true);
        b->grab(b->show(job));
        b->move(firstPlace(1));
        QTRY_VERIFY(!b->board->offered().isEmpty());
        b->key(Qt::Key_Escape);
        QVERIFY(!b->board->dragging());
        b->release(firstPlace(1));
        QVERIFY(b->orders() == before);
        QVERIFY(!b->desk->draft().redoText().size());
        QCOMPARE(b->desk->selected(), std::vector<int>{job});
    }
    void droppedBesideThePrintersNothingMoves() {
        const planning::Orders before = b->orders();
        b->grab(b->show(b->job(0, 0)));
        const QPoint axis(500, 10);
        b->move(axis);
        b->release(axis);
        QVERIFY(b->orders() == before);
    }
    void refusedWhereItDoesNotFit() {
        std::size_t printer = 0;
        int job = -1;
        for (; printer < b->orders().printers.size() && job < 0; ++printer) job = b->placedJob(printer, false);
        QVERIFY(job >= 0);
        --printer;
        const planning::Orders before = b->orders();
        b->grab(b->show(job));
        const QPoint to = firstPlace(printer);
        b->move(to);
        QTRY_VERIFY2(b->board->offered().contains(QStringLiteral("cannot go there")), qPrintable(b->board->offered()));
        QSignalSpy told(b->board.get(), &Board::told);
        b->release(to);
        QVERIFY(b->orders() == before);
        QVERIFY(told.last().first().toString().contains(b->id(job)));
    }
    void aLockedJobStaysAndIsNotPushed() {
        const std::size_t p = busyPrinter();
        const int locked = b->job(p, 0);
        b->desk->setLocked({locked}, true);
        QVERIFY(blockOf(locked)->locked);
        const planning::Orders before = b->orders();
        b->grab(b->show(locked));
        b->move(firstPlace(p) + QPoint(300, 0));
        QTRY_VERIFY2(b->board->offered().contains(QStringLiteral("is locked")), qPrintable(b->board->offered()));
        b->release(firstPlace(p) + QPoint(300, 0));
        QVERIFY(b->orders() == before);
        // Another one before it would push it from its position.
        b->board->reveal(locked);
        b->grab(b->show(b->job(p, 1)));
        b->board->horizontalScrollBar()->setValue(0);
        b->move(firstPlace(p));
        QTRY_VERIFY2(b->board->offered().contains(QStringLiteral("would push job %1").arg(b->id(locked))), qPrintable(b->board->offered()));
        b->release(firstPlace(p));
        QVERIFY(b->orders() == before);
    }
    void altDragAndBandCarryTheFamilyRun() {
        // A run of at least two that another printer takes as a whole.
        for (std::size_t p = 0; p < b->orders().printers.size(); ++p)
            for (const BoardBand band : std::vector<BoardBand>(b->board->rows()[p].bands)) { // rows are made anew by a drop
                const int head = b->board->rows()[p].blocks[static_cast<std::size_t>(band.first)].job;
                const std::vector<int> run = b->desk->familyRun(head);
                for (std::size_t other = 0; other < b->orders().printers.size(); ++other) {
                    if (other == p || !std::all_of(run.begin(), run.end(), [&](int j) { return b->fits(j, other); })) continue;
                    b->grab(b->show(head), Qt::AltModifier);
                    QCOMPARE(b->desk->selected(), run);
                    b->move(firstPlace(other));
                    b->release(firstPlace(other));
                    for (const int j : run) QCOMPARE(b->printerOf(j), other);
                    b->desk->undo();
                    b->show(head);
                    const QRectF line = b->board->shape().bandRect(static_cast<int>(p), band.from, band.to);
                    b->grab(QPointF(std::max(line.left(), BoardGeometry::headerWidth) + 12, line.center().y()).toPoint());
                    QCOMPARE(b->desk->selected(), run);
                    b->move(firstPlace(other));
                    b->release(firstPlace(other));
                    for (std::size_t i = 0; i < run.size(); ++i) QCOMPARE(b->printerOf(run[i]), other);
                    return;
                }
            }
        QFAIL("the sample has no family run that fits on two printers");
    }
    void dropsFromTheListAreTaken() {
        b = std::make_unique<PlanBench>(false);
        QCOMPARE(board::summary(*b->desk, b->board->rows()), QStringLiteral("6 printers, 0 jobs, none late"));
        std::vector<int> jobs;
        for (const int j : b->orders().leftOut)
            if (b->fits(j, 0) && jobs.size() < 2) jobs.push_back(j);
        QCOMPARE(jobs.size(), std::size_t(2));
        QVERIFY(drop(firstPlace(0), {jobs[1], jobs[0]}, false));
        QVERIFY(!b->board->dragging()); // it went out again
        QVERIFY(b->orders().printers[0].empty());
        QVERIFY(drop(firstPlace(0), {jobs[1], jobs[0]}));
        QCOMPARE(b->job(0, 0), jobs[1]); // in the order in which they were given
        QCOMPARE(b->job(0, 1), jobs[0]);
        QCOMPARE(b->desk->selected(), (std::vector<int>{jobs[1], jobs[0]}));
        // A drop that is refused is told and changes nothing.
        QSignalSpy told(b->board.get(), &Board::told);
        int misfit = -1;
        for (const int j : b->orders().leftOut)
            if (!b->fits(j, 0)) misfit = j;
        QVERIFY(misfit >= 0);
        QVERIFY(drop(firstPlace(0), {misfit}));
        QCOMPARE(b->orders().printers[0].size(), std::size_t(2));
        QVERIFY(told.last().first().toString().contains(QStringLiteral("cannot go there")));
    }
    void strangeDropsAreNotTaken() {
        QVERIFY(!drop(firstPlace(0), {}));
        QVERIFY(!drop(firstPlace(0), {999'999, -4}));
        QMimeData text;
        text.setText(QStringLiteral("7401"));
        QDragEnterEvent enter(firstPlace(0), Qt::MoveAction, &text, Qt::LeftButton, Qt::NoModifier);
        QCoreApplication::sendEvent(b->board->viewport(), &enter);
        QVERIFY(!enter.isAccepted());
    }
    void outOfTheBoardItIsADragBetweenWidgets() {
        const int job = b->job(0, 0);
        const planning::Orders before = b->orders();
        b->grab(b->show(job));
        QByteArray carried;
        const auto look = [&] {
            if (auto* drag = b->board->findChild<QDrag*>()) carried = drag->mimeData()->data(plan_words::mimeType);
            QDrag::cancel();
        };
        QTimer::singleShot(0, b->board.get(), look);
        b->move(QPoint(-5, 100)); // comes back when the drag is over, on a platform without drags at once
        if (carried.isEmpty()) look();
        QCOMPARE(carried, QByteArray::number(job));
        QVERIFY(!b->board->dragging());
        QVERIFY(b->orders() == before);
    }
    void flagsComeFromTheReservations() {
        const int dry = b->job(0, 0), scarce = b->job(0, 1);
        QList<planning::Reservation> all(2);
        all[0].job = b->id(dry);
        all[0].dryFirst = true;
        all[1].job = b->id(scarce);
        all[1].isShort = true;
        const auto rows = boardRows(b->desk->problem(), b->desk->timetable(), b->orders(), all);
        QVERIFY(rows[0].blocks[0].dryFirst && !rows[0].blocks[0].isShort);
        QVERIFY(rows[0].blocks[1].isShort && !rows[0].blocks[1].dryFirst);
        QVERIFY(board::tip(*b->desk, rows[0], rows[0].blocks[1]).contains(QStringLiteral("stock short")));
        QVERIFY(board::tip(*b->desk, rows[0], rows[0].blocks[0]).contains(QStringLiteral("dry first")));
    }
    void whatIsLateOrSelectedIsDrawnSo() {
        int job = -1;
        for (const BoardRow& row : b->board->rows())
            for (const BoardBlock& x : row.blocks)
                if (x.late > 0 && x.printEnd - x.printStart > 200) job = x.job;
        QVERIFY(job >= 0);
        const auto shows = [&](const QColor& colour) {
            const QImage picture = b->board->viewport()->grab().toImage();
            const QRect r = b->board->rectOf(job).toRect().intersected(picture.rect());
            for (int y = r.top(); y <= r.bottom(); ++y)
                for (int x = r.left(); x <= r.right(); ++x)
                    if (picture.pixelColor(x, y) == colour) return true;
            return false;
        };
        b->show(job);
        QVERIFY(shows(look::colours().alarm));
        QVERIFY(!shows(look::colours().accent));
        b->desk->select({job});
        QVERIFY(shows(look::colours().accent));
    }
    /// However narrow it gets, a locked job looks locked; and down to a line's height its id is there, read upwards.
    void aNarrowBlockStillShowsLockAndId() {
        const auto dark = [&](int job) {
            const QImage picture = b->board->viewport()->grab().toImage();
            const QRect r = b->board->rectOf(job).toRect().adjusted(2, 2, -2, -2).intersected(picture.rect());
            int n = 0;
            for (int y = r.top(); y <= r.bottom(); ++y)
                for (int x = r.left(); x <= r.right(); ++x) n += picture.pixelColor(x, y) == look::colours().text ? 1 : 0;
            return n;
        };
        int seen = 0;
        for (const double width : {18.0, 26.0}) {
            for (std::size_t p = 0; p < b->orders().printers.size() && seen < 6; ++p) {
                if (b->orders().printers[p].size() < 2) continue;
                const int job = b->job(p, 1);
                const planning::TimedJob* t = b->desk->timed(job);
                if (!t || b->board->isHidden()) continue;
                while (b->board->rectOf(job).width() > width) {
                    const double before = b->board->rectOf(job).width();
                    b->key(Qt::Key_Minus);
                    if (b->board->rectOf(job).width() >= before) break;
                }
                if (b->board->rectOf(job).width() > 30 || b->board->rectOf(job).width() < 14) continue;
                b->show(job);
                const int plain = dark(job);
                QVERIFY2(plain > 10, "its id");
                b->desk->setLocked({job}, true);
                QVERIFY2(dark(job) > plain + 20, "its lock");
                b->desk->setLocked({job}, false);
                ++seen;
            }
        }
        QVERIFY(seen > 0);
    }
    void edgesScrollWhileCarrying() {
        b->board->reveal(b->job(0, 0));
        const int before = b->board->horizontalScrollBar()->value();
        QVERIFY(b->board->horizontalScrollBar()->maximum() > before);
        b->grab(b->show(b->job(0, 0)));
        b->move(b->inRow(0, b->board->viewport()->width() - 4));
        QTRY_VERIFY(b->board->horizontalScrollBar()->value() > before + 50);
        b->key(Qt::Key_Escape);
        const int stopped = b->board->horizontalScrollBar()->value();
        QTest::qWait(60);
        QCOMPARE(b->board->horizontalScrollBar()->value(), stopped);
    }
    void aChangeOfThePlanEndsADrag() {
        const int job = b->placedJob(1, true);
        b->grab(b->show(job));
        b->move(firstPlace(1));
        b->desk->undo();
        QVERIFY(!b->board->dragging());
        const planning::Orders before = b->orders();
        b->release(firstPlace(1));
        QVERIFY(b->orders() == before);
    }
    void wheelAndKeysZoom() {
        const double before = b->board->shape().pxPerMinute;
        const QPointF at(500, 300);
        const Minute under = b->board->shape().minute(at.x());
        QWheelEvent in(at, b->board->mapToGlobal(at), {}, QPoint(0, 120), Qt::NoButton, Qt::ControlModifier, Qt::NoScrollPhase, false);
        QCoreApplication::sendEvent(b->board->viewport(), &in);
        QVERIFY(b->board->shape().pxPerMinute > before);
        QVERIFY(std::abs(b->board->shape().minute(at.x()) - under) <= 3); // scroll bars count whole pixels
        b->key(Qt::Key_0);
        QCOMPARE(b->board->horizontalScrollBar()->maximum(), 0);
        const double all = b->board->shape().pxPerMinute;
        b->key(Qt::Key_Plus);
        QVERIFY(b->board->shape().pxPerMinute > all);
        b->key(Qt::Key_Minus);
        QCOMPARE(b->board->shape().pxPerMinute, all);
    }
    void whatAssistiveTechnologyReads() {
        QAccessibleInterface* i = QAccessible::queryAccessibleInterface(b->board.get());
        QVERIFY(!i->text(QAccessible::Name).isEmpty());
        const int late = b->desk->figures().lateJobs;
        const QString text = i->text(QAccessible::Description);
        QVERIFY2(text.startsWith(QStringLiteral("6 printers, ")), qPrintable(text));
        QVERIFY2(text.contains(late == 0 ? QStringLiteral("none late") : QStringLiteral("%1 late").arg(late)), qPrintable(text));
        QVERIFY2(text.contains(QStringLiteral("the last ends")), qPrintable(text));
        b->click(b->job(0, 0));
        QVERIFY(b->board->accessibleDescription().contains(b->id(b->job(0, 0)) + QStringLiteral(" on Bay 1")));
        b->desk->undo();
        QVERIFY(b->board->accessibleDescription().startsWith(QStringLiteral("6 printers, 0 jobs")));
    }
    void theTipNamesTheTimes() {
        const int job = b->job(0, 1);
        const BoardBlock& x = *blockOf(job);
        const QString tip = board::tip(*b->desk, b->board->rows()[0], x);
        QVERIFY(tip.startsWith(b->id(job)));
        for (const Minute m : {x.printStart, x.printEnd, x.to})
            QVERIFY2(tip.contains(b->shop.bench->shortTime(b->desk->problem().at(m))), qPrintable(tip));
        QVERIFY(tip.contains(QStringLiteral("hands-on")));
    }
};

INTERLUDE_TEST(BoardTest)
#include "board_test.moc"
