// The Records tab, driven by keys and mouse.

#include "tests/harness/accessible.h"
#include "tests/harness/run_tests.h"
#include "tests/paper/pdf_reader.h"
#include "tests/records/told.h"

#include "views/asking/ask_dialog.h"
#include "views/bench/bench.h"
#include "views/lists/list_view.h"
#include "views/look/look.h"
#include "views/records/records_page.h"

#include <QSignalSpy>
#include <QPrintPreviewWidget>
#include <QApplication>
#include <QClipboard>
#include <QComboBox>
#include <QCryptographicHash>
#include <QFileDialog>
#include <QHeaderView>
#include <QLabel>
#include <QLineEdit>
#include <QPrintDialog>
#include <QPrinter>
#include <QPushButton>
#include <QTableView>

using namespace interlude;
using namespace interlude::tests;

class RecordsPageTest final : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void initTestCase() {
        // Columns that were moved in another run must not be found here.
        qputenv("XDG_CONFIG_HOME", m_home.path().toUtf8());
        look::apply(*qApp, look::Theme::Light);
    }
    void init();
    void cleanup();
    void showsTheLatestAndWhatIsChosen();
    void previewsAnewWhatChangedBehindAnotherTab();
    void correctsByKeyboard();
    void savesExportsAndCountsRevisions();
    void printsTheRecordAndTheChecklist();
    void nobodySignedInWritesNothing();
    void verifiesTheLedgerAndAPrintedHash();
    void copiesTheRecordAndRows();
    void columnsAreReadAtTheSmallerScreen();
    void everythingHasANameAndARole();

private:
    QPushButton* button(const char* name) const { return m_page->findChild<QPushButton*>(QString::fromLatin1(name)); }
    void click(const char* name) {
        QVERIFY2(button(name) && button(name)->isEnabled(), name);
        QTest::mouseClick(button(name), Qt::LeftButton);
    }
    template <typename T> T* dialog(const char* name) const {
        T* found = nullptr;
        for (T* d : m_page->findChildren<T*>(QString::fromLatin1(name)))
            if (d->isVisible()) found = d;
        return found;
    }
    /// Chooses a file in the dialog that is open, as typed.
    void choose(const QString& file, const char* inDialog = "recordFileDialog") {
        auto* d = dialog<QFileDialog>(inDialog);
        QVERIFY(d);
        auto* name = d->findChild<QLineEdit*>(QStringLiteral("fileNameEdit"));
        QVERIFY(name);
        name->setText(file);
        QTest::keyClick(name, Qt::Key_Return);
        QTRY_VERIFY(!dialog<QFileDialog>(inDialog));
    }
    qint64 events(const QString& kind) const {
        qint64 n = 0;
        Q_UNUSED(m_told->bench().store().read(0, [&](const Event& e) {
            n += e.kind == kind ? 1 : 0;
            return true;
        }));
        return n;
    }

    QTemporaryDir m_home, m_dir;
    std::unique_ptr<Told> m_told;
    std::unique_ptr<Bench> m_bench;
    std::unique_ptr<RecordsPage> m_page;
};

void RecordsPageTest::init() {
    m_told = std::make_unique<Told>();
    m_told->wholeStory(true);
    m_bench = std::make_unique<Bench>(m_told->bench());
    m_bench->signIn(QStringLiteral("ML"));
    m_page = std::make_unique<RecordsPage>(*m_bench);
    m_page->resize(1366, 690);
    m_page->show();
    m_page->activateWindow();
    QVERIFY(QTest::qWaitForWindowActive(m_page.get()));
}

void RecordsPageTest::cleanup() {
    m_page.reset();
    m_bench.reset();
    m_told.reset();
}

void RecordsPageTest::showsTheLatestAndWhatIsChosen() {
    QCOMPARE(m_page->current(), 1);
    QVERIFY(m_page->showRecord(1));
    QVERIFY(!m_page->showRecord(99));
    const auto* list = m_page->findChild<lists::ListView*>();
    QCOMPARE(list->visibleRows(), 1);
    QVERIFY(list->shownRows().at(1).contains(QStringLiteral("finished")));
}

void RecordsPageTest::previewsAnewWhatChangedBehindAnotherTab() {
    auto* preview = m_page->findChild<QPrintPreviewWidget*>();
    QVERIFY(preview);
    QCoreApplication::processEvents();
    m_page->hide();
    QSignalSpy painted(preview, &QPrintPreviewWidget::paintRequested);
    const Correctable c = correctablesOf(m_told->record()).at(0);
    QVERIFY(m_bench->perform(act::Corrected{1, c.event, c.field, c.value, QStringLiteral("other"), QStringLiteral("misread")}));
    // What the end of a session in another tab asks for.
    Q_EMIT m_bench->openRecord(1);
    m_page->show();
    QVERIFY2(painted.count() > 0, "at once, not with the next change");
}

void RecordsPageTest::correctsByKeyboard() {
    const auto before = m_told->session().corrections.size();
    QTest::keyClick(m_page.get(), Qt::Key_O, Qt::AltModifier);
    QTRY_VERIFY(dialog<QDialog>("correctionDialog")); // the button is seen to go down first
    auto* d = dialog<QDialog>("correctionDialog");
    auto* what = d->findChild<QComboBox*>(QStringLiteral("correctionWhat"));
    auto* value = d->findChild<QLineEdit*>(QStringLiteral("correctionValue"));
    auto* reason = d->findChild<QLineEdit*>(QStringLiteral("correctionReason"));
    what->setFocus();
    QTest::keyClick(what, Qt::Key_End); // the last of the list: the first step's note
    QCOMPARE(what->currentIndex(), what->count() - 1);
    // Without a reason it stays open and says so.
    QTest::keyClicks(value, QStringLiteral("lamp was dim"));
    QTest::keyClick(value, Qt::Key_Return);
    QVERIFY(d->isVisible());
    QCOMPARE(m_told->session().corrections.size(), before);
    QTest::keyClicks(reason, QStringLiteral("forgotten"));
    QTest::keyClick(reason, Qt::Key_Return);
    QTRY_VERIFY(!dialog<QDialog>("correctionDialog"));
    QCOMPARE(m_told->session().corrections.size(), before + 1);
    const Correction& made = m_told->session().corrections.last();
    QCOMPARE(made.who, QStringLiteral("ML"));
    QCOMPARE(made.what.corrected, QStringLiteral("lamp was dim"));
    QVERIFY(m_page->said().contains(QStringLiteral("Corrected")));
    QVERIFY(toText(m_told->record()).contains(QStringLiteral("→ lamp was dim (corrected")));
}

void RecordsPageTest::savesExportsAndCountsRevisions() {
    const QString pdf = m_dir.filePath(QStringLiteral("one.pdf"));
    click("saveRecord");
    choose(m_dir.filePath(QStringLiteral("one"))); // a PDF gets its ending
    QVERIFY2(m_page->said().contains(QStringLiteral("revision 1")), qPrintable(m_page->said()));
    QCOMPARE(events(QStringLiteral("record-issued")), 1);
    QVERIFY(!PdfReader(pdf).text().contains(QStringLiteral("draft")));
    QVERIFY(PdfReader(pdf).text(1).contains(QStringLiteral("Revision 1 · finished")));
    // The ledger keeps the sum of exactly this file.
    QFile file(pdf);
    QVERIFY(file.open(QIODevice::ReadOnly));
    const QString sum = QString::fromLatin1(QCryptographicHash::hash(file.readAll(), QCryptographicHash::Sha256).toHex());
    QString kept;
    QVERIFY(m_told->bench().store().read(0, [&](const Event& e) {
        if (e.kind == QStringLiteral("record-issued")) kept = e.payload.value(QStringLiteral("sha256")).toString();
        return true;
    }));
    QCOMPARE(kept, sum);

    click("exportRecord");
    choose(m_dir.filePath(QStringLiteral("bundle")));
    QVERIFY2(m_page->said().contains(QStringLiteral("revision 1")), qPrintable(m_page->said()));
    QVERIFY(QFileInfo::exists(m_dir.filePath(QStringLiteral("bundle/sha256sums.txt"))));

    const Correctable c = correctablesOf(m_told->record()).first();
    m_told->tell(act::Corrected{1, c.event, c.field, c.value, QStringLiteral("other"), QStringLiteral("misread")});
    QVERIFY(m_page->savePdf(m_dir.filePath(QStringLiteral("two.pdf"))));
    QVERIFY2(m_page->said().contains(QStringLiteral("revision 2")), qPrintable(m_page->said()));

    // A refusal writes nothing, into the ledger neither.
    const qint64 before = events(QStringLiteral("record-issued"));
    QVERIFY(!m_page->exportBundle(m_dir.filePath(QStringLiteral("bundle"))));
    QVERIFY(m_page->said().contains(QStringLiteral("is there already")));
    QVERIFY(!m_page->savePdf(m_dir.filePath(QStringLiteral("no folder/x.pdf"))));
    QCOMPARE(events(QStringLiteral("record-issued")), before);
}

void RecordsPageTest::printsTheRecordAndTheChecklist() {
    // The dialog comes up and can be left; what it would print to is given here as a file.
    click("printRecord");
    auto* d = dialog<QPrintDialog>("printDialog");
    QVERIFY(d);
    QTest::keyClick(d, Qt::Key_Escape);
    QTRY_VERIFY(!dialog<QPrintDialog>("printDialog"));
    QCOMPARE(events(QStringLiteral("record-issued")), 0);
    QPrinter printer(QPrinter::HighResolution);
    printer.setOutputFormat(QPrinter::PdfFormat);
    printer.setPageSize(QPageSize(QPageSize::A4));
    printer.setOutputFileName(m_dir.filePath(QStringLiteral("printed.pdf")));
    QVERIFY(m_page->printRecord(printer));
    QCOMPARE(events(QStringLiteral("record-issued")), 1);
    QVERIFY(QFileInfo(m_dir.filePath(QStringLiteral("printed.pdf"))).size() > 1000);

    click("emptyChecklist");
    auto* where = dialog<AskDialog>("paperDialog");
    QVERIFY(where);
    auto* choice = where->findChild<QComboBox*>(QStringLiteral("paperWhere"));
    choice->setCurrentIndex(choice->findData(QStringLiteral("pdf")));
    QTest::mouseClick(where->acceptButton(), Qt::LeftButton);
    choose(m_dir.filePath(QStringLiteral("checklist")), "pdfDialog");
    const QString written = m_dir.filePath(QStringLiteral("checklist.pdf"));
    QVERIFY2(m_page->said().contains(written), qPrintable(m_page->said()));
    QVERIFY(QFileInfo(written).size() > 1000);
    QCOMPARE(events(QStringLiteral("record-issued")), 1); // a checklist is no record
}

void RecordsPageTest::nobodySignedInWritesNothing() {
    m_bench->signIn(QString());
    for (const char* name : {"printRecord", "saveRecord", "exportRecord", "correctRecord"}) {
        QVERIFY2(!button(name)->isEnabled(), name);
        QVERIFY2(button(name)->toolTip().contains(QStringLiteral("Sign in")), name);
    }
    for (const char* name : {"copyRecord", "emptyChecklist", "verifyLedger"}) QVERIFY2(button(name)->isEnabled(), name);
    const QString pdf = m_dir.filePath(QStringLiteral("unsigned.pdf"));
    QVERIFY(!m_page->savePdf(pdf));
    QVERIFY(!QFileInfo::exists(pdf));
    QVERIFY(m_page->said().contains(QStringLiteral("signed in")));
    m_bench->signIn(QStringLiteral("TO"));
    QVERIFY(button("saveRecord")->isEnabled());
}

void RecordsPageTest::verifiesTheLedgerAndAPrintedHash() {
    const auto ask = [&](const QString& text) {
        click("verifyLedger");
        auto* d = dialog<QDialog>("verifyDialog");
        auto* hash = d->findChild<QLineEdit*>(QStringLiteral("verifyHash"));
        QTest::keyClicks(hash, text);
        QTest::keyClick(hash, Qt::Key_Return);
        return d;
    };
    ask({});
    QTRY_VERIFY(!dialog<QDialog>("verifyDialog"));
    QCOMPARE(m_page->said(), QStringLiteral("%1 events, all fit.").arg(m_told->shop().lastSequence()));
    ask(m_told->record().verificationText);
    QTRY_VERIFY(!dialog<QDialog>("verifyDialog"));
    QVERIFY2(m_page->said().contains(QStringLiteral("it was printed from this ledger")), qPrintable(m_page->said()));
    ask(QString(64, QLatin1Char('b')));
    QTRY_VERIFY(!dialog<QDialog>("verifyDialog"));
    QVERIFY(m_page->said().contains(QStringLiteral("No event of this ledger")));
    QDialog* open = ask(QStringLiteral("12 ab"));
    QVERIFY(open->isVisible()); // no hash: said in the dialog, which stays
    QVERIFY(qobject_cast<AskDialog*>(open)->objectionsShown().join(QLatin1Char(' ')).contains(QStringLiteral("16 digits")));
    QTest::keyClick(open, Qt::Key_Escape);
}

void RecordsPageTest::copiesTheRecordAndRows() {
    click("copyRecord");
    QCOMPARE(QGuiApplication::clipboard()->text(), toText(m_told->record()));
    auto* view = m_page->findChild<QTableView*>();
    view->setFocus();
    QTest::keyClick(view, Qt::Key_C, Qt::ControlModifier);
    QVERIFY(QGuiApplication::clipboard()->text().startsWith(QStringLiteral("No.\t")));
    QVERIFY(QGuiApplication::clipboard()->text().contains(QStringLiteral("finished")));
}

void RecordsPageTest::columnsAreReadAtTheSmallerScreen() {
    auto* view = m_page->findChild<QTableView*>();
    const QHeaderView* header = view->horizontalHeader();
    const QFontMetrics metrics(header->font());
    for (int c = 0; c < view->model()->columnCount(); ++c) {
        const QString title = view->model()->headerData(c, Qt::Horizontal).toString();
        // The heading and, where the list is sorted by it, the arrow beside it.
        QStyleOptionHeader option;
        option.initFrom(header);
        const int arrow = header->style()->pixelMetric(QStyle::PM_HeaderMarkSize, &option, header);
        const int margin = 2 * header->style()->pixelMetric(QStyle::PM_HeaderMargin, &option, header);
        QVERIFY2(header->sectionSize(c) >= metrics.horizontalAdvance(title) + arrow + margin, qPrintable(title));
        if (title != QStringLiteral("Begun") && title != QStringLiteral("State")) continue;
        const QString text = view->model()->index(0, c).data().toString();
        QVERIFY2(view->columnWidth(c) >= view->fontMetrics().horizontalAdvance(text) + 8, qPrintable(text));
        QVERIFY2(header->sectionViewportPosition(c) + header->sectionSize(c) <= view->viewport()->width(), qPrintable(title));
    }
}

void RecordsPageTest::everythingHasANameAndARole() {
    const AccessibleWalk walk = walkAccessible(m_page.get());
    QVERIFY2(walk.faults.isEmpty(), qPrintable(walk.faults.join(QLatin1Char('\n'))));
    QVERIFY(walk.focusable >= 8);
}

INTERLUDE_TEST(RecordsPageTest)
#include "records_page_test.moc"
