// Pictures of the page in both themes and two sizes, written where INTERLUDE_PICTURES says; without it the same views are
// only drawn. Whatever is drawn, no button may be narrower than its text.

#include "tests/harness/run_tests.h"
#include "tests/plan_page/opened_page.h"
#include "views/plan/compare_dialog.h"
#include "views/plan/worth_dialog.h"
#include "views/today/today_page.h"

using namespace interlude;
using namespace interlude::tests;

class PagePicturesTest final : public QObject {
    Q_OBJECT
private:
    bool m_dark = false;

    void save(QWidget& w, const QString& name) {
        OpenedPage::settle();
        const QPixmap picture = w.grab();
        QVERIFY(!picture.isNull());
        for (QPushButton* b : w.findChildren<QPushButton*>())
            if (b->isVisible())
                QVERIFY2(b->width() >= b->fontMetrics().horizontalAdvance(QString(b->text()).remove('&')), qPrintable(b->text()));
        const QString dir = qEnvironmentVariable("INTERLUDE_PICTURES");
        if (dir.isEmpty()) return;
        QDir().mkpath(dir);
        picture.save(QString("%1/page-%2-%3-%4.png").arg(dir, name, m_dark ? "dark" : "light").arg(w.width()));
    }
    void shoot(QWidget& w, const QString& name) {
        for (const QSize size : {QSize(1366, 690), QSize(1920, 1002)}) {
            w.resize(size);
            OpenedPage::settle();
            save(w, name);
        }
    }

private Q_SLOTS:
    void both_data() {
        QTest::addColumn<bool>("dark");
        QTest::newRow("light") << false;
        QTest::newRow("dark") << true;
    }
    void both() {
        QFETCH(bool, dark);
        m_dark = dark;
        OpenedPage o;
        QVERIFY2(o.page, qPrintable(o.problems));
        look::apply(*qApp, dark ? look::Theme::Dark : look::Theme::Light);
        QTRY_VERIFY_WITH_TIMEOUT(o.desk().sameSetupFirst().has_value(), 60000);
        shoot(*o.page, "empty");
        o.page->resize(1366, 690);
        for (int n = 0; n < 14; ++n) {
            o.choose(o.orders().leftOut.at(static_cast<std::size_t>(n % 5)));
            o.key(Qt::Key_Return, Qt::NoModifier);
        }
        for (std::size_t p = 0; p < o.orders().printers.size(); ++p)
            if (o.orders().printers[p].size() > 1) o.desk().select({o.orders().printers[p][1].job});
        shoot(*o.page, "some");
        o.key(Qt::Key_G);
        o.publish();
        o.shop.clock.advance(std::chrono::hours(3));
        o.shop.bench->tick();
        o.page->actions().seconds()->setValue(1);
        QSignalSpy ended(&o.desk(), &PlanDesk::improved);
        o.key(Qt::Key_M);
        QVERIFY(ended.wait(60000));
        QTRY_VERIFY_WITH_TIMEOUT(o.desk().sameSetupFirst().has_value(), 60000);
        o.desk().select({o.orders().printers.front().back().job});
        shoot(*o.page, "improved");
        TodayPage today(*o.shop.bench);
        today.show();
        shoot(today, "today");
        o.key(Qt::Key_K);
        auto* compare = o.page->findChild<CompareDialog*>();
        QSignalSpy timed(compare, &CompareDialog::reckoned);
        QVERIFY(timed.wait(60000));
        save(*compare, "compare");
        compare->close();
        o.key(Qt::Key_E);
        auto* worth = o.page->findChild<WorthDialog*>();
        QSignalSpy reckoned(worth, &WorthDialog::reckoned);
        QVERIFY(reckoned.wait(60000));
        save(*worth, "worth");
        worth->close();
        o.key(Qt::Key_T);
        AskDialog* whatIf = o.dialog("whatIfDialog");
        QVERIFY(whatIf);
        save(*whatIf, "what-if");
        OpenedPage::accept(whatIf);
        shoot(*o.page, "assumed");
        o.page->actions().takeBackAssumptions();
        // Whatever a second of Improve has found: the draft is another one now.
        QVERIFY(!o.desk().drop({o.orders().printers.front().back().job}, {}));
        o.key(Qt::Key_Return);
        AskDialog* publish = o.dialog("publishDialog");
        QVERIFY(publish);
        save(*publish, "publish");
        publish->reject();
    }
};

INTERLUDE_TEST(PagePicturesTest)
#include "page_pictures_test.moc"
