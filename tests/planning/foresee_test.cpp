// What planning foresees of a printer is what the fold makes of the same changeover, carried out.

#include "app/rehearsal/session_driver.h"
#include "model/planning/problem/foresee.h"
#include "model/planning/problem/imagined_stock.h"
#include "model/planning/problem/shop_problem.h"
#include "tests/changeover_page/sample_bench.h"
#include "tests/harness/run_tests.h"

using namespace interlude;
using namespace interlude::tests;
using namespace interlude::planning;

class ForeseeTest final : public QObject {
    Q_OBJECT
private:
    static QString residueText(QList<ResidueItem> items) {
        QStringList lines;
        for (const ResidueItem& r : items)
            lines.append(QStringLiteral("%1 %2 %3").arg(r.material)
                             .arg(r.chamberSeen ? r.chamberSeen->milliCelsius() : -1)
                             .arg(r.nozzleSeen ? r.nozzleSeen->milliCelsius() : -1));
        lines.sort();
        return lines.join(QStringLiteral("; "));
    }

private Q_SLOTS:
    void equalsTheFold_data() {
        QTest::addColumn<QString>("printer");
        QTest::addColumn<QString>("job");
        QTest::addColumn<QString>("variant");
        QTest::newRow("another part material, coarser nozzles") << "bay-1" << "7402" << "coarse";
        QTest::newRow("another part material, same nozzles") << "bay-1" << "7402" << "fine";
        QTest::newRow("going up to a hotter family") << "bay-3" << "7402" << "coarse";
    }
    void equalsTheFold() {
        QFETCH(QString, printer);
        QFETCH(QString, job);
        QFETCH(QString, variant);
        SampleBench sample;
        QVERIFY2(sample.catalogue, qPrintable(sample.problems));
        app::SessionDriver driver(*sample.workbench, sample.clock, QStringLiteral("ML"));
        const PrinterNow before = *sample.shop().printer(printer);
        const Outcome<qint64> session = driver.start(printer, job, variant);
        QVERIFY2(session, session ? "" : qPrintable(session.error().reason));
        const Changeover changeover = sample.shop().session(*session)->changeover;
        const PrinterNow foreseen = foreseePrinted(*sample.catalogue, sample.shop().stock(), before, changeover);
        QVERIFY(driver.finish(*session));
        const PrinterNow came = *sample.shop().printer(printer);
        QCOMPARE(came.activity, Activity::Printing);
        for (const Role role : {Role::Part, Role::Support}) {
            QCOMPARE(at(foreseen, role).nozzle, at(came, role).nozzle);
            QCOMPARE(at(foreseen, role).loaded, at(came, role).loaded);
            QCOMPARE(at(foreseen, role).inMelt, at(came, role).inMelt);
        }
        QCOMPARE(foreseen.platformCover, came.platformCover);
        QCOMPARE(foreseen.lastPart, came.lastPart);
        QCOMPARE(foreseen.lastSupport, came.lastSupport);
        QCOMPARE(foreseen.chamberSet, came.chamberSet);
        QCOMPARE(foreseen.nozzleSet, came.nozzleSet);
        QCOMPARE(residueText(foreseen.residue), residueText(came.residue));
        QCOMPARE(residueText(foreseen.wiper), residueText(came.wiper));
    }

    /// The planner's minutes for the first changeover are those of the guided one, whichever nozzle of the kind serves.
    void firstChangeoverTakesAsLongAsTheGuidedOne() {
        SampleBench sample;
        ShopProblem problem = shopProblem(sample.shop(), sample.bench->now());
        int compared = 0;
        for (const int j : problem.plannable)
            for (int p = 0; p < static_cast<int>(problem.problem.printers.size()); ++p) {
                const Job& job = problem.jobs[j];
                const PrinterNow& now = *sample.shop().printer(sample.catalogue->fleet.printers[p].id);
                for (int v = 0; v < static_cast<int>(job.variants.size()); ++v) {
                    if (problem.problem.jobs[static_cast<std::size_t>(j)].variants[static_cast<std::size_t>(v)].print[static_cast<std::size_t>(p)] < 0)
                        continue;
                    const Transition t = judgeTransition(*sample.catalogue, sample.shop().stock(),
                                                         requestFor(now, job, job.variants[v]), sample.bench->now());
                    const auto guided = planChangeover(*sample.catalogue, sample.shop().stock(), t, sample.bench->now());
                    if (!guided || t.has(fact::nozzleFirstUse)) continue; // the planner does not know which nozzle serves
                    const Change& change =
                        problem.changes->from(p, problem.problem.printers[static_cast<std::size_t>(p)].state, j, v, {});
                    QVERIFY2(change.possible, change.reason.c_str());
                    bool sameSpools = true; // another spool of the same material is a change that planning does not foresee
                    for (const SpoolChange& s : t.spools)
                        if (s.load && at(now, s.role).loaded == sample.shop().stock().spools.value(s.in).material &&
                            s.out != s.in)
                            sameSpools = false;
                    bool worn = false;
                    for (const NozzleChange& n : t.nozzles)
                        worn |= n.exchange && !change.nozzle[n.role == Role::Part ? 0 : 1].exchange;
                    if (!sameSpools || worn) continue;
                    QCOMPARE(change.minutes, static_cast<Minute>(guided->internal.count()));
                    ++compared;
                }
            }
        QVERIFY2(compared > 100, qPrintable(QString::number(compared)));
    }
};
INTERLUDE_TEST(ForeseeTest)
#include "foresee_test.moc"
