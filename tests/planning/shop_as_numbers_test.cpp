// The shop at a moment as planning counts it, and what came otherwise than the published plan foresaw.

#include "model/planning/plans/published.h"
#include "model/planning/timetable/timetable.h"
#include "tests/harness/run_tests.h"
#include "tests/session/bench.h"

using namespace interlude;
using namespace interlude::tests;
using namespace interlude::planning;

namespace {

/// The downtime of that printer: "10-20 60-180"; the end of one for good is "never".
QString down(const ShopProblem& p, const char* printer) {
    QStringList out;
    for (const Span& s : p.problem.printers[static_cast<std::size_t>(p.printerNumbers.value(QString::fromLatin1(printer)))].down)
        out.append(QStringLiteral("%1-%2").arg(s.from).arg(s.to == never ? QStringLiteral("never") : QString::number(s.to)));
    return out.join(QLatin1Char(' '));
}

const PrinterNumbers& bay1(const ShopProblem& p) {
    return p.problem.printers[static_cast<std::size_t>(p.printerNumbers.value(QStringLiteral("bay-1")))];
}

/// Printers that lie idle, with a job 7401 of 100 min that waits.
struct WaitingJob : tests::Bench {
    WaitingJob() {
        open();
        QVERIFY(happen(act::JobAdded{job(QStringLiteral("7401"), 90, Minutes(100))}, morning));
    }
    /// Changeover at 10, print at 30, on bay-1.
    void publish() {
        Plan plan;
        plan.printers = {{QStringLiteral("bay-1"), {{QStringLiteral("7401"), {}, false, minute(10), minute(30), minute(130)}}}};
        QVERIFY(happen(act::PlanPublished{plan}, morning));
    }
    void begins(const char* printer, int at) {
        QVERIFY(happen(act::PrintStarted{QString::fromLatin1(printer), QStringLiteral("7401"), {}, Minutes(100)}, minute(at)));
    }
    /// "StartedLate 7 reason" of the only departure; empty when all is as planned.
    QString departed(int at) const {
        const QList<Departure> all = departures(shop, minute(at));
        if (all.isEmpty()) return {};
        if (all.size() > 1) return QStringLiteral("more than one");
        return QStringLiteral("%1 %2 %3").arg(static_cast<int>(all[0].what)).arg(all[0].by.count()).arg(all[0].reason);
    }
};

QString said(Departure::What what, int by, const char* reason) {
    return QStringLiteral("%1 %2 %3").arg(static_cast<int>(what)).arg(by).arg(QString::fromLatin1(reason));
}

} // namespace

class ShopAsNumbersTest : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void downtimesThatMeetAreOne() {
        WaitingJob b;
        WhatIf w;
        const auto add = [&](const char* printer, int from, std::optional<int> to) {
            w.downtimes.append({QString::fromLatin1(printer), minute(from), to ? std::optional(minute(*to)) : std::nullopt});
        };
        add("bay-1", 300, 300); // nothing
        add("bay-1", 100, 180);
        add("bay-1", 60, 120);
        add("bay-1", 10, 20);
        add("bay-1", 180, 190); // begins as another ends
        add("bay-1", -30, 5);   // has begun already
        add("bay-2", 40, {});
        add("bay-2", 50, 60);
        const ShopProblem p = shopProblem(b.shop, morning, w);
        QCOMPARE(down(p, "bay-1"), QStringLiteral("0-5 10-20 60-190"));
        QCOMPARE(down(p, "bay-2"), QStringLiteral("40-never"));
        QCOMPARE(down(p, "bay-5"), QString());
    }

    void aPrinterThatIsDownAndPlannedToBe() {
        WaitingJob b;
        QVERIFY(b.happen(act::DowntimeBegun{QStringLiteral("bay-1"), QStringLiteral("belt"), minute(45)}, morning));
        QVERIFY(b.happen(act::DowntimeBegun{QStringLiteral("bay-2"), QStringLiteral("fan"), {}}, morning));
        QVERIFY(b.happen(act::DowntimePlanned{{QStringLiteral("D1"), QStringLiteral("bay-1"), minute(90), minute(120), QStringLiteral("check")}}, morning));
        ShopProblem p = shopProblem(b.shop, morning);
        QCOMPARE(down(p, "bay-1"), QStringLiteral("0-45 90-120"));
        QCOMPARE(down(p, "bay-2"), QStringLiteral("0-never"));
        // An hour later the repair that should have ended takes no time any more; who knows better says so.
        p = shopProblem(b.shop, minute(60));
        QCOMPARE(down(p, "bay-1"), QStringLiteral("30-60"));
    }

    void aRunningPrint() {
        WaitingJob b;
        b.begins("bay-1", 0);
        ShopProblem p = shopProblem(b.shop, minute(60));
        QCOMPARE(bay1(p).runningJob, p.jobNumbers.value(QStringLiteral("7401")));
        QCOMPARE(bay1(p).runningStart, Minute(-60));
        QCOMPARE(bay1(p).runningEnd, Minute(40));
        QVERIFY(bay1(p).partLies);
        QVERIFY(p.plannable.empty());
        p = shopProblem(b.shop, minute(130)); // it should have ended: not before now
        QCOMPARE(bay1(p).runningEnd, Minute(0));
        QVERIFY(b.happen(act::PrintEnded{QStringLiteral("bay-1"), PrintOutcome::Good, true, {}, {}, {}}, minute(131)));
        p = shopProblem(b.shop, minute(146)); // the part lies there since 15 min
        QVERIFY(bay1(p).partLies);
        QCOMPARE(bay1(p).runningStart, Minute(-15));
        QCOMPARE(bay1(p).runningEnd, Minute(-15));
        QVERIFY(b.happen(act::PartRemoved{QStringLiteral("bay-1")}, minute(150)));
        QVERIFY(!bay1(shopProblem(b.shop, minute(151))).partLies);
    }

    /// What lies there is no longer the job: that one waits to be printed again, and is counted once.
    void aFailedPartThatLies() {
        for (const PrintOutcome outcome : {PrintOutcome::Failed, PrintOutcome::Stopped}) {
            WaitingJob b;
            b.begins("bay-1", 0);
            QVERIFY(b.happen(act::PrintEnded{QStringLiteral("bay-1"), outcome, true, {}, {}, {}}, minute(50)));
            const ShopProblem p = shopProblem(b.shop, minute(60));
            const int job = p.jobNumbers.value(QStringLiteral("7401"));
            QVERIFY(bay1(p).partLies);
            QCOMPARE(bay1(p).runningJob, -1);
            QVERIFY(p.plannable == std::vector<int>{job});
            Orders orders = p.noOrders();
            orders.printers[1] = {{job, 0}};
            orders.leftOut.clear();
            const Timetable t = timetable(p.problem, *p.changes, orders);
            int times = 0;
            for (const auto& list : t.printers)
                times += static_cast<int>(std::count_if(list.begin(), list.end(), [&](const TimedJob& j) { return j.job == job; }));
            for (const NotPlaced& n : t.notPlaced) times += n.job == job ? 1 : 0;
            QCOMPARE(times, 1);
        }
    }

    /// The calendar goes on beyond what is released late, and beyond a long downtime: else nobody would take the parts out.
    void peopleComeForWhatIsReleasedLate() {
        for (const bool byDowntime : {false, true}) {
            WaitingJob b;
            b.catalogue.fleet.crewUnlimited = false;
            b.catalogue.fleet.shifts = {{QStringLiteral("day"), {1, 2, 3, 4, 5, 6, 7}, QTime(6, 0), QTime(14, 0), 1}};
            b.open();
            Job late = b.job(QStringLiteral("7407"), 90, Minutes(100));
            const int days = 700;
            if (!byDowntime) late.release = minute(days * 24 * 60);
            QVERIFY(b.happen(act::JobAdded{late}, morning));
            WhatIf w;
            if (byDowntime) w.downtimes = {{QStringLiteral("bay-1"), minute(10), minute(days * 24 * 60)}};
            const ShopProblem p = shopProblem(b.shop, morning, w);
            int after = 0; // shifts that begin later
            for (const CrewFrom& c : p.problem.crew) after += c.crew > 0 && c.from > days * 24 * 60 + 100 ? 1 : 0;
            QVERIFY2(after >= 7, qPrintable(QString::number(after)));
        }
    }

    /// Only printers that have everything in common are of one kind; only setups that are equal have one number.
    void namesThatAreAlike() {
        WaitingJob b;
        Printer table;
        table.id = QStringLiteral("mid"); // as the type of the others
        table.type = QStringLiteral("mid");
        table.hasMeasured = true;
        table.measured = {{QStringLiteral("A"), QStringLiteral("abs, h04"), Minutes(40), Minutes(40)}};
        b.catalogue.fleet.printers.prepend(table);
        b.open();
        Job material = b.job(QStringLiteral("7405"), 90, Minutes(100)), label = material;
        material.variants[0].setup.chamber.reset();
        material.variants[0].setup.partNozzle = QStringLiteral("h04");
        label.id = QStringLiteral("7406");
        label.variants[0].setup = {};
        label.variants[0].setup.label = QStringLiteral("abs, h04");
        QVERIFY(b.happen(act::JobAdded{material}, morning));
        QVERIFY(b.happen(act::JobAdded{label}, morning));
        const ShopProblem p = shopProblem(b.shop, morning);
        const ChangesGround& ground = p.changes->ground();
        QVERIFY(ground.kindOf[0] != ground.kindOf[1]);
        QCOMPARE(ground.kindOf[1], ground.kindOf[2]);
        QVERIFY(ground.setupOf[0] != ground.setupOf[1]);
    }

    void whatIsLeftOfASession() {
        WaitingJob b;
        b.start({Step("cool").wait(30), Step("clean").hands(10).after({QStringLiteral("cool")}),
                 Step("wipe").hands(5).after({QStringLiteral("clean")})},
                minute(0));
        const auto left = [&](int at) {
            const ShopProblem p = shopProblem(b.shop, minute(at));
            QStringList out;
            for (const Work& w : bay1(p).sessionWork)
                out.append(QStringLiteral("%1x%2").arg(w.minutes).arg(w.people));
            return out.join(QLatin1Char(' '));
        };
        QVERIFY(bay1(shopProblem(b.shop, minute(1))).session);
        QCOMPARE(left(5), QStringLiteral("30x0 15x1")); // not begun: all of it
        b.begin(QStringLiteral("cool"), minute(5));
        QCOMPARE(left(15), QStringLiteral("20x0 15x1")); // 10 of 30 min are over
        QCOMPARE(left(50), QStringLiteral("15x1"));      // over its time: nothing of it is counted
        b.confirm(QStringLiteral("cool"), minute(50));
        b.begin(QStringLiteral("clean"), minute(51));
        QCOMPARE(left(55), QStringLiteral("11x1")); // 6 of 10, and 5
        const ShopProblem p = shopProblem(b.shop, minute(55));
        QCOMPARE(bay1(p).sessionJob, -1); // it was for no job
        QVERIFY(p.plannable == std::vector<int>{p.jobNumbers.value(QStringLiteral("7401"))}); // so it still waits
    }

    void beganLate() {
        WaitingJob b;
        b.publish();
        QCOMPARE(b.departed(0), QString());
        b.begins("bay-1", 34);
        QCOMPARE(b.departed(40), QString()); // 4 min are not worth a word
        WaitingJob late;
        late.publish();
        late.begins("bay-1", 37);
        QCOMPARE(late.departed(40), said(Departure::What::StartedLate, 7, "began 7 min later than planned"));
    }

    void beganElsewhere() {
        WaitingJob b;
        b.publish();
        b.begins("bay-2", 20); // even when it came earlier
        QCOMPARE(b.departed(40), said(Departure::What::StartedElsewhere, -10, "prints on Bay 2, planned on Bay 1"));
    }

    void hasNotBegun() {
        WaitingJob b;
        b.publish();
        QCOMPARE(b.departed(14), QString()); // changeover planned for 10
        QCOMPARE(b.departed(15), said(Departure::What::StartsLate, 5, "its changeover should have begun 5 min ago"));
        QCOMPARE(b.departed(34), said(Departure::What::StartsLate, 24, "its changeover should have begun 24 min ago"));
        QCOMPARE(b.departed(35), said(Departure::What::NotStarted, 5, "should have begun to print 5 min ago"));
        b.start({Step("clean").hands(10)}, minute(16));
        QCOMPARE(b.departed(30), QString()); // somebody is at it
    }

    void aSessionForAnotherJobIsNoExcuse() {
        WaitingJob b;
        b.publish();
        QVERIFY(b.happen(act::JobAdded{b.job(QStringLiteral("7402"), 90, Minutes(100))}, morning));
        Changeover c;
        c.steps = {Step("clean").hands(10)};
        c.transition.request.now.id = QStringLiteral("bay-1");
        c.transition.request.wanted.part = QStringLiteral("abs");
        c.transition.request.wanted.partNozzle = QStringLiteral("h04");
        c.transition.request.job = QStringLiteral("7402");
        QVERIFY(b.happen(act::SessionStarted{b.shop.nextSession(), QStringLiteral("bay-1"), c, {}, false}, minute(16)));
        QCOMPARE(b.departed(20), said(Departure::What::StartsLate, 10, "its changeover should have begun 10 min ago"));
    }

    void failedAndWithdrawn() {
        WaitingJob b;
        b.publish();
        b.begins("bay-1", 30);
        QVERIFY(b.happen(act::PrintEnded{QStringLiteral("bay-1"), PrintOutcome::Failed, false, {}, {}, QStringLiteral("came off")}, minute(60)));
        QCOMPARE(b.departed(61), said(Departure::What::Failed, 0, "its print failed; it waits again"));
        QVERIFY(b.happen(act::JobWithdrawn{QStringLiteral("7401"), QStringLiteral("cancelled")}, minute(70)));
        QCOMPARE(b.departed(71), QString()); // nobody waits for it
    }
};

INTERLUDE_TEST(ShopAsNumbersTest)
#include "shop_as_numbers_test.moc"
