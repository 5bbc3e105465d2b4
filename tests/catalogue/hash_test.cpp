// The catalogue's hash is over what the catalogue owns.
#include "tests/catalogue/folders.h"
#include "tests/harness/run_tests.h"

#include <QTest>

using namespace interlude;
using namespace interlude::tests;

namespace {
QString hashOf(const QMap<QString, QString>& texts) {
    const CatalogueReading r = readFleetTexts(texts);
    return r.catalogue ? r.catalogue->hash : linesOf(r.problems);
}
} // namespace

class HashTest : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void isSha256() {
        const QString hash = hashOf(baseTexts());
        QCOMPARE(hash.size(), 64);
        QVERIFY(hash == hash.toLower());
        QCOMPARE(hashOf(baseTexts()), hash);
    }
    void folderAndTextsAgree() {
        QCOMPARE(readFleetFolder(catalogueTests() + QStringLiteral("/base")).catalogue->hash, hashOf(baseTexts()));
    }
    void staysThroughWhatTheCatalogueDoesNotOwn_data() {
        QTest::addColumn<QString>("file");
        QTest::addColumn<QString>("from");
        QTest::addColumn<QString>("to");
        QTest::newRow("spool weighed") << "spools.yaml"
                                       << "grams: 640"
                                       << "grams: 500";
        QTest::newRow("nozzle unit") << "nozzles.yaml"
                                     << "run-cm3: 412"
                                     << "run-cm3: 413";
        QTest::newRow("setup") << "setups.yaml"
                               << "platform-cover: used"
                               << "platform-cover: new";
        QTest::newRow("job") << "jobs.yaml"
                             << "quantity: 12"
                             << "quantity: 11";
        QTest::newRow("comment") << "fleet.yaml"
                                 << "currency: EUR"
                                 << "currency: EUR    # euro";
        QTest::newRow("quotes") << "fleet.yaml"
                                << "currency: EUR"
                                << "currency: \"EUR\"";
        QTest::newRow("order of keys") << "fleet.yaml"
                                       << "format: 1\nid: small-yard"
                                       << "id: small-yard\nformat: 1";
        QTest::newRow("line ends") << "bay-2.csv"
                                   << "\n"
                                   << "\r\n";
    }
    void staysThroughWhatTheCatalogueDoesNotOwn() {
        QFETCH(QString, file);
        QFETCH(QString, from);
        QFETCH(QString, to);
        QCOMPARE(hashOf(baseWith(file, from, to)), hashOf(baseTexts()));
    }
    void changesWithTheCatalogue_data() {
        QTest::addColumn<QString>("file");
        QTest::addColumn<QString>("from");
        QTest::addColumn<QString>("to");
        QTest::newRow("rule") << "fleet.yaml"
                              << "clean-out-margin-k: 10"
                              << "clean-out-margin-k: 12";
        QTest::newRow("material") << "materials.yaml"
                                  << "price-per-kg: 90"
                                  << "price-per-kg: 91";
        QTest::newRow("nozzle type") << "nozzles.yaml"
                                     << "max-c: 450, melt-zone-mm3: 400, prime"
                                     << "max-c: 440, melt-zone-mm3: 400, prime";
        QTest::newRow("step") << "procedures.yaml"
                              << "minutes: 12"
                              << "minutes: 13";
        QTest::newRow("table") << "bay-2.csv"
                               << "start,A,25"
                               << "start,A,26";
        QTest::newRow("order of people's roles") << "fleet.yaml"
                                                 << "[technician, planner]"
                                                 << "[planner, technician]";
    }
    void changesWithTheCatalogue() {
        QFETCH(QString, file);
        QFETCH(QString, from);
        QFETCH(QString, to);
        const QString changed = hashOf(baseWith(file, from, to));
        QCOMPARE(changed.size(), 64);
        QVERIFY(changed != hashOf(baseTexts()));
    }
    void lookupsFindOrAnswerNull() {
        const CatalogueReading r = readFleetTexts(baseTexts());
        const Catalogue& c = *r.catalogue;
        QCOMPARE(c.material(QStringLiteral("pa-black"))->polymer, QStringLiteral("PA12"));
        QCOMPARE(c.nozzleType(QStringLiteral("h04"))->name, QStringLiteral("hardened 0.4"));
        QCOMPARE(c.printer(QStringLiteral("bay-1"))->name, QStringLiteral("Bay 1"));
        QCOMPARE(c.typeOf(QStringLiteral("bay-2"))->id, QStringLiteral("plain"));
        QCOMPARE(c.person(QStringLiteral("ML"))->name, QStringLiteral("Mara Lind"));
        QCOMPARE(c.tool(QStringLiteral("tweezers"))->quantity, 2);
        QCOMPARE(c.consumable(QStringLiteral("wipe"))->place, QStringLiteral("bench"));
        QCOMPARE(c.instrument(QStringLiteral("vernier"))->due, QDate(2027, 1, 10));
        QCOMPARE(c.place(QStringLiteral("cabinet-1"))->dry, true);
        QCOMPARE(c.step(QStringLiteral("purge-part"))->duration, DurationKind::Purge);
        const QString none = QStringLiteral("none");
        QVERIFY(!c.material(none) && !c.nozzleType(none) && !c.printer(none) && !c.printerType(none) &&
                !c.typeOf(none));
        QVERIFY(!c.person(none) && !c.tool(none) && !c.consumable(none) && !c.instrument(none) && !c.place(none) &&
                !c.step(none));
        QVERIFY2(!c.material(QStringLiteral("PA-black")), "ids are case-sensitive");
    }
};

INTERLUDE_TEST(HashTest)
#include "hash_test.moc"
