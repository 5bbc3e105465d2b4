// For which job a spool is kept, and when a print that runs uses it up; on the sample fleet.
#include "tests/changeover_page/page_driver.h"
#include "model/planning/dispatch.h"
#include "model/planning/plans/published.h"
#include "tests/harness/run_tests.h"
#include "views/stock/spool_rows.h"

#include <QtTest>

using namespace interlude;
using namespace interlude::tests;

class ReservedTest final : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void aSpoolIsKeptForTheJobOfItsChangeoverAndItsPrint() {
        SampleBench sample;
        QVERIFY2(sample.catalogue, qPrintable(sample.problems));
        for (const SpoolRow& row : spoolRows(*sample.bench, true)) QVERIFY2(row.reserved.isEmpty(), qPrintable(row.spool.id));
        PageDriver d(sample);
        d.choose("bay-1", "7402", 1);
        d.start();
        QVERIFY(d.session());
        QStringList chosen;
        for (const SpoolChange& c : d.session()->changeover.transition.spools)
            if (!c.in.isEmpty()) chosen.append(c.in);
        QVERIFY(!chosen.isEmpty());
        for (const SpoolId& id : chosen) QCOMPARE(row(sample, id).reserved, QString("7402"));

        for (int guard = 0; guard < 120 && d.session() && !d.desk().guide().finished; ++guard) d.doStep();
        d.click(QStringLiteral("disposition0"));
        d.key(Qt::Key_Return);
        const PrinterNow* p = sample.shop().printer("bay-1");
        QCOMPARE(p->activity, Activity::Printing);
        const SpoolId id = p->part.spool;
        QCOMPARE(row(sample, id).reserved, QString("7402"));
        QVERIFY(!usedUpAt(sample.shop(), sample.shop().stock().spools.value(id)));

        // A tenth of what the print wants: it is gone after a tenth of the print's time.
        Spool spool = sample.shop().stock().spools.value(id);
        const Material* m = sample.shop().material(spool.material);
        for (const Variant& v : sample.shop().job("7402")->variants)
            if (v.name == p->variant) spool.left = Mass::fromGrams(massOf(v.partVolume, m->densityGPerCm3).grams() / 10.0);
        const auto gone = usedUpAt(sample.shop(), spool);
        QVERIFY(gone);
        const double share = static_cast<double>(toMs(*gone) - toMs(*p->printStarted)) /
                             static_cast<double>(toMs(*p->printExpectedEnd) - toMs(*p->printStarted));
        QVERIFY2(std::abs(share - 0.1) < 0.001, qPrintable(QString::number(share)));
        const SpoolRow said = spoolRow(*sample.bench, spool);
        QVERIFY(said.usedUp);
        QVERIFY2(said.runsOut.startsWith(QString("▲")), qPrintable(said.runsOut));
        // Unknown grams promise nothing.
        spool.left.reset();
        QVERIFY(!usedUpAt(sample.shop(), spool));
    }

    void thePublishedPlanKeepsSpoolsForItsJobsUntilTheyAreInHand() {
        SampleBench sample;
        QVERIFY2(sample.catalogue, qPrintable(sample.problems));
        using namespace interlude::planning;
        ShopProblem problem = shopProblem(sample.shop(), sample.bench->now());
        const Orders orders = dispatch(problem.problem, *problem.changes);
        const Timetable times = timetable(problem.problem, *problem.changes, orders);
        const QList<Reservation> reserved = reservationsOf(sample.shop(), problem, times);
        QVERIFY(sample.bench->perform(act::PlanPublished{planOf(problem, orders, times, Goal::Cost, reserved)}));

        // Gram for gram: what the spools keep of a job's material is what it needs, less what is missing.
        const auto shares = spoolsReserved(sample.shop(), sample.bench->now());
        QMap<QPair<JobId, MaterialId>, Mass> kept;
        QMap<SpoolId, Mass> ofSpool;
        for (auto it = shares.cbegin(); it != shares.cend(); ++it)
            for (const SpoolShare& s : it.value()) {
                const Spool& spool = sample.shop().stock().spools[it.key()];
                kept[{s.job, spool.material}] = kept[{s.job, spool.material}] + s.mass;
                ofSpool[it.key()] = ofSpool[it.key()] + s.mass;
            }
        for (auto it = ofSpool.cbegin(); it != ofSpool.cend(); ++it)
            QVERIFY(it.value() <= *sample.shop().stock().spools[it.key()].left);
        int whole = 0;
        for (const Reservation& r : reserved) {
            const Mass has = kept.value({r.job, r.material});
            QVERIFY(has <= r.need);
            if (!r.isShort && !r.unknown && r.need > Mass()) {
                QCOMPARE(has.milligrams(), r.need.milligrams());
                ++whole;
            }
        }
        QVERIFY(whole > 10);
        const auto first = std::find_if(reserved.begin(), reserved.end(), [](const Reservation& r) { return !r.isShort && !r.unknown; });
        int named = 0;
        for (const SpoolRow& r : spoolRows(*sample.bench, false)) named += r.reserved.split(", ").contains(first->job) ? 1 : 0;
        QVERIFY(named > 0);
        // Withdrawn: nothing is kept for it any more.
        QVERIFY(sample.bench->perform(act::JobWithdrawn{first->job, "not wanted"}));
        for (const SpoolRow& r : spoolRows(*sample.bench, false)) QVERIFY(!r.reserved.split(", ").contains(first->job));
    }
    void theNozzlesOfAnOpenSessionServeNoOtherJobInThePlan() {
        SampleBench sample;
        PageDriver d(sample);
        d.choose("bay-1", "7402", 1);
        d.start();
        QVERIFY(d.session());
        QSet<QString> chosen;
        for (const NozzleChange& c : d.session()->changeover.transition.nozzles)
            if (c.exchange) chosen.insert(c.in);
        QVERIFY(!chosen.isEmpty());
        QCOMPARE(keptForSession(sample, "bay-1"), chosen);
        for (int guard = 0; guard < 120 && d.session() && !d.desk().guide().finished; ++guard) d.doStep();
        QVERIFY(keptForSession(sample, "bay-1").isEmpty()); // mounted by now
    }
    void aJobOfOneLotIsServedByOneLot() {
        // The sample has two lots of abs-ivory: 612 + 1000 g and 1000 + 38 g.
        const auto [shortOfAny, lotsOfAny] = alone(2000, false);
        QVERIFY(!shortOfAny.isShort);
        QCOMPARE(lotsOfAny.size(), 2);
        const auto [fits, lots] = alone(1500, true);
        QVERIFY2(!fits.isShort, qPrintable(fits.reason));
        QCOMPARE(lots, QSet<QString>{QStringLiteral("B20-0418")});
        const auto [torn, none] = alone(2000, true);
        QVERIFY(torn.isShort);
        QVERIFY2(torn.reason.startsWith(QStringLiteral("no lot of abs-ivory has the 20")), qPrintable(torn.reason));
        QCOMPARE(none, QSet<QString>{QStringLiteral("B20-0418")}); // the lot that has most is kept for it all the same
    }

private:
    static QSet<QString> keptForSession(SampleBench& sample, const PrinterId& printer) {
        const planning::ShopProblem problem = planning::shopProblem(sample.shop(), sample.bench->now());
        QSet<QString> out;
        for (const int n : problem.problem.printers[static_cast<std::size_t>(problem.printerNumbers.value(printer))].sessionNozzles)
            if (n >= 0) out.insert(QString::fromStdString(problem.problem.nozzles[static_cast<std::size_t>(n)].serial));
        return out;
    }
    /// The only job of a published plan, wanting so much abs-ivory: what is reserved, and of which lots.
    static std::pair<planning::Reservation, QSet<QString>> alone(double grams, bool sameLot) {
        using namespace interlude::planning;
        SampleBench sample;
        Job job = *sample.shop().job("7401");
        job.id = "J-1";
        job.sameLot = sameLot;
        job.variants[0].partVolume = Volume::fromCm3(grams / sample.shop().material("abs-ivory")->densityGPerCm3);
        if (!sample.bench->perform(act::JobAdded{job})) return {};
        ShopProblem problem = shopProblem(sample.shop(), sample.bench->now());
        Orders orders = problem.noOrders();
        orders.printers[static_cast<std::size_t>(problem.printerNumbers.value("bay-1"))] = {{problem.jobNumbers.value("J-1"), 0}};
        std::erase(orders.leftOut, problem.jobNumbers.value("J-1"));
        const Timetable times = timetable(problem.problem, *problem.changes, orders);
        const QList<Reservation> reserved = reservationsOf(sample.shop(), problem, times);
        if (!sample.bench->perform(act::PlanPublished{planOf(problem, orders, times, Goal::Cost, reserved)})) return {};
        QSet<QString> lots;
        const auto shares = spoolsReserved(sample.shop(), sample.bench->now());
        for (const SpoolId& id : shares.keys())
            if (sample.shop().spool(id)->material == QStringLiteral("abs-ivory")) lots.insert(sample.shop().spool(id)->lot);
        return {reserved.value(0), lots};
    }
    static SpoolRow row(SampleBench& sample, const SpoolId& id) {
        return spoolRow(*sample.bench, sample.shop().stock().spools.value(id));
    }
};

INTERLUDE_TEST(ReservedTest)
#include "reserved_test.moc"
