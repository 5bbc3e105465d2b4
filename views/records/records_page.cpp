#include "views/records/records_page.h"

#include "views/lists/list_view.h"
#include "views/look/widgets.h"
#include "views/paper/paper.h"
#include "views/records/record_rows.h"

#include <QCryptographicHash>
#include <QFile>
#include <QFileDialog>
#include <QGraphicsView>
#include <QHBoxLayout>
#include <QPrintDialog>
#include <QPrintPreviewWidget>
#include <QPrinter>
#include <QVBoxLayout>

namespace interlude {

RecordsPage::RecordsPage(Bench& bench, QWidget* parent)
    : QWidget(parent), m_bench(bench),
      m_model(new lists::ListModel<RecordRow>(recordColumns(), [](const RecordRow& r) { return QString::number(r.number); })),
      m_list(new lists::ListView(QStringLiteral("records"), tr("Records"), m_model)),
      m_printer(std::make_unique<QPrinter>(QPrinter::HighResolution)), m_preview(nullptr), m_said(look::mutedLabel(look::Text::Body)) {
    m_printer->setOutputFormat(QPrinter::PdfFormat);
    m_printer->setPageSize(QPageSize(QPageSize::A4));
    m_preview = new QPrintPreviewWidget(m_printer.get());
    m_preview->setAccessibleName(tr("The record as it will print"));
    for (QGraphicsView* inner : m_preview->findChildren<QGraphicsView*>()) inner->setAccessibleName(tr("Pages of the record"));
    m_list->setEmptyText(tr("No changeover has been recorded yet. Start one from Today or Changeover; its record is here from then on."));
    m_list->setFirstSort(0, Qt::DescendingOrder);

    auto* acts = new QHBoxLayout;
    acts->setSpacing(look::unit);
    const auto act = [&](const QString& text, auto doIt) {
        QPushButton* b = look::button(text);
        connect(b, &QPushButton::clicked, this, doIt);
        acts->addWidget(b);
        m_acts.append(b);
    };
    act(tr("&Print…"), [this] { print(); });
    act(tr("&Save PDF…"), [this] {
        const QString file = QFileDialog::getSaveFileName(this, tr("Save the record"), QStringLiteral("record-%1.pdf").arg(current()), tr("PDF (*.pdf)"));
        if (!file.isEmpty()) savePdf(file);
    });
    act(tr("&Export bundle…"), [this] {
        const QString folder = QFileDialog::getSaveFileName(this, tr("New folder for PDF, JSON and checksums"), QStringLiteral("record-%1").arg(current()));
        if (!folder.isEmpty()) exportBundle(folder);
    });
    QPushButton* check = look::button(tr("&Verify the ledger"));
    connect(check, &QPushButton::clicked, this, [this] { verify(); });
    acts->addWidget(check);
    acts->addWidget(m_said, 1);

    auto* all = new QVBoxLayout(this);
    all->setContentsMargins(2 * look::unit, 2 * look::unit, 2 * look::unit, 2 * look::unit);
    all->setSpacing(look::unit);
    all->addLayout(acts);
    auto* row = new QHBoxLayout;
    row->setSpacing(2 * look::unit);
    row->addWidget(m_list, 1);
    row->addWidget(m_preview, 1);
    all->addLayout(row, 1);

    connect(m_preview, &QPrintPreviewWidget::paintRequested, this, [this](QPrinter* printer) {
        if (const auto record = shown()) paper::paintRecord(*record, *printer);
    });
    connect(&bench, &Bench::changed, this, &RecordsPage::refresh);
    connect(&bench, &Bench::openRecord, this, &RecordsPage::showRecord);
    connect(m_list, &lists::ListView::currentKeyChanged, this, &RecordsPage::showCurrent);
    connect(m_list, &lists::ListView::exportFailed, &bench, &Bench::refused);
    setFocusProxy(m_list);
    refresh();
}

RecordsPage::~RecordsPage() {
    delete m_preview; // it uses the printer until its end
}

bool RecordsPage::showRecord(qint64 session) {
    refresh();
    return m_list->select(QString::number(session));
}

qint64 RecordsPage::current() const {
    return m_list->currentKey().toLongLong();
}

std::optional<Record> RecordsPage::shown() const {
    const SessionState* session = m_bench.shop().session(current());
    return session ? std::optional(recordOf(m_bench.shop(), *session, m_bench.now())) : std::nullopt;
}

void RecordsPage::refresh() {
    m_model->setRows(recordRows(m_bench));
    // The latest session is what one comes here for.
    if (m_list->currentKey().isEmpty() && !m_bench.shop().sessions().isEmpty())
        m_list->select(QString::number(m_bench.shop().sessions().lastKey()));
    showCurrent();
}

void RecordsPage::showCurrent() {
    const bool any = current() > 0;
    for (QPushButton* b : m_acts) b->setEnabled(any);
    m_preview->setVisible(any);
    if (any && isVisible()) m_preview->updatePreview();
}

void RecordsPage::say(const QString& text) {
    m_said->setText(text);
}

bool RecordsPage::failed(const Finding& finding) {
    say(sentence(finding));
    Q_EMIT m_bench.refused(finding);
    return false;
}

bool RecordsPage::issued(const QString& file) {
    QFile written(file);
    if (!written.open(QIODevice::ReadOnly))
        return failed({Severity::Refusal, QStringLiteral("record"), tr("%1 cannot be read back").arg(file), {}, {}, false});
    QCryptographicHash sum(QCryptographicHash::Sha256);
    sum.addData(&written);
    act::RecordIssued done;
    done.session = current();
    done.revision = m_bench.shop().session(current())->revision + 1;
    done.sha256 = QString::fromLatin1(sum.result().toHex());
    const auto recorded = m_bench.perform(done);
    if (!recorded) return failed(recorded.error());
    return true;
}

bool RecordsPage::savePdf(const QString& file) {
    const auto record = shown();
    if (!record) return false;
    const auto pages = paper::writeRecordPdf(*record, file);
    if (!pages) return failed(pages.error());
    if (!issued(file)) return false;
    say(tr("%1: revision %2, %n page(s)", nullptr, *pages).arg(file).arg(record->revision));
    return true;
}

bool RecordsPage::exportBundle(const QString& folder) {
    const auto record = shown();
    if (!record) return false;
    const auto files = paper::writeBundle(*record, folder);
    if (!files) return failed(files.error());
    if (!issued(files->front())) return false;
    say(tr("%1: record.pdf, record.json, sha256sums.txt").arg(folder));
    return true;
}

bool RecordsPage::verify() {
    const auto misfit = m_bench.workbench().store().verify();
    if (misfit) {
        say(tr("Event %1 does not fit: %2").arg(misfit->sequence).arg(misfit->reason));
        return false;
    }
    say(tr("%n event(s), all fit", nullptr, static_cast<int>(m_bench.workbench().store().lastSequence())));
    return true;
}

void RecordsPage::print() {
    const auto record = shown();
    if (!record) return;
    auto* dialog = new QPrintDialog(m_printer.get(), this);
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    connect(dialog, qOverload<QPrinter*>(&QPrintDialog::accepted), this, [this, record](QPrinter* printer) {
        const int pages = paper::paintRecord(*record, *printer);
        say(tr("%n page(s) sent to %1", nullptr, pages).arg(printer->printerName().isEmpty() ? tr("a file") : printer->printerName()));
    });
    dialog->open();
}

} // namespace interlude
