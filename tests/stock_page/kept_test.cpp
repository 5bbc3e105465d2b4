// One spool, one printer at a time; and what the published plan keeps is what the changeover takes. On the sample fleet.
#include "model/planning/dispatch.h"
#include "model/planning/plans/planned_choice.h"
#include "model/planning/plans/published.h"
#include "tests/changeover_page/sample_bench.h"
#include "tests/harness/run_tests.h"
#include "views/changeover/draft.h"

#include <random>

using namespace interlude;
using namespace interlude::tests;
using namespace interlude::planning;

class KeptTest final : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void noSpoolIsKeptAtTwoPrintersAtATimeWhereThereAreEnough() {
        for (unsigned seed = 1; seed <= (longRun() ? 60U : 6U); ++seed) {
            SampleBench sample;
            QVERIFY2(sample.catalogue, qPrintable(sample.problems));
            receivePlenty(sample);
            std::mt19937 random(seed);
            ShopProblem problem = shopProblem(sample.shop(), sample.bench->now());
            const Orders orders = anyOrders(problem, random);
            const QList<Reservation> reserved = publish(sample, problem, orders);
            for (const Reservation& r : reserved) QVERIFY2(!r.reason.contains("also needed"), qPrintable(r.reason));
            QVERIFY(spoolsKept(sample.shop(), sample.bench->now()).size() > 20);
            const QString clash = clashOf(sample);
            QVERIFY2(clash.isEmpty(), qPrintable(QString("seed %1: %2").arg(seed).arg(clash)));
        }
    }
    void whereOnlyOneIsThereItSaysSo() {
        SampleBench sample;
        ShopProblem problem = shopProblem(sample.shop(), sample.bench->now());
        // One large spool; two jobs want it at once on two printers.
        const MaterialId material = QStringLiteral("abs-ivory");
        bool kept = false;
        for (const Spool& s : sample.shop().stock().spools.values())
            if (s.material == material && s.where == SpoolWhere::Shelf) {
                if (std::exchange(kept, true)) QVERIFY(sample.bench->perform(act::SpoolRetired{s.id, "gone"}));
                else QVERIFY(sample.bench->perform(act::SpoolWeighed{s.id, Mass::fromGrams(60000), Mass::fromGrams(200), {}}));
            }
        for (const char* id : {"J-1", "J-2"}) {
            Job job = *sample.shop().job("7401");
            job.id = QString::fromLatin1(id);
            job.printers.clear();
            for (Variant& v : job.variants) {
                v.setup.part = material;
                v.partVolume = Volume::fromCm3(5000); // no other spool holds so much
            }
            QVERIFY(sample.bench->perform(act::JobAdded{job}));
        }
        problem = shopProblem(sample.shop(), sample.bench->now());
        Orders orders = problem.noOrders();
        std::size_t printer = 0;
        for (const char* id : {"J-1", "J-2"}) {
            const int job = problem.jobNumbers.value(QString::fromLatin1(id));
            const auto& print = problem.problem.jobs[static_cast<std::size_t>(job)].variants[0].print;
            while (printer < print.size() && (print[printer] < 0 || holds(sample, printer, material))) ++printer;
            QVERIFY(printer < print.size());
            orders.printers[printer++] = {{job, 0}};
            std::erase(orders.leftOut, job);
        }
        const QList<Reservation> reserved = publish(sample, problem, orders);
        QStringList said;
        for (const Reservation& r : reserved)
            if (r.material == material) said.append(r.reason);
        QCOMPARE(said.size(), 2);
        QVERIFY2(said.join('|').contains("is also needed at Bay"), qPrintable(said.join('|')));
    }
    void theChangeoverTakesWhatThePlanKeeps() {
        SampleBench sample;
        ShopProblem problem = shopProblem(sample.shop(), sample.bench->now());
        publish(sample, problem, dispatch(problem.problem, *problem.changes));
        const Instant now = sample.bench->now();
        int spools = 0, nozzles = 0;
        for (const PrinterOrder& order : sample.shop().plan()->plan.printers)
            for (const PlannedJob& planned : order.jobs) {
                Draft draft;
                draft.printer = order.printer;
                draft.job = planned.job;
                draft.variant = std::max(0, sample.shop().job(planned.job)->variantNumber(planned.variant));
                const auto result = assemble(sample.shop(), draft, now);
                QVERIFY(result);
                if (nextPlanned(sample.shop(), order.printer)->job != planned.job || !result->changeover) continue;
                spools += compareSpools(sample, *result, planned.job);
                nozzles += compareNozzles(sample, *result, order.printer, planned);
            }
        QVERIFY2(spools >= 4 && nozzles >= 3, qPrintable(QString("%1 spools, %2 nozzles").arg(spools).arg(nozzles)));
    }
    void whatAPersonChoosesStands() {
        SampleBench sample;
        ShopProblem problem = shopProblem(sample.shop(), sample.bench->now());
        publish(sample, problem, dispatch(problem.problem, *problem.changes));
        for (const PrinterOrder& order : sample.shop().plan()->plan.printers) {
            const auto planned = nextPlanned(sample.shop(), order.printer);
            if (!planned) continue;
            const Job& job = *sample.shop().job(planned->job);
            TransitionRequest r = requestFor(*sample.shop().printer(order.printer), job, *job.variantNamed(planned->variant));
            r.choosePartSpool = QStringLiteral("mine");
            r.choosePartNozzle = QStringLiteral("mine");
            const TransitionRequest asked = asPlanned(sample.shop(), r, sample.bench->now());
            QCOMPARE(asked.choosePartSpool, r.choosePartSpool);
            QCOMPARE(asked.choosePartNozzle, r.choosePartNozzle);
        }
    }

private:
    static void receivePlenty(SampleBench& sample) {
        for (const Material& m : sample.catalogue->materials)
            for (int i = 0; i < 12; ++i) {
                Spool s;
                s.id = QStringLiteral("plenty-%1-%2").arg(m.id).arg(i);
                s.material = m.id;
                s.lot = QStringLiteral("any");
                s.left = Mass::fromGrams(90000);
                s.place = sample.catalogue->fleet.places.first().id;
                QVERIFY(sample.bench->perform(act::SpoolReceived{s}));
            }
    }
    static bool holds(SampleBench& sample, std::size_t printer, const MaterialId& m) {
        return sample.shop().printers().at(static_cast<qsizetype>(printer)).part.loaded == m;
    }
    static Orders anyOrders(const ShopProblem& problem, std::mt19937& random) {
        Orders orders = problem.noOrders();
        std::vector<int> jobs = problem.plannable;
        std::shuffle(jobs.begin(), jobs.end(), random);
        for (const int job : jobs) {
            const JobNumbers& n = problem.problem.jobs[static_cast<std::size_t>(job)];
            std::vector<std::pair<std::size_t, int>> places;
            for (int v = 0; v < static_cast<int>(n.variants.size()); ++v)
                for (std::size_t p = 0; p < orders.printers.size(); ++p)
                    if (n.variants[static_cast<std::size_t>(v)].print[p] >= 0) places.push_back({p, v});
            if (places.empty()) continue;
            const auto [p, v] = places[random() % places.size()];
            orders.printers[p].push_back({job, v});
            std::erase(orders.leftOut, job);
        }
        return orders;
    }
    static QList<Reservation> publish(SampleBench& sample, ShopProblem& problem, const Orders& orders) {
        const Timetable times = timetable(problem.problem, *problem.changes, orders);
        const QList<Reservation> reserved = reservationsOf(sample.shop(), problem, times);
        if (!sample.bench->perform(act::PlanPublished{planOf(problem, orders, times, Goal::Cost, reserved)})) return {};
        return reserved;
    }
    /// Two printers that have one spool kept in overlapping hours, or one that has a spool kept that another has loaded.
    static QString clashOf(SampleBench& sample) {
        struct Use {
            PrinterId printer;
            PlannedJob job;
        };
        QMap<JobId, Use> uses;
        for (const PrinterOrder& order : sample.shop().plan()->plan.printers)
            for (const PlannedJob& j : order.jobs) uses.insert(j.job, {order.printer, j});
        const QList<SpoolKept> kept = spoolsKept(sample.shop(), sample.bench->now());
        for (const SpoolKept& a : kept) {
            const Spool* spool = sample.shop().spool(a.spool);
            const Use& ua = uses[a.job];
            if (spool->where == SpoolWhere::Loaded && spool->place != ua.printer)
                return QString("%1, loaded on %2, is kept for %3 on %4").arg(a.spool, spool->place, a.job, ua.printer);
            for (const SpoolKept& b : kept) {
                const Use& ub = uses[b.job];
                if (a.spool != b.spool || ua.printer == ub.printer) continue;
                if (ua.job.changeover < ub.job.printEnd && ub.job.changeover < ua.job.printEnd)
                    return QString("%1 for %2 on %3 and %4 on %5").arg(a.spool, a.job, ua.printer, b.job, ub.printer);
            }
        }
        return {};
    }
    static int compareSpools(SampleBench& sample, const DraftResult& r, const JobId& job) {
        int compared = 0;
        QSet<MaterialId> seen;
        for (const SpoolKept& k : spoolsKept(sample.shop(), sample.bench->now())) {
            if (k.job != job || seen.contains(k.material)) continue;
            seen.insert(k.material);
            const Role role = sample.catalogue->material(k.material)->role;
            for (const SpoolChange& c : r.transition.spools)
                if (c.role == role && sample.shop().spool(k.spool)->where == SpoolWhere::Shelf) {
                    [&] { QCOMPARE(c.in, k.spool); }();
                    ++compared;
                }
        }
        return compared;
    }
    static int compareNozzles(SampleBench& sample, const DraftResult& r, const PrinterId& printer, const PlannedJob& planned) {
        const auto wanted = nozzlesPlanned(sample.shop(), printer, planned.job, planned.variant, sample.bench->now());
        int compared = 0;
        for (const NozzleChange& c : r.transition.nozzles) {
            const NozzleSerial& serial = wanted[c.role == Role::Part ? PartPosition : SupportPosition];
            if (!c.exchange || serial.isEmpty() || sample.shop().nozzle(serial)->where != NozzleWhere::Shelf) continue;
            [&] { QCOMPARE(c.in, serial); }();
            ++compared;
        }
        return compared;
    }
};

INTERLUDE_TEST(KeptTest)
#include "kept_test.moc"
