// What the publishing dialog shows is what is published, though time goes on.

#include "tests/harness/run_tests.h"
#include "tests/plan_page/opened_page.h"

using namespace interlude;
using namespace interlude::tests;

class PagePublishTest final : public QObject {
    Q_OBJECT
private:
    std::unique_ptr<OpenedPage> o;

    /// The figures that the draft's orders have from this very moment on.
    planning::Totals figuresNow() const {
        planning::Draft fresh(o->shop.bench->shop(), o->shop.bench->now(), planning::Goal::Cost);
        fresh.take(o->desk().draft().orders(), QStringLiteral("same"));
        return fresh.timetable().totals;
    }
    static QString textOf(const AskDialog* d) { return d->findChild<QLabel*>("publishText")->text(); }
    QString costOf(const planning::Totals& t) const { return QStringLiteral("cost %1 EUR").arg(plan_words::money(t.cost)); }
    AskDialog* opened() {
        o->key(Qt::Key_Return);
        return o->dialog("publishDialog");
    }

private Q_SLOTS:
    void init() {
        o = std::make_unique<OpenedPage>();
        QVERIFY2(o->page, qPrintable(o->problems));
        o->key(Qt::Key_G);
    }
    void cleanup() { o.reset(); }

    void theDialogIsTimedWhenItOpens() {
        const planning::Cents before = o->desk().figures().cost;
        o->shop.clock.advance(std::chrono::seconds(270)); // the draft follows after 5 min only
        AskDialog* d = opened();
        QVERIFY(d);
        const planning::Totals now = figuresNow();
        QVERIFY(now.cost != before);
        QVERIFY2(textOf(d).contains(costOf(now)), qPrintable(textOf(d)));
        OpenedPage::accept(d);
        QVERIFY(o->shop.bench->shop().plan());
        QCOMPARE(o->page->figures().figure(0, 0), plan_words::money(now.cost));
        QCOMPARE(o->page->figures().figure(0, 1), plan_words::money(now.cost));
        QCOMPARE(o->page->figures().figure(4, 0), QString::number(now.lateJobs));
    }

    void itFollowsTheClockWhileItStands() {
        AskDialog* d = opened();
        QVERIFY(d);
        const QString before = textOf(d);
        o->shop.clock.advance(std::chrono::seconds(20)); // within the next minute
        o->shop.bench->tick();
        o->shop.clock.advance(std::chrono::seconds(120));
        o->shop.bench->tick();
        QVERIFY(textOf(d) != before);
        QVERIFY2(textOf(d).contains(costOf(figuresNow())), qPrintable(textOf(d)));
        d->reject();
    }

    void otherFiguresAreReadBeforeTheyArePublished() {
        AskDialog* d = opened();
        QVERIFY(d);
        const QString before = textOf(d);
        const qint64 events = o->shop.events();
        o->shop.clock.advance(std::chrono::seconds(150)); // and no tick in between
        QTest::mouseClick(d->acceptButton(), Qt::LeftButton);
        QCoreApplication::processEvents();
        QVERIFY(d->isVisible());
        QCOMPARE(o->shop.events(), events);
        QVERIFY2(d->objectionsShown().join(' ').contains("time has gone on"), qPrintable(d->objectionsShown().join(' ')));
        QVERIFY(textOf(d) != before);
        const planning::Totals now = figuresNow();
        QVERIFY2(textOf(d).contains(costOf(now)), qPrintable(textOf(d)));
        OpenedPage::accept(d);
        QCOMPARE(o->shop.events(), events + 1);
        QCOMPARE(o->page->figures().figure(0, 0), plan_words::money(now.cost));
        QCOMPARE(o->page->figures().figure(0, 1), plan_words::money(now.cost));
        for (const PrinterOrder& p : o->shop.bench->shop().plan()->plan.printers)
            for (const PlannedJob& j : p.jobs)
                QCOMPARE(toMs(j.printStart), toMs(o->desk().problem().at(o->desk().timed(o->desk().problem().jobNumbers.value(j.job))->printStart)));
    }

    /// The published plan is timed anew from now on: another figure is no other plan, and the tip says so.
    void thePublishedColumnCountsFromNow() {
        o->publish();
        const Plan plan = o->shop.bench->shop().plan()->plan;
        const QString before = o->page->figures().figure(0, 1);
        o->shop.clock.advance(std::chrono::minutes(30));
        o->shop.bench->tick();
        QVERIFY(o->page->figures().figure(0, 1) != before);
        QCOMPARE(o->page->figures().figure(0, 1), plan_words::money(figuresNow().cost));
        QVERIFY(o->shop.bench->shop().plan()->plan == plan);
        QVERIFY(o->page->figures().table()->horizontalHeaderItem(1)->toolTip().contains("from now on"));
    }
};

INTERLUDE_TEST(PagePublishTest)
#include "page_publish_test.moc"
