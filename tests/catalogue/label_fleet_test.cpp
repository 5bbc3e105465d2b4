// The shop of design section 4 that plans by labels and a stop-watch table only.
#include "model/catalogue/reader.h"
#include "tests/harness/run_tests.h"

#include <QTest>

using namespace interlude;

namespace {
QMap<QString, QString> twoPrinters() {
    return {{QStringLiteral("fleet.yaml"), QStringLiteral(R"(# fleet.yaml
format: 1
id: two-printers
name: Two printers
time-zone: UTC                       # IANA name; local times elsewhere are in this zone
currency: EUR
crew: unlimited
clean-out-rule: going-up             # or strict; clean-out-margin-k: 10
printer-types:
  - {id: plain, part-removal-minutes: 0, hourly-rate: 10}
printers:
  - {id: bay-1, type: plain, measured-changeovers: bay-1.csv, unattended: true}
  - {id: bay-2, type: plain, measured-changeovers: bay-2.csv, unattended: true}
)")},
            {QStringLiteral("setups.yaml"), QStringLiteral(R"(setups:
  - {printer: bay-1, label: start}
  - {printer: bay-2, label: start}
)")},
            {QStringLiteral("jobs.yaml"), QStringLiteral(R"(jobs:
  - {id: 7401, setup: A, print-minutes: {bay-1: 54, bay-2: 61}, release: 2026-01-01T00:00, due: 2026-01-01T06:00,
     late-cost-per-hour: 3}
  - {id: 7402, setup: B, print-minutes: 40}
)")},
            {QStringLiteral("bay-1.csv"), QStringLiteral("from,to,minutes\nstart,A,20\nstart,B,30\nA,B,12\nB,A,15\n")},
            {QStringLiteral("bay-2.csv"),
             QStringLiteral("from,to,minutes,hands-on-minutes\r\nstart,A,25,10\r\nstart,B,35,10\r\nA,B,14,14\r\nB,A,16,0\r\n")}};
}
QString said(const CatalogueReading& r) {
    QStringList lines;
    for (const Problem& p : r.problems) lines.append(p.text());
    return lines.join(QLatin1Char('\n'));
}
} // namespace

class LabelFleetTest : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void readsTheExample() {
        const CatalogueReading r = readFleetTexts(twoPrinters());
        QCOMPARE(said(r), QString());
        QVERIFY(r.catalogue);
        const Catalogue& c = *r.catalogue;
        QVERIFY(c.fleet.crewUnlimited);
        QCOMPARE(c.typeOf(QStringLiteral("bay-1"))->hourlyRate.cents(), 1000);
        QCOMPARE(c.typeOf(QStringLiteral("bay-1"))->start.count(), 5);
        QCOMPARE(c.openings.setups.size(), 2);
        QCOMPARE(c.openings.setups[0].label, QStringLiteral("start"));
        QCOMPARE(c.files.size(), 5);
    }
    void jobsByLabelHaveOneNamelessVariant() {
        const CataloguePtr read = readFleetTexts(twoPrinters()).catalogue;
        const Catalogue& c = *read;
        QCOMPARE(c.openings.jobs.size(), 2);
        const Job& first = c.openings.jobs[0];
        QCOMPARE(first.id, QStringLiteral("7401"));
        QCOMPARE(first.variants.size(), 1);
        QCOMPARE(first.variants[0].name, QString());
        QCOMPARE(first.variants[0].setup.label, QStringLiteral("A"));
        QCOMPARE(first.variants[0].printMinutes(QStringLiteral("bay-2")).count(), 61);
        QCOMPARE(first.due.value() - first.release.value(), Milliseconds(6 * 3600 * 1000));
        QCOMPARE(first.lateCostPerHour.cents(), 300);
        QCOMPARE(c.openings.jobs[1].variants[0].printMinutes(QStringLiteral("bay-1")).count(), 40);
        QVERIFY(c.openings.jobs[1].printers.isEmpty());
        QCOMPARE(c.openings.jobs[1].rank, 1);
    }
    void theTableSplitsIntoHandsOnAndWaiting() {
        const CataloguePtr read = readFleetTexts(twoPrinters()).catalogue;
        const Catalogue& c = *read;
        const Printer& one = *c.printer(QStringLiteral("bay-1"));
        QCOMPARE(one.measured.size(), 4);
        QCOMPARE(one.measured[0].handsOn, one.measured[0].total); // without the column all of it
        const Printer& two = *c.printer(QStringLiteral("bay-2"));
        QCOMPARE(two.measured[0].total.count(), 25);
        QCOMPARE(two.measured[0].handsOn.count(), 10);
    }
    void aMissingTableIsAProblemWhereItIsNamed() {
        auto files = twoPrinters();
        files.remove(QStringLiteral("bay-2.csv"));
        const CatalogueReading r = readFleetTexts(files);
        QVERIFY(!r.catalogue);
        QCOMPARE(r.problems.first().text(),
                 QStringLiteral("fleet.yaml:13:52: the file `bay-2.csv` is not there; add it to the fleet folder"));
    }
    void aLabelThatNoPrinterReachesIsAWarning() {
        auto files = twoPrinters();
        files[QStringLiteral("jobs.yaml")].replace(QStringLiteral("setup: B"), QStringLiteral("setup: C"));
        const CatalogueReading r = readFleetTexts(files);
        QVERIFY(r.catalogue);
        QCOMPARE(said(r), QStringLiteral("jobs.yaml:4:5: warning: no printer can take job `7402`: bay-1: no measured changeover "
                                         "leads to `C`; bay-2: no measured changeover leads to `C`; change the variant, or "
                                         "the limits of a printer type"));
    }
};

INTERLUDE_TEST(LabelFleetTest)
#include "label_fleet_test.moc"
