// What can be done with a record: the buttons of the page, and what they write.

#include "views/bench/remembered.h"
#include "views/records/records_page.h"

#include "model/records/verification.h"
#include "views/asking/ask_dialog.h"
#include "views/asking/correction_dialog.h"
#include "views/asking/on_paper.h"
#include "views/look/widgets.h"
#include "views/paper/paper.h"
#include "views/photos/photo.h"
#include "views/records/trace_dialog.h"
#include "views/words/counted.h"

#include <QClipboard>
#include <QCryptographicHash>
#include <QDir>
#include <QFile>
#include <QFileDialog>
#include <QGuiApplication>
#include <QHBoxLayout>
#include <QLineEdit>
#include <QPrintDialog>
#include <QPrinter>
#include <QTemporaryDir>

namespace interlude {

void RecordsPage::buildActs(QHBoxLayout& row) {
    row.setSpacing(look::unit);
    const auto act = [&](const char* name, const QString& text, bool needsSession, bool needsPerson, std::function<void()> doIt) {
        QPushButton* b = m_acts.isEmpty() ? look::primaryButton(text) : look::button(text);
        b->setObjectName(QString::fromLatin1(name));
        connect(b, &QPushButton::clicked, this, std::move(doIt));
        row.addWidget(b);
        m_acts.append({b, needsSession, needsPerson});
    };
    act("printRecord", tr("&Print…"), true, true, [this] { askPrinter(); });
    act("saveRecord", tr("&Save PDF…"), true, true, [this] {
        askFile(tr("Save the record"), QStringLiteral("record-%1.pdf").arg(current()), tr("PDF (*.pdf)"), &RecordsPage::savePdf);
    });
    act("exportRecord", tr("&Export bundle…"), true, true, [this] {
        askFile(tr("New folder for PDF, JSON and checksums"), QStringLiteral("record-%1").arg(current()), QString(), &RecordsPage::exportBundle);
    });
    act("correctRecord", tr("C&orrect…"), true, true, [this] { askCorrection(); });
    act("copyRecord", tr("Cop&y"), true, false, [this] { copyText(); });
    act("emptyChecklist", tr("Empty chec&klist…"), true, false, [this] { askChecklist(); });
    act("verifyLedger", tr("&Verify…"), false, false, [this] { askVerify(); });
    act("traceParts", tr("&Trace…"), false, false, [this] { (new TraceDialog(m_bench, this))->show(); });
    row.addWidget(m_said, 1);
}

void RecordsPage::updateActs() {
    for (const Act& act : std::as_const(m_acts)) {
        QString why;
        if (act.needsPerson && m_bench.who().isEmpty()) why = tr("Sign in first: the window is read-only.");
        else if (act.needsSession && current() == 0) why = tr("Choose a session in the list first.");
        act.button->setEnabled(why.isEmpty());
        act.button->setToolTip(why);
        act.button->setAccessibleDescription(why);
    }
}

QString RecordsPage::said() const {
    return m_said->text();
}

void RecordsPage::say(const QString& text) {
    m_said->setText(text);
}

bool RecordsPage::failed(const Finding& finding) {
    say(sentence(finding));
    Q_EMIT m_bench.refused(finding);
    return false;
}

std::optional<Record> RecordsPage::toIssue() {
    auto record = shown();
    if (!record) return record;
    act::RecordIssued wanted;
    wanted.session = current();
    wanted.revision = record->revision;
    wanted.sha256 = QString(64, QLatin1Char('0'));
    const Findings against = refusalsIn(m_bench.workbench().objections(wanted, m_bench.who()));
    if (!against.isEmpty()) {
        failed(against.front());
        return std::nullopt;
    }
    record->draft = false;
    return record;
}

bool RecordsPage::issued(const QByteArray& sha256, int revision) {
    act::RecordIssued done;
    done.session = current();
    done.revision = revision;
    done.sha256 = QString::fromLatin1(sha256.toHex());
    const auto recorded = m_bench.perform(done);
    return recorded || failed(recorded.error());
}

bool RecordsPage::issuedFile(const QString& file, int revision) {
    QFile written(file);
    QCryptographicHash sum(QCryptographicHash::Sha256);
    if (!written.open(QIODevice::ReadOnly) || !sum.addData(&written))
        return failed({Severity::Refusal, QStringLiteral("record"), tr("%1 cannot be read back").arg(file), {}, {}, false});
    return issued(sum.result(), revision);
}

bool RecordsPage::savePdf(const QString& file) {
    const auto record = toIssue();
    if (!record) return false;
    const auto pages = paper::writeRecordPdf(*record, file);
    if (!pages) return failed(pages.error());
    if (!issuedFile(file, record->revision)) {
        QFile::remove(file); // it would say that it was issued
        return false;
    }
    say(tr("%1: revision %2, %3").arg(file).arg(record->revision).arg(words::pages(*pages)));
    return true;
}

bool RecordsPage::exportBundle(const QString& folder) {
    const auto record = toIssue();
    if (!record) return false;
    const auto files = paper::writeBundle(*record, folder);
    if (!files) return failed(files.error());
    if (!issuedFile(files->front(), record->revision)) {
        QDir(folder).removeRecursively();
        return false;
    }
    QString done = tr("%1: revision %2, record as PDF and JSON, list of sums").arg(folder).arg(record->revision);
    if (const auto photos = files->size() - 3; photos > 0) done += tr(", photos: %1").arg(photos);
    say((QStringList{done} + photoFaults(*record)).join(QStringLiteral(". ")));
    return true;
}

bool RecordsPage::printRecord(QPrinter& printer) {
    const auto record = toIssue();
    if (!record) return false;
    // What goes to paper leaves no file, so the same pages are hashed as a PDF.
    const QTemporaryDir aside;
    const QString copy = aside.filePath(QStringLiteral("record.pdf"));
    if (const auto pages = paper::writeRecordPdf(*record, copy); !pages) return failed(pages.error());
    const int pages = paper::paintRecord(*record, printer);
    if (pages == 0)
        return failed({Severity::Refusal, QStringLiteral("print"), tr("The printer took no page"), tr("look at the printer and print again"), {}, false});
    if (!issuedFile(copy, record->revision)) return false;
    say(tr("Revision %1, %2 sent to %3").arg(record->revision).arg(words::pages(pages), printer.printerName().isEmpty() ? tr("a file") : printer.printerName()));
    return true;
}

bool RecordsPage::verify(const QString& printed) {
    const EventStore& store = m_bench.workbench().store();
    if (const auto misfit = store.verify()) {
        say(tr("Event %1 does not fit: %2").arg(misfit->sequence).arg(misfit->reason));
        return false;
    }
    const QString chain = tr("%1, all fit.").arg(words::events(store.lastSequence()));
    if (printed.trimmed().isEmpty()) {
        say(chain);
        return true;
    }
    const auto compared = comparePrinted(store, m_bench.catalogue().fleet.id, printed);
    if (!compared) return failed(compared.error());
    say(QStringLiteral("%1 %2").arg(chain, compared->said));
    return compared->fits;
}

void RecordsPage::copyText() {
    const auto record = shown();
    if (!record) return;
    QGuiApplication::clipboard()->setText(toText(*record));
    say(tr("Record %1 is on the clipboard as text.").arg(record->session));
}

void RecordsPage::askPrinter() {
    auto* dialog = new QPrintDialog(m_printer.get(), this);
    dialog->setObjectName(QStringLiteral("printDialog"));
    dialog->setWindowTitle(tr("Print the record"));
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    connect(dialog, qOverload<QPrinter*>(&QPrintDialog::accepted), this, [this](QPrinter* printer) { printRecord(*printer); });
    dialog->open();
}

void RecordsPage::askChecklist() {
    const SessionState* session = m_bench.shop().session(current());
    if (!session) return;
    const Record list = checklistOf(m_bench.shop(), session->changeover, m_bench.now());
    putOnPaper(this,
               {tr("Empty checklist"), QStringLiteral("checklist-%1.pdf").arg(current()), uprightLayout(),
                [list](const QString& file) { return paper::writeRecordPdf(list, file); },
                [list](QPrinter& printer) { return paper::paintRecord(list, printer); }},
               [this](const Outcome<QString>& said) {
                   if (said) say(*said);
                   else failed(said.error());
               });
}

void RecordsPage::askFile(const QString& title, const QString& suggestion, const QString& filter, bool (RecordsPage::*use)(const QString&)) {
    auto* dialog = new QFileDialog(this, title, documentsFile(suggestion), filter);
    dialog->setObjectName(QStringLiteral("recordFileDialog"));
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    dialog->setAcceptMode(QFileDialog::AcceptSave);
    dialog->setFileMode(QFileDialog::AnyFile);
    dialog->setDefaultSuffix(QFileInfo(suggestion).suffix());
    dialog->selectFile(suggestion);
    connect(dialog, &QFileDialog::fileSelected, this, [this, use](const QString& file) { (this->*use)(file); });
    dialog->open();
}

void RecordsPage::askCorrection() {
    auto* dialog = new CorrectionDialog(m_bench, current(), this);
    const auto before = m_bench.shop().session(current())->corrections.size();
    connect(dialog, &QDialog::accepted, this, [this, before] {
        const SessionState* s = m_bench.shop().session(current());
        if (s && s->corrections.size() > before) say(tr("Corrected; the next issue is revision %1.").arg(s->nextRevision()));
    });
    dialog->open();
}

void RecordsPage::askVerify() {
    auto* dialog = new AskDialog(tr("Verify"), tr("Recomputes the ledger's chain. With the hash from the foot of a printed record, or its "
                                                  "code scanned, it also says whether that record was printed from this ledger."),
                                 tr("Verify"), this);
    dialog->setObjectName(QStringLiteral("verifyDialog"));
    QLineEdit* printed = dialog->addLine(QStringLiteral("verifyHash"), tr("Hash or code"), {}, tr("empty: only the ledger"));
    dialog->setAct([this, printed]() -> std::optional<Finding> {
        const QString text = printed->text();
        if (!text.trimmed().isEmpty())
            if (const auto read = comparePrinted(m_bench.workbench().store(), m_bench.catalogue().fleet.id, text); !read) return read.error();
        verify(text);
        return std::nullopt;
    });
    dialog->open();
    printed->setFocus();
}

} // namespace interlude
