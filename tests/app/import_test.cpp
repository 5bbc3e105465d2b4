// `interlude import` as a script calls it: text, exit codes, and a ledger in which nothing stands by halves.

#include "tests/harness/program.h"
#include "tests/harness/run_tests.h"

#include <QDir>
#include <QFile>
#include <QTemporaryDir>
#include <QTest>

using namespace interlude::tests;

namespace {

const QByteArray spools = "id,material,lot,grams,place\nS-901,abs-ivory,B20-0500,1000,shelf-1\nS-902,pc-clear,H60,,shelf-1\n";

} // namespace

class ImportTest final : public QObject {
    Q_OBJECT
private:
    std::unique_ptr<QTemporaryDir> m_dir;

    QString path(const QString& name) const { return m_dir->filePath(name); }
    QString written(const QByteArray& bytes, const QString& name = QStringLiteral("in.csv")) {
        QFile f(path(name));
        if (!f.open(QIODevice::WriteOnly) || f.write(bytes) != bytes.size()) return {};
        return f.fileName();
    }
    Ran import(const QString& what, const QString& file, const QStringList& more = {}) {
        return call(QStringList{QStringLiteral("import"), QStringLiteral(INTERLUDE_SOURCE_DIR "/sample-fleet"), what, file,
                                QStringLiteral("--ledger"), path(QStringLiteral("l.sqlite"))} + more);
    }

private Q_SLOTS:
    void init() { m_dir = std::make_unique<QTemporaryDir>(); }

    void allComeInOrNone() {
        const Ran in = import("spools", written(spools));
        QVERIFY2(in.code == 0, qPrintable(in.err));
        QVERIFY2(in.out.contains("  S-901  abs-ivory  lot B20-0500  1000 g  shelf-1"), qPrintable(in.out));
        QVERIFY2(in.out.contains("  S-902  pc-clear  lot H60  unknown mass  shelf-1"), qPrintable(in.out));
        QVERIFY2(in.out.contains("in.csv: 2 new, 0 already there and unchanged, 0 already there but different in the file"), qPrintable(in.out));
        QVERIFY2(in.out.contains("Imported 2 spools, all in event "), qPrintable(in.out));
        const Ran again = import("spools", written(spools));
        QCOMPARE(again.code, 0);
        QVERIFY2(again.out.contains("in.csv: 0 new, 2 already there and unchanged"), qPrintable(again.out));
        QVERIFY2(again.out.contains("Nothing to import."), qPrintable(again.out));
        QCOMPARE(call({"verify", INTERLUDE_SOURCE_DIR "/sample-fleet", "--ledger", path("l.sqlite")}).code, 0);
    }

    void aFileAtFaultLeavesNoTrace() {
        const Ran in = import("spools", written(spools + "S-903,abs-ivroy,,x,\n"));
        QCOMPARE(in.code, 1);
        for (const QString wanted : {"in.csv:4:1: `lot` is missing", "in.csv:4:7: there is no material `abs-ivroy`; did you mean `abs-ivory`?", "in.csv:4:18: `grams` is `x`", "Nothing is imported: 3 things stand against the file"})
            QVERIFY2(in.err.contains(wanted), qPrintable(wanted + "\n" + in.err));
        QVERIFY(!QFile::exists(path("l.sqlite")));
        QVERIFY2(in.out.isEmpty(), qPrintable(in.out));
    }

    void aDifferenceIsWarnedOfAndNotApplied() {
        const Ran in = import("nozzles", written("serial,type\nN-001,b06\nN-901,h04\n"));
        QCOMPARE(in.code, 0);
        QVERIFY2(in.err.contains("in.csv:2:1: warning: nozzle `N-001` is in the shop already and differs (type: b06 in the file, b04 in the shop)"), qPrintable(in.err));
        QVERIFY2(in.out.contains("Imported 1 nozzle, all in event "), qPrintable(in.out));
        QVERIFY2(!import("nozzles", written("serial,type\nN-001,b04\n")).err.contains("differs"), "the shop's own type stands");
    }

    void aTrialWritesNothing() {
        const Ran in = import("jobs", written("id,title,name,part,part-nozzle,print-minutes,part-cm3\n7801,lid,fine,abs-ivory,b04,60,20\n"), {"--dry-run"});
        QVERIFY2(in.code == 0, qPrintable(in.err));
        QVERIFY2(in.out.contains("  7801  lid  x1  1 variant") && in.out.contains("Tried only: nothing is imported."), qPrintable(in.out));
        QVERIFY(!QFile::exists(path("l.sqlite")));
    }

    void whoSignsMustBeKnown() {
        QCOMPARE(import("spools", written(spools), {"--who", "ZZ"}).code, 2);
        QVERIFY(!QFile::exists(path("l.sqlite")));
        QCOMPARE(import("spools", written(spools), {"--who", "AV"}).code, 0);
    }

    void wrongCalls() {
        QCOMPARE(import("printers", written(spools)).code, 2);
        QCOMPARE(call({"import", "fleet", "spools"}).code, 2);
        const Ran none = import("spools", path("none.csv"));
        QCOMPARE(none.code, 1);
        QVERIFY2(none.err.contains("none.csv: there is no such file; check the name: "), qPrintable(none.err));
    }
};

INTERLUDE_TEST(ImportTest)
#include "import_test.moc"
