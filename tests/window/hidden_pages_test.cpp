// What nobody sees is not worked out: an act costs the shown tab and no other. What was done stands there at once, and a tab
// that was hidden knows it when it is shown.
#include "model/planning/yardsticks.h"
#include "tests/harness/run_tests.h"
#include "tests/window/opened_shop.h"
#include "views/lists/list_page.h"
#include "views/lists/list_view.h"
#include "views/plan/plan_page.h"
#include "views/window/main_window.h"
#include "views/window/opening_panel.h"

#include <QLabel>
#include <QPushButton>
#include <QScrollBar>
#include <QTableView>

using namespace interlude;
using namespace interlude::tests;

class HiddenPagesTest : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void init() {
        m_shop = openedShop();
        m_shop->bench->signIn(m_shop->somebody());
        m_window = std::make_unique<MainWindow>(*m_shop->bench);
        QVERIFY(showActive(*m_window, {1366, 768}));
    }
    void cleanup() {
        m_window.reset();
        m_shop.reset();
    }

    void anActIsNoWorkForThem() {
        // Also those that have been seen already.
        for (const QString& tab : MainWindow::tabNames()) m_window->showTab(tab);
        m_window->showTab("today");
        std::vector<std::unique_ptr<QSignalSpy>> lists;
        for (const char* tab : {"stock", "nozzles", "records"})
            lists.push_back(std::make_unique<QSignalSpy>(listOf(tab)->table(), &lists::ListTable::refreshed));
        QSignalSpy plan(&desk(), &PlanDesk::changed);
        receive("S-901");
        receive("S-902");
        QCoreApplication::processEvents();
        for (const auto& list : lists) QCOMPARE(list->count(), 0);
        QCOMPARE(plan.count(), 0);
        // Once for both acts.
        m_window->showTab("stock");
        QCOMPARE(lists[0]->count(), 1);
        QVERIFY(listOf("stock")->table()->rowOf("S-901") >= 0);
        QVERIFY(listOf("stock")->table()->rowOf("S-902") >= 0);
        m_window->showTab("plan");
        QCOMPARE(plan.count(), 1);
        QCOMPARE(lists[0]->count(), 1);
        QCOMPARE(lists[1]->count(), 0);
    }

    void aPageNeverSeenHasNotBeenFilled() {
        QCOMPARE(listOf("stock")->visibleRows(), 0);
        m_window->showTab("stock");
        QVERIFY(listOf("stock")->visibleRows() > 10);
    }

    void oneActIsOneRefreshAndIsThereAtOnce() {
        m_window->showTab("stock");
        lists::ListView* list = listOf("stock");
        QSignalSpy refreshed(list->table(), &lists::ListTable::refreshed), resets(list->table(), &QAbstractItemModel::modelReset);
        receive("S-903");
        QCOMPARE(refreshed.count(), 1);
        QCOMPARE(resets.count(), 0);
        QVERIFY(list->table()->rowOf("S-903") >= 0);
        QVERIFY(list->select("S-903"));
    }

    void thePlanKnowsTheJobAtOnce() {
        m_window->showTab("plan");
        Job job = m_shop->bench->catalogue().openings.jobs.first();
        job.id = "J-new";
        QVERIFY(m_shop->bench->perform(act::JobAdded{job}).has_value());
        QVERIFY(desk().problem().jobNumbers.contains("J-new"));
    }

    void theYardsticksKeepNobodyWaiting() {
        m_window->showTab("plan");
        QTRY_VERIFY_WITH_TIMEOUT(desk().firstInFirstOut(), 60000);
        Job job = m_shop->bench->catalogue().openings.jobs.first();
        for (int i = 0; i < 3; ++i) {
            job.id = QStringLiteral("J-%1").arg(i);
            QVERIFY(m_shop->bench->perform(act::JobAdded{job}).has_value());
            QVERIFY(!desk().firstInFirstOut()); // not those of another plan
            QTest::qWait(i * 220);              // the worker has begun, or not
        }
        QTRY_VERIFY_WITH_TIMEOUT(desk().firstInFirstOut(), 60000);
        auto own = planning::Problem(desk().problem().problem);
        own.changes = std::shared_ptr<planning::Changes>(desk().problem().changes->clone());
        const planning::Totals anew = planning::timetable(own, *own.changes, planning::firstInFirstOut(own, *own.changes)).totals;
        QCOMPARE(desk().firstInFirstOut()->cost, anew.cost);
    }

    void selectionAndPlaceStay() {
        m_window->showTab("stock");
        lists::ListView* list = listOf("stock");
        QTableView* view = list->view();
        view->sortByColumn(2, Qt::AscendingOrder);
        view->selectRow(20);
        QTest::keyClick(view, Qt::Key_Down, Qt::ShiftModifier);
        view->verticalScrollBar()->setValue(9);
        QCOMPARE(view->verticalScrollBar()->value(), 9);
        const QStringList selected = list->selectedKeys();
        const QString current = list->currentKey(), top = view->model()->index(9, 0).data(lists::KeyRole).toString();
        QCOMPARE(selected.size(), 2);
        receive("A-1"); // before all others
        QCOMPARE(list->selectedKeys(), selected);
        QCOMPARE(list->currentKey(), current);
        QCOMPARE(view->model()->index(view->verticalScrollBar()->value(), 0).data(lists::KeyRole).toString(), top);
        m_window->showTab("today");
        receive("A-2");
        m_window->showTab("stock");
        QCOMPARE(list->selectedKeys(), selected);
        QCOMPARE(view->model()->index(view->verticalScrollBar()->value(), 0).data(lists::KeyRole).toString(), top);
    }

    void whatIsGoneIsNotFollowedByItsNeighbour() {
        m_window->showTab("stock");
        lists::ListView* list = listOf("stock");
        receive("S-904");
        QVERIFY(list->select("S-904"));
        QVERIFY(m_shop->bench->perform(act::SpoolRetired{"S-904", "empty"}).has_value());
        QVERIFY(list->table()->rowOf("S-904") < 0);
        QCOMPARE(list->currentKey(), QString());
    }

    void aLongOpeningIsSeenAndStopped() {
        OpeningPanel panel;
        QVERIFY(panel.show(1, 1000));
        QVERIFY(!panel.isVisible()); // a short one shows nothing
        QTRY_VERIFY(panel.show(250'000, 1'000'000) && panel.isVisible());
        QCOMPARE(panel.findChild<QLabel*>("openingText")->text(), QString("250,000 of 1,000,000 events"));
        panel.findChild<QPushButton*>("openingStop")->click();
        QVERIFY(!panel.show(250'001, 1'000'000));
        QVERIFY(panel.wasStopped());
    }

private:
    lists::ListView* listOf(const char* tab) const {
        QWidget* page = m_window->page(tab);
        if (auto* p = qobject_cast<lists::ListPage*>(page)) return p->list();
        for (auto* list : page->findChildren<lists::ListView*>()) return list;
        return nullptr;
    }
    PlanDesk& desk() const { return qobject_cast<PlanPage*>(m_window->page("plan"))->desk(); }
    void receive(const QString& id) {
        Spool s = m_shop->bench->shop().stock().spools.first();
        s.id = id;
        s.where = SpoolWhere::Shelf;
        s.place = m_shop->bench->catalogue().fleet.places.first().id;
        s.entries.clear();
        const auto done = m_shop->bench->perform(act::SpoolReceived{s});
        QVERIFY2(done.has_value(), done ? "" : qPrintable(sentence(done.error())));
    }

    std::unique_ptr<OpenedShop> m_shop;
    std::unique_ptr<MainWindow> m_window;
};

INTERLUDE_TEST(HiddenPagesTest)
#include "hidden_pages_test.moc"
