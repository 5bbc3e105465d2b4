// The dialog of an import, over the pages of spools and nozzles and with files that are good, bad, known and large.

#include "tests/harness/accessible.h"
#include "tests/harness/run_tests.h"
#include "tests/window/opened_shop.h"
#include "views/intake/import_dialog.h"
#include "views/lists/list_view.h"
#include "views/nozzles/nozzles_page.h"
#include "views/stock/stock_page.h"

#include <QtWidgets>

using namespace interlude;
using namespace interlude::tests;

namespace {
const QByteArray spools = "id,material,lot,grams,place\r\nS-901,abs-ivory,B20-0500,1000,shelf-1\r\nS-902,pc-clear,H60,,shelf-1\r\n";

QByteArray many(int rows) {
    QByteArray out = "serial,type,place\n";
    for (int i = 0; i < rows; ++i) out += "M-" + QByteArray::number(i) + ",h04,rack-a\n";
    return out;
}
} // namespace

class ImportDialogTest final : public QObject {
    Q_OBJECT
private:
    std::unique_ptr<OpenedShop> o;
    std::unique_ptr<QTemporaryDir> dir;

    QString written(const QByteArray& bytes, const QString& name = QStringLiteral("in.csv")) {
        QFile f(dir->filePath(name));
        if (!f.open(QIODevice::WriteOnly) || f.write(bytes) != bytes.size()) return {};
        return f.fileName();
    }
    std::unique_ptr<ImportDialog> open(EntryKind kind, const QByteArray& bytes) {
        auto d = std::make_unique<ImportDialog>(*o->bench, kind, written(bytes));
        d->setAttribute(Qt::WA_DeleteOnClose, false);
        d->open();
        return d;
    }
    static QString said(ImportDialog& d) {
        QStringList out;
        for (const QLabel* l : d.findChildren<QLabel*>()) out << l->text();
        return out.join(QLatin1Char('\n'));
    }
    /// Begins the import of a page by its button, and answers the question for the file.
    ImportDialog* importFrom(QWidget& page, const QString& file) {
        for (QPushButton* b : page.findChildren<QPushButton*>())
            if (b->text() == QStringLiteral("&Import CSV…")) b->click();
        auto* files = page.findChild<QFileDialog*>(QStringLiteral("importFileDialog"));
        if (!files) return nullptr;
        Q_EMIT files->fileSelected(file);
        files->close();
        return page.findChild<ImportDialog*>();
    }

private Q_SLOTS:
    void init() {
        dir = std::make_unique<QTemporaryDir>();
        o = openedShop();
        o->bench->signIn(o->somebody());
    }

    void spoolsComeInFromTheirPage() {
        StockPage page(*o->bench);
        page.show();
        const int before = page.list()->visibleRows();
        const qint64 events = o->events();
        ImportDialog* d = importFrom(page, written(spools));
        QVERIFY(d);
        QTRY_VERIFY(!d->isReading());
        QVERIFY2(said(*d).contains("2 spools can be imported."), qPrintable(said(*d)));
        QCOMPARE(d->importButton()->text(), QString("Import 2 spools"));
        d->importButton()->click();
        QCOMPARE(o->events(), events + 1);
        QCOMPARE(page.list()->visibleRows(), before + 2);
        bool told = false;
        for (const QLabel* l : page.findChildren<QLabel*>()) told = told || l->text().contains("2 spools imported from in.csv.");
        QVERIFY(told);
    }

    void nozzlesComeInFromTheirPage() {
        NozzlesPage page(*o->bench);
        page.show();
        ImportDialog* d = importFrom(page, written("serial,type,place\nN-901,h04,rack-a\n"));
        QVERIFY(d);
        QTRY_VERIFY(!d->isReading());
        QCOMPARE(d->importButton()->text(), QString("Import 1 nozzle"));
        d->importButton()->click();
        QVERIFY(o->bench->shop().stock().nozzles.contains("N-901"));
    }

    void everythingWrongIsShownAndNothingCanBeImported() {
        const auto d = open(EntryKind::Spools, spools + "S-903,abs-ivroy,,x,shelf-9\n");
        QTRY_VERIFY(!d->isReading());
        const QString text = d->problems()->toPlainText();
        for (const QString wanted : {"in.csv:4:1: `lot` is missing", "in.csv:4:7: there is no material `abs-ivroy`", "in.csv:4:18: `grams` is `x`", "in.csv:4:20: there is no place `shelf-9`"})
            QVERIFY2(text.contains(wanted), qPrintable(wanted + "\n" + text));
        QVERIFY2(said(*d).contains("■ 4 things stand against this file; nothing of it is imported."), qPrintable(said(*d)));
        QVERIFY(!d->importButton()->isEnabled());
    }

    void knownEntriesAreToldApart() {
        const auto d = open(EntryKind::Spools, spools + "S-101,abs-ivory,B20-0418,,\nS-102,abs-ivory,B20-0999,,\n");
        QTRY_VERIFY(!d->isReading());
        const QString all = said(*d);
        for (const QString wanted : {"2 spools can be imported.", "1 spool already there, unchanged.", "1 spool already there but different in the file"})
            QVERIFY2(all.contains(wanted), qPrintable(wanted + "\n" + all));
        QVERIFY(d->problems()->toPlainText().contains("in.csv:5:1: warning: spool `S-102` is in the shop already and differs (lot: B20-0999 in the file, B20-0418 in the shop)"));
        auto* list = d->findChild<lists::ListView*>();
        QCOMPARE(list->visibleRows(), 4);
        QVERIFY(d->importButton()->isEnabled());
    }

    void nothingNewCannotBeImported() {
        const auto d = open(EntryKind::Spools, "id,material,lot\nS-101,abs-ivory,B20-0418\n");
        QTRY_VERIFY(!d->isReading());
        QVERIFY2(said(*d).contains("There is nothing new in this file. 1 spool already there, unchanged."), qPrintable(said(*d)));
        QVERIFY(!d->importButton()->isEnabled());
    }

    void nobodySignedInMayLook() {
        o->bench->signIn({});
        const auto d = open(EntryKind::Spools, spools);
        QTRY_VERIFY(!d->isReading());
        QVERIFY(!d->importButton()->isEnabled());
        QVERIFY(said(*d).contains("Sign in"));
        o->bench->signIn(o->somebody());
        QVERIFY(d->importButton()->isEnabled());
    }

    void whatTheShopRefusesNowIsSaid() {
        const auto d = open(EntryKind::Spools, spools);
        QTRY_VERIFY(!d->isReading());
        QVERIFY(o->bench->perform(act::SpoolReceived{d->reading().spools.first()})); // meanwhile, by another hand
        const qint64 before = o->events();
        d->importButton()->click();
        QVERIFY(d->isVisible());
        QVERIFY2(said(*d).contains("There is a spool S-901 already"), qPrintable(said(*d)));
        QCOMPARE(o->events(), before);
        QVERIFY(!o->bench->shop().stock().spools.contains("S-902"));
    }

    void theWindowLivesWhileALargeFileIsRead() {
        const auto d = open(EntryKind::Nozzles, many(static_cast<int>(mostRowsAtOnce)));
        int beats = 0;
        QTimer beat;
        connect(&beat, &QTimer::timeout, this, [&] { ++beats; });
        beat.start(0);
        QTRY_VERIFY_WITH_TIMEOUT(!d->isReading(), 120000);
        QVERIFY2(d->reading().isGood(), qPrintable(d->problems()->toPlainText().left(500)));
        QCOMPARE(d->importButton()->text(), QString("Import 10000 nozzles"));
        qInfo("%d beats of the window while 10,000 rows were read", beats);
        const qint64 before = o->events();
        d->importButton()->click();
        QCOMPARE(o->events(), before + 1);
    }

    void aHundredThousandRowsEndInAClearMessage() {
        const auto d = open(EntryKind::Nozzles, many(100'000));
        QTRY_VERIFY_WITH_TIMEOUT(!d->isReading(), 120000);
        QVERIFY2(d->problems()->toPlainText().contains("100000 rows are more than can be imported at once; split it into files of at most 10000 rows"),
                 qPrintable(d->problems()->toPlainText()));
        QVERIFY(!d->importButton()->isEnabled());
    }

    void tenThousandBadRowsAreShownInPart() {
        QByteArray bad = "serial,type\n";
        for (int i = 0; i < 10'000; ++i) bad += "N " + QByteArray::number(i) + ",h9\n";
        const auto d = open(EntryKind::Nozzles, bad);
        QTRY_VERIFY_WITH_TIMEOUT(!d->isReading(), 120000);
        QVERIFY(d->reading().errors() >= 10'000);
        QVERIFY2(d->problems()->toPlainText().contains("… and "), qPrintable(d->problems()->toPlainText().right(200)));
        QVERIFY(d->problems()->document()->blockCount() <= 501);
    }

    void closingStopsTheReading() {
        auto d = open(EntryKind::Nozzles, many(static_cast<int>(mostRowsAtOnce)));
        d->reject();
        d.reset(); // waits for the thread, which has been told to stop
        QCOMPARE(openDialog<ImportDialog>(), nullptr);
    }

    void everythingThatCanHaveTheFocusHasAName() {
        const auto d = open(EntryKind::Spools, spools);
        QTRY_VERIFY(!d->isReading());
        const AccessibleWalk walk = walkAccessible(d.get());
        QVERIFY(walk.focusable >= 5);
        QCOMPARE(walk.faults, QStringList());
    }
};

INTERLUDE_TEST(ImportDialogTest)
#include "import_dialog_test.moc"
