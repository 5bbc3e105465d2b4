// A draft made on the page: placed, grouped, improved, locked, published, discarded; by keys and by drops.

#include "tests/harness/accessible.h"
#include "tests/harness/run_tests.h"
#include "tests/plan_page/opened_page.h"

using namespace interlude;
using namespace interlude::tests;

class PageDraftTest final : public QObject {
    Q_OBJECT
private:
    std::unique_ptr<OpenedPage> o;

    /// When the job is done if it is put at the end of that printer; empty where it does not fit.
    std::optional<planning::Minute> doneAt(int printer, int job) {
        const planning::ShopProblem& problem = o->desk().problem();
        const auto at = o->orders().printers[static_cast<std::size_t>(printer)].size();
        const auto moved = planning::moveJobs(problem, o->orders(), {job}, {printer, at, {}});
        if (!moved) return {};
        const planning::Timetable t = planning::timetable(problem.problem, *problem.changes, *moved);
        for (const planning::TimedJob& j : t.printers[static_cast<std::size_t>(printer)])
            if (j.job == job) return j.complete;
        return {};
    }

private Q_SLOTS:
    void init() {
        o = std::make_unique<OpenedPage>();
        QVERIFY2(o->page, qPrintable(o->problems));
    }
    void cleanup() { o.reset(); }

    void nothingPlannedSaysWhatToDo() {
        QVERIFY2(o->page->state().startsWith("Nothing is planned yet. Drag jobs"), qPrintable(o->page->state()));
        QCOMPARE(o->placed(), std::size_t(0));
        QVERIFY(o->rows()->topLevelItemCount() > 1);
        // There is no bound of nothing, and no gap to it.
        QVERIFY2(!o->page->figures().boundText().contains("at least"), qPrintable(o->page->figures().boundText()));
        QVERIFY2(!o->page->figures().boundText().contains("gap"), qPrintable(o->page->figures().boundText()));
        o->key(Qt::Key_G);
        QVERIFY2(o->page->figures().boundText().contains("This draft: "), qPrintable(o->page->figures().boundText()));
    }

    void enterPlacesWhereItIsDoneEarliest() {
        for (int n = 0; n < 4; ++n) {
            const int job = o->orders().leftOut.at(static_cast<std::size_t>(n) * 3);
            std::optional<planning::Minute> best;
            for (int p = 0; p < static_cast<int>(o->orders().printers.size()); ++p)
                if (const auto done = doneAt(p, job); done && (!best || *done < *best)) best = done;
            QVERIFY(best);
            o->choose(job);
            QCOMPARE(o->desk().selected(), std::vector<int>{job});
            o->key(Qt::Key_Return, Qt::NoModifier);
            QVERIFY(!o->isLeftOut(job));
            QVERIFY(!o->row(job));
            QCOMPARE(o->desk().timed(job)->complete, *best);
            QVERIFY2(o->page->said().startsWith(o->desk().problem().jobs[job].id), qPrintable(o->page->said()));
        }
        o->key(Qt::Key_Z);
        QCOMPARE(o->placed(), std::size_t(3));
    }

    void aGroupIsPlacedByADropAndTakenOutAgain() {
        QTreeWidgetItem* setup = o->rows()->topLevelItem(0)->child(0);
        const std::vector<int> jobs = o->rows()->jobsOf({setup});
        QVERIFY(!jobs.empty());
        // The first printer that takes all of them.
        int printer = -1;
        for (int p = 0; printer < 0 && p < static_cast<int>(o->orders().printers.size()); ++p)
            if (!o->desk().offer(jobs, {p, 0, {}}).refusal) printer = p;
        QVERIFY(printer >= 0);
        const Board& board = o->page->board();
        const QRectF row = board.shape().rowRect(printer);
        QVERIFY(OpenedPage::drop(o->page->board().viewport(), QPointF(board.viewport()->width() - 40.0, row.center().y()).toPoint(), jobs));
        QCOMPARE(o->orders().printers[static_cast<std::size_t>(printer)].size(), jobs.size());
        for (const int job : jobs) QVERIFY(!o->row(job));
        // Its own rows are no place to drop them; what stands on the board may come back.
        const int other = o->orders().leftOut.front();
        QMimeData own;
        own.setData(plan_words::mimeType, plan_words::jobsToMime({other}));
        QDragMoveEvent move(QPoint(20, 20), Qt::MoveAction, &own, Qt::LeftButton, Qt::NoModifier);
        QCoreApplication::sendEvent(o->rows()->viewport(), &move);
        QVERIFY(!move.isAccepted());
        QVERIFY(OpenedPage::drop(o->rows()->viewport(), QPoint(20, 20), {jobs.front()}));
        QVERIFY(o->isLeftOut(jobs.front()));
        QVERIFY(o->row(jobs.front()));
    }

    void anOfferSaysWhenItWouldPrint() {
        const std::vector<int> jobs = o->rows()->jobsOf({o->rows()->topLevelItem(0)->child(0)});
        std::optional<PlanDesk::Offer> offer;
        int printer = 0;
        for (; printer < static_cast<int>(o->orders().printers.size()); ++printer)
            if (offer = o->desk().offer(jobs, {printer, 0, {}}); !offer->refusal) break;
        QVERIFY(offer && !offer->refusal && offer->print);
        QVERIFY(!o->desk().timed(jobs.front())); // nothing has happened yet
        QVERIFY(!o->desk().drop(jobs, {printer, 0, {}}));
        QCOMPARE(offer->print->first, o->desk().timed(jobs.front())->printStart);
        QCOMPARE(offer->print->second, o->desk().timed(jobs.front())->printEnd);
        QVERIFY(!o->desk().offer(jobs, {}).print); // left out
    }

    void typingFilters() {
        const int job = o->orders().leftOut.at(5);
        o->rows()->setFocus();
        QTest::keyClicks(o->rows(), "7");
        QCOMPARE(QApplication::focusWidget(), static_cast<QWidget*>(o->page->jobs().filterField()));
        QTest::keyClicks(QApplication::focusWidget(), o->desk().problem().jobs[job].id.mid(1));
        QVERIFY(!o->row(job)->isHidden());
        QVERIFY(o->row(o->orders().leftOut.at(0))->isHidden());
        // What is hidden is not dragged along.
        std::vector<int> all;
        for (int i = 0; i < o->rows()->topLevelItemCount(); ++i)
            for (const int j : o->rows()->jobsOf({o->rows()->topLevelItem(i)})) all.push_back(j);
        QCOMPARE(all, std::vector<int>{job});
    }

    void groupByFamilyAndUndo() {
        o->key(Qt::Key_G);
        QVERIFY(o->placed() > 30);
        QVERIFY2(o->page->said().startsWith("Grouped by family: cost"), qPrintable(o->page->said()));
        // What it was and what it is now.
        const planning::Totals& now = o->desk().figures();
        QVERIFY2(o->page->said().contains(QString(" → %1 EUR").arg(plan_words::money(now.cost))), qPrintable(o->page->said()));
        QVERIFY2(o->page->said().contains(QString("late jobs 0 → %1,").arg(now.lateJobs)), qPrintable(o->page->said()));
        QVERIFY2(o->page->said().contains(QString(" → %1. Undo takes it back").arg(now.notPlaced)), qPrintable(o->page->said()));
        QVERIFY2(o->page->state().contains("not published"), qPrintable(o->page->state()));
        const QString cost = o->page->figures().figure(0, 0);
        QCOMPARE(cost, plan_words::money(o->desk().figures().cost));
        o->key(Qt::Key_Z);
        QCOMPARE(o->placed(), std::size_t(0));
        QVERIFY(o->page->figures().figure(0, 0) != cost);
        o->key(Qt::Key_Y);
        QCOMPARE(o->page->figures().figure(0, 0), cost);
    }

    void yardsticksComeFromTheWorker() {
        QTRY_VERIFY_WITH_TIMEOUT(o->desk().firstInFirstOut() && o->desk().sameSetupFirst(), 60000);
        QCOMPARE(o->page->figures().figure(0, 2), plan_words::money(o->desk().firstInFirstOut()->cost));
        QCOMPARE(o->page->figures().figure(0, 1), QString("—"));
    }

    void improveEndsByItself() {
        o->page->actions().seconds()->setValue(1);
        QSignalSpy ended(&o->desk(), &PlanDesk::improved);
        o->key(Qt::Key_M);
        QVERIFY(o->desk().improving());
        QCOMPARE(o->page->actions().button("planImprove")->accessibleName(), QString("Stop the search"));
        QVERIFY(ended.wait(60000));
        QVERIFY(!o->desk().improving());
        QVERIFY(o->placed() > 30);
        QVERIFY2(o->page->said().startsWith("Done"), qPrintable(o->page->said()));
        o->key(Qt::Key_Z);
        QCOMPARE(o->placed(), std::size_t(0)); // one step, whatever it told on the way
    }

    void improveIsStopped() {
        o->page->actions().seconds()->setValue(3600);
        QSignalSpy ended(&o->desk(), &PlanDesk::improved), live(&o->desk(), &PlanDesk::progressed);
        o->key(Qt::Key_M);
        QVERIFY(live.wait(60000));
        QVERIFY2(o->page->said().startsWith("Improving: "), qPrintable(o->page->said()));
        o->key(Qt::Key_M);
        if (ended.isEmpty()) QVERIFY(ended.wait(10000));
        QVERIFY(!o->desk().improving());
        QVERIFY2(o->page->said().startsWith("Stopped"), qPrintable(o->page->said()));
        QCOMPARE(o->page->actions().button("planImprove")->accessibleName(), QString("Improve"));
    }

    void aLockSurvivesImprove() {
        o->key(Qt::Key_G);
        std::size_t printer = 0;
        while (o->orders().printers[printer].size() < 3) ++printer;
        const planning::Place kept = o->orders().printers[printer][2];
        o->desk().select({kept.job});
        o->key(Qt::Key_L);
        QVERIFY(o->orders().locked[static_cast<std::size_t>(kept.job)]);
        QCOMPARE(o->page->actions().button("planLock")->accessibleName(), QString("Unlock"));
        o->page->actions().seconds()->setValue(1);
        QSignalSpy ended(&o->desk(), &PlanDesk::improved);
        o->key(Qt::Key_M);
        QVERIFY(ended.wait(60000));
        QCOMPARE(o->orders().printers[printer][2].job, kept.job);
        o->desk().select({kept.job});
        o->key(Qt::Key_L);
        QVERIFY(!o->orders().locked[static_cast<std::size_t>(kept.job)]);
    }

    void publishMakesOneEvent() {
        o->key(Qt::Key_G);
        const qint64 before = o->shop.events();
        o->publish();
        QCOMPARE(o->shop.events(), before + 1);
        QVERIFY(o->shop.bench->shop().plan());
        QVERIFY(!o->desk().differs());
        QVERIFY2(o->page->state().startsWith("As published"), qPrintable(o->page->state()));
        QCOMPARE(o->page->figures().figure(0, 1), o->page->figures().figure(0, 0));
        QVERIFY(!o->shop.bench->shop().plan()->plan.reserved.isEmpty());
        o->publish(); // nothing to publish: no dialog, no event
        QCOMPARE(o->shop.events(), before + 1);
    }

    void publishNeedsAPerson() {
        o->key(Qt::Key_G);
        o->shop.bench->signIn({});
        QVERIFY(!o->page->actions().button("planPublish")->isEnabled());
        const qint64 before = o->shop.events();
        o->publish();
        QCOMPARE(o->shop.events(), before);
        QVERIFY2(o->page->said().contains("Sign in"), qPrintable(o->page->said()));
    }

    void discardGoesBackToWhatIsPublished() {
        o->key(Qt::Key_G);
        o->publish();
        const planning::Orders published = o->orders();
        o->desk().select({published.printers.front().front().job});
        QVERIFY(!o->desk().drop(o->desk().selected(), {}));
        QVERIFY(o->desk().differs());
        o->key(Qt::Key_Backspace);
        AskDialog* d = o->dialog("discardDialog");
        QVERIFY(d);
        QTest::keyClick(d, Qt::Key_Escape);
        OpenedPage::settle();
        QVERIFY(o->desk().differs());
        o->key(Qt::Key_Backspace);
        d = o->dialog("discardDialog");
        QVERIFY(d);
        OpenedPage::accept(d);
        QVERIFY(!o->desk().differs());
        QCOMPARE(o->orders(), published);
    }

    void theVariantIsChangedUnderWhy() {
        const int job = o->orders().leftOut.front();
        o->choose(job);
        QVERIFY(!o->page->why().variantChoice()->isEnabled()); // it is on no printer
        o->key(Qt::Key_Return, Qt::NoModifier);
        o->desk().select({job});
        QComboBox* choice = o->page->why().variantChoice();
        QVERIFY(choice->isEnabled());
        const int before = o->desk().timed(job)->variant, other = before == 0 ? 1 : 0;
        const QString said = o->page->why().lines().join('\n');
        QVERIFY2(said.contains("Prints"), qPrintable(said));
        choice->setFocus();
        QTest::keyClick(choice, other > before ? Qt::Key_Down : Qt::Key_Up);
        const int now = o->desk().timed(job)->variant;
        QVERIFY(now == other || o->page->said().contains("cannot"));
    }

    void everythingHasANameAndFitsASmallScreen() {
        o->key(Qt::Key_G);
        o->desk().select({o->orders().printers.front().front().job});
        OpenedPage::settle();
        const AccessibleWalk walk = walkAccessible(o->page.get());
        QVERIFY2(walk.faults.isEmpty(), qPrintable(walk.faults.join('\n')));
        QVERIFY2(o->page->minimumSizeHint().width() <= 1366, qPrintable(QString::number(o->page->minimumSizeHint().width())));
        for (const QPushButton* b : o->page->findChildren<QPushButton*>())
            if (b->isVisible())
                QVERIFY2(b->width() >= b->fontMetrics().horizontalAdvance(QString(b->text()).remove('&')), qPrintable(b->text()));
    }
};

INTERLUDE_TEST(PageDraftTest)
#include "page_draft_test.moc"
