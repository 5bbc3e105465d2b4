// Labels are there to be scanned: every code is read back from the paper, and no text is cut off.

#include "tests/harness/run_tests.h"
#include "tests/paper/pdf_reader.h"
#include "tests/records/told.h"

#include "views/paper/paper.h"

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

INTERLUDE_TEST(LabelsTest)
#include "labels_test.moc"
