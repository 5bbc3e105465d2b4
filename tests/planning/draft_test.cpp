// A draft goes on over a shop that is no longer the same: printers and variants are found again by name.

#include "model/planning/plans/draft.h"
#include "model/planning/plans/why.h"
#include "model/planning/plans/worth_it.h"
#include "tests/harness/run_tests.h"
#include "tests/session/bench.h"

using namespace interlude;
using namespace interlude::tests;
using namespace interlude::planning;

namespace {

/// 7401 with variants coarse (60 min) and fine (100 min) waits, 7402 too.
struct TwoWait : tests::Bench {
    TwoWait() {
        catalogue.fleet.zone = QTimeZone::utc();
        catalogue.nozzleTypes[0].roles = {Role::Part};
        catalogue.nozzleTypes[0].max = degrees(400);
    }
    static Job twoVariants(bool fineFirst) {
        Job j = job(QStringLiteral("7401"), 90, Minutes(60));
        j.variants[0].name = QStringLiteral("coarse");
        j.variants[0].setup.partNozzle = QStringLiteral("h04");
        j.variants.append(j.variants[0]);
        j.variants[1].name = QStringLiteral("fine");
        j.variants[1].print = Minutes(100);
        if (fineFirst) j.variants.swapItemsAt(0, 1);
        return j;
    }
    void begin() {
        open();
        for (const char* id : {"N-1", "N-2", "N-3"}) {
            Nozzle n;
            n.serial = QString::fromLatin1(id);
            n.type = QStringLiteral("h04");
            QVERIFY(happen(act::NozzleReceived{n}, minute(-70)));
        }
        QVERIFY(happen(act::JobAdded{twoVariants(false)}, minute(-61)));
        Job other = job(QStringLiteral("7402"), 90, Minutes(30));
        other.variants[0].setup.partNozzle = QStringLiteral("h04");
        QVERIFY(happen(act::JobAdded{other}, minute(-60)));
    }
    /// "bay-1: 7401 fine, bay-5: 7402" as the draft has it.
    static QString told(const Draft& d) {
        QStringList out;
        for (std::size_t p = 0; p < d.orders().printers.size(); ++p)
            for (const planning::Place& x : d.orders().printers[p])
                out.append(QStringLiteral("%1: %2 %3").arg(QString::fromStdString(d.problem().problem.printers[p].id),
                                                           d.problem().jobs[x.job].id, d.problem().jobs[x.job].variants[x.variant].name).trimmed());
        return out.join(QStringLiteral(", "));
    }
    /// 7401, fine, on bay-1; 7402 on bay-5.
    void place(Draft& d) const {
        Orders o = d.problem().noOrders();
        const auto number = [&](const char* job) { return d.problem().jobNumbers.value(QString::fromLatin1(job)); };
        o.printers[0] = {{number("7401"), 1}};
        o.printers[2] = {{number("7402"), 0}};
        o.leftOut.clear();
        d.take(o, QStringLiteral("placed"));
    }
};

} // namespace

class DraftTest : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void aPrinterThatIsGoneFromTheFolder() {
        TwoWait b, fewer;
        b.begin();
        Draft d(b.shop, morning, Goal::Cost);
        b.place(d);
        QCOMPARE(TwoWait::told(d), QStringLiteral("bay-1: 7401 fine, bay-5: 7402"));
        fewer.catalogue.fleet.printers.removeAt(0);
        fewer.begin();
        d.rebase(fewer.shop, morning, {});
        QCOMPARE(TwoWait::told(d), QStringLiteral("bay-5: 7402"));
        QCOMPARE(d.orders().leftOut, std::vector<int>{d.problem().jobNumbers.value(QStringLiteral("7401"))});
        d.undo();
        QCOMPARE(TwoWait::told(d), QString());
    }
    void printersInAnotherOrder() {
        TwoWait b, turned;
        b.begin();
        Draft d(b.shop, morning, Goal::Cost);
        b.place(d);
        turned.catalogue.fleet.printers.swapItemsAt(0, 2);
        turned.begin();
        d.rebase(turned.shop, morning, {});
        QCOMPARE(TwoWait::told(d), QStringLiteral("bay-5: 7402, bay-1: 7401 fine"));
    }
    void variantsInAnotherOrder() {
        TwoWait b;
        b.begin();
        Draft d(b.shop, morning, Goal::Cost);
        b.place(d);
        QVERIFY(b.happen(act::JobChanged{TwoWait::twoVariants(true)}, morning));
        d.rebase(b.shop, morning, {});
        QCOMPARE(TwoWait::told(d), QStringLiteral("bay-1: 7401 fine, bay-5: 7402"));
    }
    /// One nozzle with life for one of two jobs: that 7402 then comes nowhere saves nothing.
    void aJobThatLeavesAnotherWithoutAPlaceIsNoBargain() {
        TwoWait b;
        b.catalogue.nozzleTypes[0].ratedLife = b.catalogue.nozzleTypes[0].ratedLifeAbrasive = Volume::fromCm3(100);
        b.open();
        Nozzle n;
        n.serial = QStringLiteral("N-1");
        n.type = QStringLiteral("h04");
        QVERIFY(b.happen(act::NozzleReceived{n}, minute(-70)));
        OpeningSetup worn;
        worn.printer = QStringLiteral("bay-1");
        worn.part = QStringLiteral("abs");
        worn.partNozzle = n.serial;
        QVERIFY(b.happen(act::SetupOpening{worn}, minute(-70)));
        for (const char* id : {"7401", "7402"}) {
            Job j = b.job(QString::fromLatin1(id), 90, Minutes(100));
            j.variants[0].setup.partNozzle = QStringLiteral("h04");
            j.variants[0].partVolume = Volume::fromCm3(60);
            j.due = minute(30);
            j.lateCostPerHour = Money::fromUnits(60);
            QVERIFY(b.happen(act::JobAdded{j}, minute(-61)));
        }
        ShopProblem p = shopProblem(b.shop, morning);
        Orders plan = p.noOrders();
        plan.printers[0] = {{1, 0}};
        plan.leftOut = {0};
        QCOMPARE(timetable(p.problem, *p.changes, plan).notPlaced.size(), std::size_t(1));
        const QList<WorthRow> rows = worthOf(p, 0, plan);
        QVERIFY2(rows[0].displaces.startsWith(QStringLiteral("job 7402 would have no place: ")), qPrintable(rows[0].displaces));
        QVERIFY2(rows[1].displaces.startsWith(QStringLiteral("job 7401 would have no place: ")), qPrintable(rows[1].displaces));
        for (const WorthRow& r : rows) QVERIFY(r.othersLate == 0 && !r.best);
    }
    /// Bay 2 prints 7403 and goes down for good before its part is out: that job's lateness is no number.
    void aPartThatNeverComesOutIsLateByNoNumber() {
        TwoWait b;
        b.begin();
        Job j = b.job(QStringLiteral("7403"), 90, Minutes(100));
        j.due = minute(30);
        j.lateCostPerHour = Money::fromUnits(1000);
        QVERIFY(b.happen(act::JobAdded{j}, minute(-61)));
        QVERIFY(b.happen(act::PrintStarted{QStringLiteral("bay-2"), QStringLiteral("7403"), {}, Minutes(100)}, minute(-60)));
        WhatIf gone;
        gone.downtimes = {{QStringLiteral("bay-2"), minute(45), {}}};
        Draft d(b.shop, morning, Goal::Cost, gone);
        const TimedJob& running = d.timetable().printers[1][0];
        QCOMPARE(running.complete, never);
        const Why why = whyOf(d.problem(), d.timetable(), running);
        for (const QString& line : why.late) QVERIFY2(line.size() < 100 && !line.contains(QStringLiteral("late by")), qPrintable(line));
        const int job = d.problem().jobNumbers.value(QStringLiteral("7402"));
        for (const WorthRow& r : worthOf(d.problem(), job, d.orders()))
            if (r.impossible.isEmpty()) QCOMPARE(r.othersLate, Cents(0));
    }
};

INTERLUDE_TEST(DraftTest)
#include "draft_test.moc"
