// The window on small screens: whatever can be done can be got at, no text of a button is cut, and it opens no larger than
// the screen. INTERLUDE_PICTURES: a folder for pictures of each tab and size.
#include "tests/harness/in_reach.h"
#include "tests/harness/run_tests.h"
#include "tests/window/opened_shop.h"
#include "views/window/main_window.h"

#include <QtTest>
#include <QtWidgets>

using namespace interlude;
using namespace interlude::tests;

class SmallWindowTest : public QObject {
    Q_OBJECT
private:
    static void picture(QWidget& widget, const QString& name) {
        const QString dir = qEnvironmentVariable("INTERLUDE_PICTURES");
        if (dir.isEmpty()) return;
        QDir().mkpath(dir);
        QVERIFY(widget.grab().save(QStringLiteral("%1/%2-%3x%4.png").arg(dir, name).arg(widget.width()).arg(widget.height())));
    }

private Q_SLOTS:
    void everythingIsInReach_data() {
        QTest::addColumn<QSize>("size");
        // Full HD at 200 % less a task bar and a title; the smallest laptops; and what it opens with.
        QTest::newRow("960x500") << QSize(960, 500);
        QTest::newRow("1024x640") << QSize(1024, 640);
        QTest::newRow("1366x768") << QSize(1366, 768);
        QTest::newRow("1920x1080") << QSize(1920, 1080);
    }
    void everythingIsInReach() {
        QFETCH(QSize, size);
        const auto shop = openedShop();
        MainWindow window(*shop->bench, shop->warnings);
        window.setProblems({Problem{}, Problem{}});
        QVERIFY(showActive(window, size));
        QStringList faults;
        for (const QString& who : {QString(), shop->somebody()}) {
            shop->bench->signIn(who);
            for (const QString& tab : MainWindow::tabNames()) {
                window.showTab(tab);
                QTest::qWait(0);
                QCoreApplication::sendPostedEvents();
                QCOMPARE(window.size(), size);
                picture(window, tab + (who.isEmpty() ? "-nobody" : ""));
                for (const QString& fault : outOfReach(&window)) faults.append(tab + ": " + fault);
            }
        }
        faults.removeDuplicates();
        for (const QString& fault : faults) qWarning("%s", qPrintable(fault)); // a message is cut when it is long
        QVERIFY(faults.isEmpty());
    }

    void itOpensNoLargerThanTheScreen() {
        QCOMPARE(MainWindow::openingSize({1366, 768}, {1920, 1040}), QSize(1366, 768));
        QCOMPARE(MainWindow::openingSize({1366, 768}, {960, 516}), QSize(960, 484)); // full HD at 200 %
        QCOMPARE(MainWindow::openingSize({1366, 768}, {320, 240}), QSize(640, 400)); // what it needs at least
        const auto shop = openedShop();
        MainWindow window(*shop->bench, shop->warnings);
        QVERIFY(window.width() <= window.screen()->availableSize().width());
        QVERIFY(window.height() < window.screen()->availableSize().height());
    }

    void tabsAreScrolledInTheSmallestWindow() {
        const auto shop = openedShop();
        MainWindow window(*shop->bench, shop->warnings);
        QVERIFY(showActive(window, window.minimumSize()));
        for (const QString& tab : MainWindow::tabNames()) {
            window.showTab(tab);
            QCOMPARE(window.currentTab(), tab);
            QTest::qWait(0);
            picture(window, tab + "-least");
            const auto* tabs = window.findChild<QTabBar*>();
            QVERIFY(tabs->usesScrollButtons() && tabs->width() < window.width());
            for (const auto* b : window.findChildren<QPushButton*>())
                if (b->isVisible()) QVERIFY2(saysAll(b), qPrintable(tab + ": " + b->text()));
        }
    }
};

INTERLUDE_TEST(SmallWindowTest)
#include "small_window_test.moc"
