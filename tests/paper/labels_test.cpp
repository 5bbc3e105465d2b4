// Labels are there to be scanned: every code is read back from the paper, and no text is cut off.

#include "tests/harness/run_tests.h"
#include "tests/paper/pdf_reader.h"
#include "tests/records/told.h"

#include "views/paper/paper.h"
#include "views/paper/sheet.h"
#include "views/paper/unfinished_folder.h"

#include <QPrinter>

using namespace interlude;
using namespace interlude::tests;

namespace {

/// Where the labels of a page are: three across, below margin and header, rows of 92 points.
QList<QRectF> cells(qsizetype count, double row = 92) {
    QList<QRectF> out;
    const double width = (595.0 - 72.0) / 3.0;
    for (qsizetype i = 0; i < count; ++i)
        out.append(QRectF(36.0 + static_cast<double>(i % 3) * width, 54.0 + static_cast<double>(i / 3) * row, width, row));
    return out;
}

} // namespace

class LabelsTest final : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void everyCodeIsReadBack_data();
    void everyCodeIsReadBack();
    void longTextsStayWhole();
    void nothingToPrintIsRefused();
    void aLongNameGivesWayToWhatThePageIs();
    void whatAnEndedExportLeftIsNoObstacle();
    void aPrinterSetOtherwiseCutsNothing_data();
    void aPrinterSetOtherwiseCutsNothing();
};

void LabelsTest::everyCodeIsReadBack_data() {
    QTest::addColumn<QString>("kind");
    for (const char* kind : {"nozzles", "spools", "printers", "places"}) QTest::newRow(kind) << QString::fromLatin1(kind);
}

void LabelsTest::everyCodeIsReadBack() {
    QFETCH(const QString, kind);
    const Told told;
    const QTemporaryDir dir;
    const QList<paper::Label> labels = paper::labelsOf(told.shop(), kind);
    QVERIFY(!labels.isEmpty());
    const QString file = dir.filePath(QStringLiteral("labels.pdf"));
    const auto pages = paper::writeLabelsPdf(labels, file);
    QVERIFY(pages);
    const PdfReader pdf(file);
    QStringList codes, ids;
    const qsizetype onPage = static_cast<qsizetype>((842.0 - 2 * 54.0) / 92.0) * 3;
    for (int page = 1; page <= *pages; ++page) QVERIFY(pdf.text(page).contains(QStringLiteral("Labels · example")));
    QCOMPARE(*pages, (labels.size() + onPage - 1) / onPage);
    for (int page = 1; page <= *pages; ++page) codes += pdf.codes(page, cells(std::min(onPage, labels.size() - (page - 1) * onPage)));
    for (const paper::Label& label : labels) ids += label.id;
    codes.sort();
    ids.sort();
    QCOMPARE(codes, ids);
}

void LabelsTest::longTextsStayWhole() {
    const Told told;
    const QTemporaryDir dir;
    const QString id = QStringLiteral("spool-of-the-northern-yard-2026-03-part-material-0042");
    QStringList words;
    for (int i = 0; i < 40; ++i) words.append(QStringLiteral("long%1").arg(i));
    const QList<paper::Label> labels{{id, words.join(QLatin1Char(' ')), QString(60, QLatin1Char('w'))}, {QStringLiteral("N-1"), {}, {}},
                                     {QStringLiteral("WWWWWWWWWWWW"), QStringLiteral("wide"), QStringLiteral("letters")}};
    const QString file = dir.filePath(QStringLiteral("labels.pdf"));
    QVERIFY(paper::writeLabelsPdf(labels, file));
    const PdfReader pdf(file);
    QStringList codes = pdf.codes(1, cells(3));
    codes.sort();
    QCOMPARE(codes, (QStringList{QStringLiteral("N-1"), QStringLiteral("WWWWWWWWWWWW"), id}));
    const QString text = pdf.drawn().remove(QLatin1Char(' '));
    QVERIFY(text.contains(id));
    for (const QString& word : words) QVERIFY2(text.contains(word), qPrintable(word));
    QVERIFY(text.contains(QString(60, QLatin1Char('w'))));
    // The next row begins below: nothing is painted over it. The cell's frame is where the text ends.
    const QImage page = pdf.picture(1, 72);
    int lowest = 0;
    for (int y = 60; y < page.height() - 60; ++y)
        for (int x = 125; x < 205; ++x)
            if (page.pixelColor(x, y).lightness() < 120) lowest = y;
    bool frame = false;
    for (int y = lowest; y < std::min(page.height(), lowest + 30); ++y) {
        int inked = 0;
        for (int x = 60; x < 520; ++x) inked += page.pixelColor(x, y).lightness() < 250 ? 1 : 0;
        frame = frame || inked > 400;
    }
    QVERIFY(frame);
}

void LabelsTest::nothingToPrintIsRefused() {
    const QTemporaryDir dir;
    const auto refused = paper::writeLabelsPdf({}, dir.filePath(QStringLiteral("labels.pdf")));
    QVERIFY(!refused);
    QVERIFY(!QFileInfo::exists(dir.filePath(QStringLiteral("labels.pdf"))));
}

void LabelsTest::aLongNameGivesWayToWhatThePageIs() {
    const QTemporaryDir dir;
    const QString file = dir.filePath(QStringLiteral("sheet.pdf")), right = QStringLiteral("The printer by the window · published Wed 2026-03-04 10:42 by ML");
    paper::Sheet sheet(paper::Size::A4);
    sheet.setRunning(QStringLiteral("The shop with the longest name of all the shops of the northern valley and its neighbours, second floor"), right, {});
    sheet.paragraph(QStringLiteral("text"));
    QVERIFY(paper::writePdf(sheet, QStringLiteral("sheet"), file, paper::Size::A4));
    const QString text = PdfReader(file).text();
    QVERIFY2(text.contains(QChar(0x2026)) && text.contains(right), qPrintable(text));
}

/// The program was killed while it wrote there.
void LabelsTest::whatAnEndedExportLeftIsNoObstacle() {
    const QTemporaryDir dir;
    QVERIFY(QDir(dir.path()).mkdir(QStringLiteral(".bundle.unfinished")));
    paper::UnfinishedFolder made(dir.filePath(QStringLiteral("bundle")));
    QVERIFY(made.isThere());
    QVERIFY(made.keep());
    QVERIFY(QFileInfo(dir.filePath(QStringLiteral("bundle"))).isDir());
}

void LabelsTest::aPrinterSetOtherwiseCutsNothing_data() {
    QTest::addColumn<int>("size");
    QTest::addColumn<bool>("landscape");
    QTest::newRow("A4 turned") << static_cast<int>(QPageSize::A4) << true;
    QTest::newRow("A5") << static_cast<int>(QPageSize::A5) << false;
    QTest::newRow("Legal") << static_cast<int>(QPageSize::Legal) << false;
}

/// What a person has left the printer's dialog at.
void LabelsTest::aPrinterSetOtherwiseCutsNothing() {
    QFETCH(const int, size);
    QFETCH(const bool, landscape);
    const Told told;
    const QTemporaryDir dir;
    const QString file = dir.filePath(QStringLiteral("labels.pdf"));
    const QList<paper::Label> labels = paper::labelsOf(told.shop(), QStringLiteral("spools"));
    QStringList ids;
    for (const paper::Label& label : labels) ids += label.id;
    int pages = 0;
    {
        QPrinter printer(QPrinter::HighResolution);
        printer.setOutputFormat(QPrinter::PdfFormat);
        printer.setOutputFileName(file);
        printer.setPageLayout(QPageLayout(QPageSize(static_cast<QPageSize::PageSizeId>(size)), landscape ? QPageLayout::Landscape : QPageLayout::Portrait,
                                          QMarginsF(0, 0, 0, 0), QPageLayout::Point));
        printer.setFullPage(true);
        pages = paper::paintLabels(labels, printer);
    }
    const PdfReader pdf(file);
    QCOMPARE(pdf.pages(), pages);
    QStringList codes;
    // A smaller sheet shows all of it, smaller.
    const QSizeF sheet = QPageSize(static_cast<QPageSize::PageSizeId>(size)).sizePoints();
    const double scale = std::min({1.0, sheet.width() / 595.0, sheet.height() / 842.0});
    QList<QRectF> places;
    for (const QRectF& cell : cells(21)) places.append(QRectF(cell.topLeft() * scale, cell.size() * scale));
    for (int page = 1; page <= pages; ++page) codes += pdf.codes(page, places);
    codes.removeDuplicates();
    codes.sort();
    ids.sort();
    QCOMPARE(codes, ids);
}

INTERLUDE_TEST(LabelsTest)
#include "labels_test.moc"
