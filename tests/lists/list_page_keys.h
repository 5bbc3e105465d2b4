#pragma once
// The acts of a list page by keyboard alone.

#include "tests/harness/accessible.h"
#include "tests/window/opened_shop.h"
#include "views/asking/act_dialog.h"
#include "views/lists/list_page.h"
#include "views/lists/list_view.h"

#include <QTableView>

namespace interlude::tests {

/// By the mnemonic of the act's button, as a person without a mouse does: its dialog once that has the focus, or null.
inline ActDialog* startAct(lists::ListPage& page, Qt::Key mnemonic) {
    QTest::keyClick(&page, mnemonic, Qt::AltModifier);
    // A button pressed by its letter is seen to go down before it clicks (QAbstractButton::animateClick, 100 ms).
    if (!QTest::qWaitFor([] { return openDialog<ActDialog>() != nullptr; }, 2000)) return nullptr;
    ActDialog* dialog = openDialog<ActDialog>();
    // A window counts as active while its parent is; keys go to the dialog once it has the focus itself.
    const bool ready = QTest::qWaitFor([dialog] {
        return QApplication::focusWidget() && dialog->isAncestorOf(QApplication::focusWidget());
    });
    return ready ? dialog : nullptr;
}

/// The page, with the faults of the dialogs of these acts, too; one that does not open is a fault.
inline AccessibleWalk walkWithActs(lists::ListPage& page, const QList<Qt::Key>& acts) {
    AccessibleWalk walk = walkAccessible(&page);
    for (const Qt::Key key : acts) {
        ActDialog* dialog = startAct(page, key);
        if (!dialog) {
            walk.faults.append(QStringLiteral("no dialog: Alt+") + QKeySequence(key).toString());
            return walk;
        }
        walk.faults += walkAccessible(dialog).faults;
        press(Qt::Key_Escape);
        QCoreApplication::sendPostedEvents(nullptr, QEvent::DeferredDelete);
        page.activateWindow();
        if (!QTest::qWaitFor([&page] { return page.isActiveWindow(); }))
            walk.faults.append(QStringLiteral("never active again after Alt+") + QKeySequence(key).toString());
        page.list()->view()->setFocus();
    }
    return walk;
}

} // namespace interlude::tests
