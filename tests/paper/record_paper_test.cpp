// The printed record, read back as an auditor would: every item of design section 8, on every page what belongs there.

#include "tests/harness/run_tests.h"
#include "tests/paper/pdf_reader.h"
#include "tests/records/told.h"

#include "model/records/wording.h"
#include "views/paper/paper.h"
#include "views/paper/sheet.h"

using namespace interlude;
using namespace interlude::tests;

class RecordPaperTest final : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void init() { m_dir = std::make_unique<QTemporaryDir>(); }
    void everyItemIsOnPaper();
    void everyStepIsOnPaper();
    void everyPageSaysWhereItBelongs();
    void theCodeSaysWhatTheFootSays();
    void whatIsNotFinishedSaysSoFirst_data();
    void whatIsNotFinishedSaysSoFirst();
    void lengthOfAUsualRecord();
    void aLongNoteGoesOnOnTheNextPage();
    void theEmptyChecklistHasRoomForEverything();
    void aRefusedFileLeavesTheOlderOne();

private:
    QString written(const Record& r, paper::Size size = paper::Size::A4) {
        const QString file = m_dir->filePath(QStringLiteral("record.pdf"));
        const auto pages = paper::writeRecordPdf(r, file, size);
        if (!pages) qFatal("%s", qPrintable(sentence(pages.error())));
        return file;
    }
    std::unique_ptr<QTemporaryDir> m_dir;
};

namespace {

/// The phrase, blanks aside: a long word may have been broken at a line's end.
bool says(const QString& text, const QString& phrase) {
    static const QRegularExpression blank(QStringLiteral("[\\s\\x{a0}]"));
    const auto bare = [](QString t) { return t.remove(blank); };
    return bare(text).contains(bare(phrase));
}

#define VERIFY_SAYS(text, phrase) QVERIFY2(says(text, phrase), qPrintable(QStringLiteral("not on paper: ") + (phrase)))

} // namespace

void RecordPaperTest::everyItemIsOnPaper() {
    Told told;
    told.wholeStory(true);
    const Record r = told.record();
    const QString text = PdfReader(written(r)).drawn();
    const SessionState& s = told.session();
    const Changeover& c = s.changeover;
    const TransitionRequest& request = c.transition.request;
    // number and revision; printer; job; from/to
    VERIFY_SAYS(text, QStringLiteral("Changeover record 1 · %1").arg(r.printer));
    VERIFY_SAYS(text, QStringLiteral("Revision 1 (draft, not issued) · finished"));
    VERIFY_SAYS(text, QStringLiteral("Job %1").arg(request.job));
    VERIFY_SAYS(text, QStringLiteral("Part material from %1 to %2").arg(wording::material(told.shop().catalogue(), request.now.part.loaded),
                                                                        wording::material(told.shop().catalogue(), request.wanted.part)));
    // spools with lots; nozzles with run volumes before and after
    QVERIFY(!r.materials.isEmpty() && !r.nozzles.isEmpty());
    for (const RecordLine& l : r.materials + r.nozzles) VERIFY_SAYS(text, l.label + QLatin1Char(' ') + l.value);
    for (const SpoolChange& spool : c.transition.spools)
        if (spool.load) VERIFY_SAYS(text, QStringLiteral("%1, lot %2").arg(spool.in, told.shop().stock().spools[spool.in].lot));
    for (const NozzleChange& n : c.transition.nozzles)
        if (n.exchange) VERIFY_SAYS(text, QStringLiteral("before %1, after %2").arg(wording::runVolume(s.runBefore[n.in]), wording::runVolume(s.runAfter[n.in])));
    // residue, rule, verdict; procedure version
    QCOMPARE(r.cleanOut.first().label, QStringLiteral("Residue before"));
    for (const RecordLine& l : r.cleanOut) VERIFY_SAYS(text, l.label + QLatin1Char(' ') + l.value);
    VERIFY_SAYS(text, QStringLiteral("Procedure version %1").arg(c.libraryVersion));
    // overrides with reason and approver; corrections beside originals; calibration; disposition
    VERIFY_SAYS(text, QStringLiteral("skipped; reason: lamp is out for repair; approved by Jon Kestrow (JK), as "));
    VERIFY_SAYS(text, told.original() + QStringLiteral(" 0.03"));
    VERIFY_SAYS(text, QStringLiteral("by RS: misread the scale)"));
    for (const RecordLine& l : r.calibration) VERIFY_SAYS(text, l.label + QLatin1Char(' ') + l.value);
    VERIFY_SAYS(text, QStringLiteral("Disposition released · first layer good"));
    // instruments with calibration dates
    QVERIFY(!r.instruments.isEmpty());
    for (const RecordLine& l : r.instruments) {
        QVERIFY(l.value.contains(QRegularExpression(QStringLiteral("calibrated \\d{4}-\\d\\d-\\d\\d"))));
        VERIFY_SAYS(text, l.label + QLatin1Char(' ') + l.value);
    }
    // cautions: each kind with every step that bears it
    QVERIFY(r.cautionsByStep.size() >= 5);
    for (const RecordCaution& k : r.cautionsByStep) VERIFY_SAYS(text, QStringLiteral("%1 %2: %3").arg(k.word, k.subject, k.steps));
    // what happened beside the steps, and who
    for (const QString& item : r.problems + r.interruptions + r.readings) VERIFY_SAYS(text, item);
    for (const QString& person : r.people) VERIFY_SAYS(text, person);
    // program version, catalogue hash, ledger position and hash
    VERIFY_SAYS(text, QStringLiteral("Program Interlude " INTERLUDE_VERSION));
    VERIFY_SAYS(text, QStringLiteral("Catalogue SHA-256 %1").arg(c.catalogueHash));
    VERIFY_SAYS(text, QStringLiteral("Ledger position %1").arg(told.shop().lastSequence()));
    VERIFY_SAYS(text, QStringLiteral("Ledger hash %1").arg(QString::fromLatin1(told.shop().lastHash().toHex())));
}

void RecordPaperTest::everyStepIsOnPaper() {
    Told told;
    told.wholeStory(true);
    Record r = told.record();
    // As if one of them had been entered afterwards.
    r.steps[2].late = true;
    const QString text = PdfReader(written(r)).drawn();
    for (const RecordStep& s : std::as_const(r.steps)) {
        VERIFY_SAYS(text, s.title);
        const QString actual = s.actual.isEmpty() ? QStringLiteral("–") : s.actual;
        VERIFY_SAYS(text, QStringLiteral("%1 / %2").arg(s.planned, actual));
        // The columns are drawn one after the other: minutes, times, who.
        const QString columns = QStringLiteral("%1 / %2 %3–%4 %5%6").arg(s.planned, actual, s.begun, s.ended, s.who,
                                                                        s.late ? QStringLiteral(" late") : QString());
        if (!s.ended.isEmpty() && s.begun.size() + s.ended.size() == 10) VERIFY_SAYS(text, columns);
        for (const RecordEntry& e : s.entries) {
            if (e.asRequired && e.corrections.isEmpty()) continue; // counted as "checked"
            VERIFY_SAYS(text, (e.label.endsWith(QLatin1Char('?')) ? QStringLiteral("%1 %2") : QStringLiteral("%1: %2")).arg(e.label, e.value));
            VERIFY_SAYS(text, e.brief);
        }
        for (const QString& line : s.overrides + s.takenBack) VERIFY_SAYS(text, line);
    }
    VERIFY_SAYS(text, QStringLiteral("Unusual skipped steps 1, taken back 1, corrections 1, ids typed 1, problems 1, interruptions 1"));
    VERIFY_SAYS(text, QStringLiteral("(typed)"));
    VERIFY_SAYS(text, QStringLiteral("checked (2)"));
}

void RecordPaperTest::everyPageSaysWhereItBelongs() {
    Told told;
    told.wholeStory();
    told.tell(act::RecordIssued{1, 1, QString(64, QLatin1Char('a'))});
    for (const paper::Size size : {paper::Size::A4, paper::Size::Letter}) {
        const PdfReader pdf(written(told.record(), size));
        QVERIFY(!pdf.text().contains(QStringLiteral("draft")));
        QVERIFY2(pdf.pageSize().startsWith(size == paper::Size::A4 ? QStringLiteral("595 x 842") : QStringLiteral("612 x 792")), qPrintable(pdf.pageSize()));
        const int pages = pdf.pages();
        QVERIFY(pages >= 2);
        for (int page = 1; page <= pages; ++page) {
            const QString text = pdf.text(page);
            VERIFY_SAYS(text, QStringLiteral("page %1 of %2").arg(page).arg(pages));
            VERIFY_SAYS(text, QStringLiteral("· example"));
            VERIFY_SAYS(text, QStringLiteral("Changeover record 1 · revision 1"));
            VERIFY_SAYS(text, told.record().verificationText);
        }
    }
    Record own = told.record();
    own.example = false;
    own.shopName = QString(300, QLatin1Char('n')); // must not run into the record's number
    const PdfReader pdf(written(own));
    QVERIFY(!pdf.text().contains(QStringLiteral("· example")));
    QVERIFY(!pdf.text().contains(QStringLiteral("EXAMPLE")));
    QVERIFY(pdf.text(2).contains(QRegularExpression(QStringLiteral("^n+… Changeover record 1 · revision 1 "))));
}

void RecordPaperTest::theCodeSaysWhatTheFootSays() {
    Told told;
    told.wholeStory();
    const Record r = told.record();
    QCOMPARE(PdfReader(written(r)).codes(1, {QRectF(0, 0, 595, 200)}), QStringList{r.verificationText});
}

void RecordPaperTest::whatIsNotFinishedSaysSoFirst_data() {
    QTest::addColumn<QString>("end");
    QTest::addColumn<QString>("said");
    QTest::newRow("open") << QString() << QStringLiteral("NOT FINISHED when this was printed: 4 of");
    QTest::newRow("paused") << QStringLiteral("pause") << QStringLiteral("NOT FINISHED when this was printed: 4 of");
    QTest::newRow("stopped") << QStringLiteral("stop") << QStringLiteral("NOT FINISHED: stopped half way on");
    QTest::newRow("late") << QStringLiteral("late") << QStringLiteral("ENTERED LATE, from paper");
}

void RecordPaperTest::whatIsNotFinishedSaysSoFirst() {
    QFETCH(const QString, end);
    QFETCH(const QString, said);
    Told told;
    told.begin({}, end == QStringLiteral("late"));
    for (qsizetype i = 0; i < 4; ++i) told.confirm(i);
    if (end == QStringLiteral("pause")) told.tell(act::SessionPaused{1, QStringLiteral("end of shift"), false});
    if (end == QStringLiteral("stop")) told.tell(act::SessionStopped{1, QStringLiteral("head does not heat")});
    const PdfReader pdf(written(told.record()));
    const QString text = pdf.drawn();
    VERIFY_SAYS(text, said);
    QVERIFY(text.indexOf(said) >= 0 && text.indexOf(said) < text.indexOf(QStringLiteral("What was to be changed over")));
    QVERIFY(!text.contains(QStringLiteral("What was changed over")));
    // What was not done is not said as done.
    VERIFY_SAYS(text, QStringLiteral("To mount, part"));
    VERIFY_SAYS(text, QStringLiteral("· NOT DONE"));
    QVERIFY(!text.contains(QStringLiteral("Mounted, part")));
    if (end == QStringLiteral("stop")) VERIFY_SAYS(text, QStringLiteral("Reason: head does not heat"));
    for (int page = 1; page <= pdf.pages(); ++page) VERIFY_SAYS(pdf.text(page), QStringLiteral("revision 1 (draft) · ") + told.record().state);
}

void RecordPaperTest::lengthOfAUsualRecord() {
    // "About two pages for a usual changeover": every kind of changeover that the sample fleet allows, carried out.
    int most = 0, least = 1000;
    for (const int limit : {25, 38}) {
        Told told;
        const auto chosen = told.longest(limit);
        QVERIFY2(chosen, qPrintable(QStringLiteral("no changeover of at most %1 steps").arg(limit)));
        told.begin(*chosen);
        for (qsizetype i = 0; i < told.steps(); ++i) told.confirm(i);
        told.tell(act::SessionFinished{1, QStringLiteral("released for printing"), {}});
        const int steps = static_cast<int>(told.steps());
        for (const paper::Size size : {paper::Size::A4, paper::Size::Letter}) {
            const int pages = PdfReader(written(told.record(), size)).pages();
            qInfo("%d steps: %d pages", steps, pages);
            QVERIFY2(pages <= (limit == 25 ? 2 : 3), qPrintable(QStringLiteral("%1 steps: %2 pages").arg(steps).arg(pages)));
        }
        most = std::max(most, steps);
        least = std::min(least, steps);
    }
    QVERIFY2(least >= 20 && most >= 30, qPrintable(QStringLiteral("%1 to %2 steps").arg(least).arg(most)));
    // Nothing that is read is set smaller than 8 points; 7 is for headings of columns and the foot.
    QVERIFY(paper::face(paper::Face::Body).pixelSize() >= 8);
    QVERIFY(paper::face(paper::Face::Small).pixelSize() >= 7);
}

void RecordPaperTest::aLongNoteGoesOnOnTheNextPage() {
    Told told;
    told.begin();
    QStringList words;
    for (int i = 0; i < 1500; ++i) words.append(QStringLiteral("word%1").arg(i));
    act::StepConfirmed x = told.careful(told.step(0));
    x.note = words.join(QLatin1Char(' '));
    told.wait(3);
    told.tell(x);
    const PdfReader pdf(written(told.record()));
    const QString text = pdf.drawn();
    int missing = 0;
    for (const QString& word : words) missing += text.contains(word) ? 0 : 1;
    QCOMPARE(missing, 0);
    // What did not fit was not painted over the foot either: each page has its own foot.
    for (int page = 1; page <= pdf.pages(); ++page) VERIFY_SAYS(pdf.text(page), QStringLiteral("page %1 of %2").arg(page).arg(pdf.pages()));
}

void RecordPaperTest::theEmptyChecklistHasRoomForEverything() {
    Told told;
    const Record r = checklistOf(told.shop(), told.usual(), told.bench().now());
    const QString text = PdfReader(written(r)).drawn();
    for (const RecordStep& s : r.steps) {
        VERIFY_SAYS(text, s.title);
        for (const QString& line : s.toFill) VERIFY_SAYS(text, line);
        for (const QString& caution : s.cautions) VERIFY_SAYS(text, caution);
    }
    VERIFY_SAYS(text, QStringLiteral("Changeover checklist"));
    VERIFY_SAYS(text, QStringLiteral("empty, to be entered late"));
    QVERIFY(!text.contains(QStringLiteral("Revision")));
}

void RecordPaperTest::aRefusedFileLeavesTheOlderOne() {
    Told told;
    told.begin();
    const QString nowhere = m_dir->filePath(QStringLiteral("no such folder/record.pdf"));
    const auto refused = paper::writeRecordPdf(told.record(), nowhere);
    QVERIFY(!refused);
    QVERIFY(sentence(refused.error()).contains(nowhere));
    QVERIFY(!refused.error().remedy.isEmpty());
}

INTERLUDE_TEST(RecordPaperTest)
#include "record_paper_test.moc"
