// The shop's lists as CSV: what the import reads of them is what the shop holds.

#include "model/catalogue/csv.h"
#include "model/intake/list_csv.h"
#include "tests/harness/run_tests.h"
#include "tests/window/opened_shop.h"

using namespace interlude;
using namespace interlude::tests;

class ListCsvTest final : public QObject {
    Q_OBJECT
private:
    std::unique_ptr<OpenedShop> o;
    const Shop& shop() const { return o->workbench->shop(); }

    Intake readBack(EntryKind kind) { return readIntake(shop(), o->workbench->now(), kind, QStringLiteral("list.csv"), listCsv(kind, shop())); }
    /// Value of that column in the first row with that id.
    QString cell(EntryKind kind, const QString& id, const QString& column) {
        Problems problems;
        const CsvTable table = readCsv({}, QString::fromUtf8(listCsv(kind, shop())), problems);
        for (const CsvRecord& r : table.records)
            for (std::size_t i = 0; i < table.header.size() && r.fields[0].text == id; ++i)
                if (table.header[i].text == column) return r.fields[i].text;
        return QStringLiteral("not there");
    }

private Q_SLOTS:
    void init() { o = openedShop(); }

    void theImportFindsNothingNewAndNothingDifferent_data() {
        QTest::addColumn<int>("kind");
        for (const EntryKind k : {EntryKind::Jobs, EntryKind::Spools, EntryKind::Nozzles}) QTest::newRow(qPrintable(wordOf(k))) << static_cast<int>(k);
    }
    void theImportFindsNothingNewAndNothingDifferent() {
        QFETCH(int, kind);
        const auto k = static_cast<EntryKind>(kind);
        const Intake in = readBack(k);
        QStringList said;
        for (const Problem& p : in.problems) said.append(p.text());
        QVERIFY2(said.isEmpty(), qPrintable(said.join(QLatin1Char('\n'))));
        QCOMPARE(in.count(), 0);
        QVERIFY(in.known.size() > 30);
        const qsizetype all = k == EntryKind::Jobs ? shop().allJobs().size() : k == EntryKind::Spools ? shop().allSpools().size() : shop().allNozzles().size();
        QCOMPARE(in.known.size(), all);
    }
    void whatOnlyTheShopKnowsStandsBehind() {
        const PrinterNow* printer = shop().printer(QStringLiteral("bay-1"));
        QCOMPARE(cell(EntryKind::Nozzles, printer->part.nozzle, QStringLiteral("printer")), QStringLiteral("bay-1"));
        QVERIFY(cell(EntryKind::Nozzles, printer->part.nozzle, QStringLiteral("place")).isEmpty());
        QCOMPARE(cell(EntryKind::Jobs, QStringLiteral("7402"), QStringLiteral("state")), QStringLiteral("open"));
        QVERIFY(o->workbench->perform(act::JobWithdrawn{QStringLiteral("7402"), QStringLiteral("cancelled")}, o->somebody()));
        QCOMPARE(cell(EntryKind::Jobs, QStringLiteral("7402"), QStringLiteral("state")), QStringLiteral("withdrawn"));
    }
};

INTERLUDE_TEST(ListCsvTest)
#include "list_csv_test.moc"
