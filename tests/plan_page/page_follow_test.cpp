// After publishing: Today follows the plan, and what comes otherwise is said in Plan and in Today.

#include "tests/harness/run_tests.h"
#include "tests/plan_page/opened_page.h"
#include "views/today/crew_list.h"
#include "views/today/plan_ahead.h"
#include "views/today/printer_card.h"
#include "views/today/today_page.h"
#include "views/today/wall_face.h"

using namespace interlude;
using namespace interlude::tests;

class PageFollowTest final : public QObject {
    Q_OBJECT
private:
    std::unique_ptr<OpenedPage> o;

    static QString textOf(QWidget* w) {
        QStringList all;
        for (const QLabel* l : w->findChildren<QLabel*>())
            if (!l->isHidden()) all << l->text();
        return all.join('\n');
    }
    void advance(Milliseconds d) {
        o->shop.clock.advance(d);
        o->shop.bench->tick();
        OpenedPage::settle();
    }

private Q_SLOTS:
    void init() {
        o = std::make_unique<OpenedPage>();
        QVERIFY2(o->page, qPrintable(o->problems));
    }
    void cleanup() { o.reset(); }

    void todayFollowsThePublishedPlan() {
        TodayPage today(*o->shop.bench);
        today.show();
        const QString before = textOf(&today);
        QVERIFY(!before.contains("changeover to ") && !before.contains("next 7"));
        o->key(Qt::Key_G);
        o->publish();
        OpenedPage::settle();
        const PlanAhead ahead(*o->shop.bench);
        int shown = 0;
        for (const PrinterNow& p : o->shop.bench->shop().printers()) {
            const auto next = ahead.next(p.id);
            const auto number = static_cast<std::size_t>(o->desk().problem().printerNumbers.value(p.id));
            if (o->orders().printers[number].empty()) continue;
            QVERIFY(next);
            QCOMPARE(next->job, o->desk().problem().jobs[o->orders().printers[number].front().job].id);
            QCOMPARE(next->printStart, o->desk().problem().at(o->desk().timed(o->orders().printers[number].front().job)->printStart));
            const QString card = textOf(today.card(p.id));
            QVERIFY2(card.contains("next " + next->job), qPrintable(card));
            if (next->people > 0) QVERIFY2(card.contains(next->people == 1 ? "1 person" : "people"), qPrintable(card));
            ++shown;
        }
        QVERIFY(shown >= 3);
        // The crew's list is the timetable's work of people, in order of time.
        const Instant until = o->shop.bench->now() + std::chrono::hours(16);
        const QList<Need> needs = ahead.needs(until);
        QVERIFY(!needs.isEmpty());
        planning::Minute wanted = 0, said = 0;
        for (const auto& list : o->desk().timetable().printers)
            for (const planning::TimedJob& j : list)
                for (const planning::TimedWork& w : j.work)
                    if (!j.running && !j.session && w.work->people > 0 && o->desk().problem().at(w.start) < until) wanted += w.end - w.start;
        for (const Need& n : needs) {
            said += n.length.count();
            QVERIFY(n.at < until && n.people > 0);
        }
        QCOMPARE(said, wanted);
        const QString crew = textOf(today.findChild<CrewList*>());
        QVERIFY2(crew.contains("changeover to ") || crew.contains("start "), qPrintable(crew));
        QVERIFY2(crew.contains("fetch: "), qPrintable(crew));
    }

    void whatComesOtherwiseIsSaid() {
        o->key(Qt::Key_G);
        o->publish();
        QCOMPARE(o->page->departed(), QString());
        TodayPage today(*o->shop.bench);
        today.show();
        advance(std::chrono::hours(5));
        QVERIFY2(o->page->departed().contains("should have begun"), qPrintable(o->page->departed()));
        QVERIFY2(textOf(today.findChild<CrewList*>()).contains("should have begun"), qPrintable(textOf(today.findChild<CrewList*>())));
        QVERIFY2(textOf(&today).contains("▲"), "on the card, too");
        // On the wall it is a few words: which job, and that it is late.
        const PlanAhead ahead(*o->shop.bench);
        const QList<Need> needed = allNeeds(*o->shop.bench, &ahead, o->shop.bench->now() + std::chrono::hours(16));
        int late = 0;
        for (const PrinterNow& p : o->shop.bench->shop().printers()) {
            const auto next = ahead.next(p.id);
            if (!next || next->late.isEmpty()) continue;
            const WallFace face = wallFace(*o->shop.bench, p, &ahead, needed);
            const QString words = (face.state + face.next).join(QLatin1Char('|'));
            QVERIFY2(face.late && words.contains("▲") && words.contains(next->job) && words.contains("late"), qPrintable(words));
            ++late;
        }
        QVERIFY(late > 0);
        auto* button = o->page->findChild<QPushButton*>("planReplan");
        QVERIFY(button->isVisible());
        QTest::mouseClick(button, Qt::LeftButton);
        AskDialog* d = o->dialog("replanDialog");
        QVERIFY(d);
        OpenedPage::accept(d);
        QVERIFY(o->desk().problem().now == o->shop.bench->now());
        o->publish();
        QCOMPARE(o->page->departed(), QString());
    }
};

INTERLUDE_TEST(PageFollowTest)
#include "page_follow_test.moc"
