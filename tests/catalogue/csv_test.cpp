// RFC 4180, its section 2 rule by rule, and what the reader says when a table breaks them.
#include "model/catalogue/csv.h"
#include "tests/harness/run_tests.h"

#include <QRandomGenerator>
#include <QTest>

using namespace interlude;

namespace {
struct Read {
    CsvTable table;
    Problems problems;
    explicit Read(const QString& text) { table = readCsv(QStringLiteral("t.csv"), text, problems); }
    QStringList row(std::size_t i) const {
        QStringList out;
        for (const CsvField& f : table.records.at(i).fields) out.append(f.text);
        return out;
    }
    QString said() const {
        QStringList out;
        for (const Problem& p : problems) out.append(p.text());
        return out.join(QLatin1Char('\n'));
    }
};
} // namespace

class CsvTest : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void recordsAndHeader() {
        const Read r(QStringLiteral("a,b\r\n1,2\r\n3,4\r\n"));
        QCOMPARE(r.said(), QString());
        QCOMPARE(r.table.header.size(), 2u);
        QCOMPARE(r.table.records.size(), 2u);
        QCOMPARE(r.row(1), QStringList({"3", "4"}));
    }
    void lineEnds_data() {
        QTest::addColumn<QString>("end");
        QTest::newRow("CRLF") << "\r\n";
        QTest::newRow("LF") << "\n";
        QTest::newRow("CR") << "\r";
    }
    void lineEnds() {
        QFETCH(QString, end);
        const Read r(QStringLiteral("a,b") + end + QStringLiteral("1,2") + end + end + QStringLiteral("3,4"));
        QCOMPARE(r.said(), QString());
        QCOMPARE(r.table.records.size(), 2u);
        QCOMPARE(r.table.records[1].line, 4);
    }
    void quotesCommasAndNewlines() {
        const Read r(QStringLiteral("a,b\n\"x, \"\"y\"\"\",\"two\r\nlines\"\nlast,\"\"\n"));
        QCOMPARE(r.said(), QString());
        QCOMPARE(r.row(0), QStringList({"x, \"y\"", "two\nlines"}));
        QCOMPARE(r.row(1), QStringList({"last", ""}));
        QCOMPARE(r.table.records[1].line, 4);
        QCOMPARE(r.table.records[1].fields[1].column, 6);
    }
    void spacesBelongToTheField() { QCOMPARE(Read(QStringLiteral("a,b\n 1 , 2\n")).row(0), QStringList({" 1 ", " 2"})); }
    void emptyFieldsCount() { QCOMPARE(Read(QStringLiteral("a,b,c\n,,\n")).row(0), QStringList({"", "", ""})); }
    void columnsCountCharacters() {
        const Read r(QStringLiteral("ä€😀,b\n1\n"));
        QCOMPARE(r.table.header[1].column, 5);
    }
    void nothing() {
        const Read r{QString()};
        QVERIFY(r.table.header.empty());
        QCOMPARE(r.said(), QString());
    }
    void wrongNumberOfFields() {
        const Read r(QStringLiteral("a,b\n1\n2,3\n4,5,6\n"));
        QCOMPARE(r.said(), QStringLiteral("t.csv:2:1: this record has 1 fields; the header names 2\n"
                                          "t.csv:4:1: this record has 3 fields; the header names 2"));
        QCOMPARE(r.table.records.size(), 1u);
    }
    void quoteOutOfPlace() {
        QCOMPARE(Read(QStringLiteral("a,b\n1,x\"y\n")).said(),
                 QStringLiteral("t.csv:2:4: a quote inside a field that is not quoted; quote the whole field and double the quotes in it"));
    }
    void textAfterAQuotedField() {
        QCOMPARE(Read(QStringLiteral("a,b\n\"1\"x,2\n")).said(),
                 QStringLiteral("t.csv:2:4: something follows the closing quote; a comma or the end of the line is wanted here"));
    }
    void aQuoteNeverClosedIsBlamedWhereItOpens() {
        QCOMPARE(Read(QStringLiteral("a,b\n1,\"two\nthree\n")).said(),
                 QStringLiteral("t.csv:2:3: this quote is never closed; close it, or remove it"));
    }
    void writtenFieldsReadBack() {
        QRandomGenerator random(11);
        const QString letters = QStringLiteral("ab,\"\n 'ä");
        for (int i = 0; i < 400; ++i) {
            QString first, second;
            for (int n = random.bounded(6); n > 0; --n) first += letters[random.bounded(static_cast<int>(letters.size()))];
            for (int n = random.bounded(6); n > 0; --n) second += letters[random.bounded(static_cast<int>(letters.size()))];
            const Read r(QStringLiteral("a,b\n") + csvField(first) + QLatin1Char(',') + csvField(second) + QStringLiteral("\r\n"));
            QCOMPARE(r.said(), QString());
            QCOMPARE(r.row(0), QStringList({first, second}));
        }
    }
    void nothingIsReadAsAFormula() {
        QCOMPARE(csvField(QStringLiteral("=1+1")), QStringLiteral("'=1+1"));
        QCOMPARE(csvField(QStringLiteral("@cmd")), QStringLiteral("'@cmd"));
        QCOMPARE(csvField(QStringLiteral("-12.5")), QStringLiteral("-12.5"));
    }
};

INTERLUDE_TEST(CsvTest)
#include "csv_test.moc"
