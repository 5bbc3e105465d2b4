// The window around the tabs: keys, sign-in, refusals, foot, help, theme, accessibility.
#include "tests/harness/accessible.h"
#include "tests/harness/run_tests.h"
#include "tests/window/keys_page.h"
#include "tests/window/opened_shop.h"
#include "views/asking/ask_dialog.h"
#include "views/lists/heading.h"
#include "views/lists/list_view.h"
#include "views/plan/leave_dialog.h"
#include "views/plan/plan_page.h"
#include "views/window/attention.h"
#include "views/window/foot.h"
#include "views/window/header.h"
#include "views/window/help_window.h"
#include "views/window/main_window.h"
#include "views/window/message_bar.h"
#include "views/window/problems_dialog.h"

#include <QtTest>
#include <QtWidgets>

using namespace interlude;
using namespace interlude::tests;

class MainWindowTest : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void init() {
        m_shop = openedShop();
        m_window = std::make_unique<MainWindow>(*m_shop->bench, m_shop->warnings);
        QVERIFY(showActive(*m_window, {1366, 768}));
    }
    void cleanup() {
        m_window.reset();
        m_shop.reset();
    }

    void tabsStandInTheOrderOfTheDay() {
        const auto* tabs = m_window->findChild<QTabBar*>();
        QStringList titles;
        for (int i = 0; i < tabs->count(); ++i) titles.append(tabs->tabText(i));
        QCOMPARE(titles, QStringList({"Today", "Changeover", "Plan", "Stock", "Nozzles", "Records"}));
        const QStringList names = MainWindow::tabNames();
        for (int i = 0; i < names.size(); ++i) {
            QTest::keyClick(m_window.get(), static_cast<Qt::Key>(Qt::Key_1 + i), Qt::ControlModifier);
            QCOMPARE(m_window->currentTab(), names[i]);
            QVERIFY(m_window->page(names[i])->isVisible());
        }
        QVERIFY(m_window->showTab("today"));
        QVERIFY(!m_window->showTab("figures")); // no dead tabs
    }

    void pagesAskTheWindowForTabs() {
        Q_EMIT m_shop->bench->openRecord(1);
        QCOMPARE(m_window->currentTab(), QString("records"));
        Q_EMIT m_shop->bench->openChangeover(m_shop->bench->catalogue().fleet.printers.first().id);
        QCOMPARE(m_window->currentTab(), QString("changeover"));
    }

    void signsInByKeyboard() {
        QVERIFY(m_shop->bench->who().isEmpty());
        QVERIFY(footText().contains("Nobody signed in"));
        QTest::keyClick(m_window.get(), Qt::Key_I, Qt::ControlModifier);
        auto* menu = qobject_cast<QMenu*>(QApplication::activePopupWidget());
        QVERIFY(menu);
        QTest::keyClick(menu, Qt::Key_Return); // the first person
        QCOMPARE(m_shop->bench->who(), m_shop->somebody());
        QVERIFY(footText().contains(m_shop->somebody()));
        QVERIFY(m_window->findChild<Header*>()->signInButton()->text().startsWith(m_shop->somebody()));
        QTest::keyClick(m_window.get(), Qt::Key_I, Qt::ControlModifier);
        menu = qobject_cast<QMenu*>(QApplication::activePopupWidget());
        QTest::keyClick(menu, Qt::Key_Up); // round to the last: nobody
        QTest::keyClick(menu, Qt::Key_Return);
        QVERIFY(m_shop->bench->who().isEmpty());
    }

    void refusalsStandInTheMessageBarUntilDismissed() {
        auto* bar = m_window->findChild<MessageBar*>();
        QVERIFY(!bar->isVisible());
        // Nobody is signed in, so this is refused; nothing stops the person from going on.
        const qint64 before = m_shop->events();
        QVERIFY(!m_shop->bench->perform(act::SpoolRetired{m_shop->bench->shop().stock().spools.firstKey(), "x"}));
        QCOMPARE(m_shop->events(), before);
        QVERIFY(bar->isVisible());
        QVERIFY(bar->text().contains("Not recorded"));
        QCOMPARE(bar->accessibleName(), bar->text());
        QVERIFY(!QApplication::activeModalWidget());
        QTest::keyClick(m_window.get(), Qt::Key_Escape);
        QVERIFY(!bar->isVisible());
    }

    void recordingSomethingTakesTheRefusalAway() {
        m_window->showRefusal({Severity::Refusal, "x", "The reason", "the remedy", {}, false});
        auto* bar = m_window->findChild<MessageBar*>();
        QVERIFY(bar->text().contains("the remedy"));
        m_shop->bench->signIn(m_shop->somebody());
        Nozzle n;
        n.serial = "N-901";
        n.type = m_shop->bench->catalogue().nozzleTypes.first().id;
        n.place = m_shop->bench->catalogue().fleet.places.first().id;
        const auto done = m_shop->bench->perform(act::NozzleReceived{n});
        QVERIFY2(done.has_value(), done ? "" : qPrintable(sentence(done.error())));
        QVERIFY(!bar->isVisible());
    }

    void whatIsOnlyWorthKnowingIsNoRefusal() {
        m_window->showRefusal({Severity::Notice, "reload-unchanged", "Nothing has changed in the folder", {}, {}, false});
        auto* bar = m_window->findChild<MessageBar*>();
        QVERIFY(bar->isVisible());
        QVERIFY2(bar->text().contains("Nothing has changed") && !bar->text().contains("Not recorded"), qPrintable(bar->text()));
        m_window->showRefusal({Severity::Refusal, "x", "The reason", {}, {}, false});
        QVERIFY(bar->text().contains("Not recorded"));
    }

    void theFootSaysWhereWeAre() {
        const QString text = footText();
        QVERIFY2(text.contains(m_shop->bench->catalogue().fleet.name), qPrintable(text));
        QVERIFY(text.contains("(example)"));
        QVERIFY(text.contains("Ledger: local"));
        QVERIFY(text.contains(QString::fromLatin1(m_shop->bench->catalogue().fleet.zone.id())));
        const QString before = clockText();
        m_shop->clock.advance(std::chrono::minutes(61));
        m_shop->bench->tick();
        QVERIFY(clockText() != before);
        QCOMPARE(clockText(), m_shop->bench->shortTime(m_shop->bench->now()));
    }

    void problemsAreUnreadUntilListed() {
        Problem p;
        p.file = "materials.yaml";
        p.line = 12;
        p.column = 5;
        p.what = "the support softens at 90 °C";
        p.right = "choose another support";
        p.warning = true;
        m_window->setProblems({p});
        auto* foot = m_window->findChild<Foot*>();
        const auto differences = m_shop->workbench->openingDifferences().size();
        QCOMPARE(foot->unread(), 1 + differences);
        foot->openProblems();
        auto* dialog = openDialog<ProblemsDialog>();
        QVERIFY(dialog);
        QVERIFY(walkAccessible(dialog).faults.isEmpty());
        QCOMPARE(dialog->findChild<QTableView*>()->model()->index(0, 0).data().toString(), QString("materials.yaml:12:5"));
        dialog->accept();
        QCOMPARE(foot->unread(), 0);
        Problem other = p;
        other.line = 40;
        m_window->setProblems({p, other});
        QCOMPARE(foot->unread(), 1); // only the new one
        m_window->setProblems({});
    }

    void reloadIsAskedOfTheApp() {
        QSignalSpy spy(m_window.get(), &MainWindow::reloadWanted);
        QTest::keyClick(m_window.get(), Qt::Key_F5);
        QCOMPARE(spy.count(), 1);
    }

    void helpOpensThePageOfTheTab() {
        for (const QString& tab : MainWindow::tabNames()) {
            m_window->activateWindow();
            m_window->showTab(tab);
            QTest::keyClick(m_window.get(), Qt::Key_F1);
            auto* help = openDialog<HelpWindow>();
            QVERIFY(help);
            QCOMPARE(help->page(), tab);
            QVERIFY2(help->text().size() > 200 && !help->text().contains("No help page"), qPrintable(tab));
            QTest::keyClick(help, Qt::Key_Escape);
            QVERIFY(!help->isVisible());
        }
    }

    void aHelpPageThatIsNotThereListsThoseThatAre() {
        Q_EMIT m_shop->bench->openHelp("no-such-page");
        auto* help = openDialog<HelpWindow>();
        QVERIFY(help->text().contains("No help page"));
        QVERIFY(help->text().contains("stock"));
        help->close();
    }

    void themeTogglesAndIsRemembered() {
        QVERIFY(look::theme() == look::Theme::Light);
        QTest::keyClick(m_window.get(), Qt::Key_D, Qt::ControlModifier);
        QVERIFY(look::theme() == look::Theme::Dark);
        QCOMPARE(remembered()->value("window/theme").toString(), QString("dark"));
        QCOMPARE(m_window->palette().color(QPalette::Window), look::colours().ground);
        QTest::keyClick(m_window.get(), Qt::Key_D, Qt::ControlModifier);
        QVERIFY(look::theme() == look::Theme::Light);
    }

    void attentionShowsItsReasonWithoutASoundCard() {
        Q_EMIT m_shop->bench->attention("Bay 1: chamber below 60 °C");
        auto* header = m_window->findChild<Header*>();
        QVERIFY(header->property("flash").toBool());
        bool said = false;
        for (const QLabel* l : header->findChildren<QLabel*>()) said = said || l->text().contains("chamber below 60 °C");
        QVERIFY(said);
        m_window->findChild<Attention*>()->dismiss();
        QVERIFY(!header->property("flash").toBool());
    }

    void closingAsksNothing() {
        QVERIFY(m_window->close());
        QVERIFY(remembered()->contains("window/geometry"));
    }

    /// A draft that is not published would be lost: the person says what becomes of it.
    void closingOverADraftAsks() {
        m_shop->bench->signIn(m_shop->somebody());
        auto* plan = qobject_cast<PlanPage*>(m_window->page("plan"));
        QVERIFY(plan);
        const auto asked = [this] {
            QCoreApplication::sendPostedEvents(nullptr, QEvent::DeferredDelete);
            return m_window->findChild<LeaveDialog*>();
        };
        plan->desk().groupByFamily();
        QVERIFY(plan->desk().differs());
        QTest::keyClick(m_window.get(), Qt::Key_Q, Qt::ControlModifier);
        QVERIFY(m_window->isVisible());
        QVERIFY(asked());
        QCOMPARE(m_window->currentTab(), QString("plan"));
        QVERIFY(!m_window->close()); // asked once
        QCOMPARE(m_window->findChildren<LeaveDialog*>().size(), 1);
        asked()->stayButton()->click();
        QVERIFY(!asked() && m_window->isVisible() && plan->desk().differs());

        QVERIFY(!m_window->close());
        asked()->publishButton()->click();
        auto* publish = plan->findChild<AskDialog*>("publishDialog");
        QVERIFY(publish && publish->isVisible());
        publish->reject(); // neither published nor closed
        QVERIFY(m_window->isVisible() && plan->desk().differs());

        QVERIFY(!m_window->close());
        asked()->publishButton()->click();
        QCoreApplication::sendPostedEvents(nullptr, QEvent::DeferredDelete);
        plan->findChild<AskDialog*>("publishDialog")->acceptButton()->click();
        QVERIFY(m_shop->bench->shop().plan());
        QVERIFY(!m_window->isVisible());

        m_window->show();
        QVERIFY(m_window->close()); // what is published is asked about no more
        m_window->show();
        const auto& orders = plan->desk().draft().orders();
        for (const auto& list : orders.printers) {
            if (list.empty()) continue;
            QVERIFY(!plan->desk().drop({list.front().job}, {}));
            break;
        }
        QVERIFY(!m_window->close());
        asked()->discardButton()->click();
        QVERIFY(!m_window->isVisible() && !plan->desk().differs());
    }

    void everyFocusableWidgetHasANameAndARole() {
        for (const QString& who : {QString(), m_shop->somebody()}) {
            m_shop->bench->signIn(who);
            for (const QString& tab : MainWindow::tabNames()) {
                m_window->showTab(tab);
                QCoreApplication::processEvents();
                const AccessibleWalk walk = walkAccessible(m_window.get());
                QVERIFY2(walk.faults.isEmpty(), qPrintable(tab + ":\n" + walk.faults.join('\n')));
                QVERIFY(walk.focusable > 10);
            }
        }
    }

    void theKeysOfTheHelpPageAreThoseOfTheWindow() {
        QSet<QString> here, elsewhere;
        for (const QShortcut* s : m_window->findChildren<QShortcut*>()) {
            const QString key = s->key().toString();
            if (key.startsWith("Alt+")) continue; // letters of buttons
            (s->context() == Qt::WindowShortcut ? here : elsewhere).insert(key);
        }
        for (const QAction* a : m_window->findChildren<QAction*>()) {
            for (const QKeySequence& key : a->shortcuts()) here.insert(key.toString());
            // What a menu says beside an entry is a promise, too.
            if (a->text().contains('\t')) {
                const QString said = a->text().section('\t', 1);
                const QString key = QKeySequence(said).toString();
                QVERIFY2(here.contains(key) || elsewhere.contains(key), qPrintable(a->text()));
            }
        }
        QCOMPARE(sorted(here), sorted(keysBelow("Keys")));
        const QSet<QString> guide = keysBelow("In a changeover"), plan = keysBelow("In the plan");
        for (const QString& key : elsewhere) QVERIFY2(guide.contains(key) || plan.contains(key), qPrintable(key));
        for (const QString& key : plan) QVERIFY2(elsewhere.contains(key), qPrintable(key));
        QVERIFY(!guide.isEmpty() && !plan.isEmpty());
    }

    void columnsStandWholeInASmallWindowAndALargeOne() {
        for (const QSize size : {QSize(1366, 768), QSize(1920, 1080)})
            for (const QString tab : {"stock", "nozzles"}) {
                m_window->resize(size);
                m_window->showTab(tab);
                QCoreApplication::processEvents();
                auto* list = m_window->page(tab)->findChild<lists::ListView*>();
                const QAbstractItemView* view = list->view();
                auto* heading = qobject_cast<lists::Heading*>(list->view()->horizontalHeader());
                QVERIFY(view->model()->rowCount() > 20);
                QStringList widths;
                for (int c = 0; c < heading->count(); ++c) {
                    const QString title = heading->model()->headerData(c, Qt::Horizontal).toString();
                    const QString said = QString("%1 at %2: %3 px").arg(title).arg(size.width()).arg(heading->sectionSize(c));
                    widths.append(said);
                    QVERIFY2(heading->sectionSize(c) >= heading->wantedWidth(c), qPrintable(said));
                    QVERIFY2(heading->sectionSize(c) >= view->sizeHintForColumn(c), qPrintable(said));
                }
                QVERIFY2(heading->length() <= list->view()->viewport()->width(),
                         qPrintable(QString("%1 at %2: %3 of %4").arg(tab).arg(size.width()).arg(heading->length())
                                        .arg(list->view()->viewport()->width()) + "\n" + widths.join("\n")));
            }
    }

    void everyTargetIsAtLeast24Pixels() {
        m_shop->bench->signIn(m_shop->somebody());
        for (const QString& tab : MainWindow::tabNames()) {
            m_window->showTab(tab);
            QCoreApplication::processEvents();
            for (const auto* w : m_window->findChildren<QWidget*>()) {
                if (!w->isVisible() || w->focusPolicy() == Qt::NoFocus || w->focusProxy()) continue;
                QVERIFY2(w->height() >= 24 && w->width() >= 24,
                         qPrintable(QString("%1 %2 %3: %4x%5").arg(tab, w->metaObject()->className(), w->accessibleName())
                                        .arg(w->width()).arg(w->height())));
            }
        }
    }

    void tabKeyReachesEveryPart() {
        m_shop->bench->signIn(m_shop->somebody());
        m_window->showTab("stock");
        QSet<QString> reached;
        for (int i = 0; i < 60; ++i) {
            if (QApplication::focusWidget()) reached.insert(focusName());
            QTest::keyClick(m_window.get(), Qt::Key_Tab);
        }
        for (const QString name : {"Spools", "Filter Spools", "Tabs"})
            QVERIFY2(reached.contains(name), qPrintable(name + " not in " + QStringList(reached.values()).join(", ")));
    }

    void tabKeyGoesInTheOrderOfReading() {
        m_shop->bench->signIn(m_shop->somebody());
        for (const QString& tab : MainWindow::tabNames()) {
            m_window->showTab(tab);
            QCoreApplication::processEvents();
            auto* tabs = m_window->findChild<QTabBar*>();
            tabs->setFocus();
            QWidget* before = tabs;
            QStringList way;
            int guard = 0;
            do {
                QTest::keyClick(QApplication::focusWidget(), Qt::Key_Tab);
                QWidget* now = QApplication::focusWidget();
                QVERIFY2(now, qPrintable(way.join(" > ")));
                way.append(nameOf(now));
                QVERIFY2(now == tabs || now != before, qPrintable(tab + " holds the key: " + way.join(" > ")));
                before = now;
            } while (before != tabs && ++guard < 200);
            QVERIFY2(before == tabs, qPrintable(tab + " never comes round: " + way.join(" > ")));
            // Whatever can be reached by the mouse is on the way.
            for (QWidget* w : m_window->findChildren<QWidget*>()) {
                const bool stop = w->isVisible() && w->isEnabled() && (w->focusPolicy() & Qt::TabFocus) && !w->focusProxy();
                const QString name = nameOf(w);
                if (stop && w != tabs) QVERIFY2(way.contains(name), qPrintable(tab + ": " + name + " not in " + way.join(" > ")));
            }
            if (tab != "stock" && tab != "nozzles") continue;
            const QStringList order = tab == "stock" ? QStringList{"Receive", "Re&tire", "Import CSV…", "La&bels…", "Filter Spools", "Show retired spools", "Details of the chosen row", "Export Spools as CSV", "Spools"}
                                                     : QStringList{"Receive", "Re&tire", "Import CSV…", "La&bels…", "Filter Nozzles", "Show retired nozzles", "Details of the chosen row", "Export Nozzles as CSV", "Nozzles"};
            qsizetype last = -1;
            for (QString name : order) {
                name.remove('&');
                const qsizetype at = way.indexOf(name);
                QVERIFY2(at > last, qPrintable(name + ": " + way.join(" > ")));
                last = at;
            }
        }
    }

private:
    /// As a screen reader says it.
    static QString nameOf(QWidget* w) {
        return QAccessible::queryAccessibleInterface(w)->text(QAccessible::Name);
    }
    static QStringList sorted(const QSet<QString>& keys) {
        QStringList out(keys.begin(), keys.end());
        out.sort();
        return out;
    }
    QString footText() const {
        QStringList texts;
        for (const QLabel* l : m_window->findChild<Foot*>()->findChildren<QLabel*>()) texts.append(l->text());
        return texts.join(" | ");
    }
    QString clockText() const {
        for (const QLabel* l : m_window->findChild<Header*>()->findChildren<QLabel*>())
            if (l->accessibleName() == "Clock of the shop") return l->text();
        return {};
    }

    std::unique_ptr<OpenedShop> m_shop;
    std::unique_ptr<MainWindow> m_window;
};

INTERLUDE_TEST(MainWindowTest)
#include "main_window_test.moc"
