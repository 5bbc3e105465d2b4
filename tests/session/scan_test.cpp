// A scan that does not match never confirms, and says what was scanned instead.

#include "tests/harness/run_tests.h"
#include "tests/session/bench.h"

using namespace interlude;
using namespace interlude::tests;

namespace {

struct Scanning : Bench {
    Scanning() {
        catalogue.fleet.tools = {{QStringLiteral("tweezers"), QStringLiteral("Nozzle tweezers"), {}, 1}};
        open();
        Spool s;
        s.id = "S-40";
        s.material = "acr";
        QVERIFY(happen(act::SpoolOpening{s}, morning));
        for (const char* serial : {"N-118", "N-031"}) {
            Nozzle n;
            n.serial = QString::fromLatin1(serial);
            n.type = n.serial == "N-031" ? "x03" : "h04";
            QVERIFY(happen(act::NozzleOpening{n}, morning));
        }
        Nozzle mounted;
        mounted.serial = "N-200";
        mounted.type = "h04";
        QVERIFY(happen(act::NozzleOpening{mounted}, morning));
        OpeningSetup worn;
        worn.printer = "bay-5";
        worn.partNozzle = "N-200";
        QVERIFY(happen(act::SetupOpening{worn}, morning));
        Job j;
        j.id = "7412";
        j.title = "hinge";
        QVERIFY(happen(act::JobAdded{j}, morning));
        start({Step("mount").hands(5).scan(ScanTarget::NozzleInPart, "N-118").scan(ScanTarget::Printer, "bay-1"),
               Step("fetch").hands(1).scan(ScanTarget::Place, "").scan(ScanTarget::SpoolOutPart, "").scan(ScanTarget::SpoolInPart, "")},
              morning);
    }
    QString said(const QString& scanned, const StepId& step = QStringLiteral("mount"), int index = 0) const {
        const auto match = matchScan(shop, session(), step, index, scanned);
        return match ? QStringLiteral("ok ") + *match : sentence(match.error());
    }
};

} // namespace

class ScanTest : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void matches() {
        Scanning b;
        QCOMPARE(b.said("N-118"), QStringLiteral("ok N-118"));
        QCOMPARE(b.said("  N-118\r\n"), QStringLiteral("ok N-118")); // the scanner's ending
        QCOMPARE(b.said("bay-1", "mount", 1), QStringLiteral("ok bay-1"));
    }
    void explains_data() {
        QTest::addColumn<QString>("scanned");
        QTest::addColumn<QString>("said");
        QTest::newRow("spool") << "S-40" << "S-40 is a spool of acr; expected nozzle N-118";
        QTest::newRow("nozzle") << "N-031" << "N-031 is a nozzle of type x03: type h04 is wanted; expected nozzle N-118";
        QTest::newRow("printer") << "bay-2" << "bay-2 is a printer; expected nozzle N-118";
        QTest::newRow("place") << "rack-a" << "rack-a is a place; expected nozzle N-118";
        QTest::newRow("job") << "7412" << "7412 is a job; expected nozzle N-118";
        QTest::newRow("tool") << "tweezers" << "tweezers is the tool Nozzle tweezers; expected nozzle N-118";
        QTest::newRow("material") << "abs" << "abs is the material Example abs, not a package of it; expected nozzle N-118";
        QTest::newRow("person") << "ML" << "ML is a person; expected nozzle N-118";
        QTest::newRow("case") << "n-118" << "“n-118” is written differently from N-118: capitals count; expected nozzle N-118";
        QTest::newRow("unknown") << "4711" << "4711 is not known here; expected nozzle N-118";
        QTest::newRow("part of it") << "N-11" << "N-11 is not known here; expected nozzle N-118";
        QTest::newRow("mounted elsewhere") << "N-200" << "N-200 is a nozzle of type h04: it is mounted on Bay 5; expected nozzle N-118";
        QTest::newRow("nothing") << "  " << "Nothing was scanned; expected nozzle N-118";
    }
    void explains() {
        QFETCH(QString, scanned);
        QFETCH(QString, said);
        Scanning b;
        QCOMPARE(b.said(scanned), said);
    }
    // One that serves as well as the chosen one is accepted; the shop's rule says which.
    void anotherOfTheSame() {
        Scanning b;
        Nozzle n;
        n.serial = "N-119";
        n.type = "h04";
        QVERIFY(b.happen(act::NozzleOpening{n}, morning));
        QCOMPARE(b.said("N-119"), QStringLiteral("ok N-119"));
    }
    void longRubbishIsCut() {
        Scanning b;
        QVERIFY(b.said(QString(5000, QLatin1Char('x'))).size() < 100);
    }
    void wrongQuestion() {
        Scanning b;
        QVERIFY(b.said("N-118", "mount", 2).startsWith("This step wants no such scan"));
        QVERIFY(b.said("N-118", "mount", -1).startsWith("This step wants no such scan"));
        QVERIFY(b.said("N-118", "nonsense").contains("not a step"));
    }
    void whereNothingCouldBePlanned() {
        Scanning b;
        QCOMPARE(b.said("rack-a", "fetch", 0), QStringLiteral("ok rack-a"));
        QVERIFY(b.said("N-118", "fetch", 0).contains("is a nozzle"));
        QCOMPARE(b.said("S-40", "fetch", 1), QStringLiteral("ok S-40")); // comes off: whatever it is
        QVERIFY(b.said("S-40", "fetch", 2).contains("abs is wanted"));  // goes in: of the wanted material
    }
};

INTERLUDE_TEST(ScanTest)
#include "scan_test.moc"
