// What makes a printed record keep: PDF/A-1b, black and white, the export bundle. Outside tools look inside: pdffonts,
// qpdf, sha256sum.

#include "tests/harness/run_tests.h"
#include "tests/paper/pdf_reader.h"
#include "tests/records/told.h"

#include "views/paper/paper.h"
#include "views/paper/sheet.h"

#include <QJsonDocument>

#include <csignal>
#include <sys/resource.h>

using namespace interlude;
using namespace interlude::tests;

namespace {

/// Every file that this process writes ends at that many bytes, as on a full disk.
class FullDisk {
public:
    explicit FullDisk(rlim_t bytes) {
        m_handler = std::signal(SIGXFSZ, SIG_IGN);
        getrlimit(RLIMIT_FSIZE, &m_before);
        const rlimit small{bytes, m_before.rlim_max};
        setrlimit(RLIMIT_FSIZE, &small);
    }
    ~FullDisk() {
        setrlimit(RLIMIT_FSIZE, &m_before);
        std::signal(SIGXFSZ, m_handler);
    }
    Q_DISABLE_COPY_MOVE(FullDisk)

private:
    rlimit m_before{};
    void (*m_handler)(int) = nullptr;
};

} // namespace

class ArchiveTest final : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void initTestCase();
    void fontsAreEmbedded();
    void declaresItselfAsPdfA();
    void nothingIsTransparent();
    void readsInBlackAndWhite();
    void bundleIsWholeAndItsSumsHold();
    void bundleOverwritesNothing();
    void bundleLeavesNothingHalfDone_data();
    void bundleLeavesNothingHalfDone();

private:
    QStringList entries() const { return QDir(m_dir.path()).entryList(QDir::AllEntries | QDir::Hidden | QDir::NoDotAndDotDot); }
    QTemporaryDir m_dir;
    std::unique_ptr<Told> m_told;
    QStringList m_files; ///< record, checklist, labels
};

void ArchiveTest::initTestCase() {
    m_told = std::make_unique<Told>();
    m_told->wholeStory(true);
    for (const char* name : {"record.pdf", "checklist.pdf", "labels.pdf", "summary.pdf"}) m_files.append(m_dir.filePath(QLatin1String(name)));
    const Shop& shop = m_told->shop();
    const Changeover& work = m_told->session().changeover;
    QVERIFY(paper::writeRecordPdf(m_told->record(), m_files[0]));
    QVERIFY(paper::writeRecordPdf(checklistOf(shop, work, m_told->bench().now()), m_files[1]));
    QVERIFY(paper::writeLabelsPdf(paper::labelsOf(shop, QStringLiteral("nozzles")), m_files[2]));
    QVERIFY(paper::writeSummaryPdf(shop, work, m_told->bench().now(), m_files[3]));
}

void ArchiveTest::fontsAreEmbedded() {
    for (const QString& file : std::as_const(m_files)) {
        const QStringList fonts = PdfReader(file).fonts();
        QVERIFY2(!fonts.isEmpty(), qPrintable(file));
        for (const QString& font : fonts) {
            // name, type, encoding, emb sub uni, object
            static const QRegularExpression columns(QStringLiteral("\\s(yes|no)\\s+(yes|no)\\s+(yes|no)\\s+\\d+\\s+\\d+\\s*$"));
            const auto match = columns.match(font);
            QVERIFY2(match.hasMatch() && match.captured(1) == QStringLiteral("yes"), qPrintable(font));
        }
    }
}

void ArchiveTest::declaresItselfAsPdfA() {
    for (const QString& file : std::as_const(m_files)) {
        const QByteArray pdf = PdfReader(file).objects();
        QVERIFY2(pdf.size() > 1000, "qpdf gave nothing");
        QVERIFY(pdf.contains("/OutputIntents"));
        QVERIFY(pdf.contains("/GTS_PDFA1"));
        QVERIFY(pdf.contains("/DestOutputProfile"));
        // XMP, as elements or as attributes
        const QString text = QString::fromLatin1(pdf);
        QVERIFY(text.contains(QRegularExpression(QStringLiteral("pdfaid:part(>|=[\"'])1"))));
        QVERIFY(text.contains(QRegularExpression(QStringLiteral("pdfaid:conformance(>|=[\"'])B"))));
        QVERIFY(!pdf.contains("/Encrypt"));
        QVERIFY(!pdf.contains("/JavaScript"));
        QCOMPARE(runTool(QStringLiteral("qpdf"), {QStringLiteral("--check"), file}).code, 0);
    }
}

void ArchiveTest::nothingIsTransparent() {
    static const QRegularExpression mask(QStringLiteral("/SMask\\s*(?!/None)")), alpha(QStringLiteral("/(ca|CA)\\s+([0-9.]+)")),
        blend(QStringLiteral("/BM\\s*(?!/Normal|/Compatible)/"));
    for (const QString& file : std::as_const(m_files)) {
        const QString pdf = QString::fromLatin1(PdfReader(file).objects());
        QVERIFY2(!pdf.contains(QRegularExpression(QStringLiteral("/SMask\\s+(?!/None)"))), qPrintable(file));
        for (auto it = alpha.globalMatch(pdf); it.hasNext();) {
            const auto match = it.next();
            QVERIFY2(match.captured(2).toDouble() >= 1.0, qPrintable(match.captured()));
        }
        QVERIFY2(!pdf.contains(blend), qPrintable(file));
        QVERIFY2(!pdf.contains(QStringLiteral("/Transparency")), qPrintable(file));
    }
}

void ArchiveTest::readsInBlackAndWhite() {
    // No ink has a colour that could say something; what text is set in is dark enough for a poor copy.
    for (const QString& file : std::as_const(m_files)) {
        const QImage page = PdfReader(file).picture(1);
        QVERIFY(!page.isNull());
        int inked = 0, coloured = 0;
        for (int y = 0; y < page.height(); ++y)
            for (int x = 0; x < page.width(); ++x) {
                const QColor c = page.pixelColor(x, y);
                inked += c.lightness() < 200 ? 1 : 0;
                coloured += std::max({c.red(), c.green(), c.blue()}) - std::min({c.red(), c.green(), c.blue()}) > 24 ? 1 : 0;
            }
        QVERIFY(inked > 5000);
        QCOMPARE(coloured, 0);
    }
    for (const QColor& ink : {paper::ink::text(), paper::ink::soft()}) QVERIFY2(ink.lightness() < 110, qPrintable(ink.name()));
}

void ArchiveTest::bundleIsWholeAndItsSumsHold() {
    const QString folder = m_dir.filePath(QStringLiteral("deep/er/bundle"));
    const Record record = m_told->record();
    const auto files = paper::writeBundle(record, folder);
    QVERIFY2(files, qPrintable(files ? QString() : sentence(files.error())));
    QCOMPARE(QDir(folder).entryList(QDir::Files | QDir::Hidden), (QStringList{QStringLiteral("record.interlude.json"), QStringLiteral("record.pdf"), QStringLiteral("sha256sums.txt")}));
    const Output sums = runTool(QStringLiteral("sha256sum"), {QStringLiteral("-c"), QStringLiteral("--strict"), QStringLiteral("sha256sums.txt")}, folder);
    QVERIFY2(sums.code == 0, sums.err + sums.out);
    QVERIFY(sums.out.contains("record.pdf: OK") && sums.out.contains("record.interlude.json: OK"));
    QFile json(folder + QStringLiteral("/record.interlude.json"));
    QVERIFY(json.open(QIODevice::ReadOnly));
    QCOMPARE(QJsonDocument::fromJson(json.readAll()).object(), toJson(record));
    // A changed byte is found.
    json.close();
    QVERIFY(json.open(QIODevice::ReadWrite));
    json.seek(20);
    json.write("#");
    json.close();
    QVERIFY(runTool(QStringLiteral("sha256sum"), {QStringLiteral("-c"), QStringLiteral("sha256sums.txt")}, folder).code != 0);
}

void ArchiveTest::bundleOverwritesNothing() {
    const QString folder = m_dir.filePath(QStringLiteral("mine"));
    QVERIFY(QDir().mkpath(folder));
    const QStringList before = entries();
    const auto refused = paper::writeBundle(m_told->record(), folder);
    QVERIFY(!refused);
    QVERIFY(sentence(refused.error()).contains(QStringLiteral("is there already")));
    QVERIFY(QDir(folder).isEmpty());
    QCOMPARE(entries(), before);
}

void ArchiveTest::bundleLeavesNothingHalfDone_data() {
    QTest::addColumn<QString>("name");
    QTest::addColumn<int>("bytes");
    QTest::newRow("a file stands in the way") << QStringLiteral("record.pdf/bundle") << 0;
    QTest::newRow("a name too long for the disk") << QString(250, QLatin1Char('b')) << 0;
    QTest::newRow("the disk is full at once") << QStringLiteral("full") << 100;
    QTest::newRow("the disk is full below parents that were not there") << QStringLiteral("far/away/full") << 100;
    QTest::newRow("the disk is full half way") << QStringLiteral("half") << 30000;
}

void ArchiveTest::bundleLeavesNothingHalfDone() {
    QFETCH(const QString, name);
    QFETCH(const int, bytes);
    const QStringList before = entries();
    std::unique_ptr<FullDisk> full;
    if (bytes > 0) full = std::make_unique<FullDisk>(static_cast<rlim_t>(bytes));
    const auto refused = paper::writeBundle(m_told->record(), m_dir.filePath(name));
    full.reset();
    QVERIFY(!refused);
    QVERIFY2(sentence(refused.error()).contains(QStringLiteral("cannot be")) || sentence(refused.error()).contains(QStringLiteral("could not be written whole")),
             qPrintable(sentence(refused.error())));
    QVERIFY(!refused.error().remedy.isEmpty());
    QCOMPARE(entries(), before);
}

INTERLUDE_TEST(ArchiveTest)
#include "archive_test.moc"
