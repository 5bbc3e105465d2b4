// What runs takes its share of nozzle life and feedstock before anything planned does: a plan made during a print and one made
// just after it agree.

#include "model/planning/plans/reservations.h"
#include "tests/harness/run_tests.h"
#include "tests/session/bench.h"

using namespace interlude;
using namespace interlude::tests;
using namespace interlude::planning;

namespace {

/// 1 g/cm³, a nozzle rated for 100 cm³, one spool of 100 g. Bay 1 prints 7401 from -60 to 40, which takes 60 cm³; 7402, which
/// takes as much, waits behind it.
struct OnePrints : tests::Bench {
    OnePrints() {
        catalogue.fleet.zone = QTimeZone::utc();
        catalogue.materials[0].densityGPerCm3 = 1.0;
        catalogue.nozzleTypes[0].ratedLife = Volume::fromCm3(100);
        catalogue.nozzleTypes[0].ratedLifeAbrasive = Volume::fromCm3(50);
        catalogue.nozzleTypes[0].roles = {Role::Part};
        catalogue.nozzleTypes[0].max = degrees(400);
    }
    void begin(bool abrasive = false) {
        catalogue.materials[0].abrasive = abrasive;
        catalogue.nozzleTypes[0].hardened = true;
        open();
        Nozzle n;
        n.serial = QStringLiteral("N-1");
        n.type = QStringLiteral("h04");
        QVERIFY(happen(act::NozzleReceived{n}, minute(-70)));
        receive("S-1", 100);
        OpeningSetup worn;
        worn.printer = QStringLiteral("bay-1");
        worn.part = QStringLiteral("abs");
        worn.partNozzle = n.serial;
        worn.partSpool = QStringLiteral("S-1");
        QVERIFY(happen(act::SetupOpening{worn}, minute(-70)));
        for (const char* id : {"7401", "7402"}) {
            Job j = job(QString::fromLatin1(id), 90, Minutes(100));
            j.variants[0].setup.partNozzle = QStringLiteral("h04");
            j.variants[0].partVolume = Volume::fromCm3(abrasive ? 30 : 60);
            QVERIFY(happen(act::JobAdded{j}, minute(-61)));
        }
        QVERIFY(happen(act::PrintStarted{QStringLiteral("bay-1"), QStringLiteral("7401"), {}, Minutes(100)}, minute(-60)));
    }
    void receive(const char* id, double grams) {
        Spool s;
        s.id = QString::fromLatin1(id);
        s.material = QStringLiteral("abs");
        s.lot = QStringLiteral("L1");
        s.left = Mass::fromGrams(grams);
        QVERIFY(happen(act::SpoolReceived{s}, minute(-70)));
    }
    void ends(int at) { QVERIFY(happen(act::PrintEnded{QStringLiteral("bay-1"), PrintOutcome::Good, true, {}, {}, {}}, minute(at))); }
    std::optional<std::int64_t> life(int at) const { return shopProblem(shop, minute(at)).problem.nozzles.at(0).life; }
    /// What is said of the feedstock of 7402, planned on bay 1.
    QString feedstock(int at) const {
        ShopProblem p = shopProblem(shop, minute(at));
        Orders orders = p.noOrders();
        orders.printers[0] = {{p.jobNumbers.value(QStringLiteral("7402")), 0}};
        orders.leftOut.clear();
        p.problem.scarceNozzles = false; // one nozzle, and not what is asked here
        const Timetable t = timetable(p.problem, *p.changes, orders);
        if (!t.notPlaced.empty()) return QString::fromStdString(t.notPlaced[0].reason);
        for (const Reservation& r : reservationsOf(shop, p, t))
            if (r.job == QStringLiteral("7402") && r.material == QStringLiteral("abs")) return r.reason;
        return QStringLiteral("no word of it");
    }
};

} // namespace

class RunningUsesTest : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void nozzleLife() {
        OnePrints b;
        b.begin();
        QCOMPARE(b.life(0), std::optional<std::int64_t>(400'000'000)); // 60 of 100 cm³ are as good as gone
        b.ends(40);
        QCOMPARE(b.life(41), std::optional<std::int64_t>(400'000'000));
    }
    void nozzleLifeByAbrasive() {
        OnePrints b;
        b.begin(true);
        QCOMPARE(b.life(0), std::optional<std::int64_t>(400'000'000)); // 30 of 50 cm³
        b.ends(40);
        QCOMPARE(b.life(41), std::optional<std::int64_t>(400'000'000));
    }
    void feedstock() {
        OnePrints b;
        b.begin();
        const QString during = b.feedstock(0);
        QVERIFY2(during.contains(QStringLiteral("20 g of abs missing")), qPrintable(during)); // 100 − 60 − 60
        b.ends(40);
        QCOMPARE(b.feedstock(41), during);
        b.receive("S-2", 20);
        QCOMPARE(b.feedstock(42), QString());
    }
    /// A spool that ran out and was replaced has given its part; the next one gives the rest.
    void feedstockOfAPrintWhoseSpoolWasReplaced() {
        OnePrints b;
        b.begin();
        QVERIFY(b.happen(act::SpoolUnloaded{QStringLiteral("S-1"), QStringLiteral("rack-a")}, minute(-10))); // 30 of 60 g used
        b.receive("S-2", 60);
        QVERIFY(b.happen(act::SpoolLoaded{QStringLiteral("S-2"), QStringLiteral("bay-1"), Role::Part}, minute(-9)));
        QCOMPARE(b.feedstock(0), QString()); // 70 + 60 − 30 = 100 ≥ 60
        QVERIFY(b.happen(act::SpoolRetired{QStringLiteral("S-1"), QStringLiteral("contaminated")}, minute(0)));
        const QString during = b.feedstock(1);
        QVERIFY2(during.contains(QStringLiteral("30 g of abs missing")), qPrintable(during)); // 60 − 30 − 60
        b.ends(40);
        QCOMPARE(b.feedstock(41), during);
    }
};

INTERLUDE_TEST(RunningUsesTest)
#include "running_uses_test.moc"
