// Jobs from CSV: everything that stands against a file is said at once, and then nothing comes in.

#include "tests/harness/run_tests.h"
#include "tests/plan_page/opened_page.h"
#include "views/plan/import_dialog.h"

using namespace interlude;
using namespace interlude::tests;

namespace {
const QByteArray good = "id,title,quantity,due,late-cost-per-hour,printers,name,part,support,part-nozzle,support-nozzle,print-minutes,part-cm3,support-cm3\r\n"
                        "7801,\"hinge, left\",12,2026-03-04T14:00,12,,fine,abs-ivory,acr-clear,b04,s04,240,50,11\r\n"
                        "7801,,,,,,coarse,abs-ivory,acr-clear,b06,s06,120,52,12\r\n"
                        "7802,cover,1,,,bay-1; bay-2,fine,abs-ivory,,b04,,bay-1: 60; bay-2: 70,20,\r\n";
} // namespace

class PageImportTest final : public QObject {
    Q_OBJECT
private:
    std::unique_ptr<OpenedPage> o;
    std::unique_ptr<QTemporaryDir> dir;

    ImportDialog* open(const QByteArray& bytes) {
        QFile f(dir->filePath("jobs.csv"));
        if (!f.open(QIODevice::WriteOnly)) return nullptr;
        f.write(bytes);
        f.close();
        o->page->actions().importFile(f.fileName());
        QCoreApplication::processEvents();
        return o->page->findChild<ImportDialog*>();
    }

private Q_SLOTS:
    void init() {
        o = std::make_unique<OpenedPage>();
        dir = std::make_unique<QTemporaryDir>();
        QVERIFY2(o->page, qPrintable(o->problems));
    }
    void cleanup() { o.reset(); }

    void goodRowsComeIn() {
        const qint64 before = o->shop.events();
        ImportDialog* d = open(good);
        QVERIFY(d);
        QVERIFY2(d->importButton()->isEnabled(), qPrintable(d->problems()->toPlainText()));
        QCOMPARE(d->reading().jobs.size(), 2);
        QTest::mouseClick(d->importButton(), Qt::LeftButton);
        OpenedPage::settle();
        QCOMPARE(o->shop.events(), before + 2);
        const Job* job = o->shop.bench->shop().job("7801");
        QVERIFY(job);
        QCOMPARE(job->title, QString("hinge, left"));
        QCOMPARE(job->quantity, 12);
        QCOMPARE(job->variants.size(), 2);
        QCOMPARE(job->variants[1].name, QString("coarse"));
        QCOMPARE(job->variants[1].setup.partNozzle, QString("b06"));
        QVERIFY(job->due);
        QCOMPARE(iso(*job->due), QString("2026-03-04T13:00:00Z")); // Vienna
        const Job* other = o->shop.bench->shop().job("7802");
        QCOMPARE(other->printers, QStringList({"bay-1", "bay-2"}));
        QCOMPARE(other->variants[0].printMinutes("bay-2"), Minutes(70));
        QVERIFY(o->row(o->desk().problem().jobNumbers.value("7801")));
        QVERIFY2(o->page->said().contains("2 job"), qPrintable(o->page->said()));
    }

    void aBrokenFileImportsNothingAndSaysWhere() {
        const QString known = o->shop.bench->shop().jobs().first().id;
        const qint64 before = o->shop.events();
        QByteArray bad = good;
        bad += "7803,lid,many,2026-13-01,,,fine,abs-ivroy,,b04,,60,20,\r\n";
        bad += known.toUtf8() + ",again,1,,,,fine,abs-ivory,,b04,,60,20,\r\n";
        bad += "7804,too,few\r\n";
        ImportDialog* d = open(bad);
        QVERIFY(d);
        const QString said = d->problems()->toPlainText();
        for (const QString wanted : {"jobs.csv:5:10: ", "jobs.csv:5:15: ", "did you mean `abs-ivory`?", "jobs.csv:6:1: ", "is in the shop already", "jobs.csv:7:1: "})
            QVERIFY2(said.contains(wanted), qPrintable(wanted + "\n" + said));
        QVERIFY(!d->importButton()->isEnabled());
        QCOMPARE(d->reading().jobs.size(), 0);
        QTest::mouseClick(d->importButton(), Qt::LeftButton);
        QCOMPARE(o->shop.events(), before);
        QVERIFY(!o->shop.bench->shop().job("7801"));
        d->close();
    }

    void brokenFilesAreRefusedWithAReason_data() {
        QTest::addColumn<QByteArray>("bytes");
        QTest::addColumn<QString>("said");
        QTest::newRow("empty") << QByteArray() << "no job";
        QTest::newRow("header only") << good.left(good.indexOf('\n') + 1) << "no job";
        QTest::newRow("no id") << QByteArray("title,part\r\nx,y\r\n") << "no column `id`";
        QTest::newRow("unknown column") << QByteArray("id,materiel\r\n1,2\r\n") << "no column `materiel`";
        QTest::newRow("column twice") << QByteArray("id,id\r\n1,2\r\n") << "there twice";
        QTest::newRow("open quote") << QByteArray("id,title\r\n1,\"never ends\r\n") << "jobs.csv:2";
        QTest::newRow("not text") << QByteArray("id\xff\xfe\x00,x", 8) << "jobs.csv";
        QTest::newRow("no variant") << QByteArray("id,title\r\n7900,nothing\r\n") << "print-minutes";
        QTest::newRow("contradiction") << good + "7801,other,,,,,third,abs-ivory,,b04,,60,20,\r\n" << "another one than in the job's first row";
        QTest::newRow("huge") << QByteArray(good).replace("240", "9999999999") << "print-minutes";
        QTest::newRow("negative") << QByteArray(good).replace("240", "-5") << "print-minutes";
    }
    void brokenFilesAreRefusedWithAReason() {
        QFETCH(QByteArray, bytes);
        QFETCH(QString, said);
        const JobImport in = readJobsCsv(o->shop.bench->shop(), "jobs.csv", bytes);
        QStringList lines;
        for (const Problem& p : in.problems) lines << p.text();
        QVERIFY2(!in.isGood(), "refused");
        QVERIFY2(lines.join('\n').contains(said), qPrintable(said + "\n" + lines.join('\n')));
    }

    void aHundredThousandJobsAreRefusedAtOnce() {
        QByteArray many = "id,name,part,part-nozzle,print-minutes,part-cm3\r\n";
        for (int i = 0; i < 100000; ++i) many += "J" + QByteArray::number(i) + ",fine,abs-ivory,b04,60,20\r\n";
        QElapsedTimer timer;
        timer.start();
        const JobImport in = readJobsCsv(o->shop.bench->shop(), "many.csv", many);
        QVERIFY(!in.isGood());
        QVERIFY2(in.problems.first().text().contains("100000 rows"), qPrintable(in.problems.first().text()));
        QVERIFY2(timer.elapsed() < 5000, qPrintable(QString::number(timer.elapsed())));
    }

    void nobodySignedInImportsNothing() {
        o->shop.bench->signIn({});
        const qint64 before = o->shop.events();
        ImportDialog* d = open(good);
        QVERIFY(!d->importButton()->isEnabled());
        const auto done = enterJobs(*o->shop.bench, d->reading().jobs);
        QVERIFY(!done);
        QCOMPARE(o->shop.events(), before);
        d->close();
    }
};

INTERLUDE_TEST(PageImportTest)
#include "page_import_test.moc"
