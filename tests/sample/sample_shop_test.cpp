// The sample fleet shows every situation that the program is about; these counts are what its description promises.
#include "model/catalogue/reader.h"
#include "model/changeover/changeover.h"
#include "tests/harness/run_tests.h"

#include <QDir>
#include <QTest>

using namespace interlude;

namespace {

/// The shop as the opening entries describe it, without a ledger.
struct OpeningShop {
    CataloguePtr catalogue;
    Stock stock;
    QMap<PrinterId, PrinterNow> printers;
    Instant now;
};

void dress(OpeningShop& shop, const OpeningSetup& o) {
    PrinterNow p;
    p.id = o.printer;
    p.part = {o.partNozzle, o.partSpool, o.part, o.part};
    p.support = {o.supportNozzle, o.supportSpool, o.support, o.support};
    p.platformCover = o.platformCover;
    p.lastPart = o.part;
    p.lastSupport = o.support;
    p.lastPrintEnd = o.lastPrint;
    for (const OpeningResidue& r : o.residue) {
        p.residue.append({r.material, r.chamberMax, r.nozzleMax});
        p.wiper.append({r.material, r.chamberMax, r.nozzleMax});
    }
    const Material* part = shop.catalogue->material(o.part);
    p.chamberSet = part->chamber;
    p.nozzleSet = part->nozzle;
    for (const auto& [serial, spool, role] : {std::tuple(o.partNozzle, o.partSpool, Role::Part),
                                              std::tuple(o.supportNozzle, o.supportSpool, Role::Support)}) {
        shop.stock.nozzles[serial].where = NozzleWhere::Mounted;
        shop.stock.nozzles[serial].place = o.printer;
        shop.stock.spools[spool].where = SpoolWhere::Loaded;
        shop.stock.spools[spool].place = o.printer;
    }
    shop.printers[o.printer] = p;
}

OpeningShop openShop() {
    OpeningShop shop;
    shop.catalogue = readFleetFolder(QDir(QStringLiteral(INTERLUDE_SOURCE_DIR)).filePath(QStringLiteral("sample-fleet"))).catalogue;
    if (!shop.catalogue) return shop;
    const Openings& o = shop.catalogue->openings;
    for (const Spool& s : o.spools) shop.stock.spools[s.id] = s;
    for (const Nozzle& n : o.nozzles) shop.stock.nozzles[n.serial] = n;
    for (const OpeningSetup& s : o.setups) dress(shop, s);
    shop.now = instantOf(*shop.catalogue->fleet.exampleClock);
    return shop;
}

} // namespace

class SampleShopTest : public QObject {
    Q_OBJECT
    OpeningShop m_shop;

    Transition judge(const QString& job, const QString& variant, const PrinterId& printer) const {
        for (const Job& j : m_shop.catalogue->openings.jobs)
            for (const Variant& v : j.variants)
                if (j.id == job && v.name == variant)
                    return judgeTransition(*m_shop.catalogue, m_shop.stock,
                                           requestFor(m_shop.printers[printer], j, v), m_shop.now);
        return {};
    }
    static bool refusedBy(const Transition& t, const QString& rule) {
        const Findings refusals = refusalsIn(t.verdicts);
        return std::any_of(refusals.begin(), refusals.end(), [&](const Finding& f) { return f.rule == rule; });
    }

private Q_SLOTS:
    void initTestCase() {
        m_shop = openShop();
        QVERIFY(m_shop.catalogue);
    }

    void holdsWhatItPromises() {
        const Catalogue& c = *m_shop.catalogue;
        QCOMPARE(c.fleet.printers.size(), 6);
        QCOMPARE(c.fleet.printerTypes.size(), 3);
        QSet<QString> families;
        for (const Material& m : c.materials) families.insert(m.chamberFamily);
        QVERIFY(c.materials.size() >= 12 && families.size() >= 5);
        QVERIFY(c.openings.nozzles.size() >= 24);
        QVERIFY(c.openings.spools.size() >= 40);
        QVERIFY(c.openings.jobs.size() >= 60);
        QVERIFY(c.procedures.steps.size() >= 40);
        QCOMPARE(c.openings.setups.size(), 6);
        QVERIFY(c.fleet.name.contains(QStringLiteral("example")));
    }

    void readsWithoutAWarning() {
        const auto reading = readFleetFolder(QDir(QStringLiteral(INTERLUDE_SOURCE_DIR)).filePath(QStringLiteral("sample-fleet")));
        QCOMPARE(reading.problems.size(), 0);
    }

    void nozzlesOfEveryKind() {
        bool fresh = false, noHistory = false, nearlyWorn = false, unit = false;
        for (const Nozzle& n : m_shop.catalogue->openings.nozzles) {
            const NozzleType* type = m_shop.catalogue->nozzleType(n.type);
            QVERIFY(type);
            const auto used = lifeUsed(n, *type);
            fresh |= n.meltFamily.isEmpty();
            noHistory |= !n.run.known;
            nearlyWorn |= used && *used > 0.9 && *used < 1.0;
            unit |= type->unitWithMeltZone;
        }
        QVERIFY(fresh && noHistory && nearlyWorn && unit);
    }

    void everyJobGoesSomewhere() {
        for (const Job& j : m_shop.catalogue->openings.jobs)
            for (const Variant& v : j.variants) {
                bool placed = false;
                for (const PrinterNow& p : m_shop.printers)
                    placed |= judgeTransition(*m_shop.catalogue, m_shop.stock, requestFor(p, j, v), m_shop.now).possible();
                QVERIFY2(placed, qPrintable(j.id + QLatin1Char(' ') + v.name));
            }
    }

    void transitionsOfTheTour() {
        // PC 0.4 → PA12-CF 0.6 hardened: both nozzles, clean-out advised only (going down).
        const Transition main = judge(QStringLiteral("7404"), QStringLiteral("coarse"), QStringLiteral("bay-3"));
        QVERIFY(main.possible() && main.has(fact::partNozzle) && main.has(fact::supportNozzle));
        QCOMPARE(main.chamber.level, CleanOut::Advised);
        // ABS → ASA with the nozzle that is there; PEI → PPSU.
        const Transition same = judge(QStringLiteral("7402"), QStringLiteral("fine"), QStringLiteral("bay-1"));
        QVERIFY(same.possible() && same.has(fact::partMaterial) && !same.has(fact::partNozzle));
        QVERIFY(judge(QStringLiteral("7405"), QStringLiteral("fine"), QStringLiteral("bay-5")).possible());
        // Mandatory: ABS left in the chamber, PC comes. Unknown residue: mandatory too.
        QCOMPARE(judge(QStringLiteral("7406"), QStringLiteral("fine"), QStringLiteral("bay-4")).chamber.level, CleanOut::Mandatory);
        QCOMPARE(judge(QStringLiteral("7408"), QStringLiteral("fine"), QStringLiteral("bay-6")).chamber.level, CleanOut::Mandatory);
        QVERIFY(judge(QStringLiteral("7408"), QStringLiteral("fine"), QStringLiteral("bay-6")).has(fact::longIdle));
        // PA12 decomposes before PA6T/66 flows; PEEK is too hot for a low chamber.
        QVERIFY(refusedBy(judge(QStringLiteral("7407"), QStringLiteral("fine"), QStringLiteral("bay-4")), QStringLiteral("purge-windows")));
        QVERIFY(!judge(QStringLiteral("7409"), QStringLiteral("fine"), QStringLiteral("bay-1")).possible());
    }

    void stepCountsStayReadable() {
        const auto steps = [&](const char* job, const char* variant, const char* printer) {
            const auto plan = planChangeover(*m_shop.catalogue, m_shop.stock,
                                             judge(QString::fromLatin1(job), QString::fromLatin1(variant), QString::fromLatin1(printer)), m_shop.now);
            return plan ? plan->steps.size() : qsizetype(-1);
        };
        const auto within = [](qsizetype n, qsizetype low, qsizetype high) { return n >= low && n <= high; };
        QVERIFY(within(steps("7401", "fine", "bay-1"), 3, 6));   // same setup
        QVERIFY(within(steps("7402", "fine", "bay-1"), 10, 20)); // material only
        QVERIFY(within(steps("7404", "coarse", "bay-3"), 22, 30)); // both nozzles, one material, clean-out
    }

    void everyChangeoverIsPredictable() {
        for (const Job& j : m_shop.catalogue->openings.jobs)
            for (const Variant& v : j.variants)
                for (const PrinterNow& p : m_shop.printers) {
                    const Transition t = judgeTransition(*m_shop.catalogue, m_shop.stock, requestFor(p, j, v), m_shop.now);
                    const auto plan = planChangeover(*m_shop.catalogue, m_shop.stock, t, m_shop.now);
                    if (!plan) continue;
                    for (const PlannedStep& s : plan->steps) {
                        QVERIFY2(s.predictable, qPrintable(j.id + QLatin1Char(' ') + p.id + QLatin1Char(' ') + s.step.id));
                        for (const QString& scan : s.expectedScans) QVERIFY2(!scan.isEmpty(), qPrintable(s.step.id));
                    }
                    for (const PickItem& item : plan->pickList)
                        QVERIFY2(!item.missing, qPrintable(j.id + QLatin1Char(' ') + p.id + QLatin1Char(' ') + item.kind + item.id));
                }
    }
};

INTERLUDE_TEST(SampleShopTest)
#include "sample_shop_test.moc"
