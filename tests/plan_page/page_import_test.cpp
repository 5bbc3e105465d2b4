// Jobs from CSV: everything that stands against a file is said at once, and then nothing comes in.

#include "tests/harness/run_tests.h"
#include "tests/plan_page/opened_page.h"
#include "views/intake/import_dialog.h"

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
        QTRY_VERIFY(!d->isReading());
        QVERIFY2(d->importButton()->isEnabled(), qPrintable(d->problems()->toPlainText()));
        QCOMPARE(d->reading().jobs.size(), 2);
        QTest::mouseClick(d->importButton(), Qt::LeftButton);
        OpenedPage::settle();
        QCOMPARE(o->shop.events(), before + 1); // one event for the whole file
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
        QVERIFY2(o->page->said().contains("2 jobs imported"), qPrintable(o->page->said()));
    }

    void aBrokenFileImportsNothingAndSaysWhere() {
        const qint64 before = o->shop.events();
        QByteArray bad = good;
        bad += "7803,lid,many,2026-13-01,,,fine,abs-ivroy,,b04,,60,20,\r\n";
        bad += "7804,too,few\r\n";
        ImportDialog* d = open(bad);
        QVERIFY(d);
        QTRY_VERIFY(!d->isReading());
        const QString said = d->problems()->toPlainText();
        for (const QString wanted : {"jobs.csv:5:10: ", "jobs.csv:5:15: ", "did you mean `abs-ivory`?", "jobs.csv:6:1: "})
            QVERIFY2(said.contains(wanted), qPrintable(wanted + "\n" + said));
        QVERIFY(!d->importButton()->isEnabled());
        QCOMPARE(d->reading().jobs.size(), 0);
        QTest::mouseClick(d->importButton(), Qt::LeftButton);
        QCOMPARE(o->shop.events(), before);
        QVERIFY(!o->shop.bench->shop().job("7801"));
        d->close();
    }

    void nobodySignedInImportsNothing() {
        o->shop.bench->signIn({});
        const qint64 before = o->shop.events();
        ImportDialog* d = open(good);
        QTRY_VERIFY(!d->isReading());
        QCOMPARE(d->reading().count(), 2); // what would come in may be looked at
        QVERIFY(!d->importButton()->isEnabled());
        QVERIFY(d->importButton()->toolTip().contains("Sign in"));
        QCOMPARE(o->shop.events(), before);
        d->close();
    }
};

INTERLUDE_TEST(PageImportTest)
#include "page_import_test.moc"
