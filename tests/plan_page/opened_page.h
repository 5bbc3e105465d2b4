#pragma once
// The real Plan page on the sample fleet, with a planner signed in.

#include "tests/window/opened_shop.h"
#include "views/asking/ask_dialog.h"
#include "views/plan/board.h"
#include "views/plan/figures_panel.h"
#include "views/plan/jobs_tree.h"
#include "views/plan/plan_actions.h"
#include "views/plan/plan_page.h"
#include "views/plan/plan_words.h"
#include "views/plan/why_panel.h"

#include <QtWidgets>

namespace interlude::tests {

class OpenedPage {
public:
    OpenedPage() {
        if (!shop.open(&problems)) return;
        shop.bench->signIn(QStringLiteral("AV"));
        page = std::make_unique<PlanPage>(*shop.bench);
        page->resize(1366, 690);
        page->show();
        Q_UNUSED(QTest::qWaitForWindowActive(page.get()));
        page->setFocus();
    }

    PlanDesk& desk() { return page->desk(); }
    const planning::Orders& orders() { return page->desk().draft().orders(); }
    JobRows* rows() { return page->jobs().rows(); }
    /// Key to the page, whatever has the focus in it.
    void key(Qt::Key k, Qt::KeyboardModifiers with = Qt::ControlModifier) {
        // After a dialog has gone the window is active again as soon as the platform says so.
        page->activateWindow();
        Q_UNUSED(QTest::qWaitForWindowActive(page.get()));
        QWidget* focus = QApplication::focusWidget();
        if (!focus || !page->isAncestorOf(focus)) {
            focus = rows()->isVisible() ? static_cast<QWidget*>(rows()) : &page->board();
            focus->setFocus();
        }
        QTest::keyClick(focus, k, with);
        QCoreApplication::processEvents();
    }
    /// The row of a job, or null.
    QTreeWidgetItem* row(int job) {
        for (QTreeWidgetItemIterator i(rows()); *i; ++i)
            if (JobRows::jobOf(*i) == job) return *i;
        return nullptr;
    }
    void choose(int job) {
        rows()->setFocus();
        rows()->clearSelection();
        rows()->setCurrentItem(row(job));
        row(job)->setSelected(true);
    }
    bool isLeftOut(int job) {
        const auto& left = orders().leftOut;
        return std::binary_search(left.begin(), left.end(), job);
    }
    std::size_t placed() {
        std::size_t n = 0;
        for (const auto& list : orders().printers) n += list.size();
        return n;
    }
    AskDialog* dialog(const char* name) {
        QCoreApplication::processEvents();
        auto* d = page->findChild<AskDialog*>(QString::fromLatin1(name));
        return d && d->isVisible() ? d : nullptr;
    }
    static void accept(AskDialog* d) {
        QTest::mouseClick(d->acceptButton(), Qt::LeftButton);
        settle();
    }
    static void settle() {
        QCoreApplication::processEvents();
        QCoreApplication::sendPostedEvents(nullptr, QEvent::DeferredDelete);
        QCoreApplication::processEvents();
    }
    void publish() {
        key(Qt::Key_Return);
        if (AskDialog* d = dialog("publishDialog")) accept(d);
    }
    /// Drags jobs to a place of a widget that takes drops, and lets go.
    static bool drop(QWidget* target, const QPoint& at, const std::vector<int>& jobs) {
        QMimeData data;
        data.setData(plan_words::mimeType, plan_words::jobsToMime(jobs));
        QDragEnterEvent enter(at, Qt::MoveAction, &data, Qt::LeftButton, Qt::NoModifier);
        QCoreApplication::sendEvent(target, &enter);
        if (!enter.isAccepted()) return false;
        QDragMoveEvent move(at, Qt::MoveAction, &data, Qt::LeftButton, Qt::NoModifier);
        QCoreApplication::sendEvent(target, &move);
        QDropEvent drop(at, Qt::MoveAction, &data, Qt::LeftButton, Qt::NoModifier);
        QCoreApplication::sendEvent(target, &drop);
        QCoreApplication::processEvents();
        return drop.isAccepted();
    }

    QString problems;
    OpenedShop shop;
    std::unique_ptr<PlanPage> page;
};

} // namespace interlude::tests
