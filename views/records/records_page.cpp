#include "views/records/records_page.h"

#include "views/lists/list_view.h"
#include "views/look/widgets.h"
#include "views/paper/paper.h"
#include "views/photos/photo.h"
#include "views/records/record_rows.h"

#include <QGraphicsView>
#include <QHBoxLayout>
#include <QPrintPreviewWidget>
#include <QPrinter>
#include <QScopedValueRollback>
#include <QVBoxLayout>

namespace interlude {

namespace {
constexpr int previewAfterMs = 250;
} // namespace

RecordsPage::RecordsPage(Bench& bench, QWidget* parent)
    : QWidget(parent), m_bench(bench),
      m_model(new lists::ListModel<RecordRow>(recordColumns(), [](const RecordRow& r) { return QString::number(r.number); })),
      m_list(new lists::ListView(QStringLiteral("records"), tr("Records"), m_model)),
      m_printer(std::make_unique<QPrinter>(QPrinter::HighResolution)), m_preview(nullptr), m_said(look::mutedLabel(look::Text::Body)) {
    m_printer->setOutputFormat(QPrinter::PdfFormat);
    m_printer->setPageSize(paper::pageSize(paper::usualSize()));
    m_preview = new QPrintPreviewWidget(m_printer.get());
    m_preview->setAccessibleName(tr("The record as it will print"));
    for (QGraphicsView* inner : m_preview->findChildren<QGraphicsView*>()) inner->setAccessibleName(tr("Pages of the record"));
    m_list->setEmptyText(tr("No changeover has been recorded yet. Start one from Today or Changeover; its record is here from then on."));
    m_list->setFirstSort(0, Qt::DescendingOrder);
    m_list->rememberFilter();

    m_said->setObjectName(QStringLiteral("recordsSaid"));
    auto* acts = new QHBoxLayout;
    buildActs(*acts);

    auto* all = new QVBoxLayout(this);
    all->setContentsMargins(2 * look::unit, 2 * look::unit, 2 * look::unit, 2 * look::unit);
    all->setSpacing(look::unit);
    all->addLayout(acts);
    auto* row = new QHBoxLayout;
    row->setSpacing(2 * look::unit);
    // The list takes what its columns need at the smaller of the usual screens; the page beside it stays readable.
    row->addWidget(m_list, 8);
    row->addWidget(m_preview, 5);
    all->addLayout(row, 1);

    connect(m_preview, &QPrintPreviewWidget::paintRequested, this, [this](QPrinter* printer) {
        if (const auto record = shown()) paper::paintRecord(*record, *printer);
    });
    // A list of years is not made anew behind another tab.
    connect(&bench, &Bench::changed, this, [this] {
        if (isVisible()) refresh();
        else m_stale = true;
    });
    m_previewLater.setSingleShot(true);
    m_previewLater.setInterval(previewAfterMs);
    connect(&m_previewLater, &QTimer::timeout, this, [this] {
        if (isVisible()) m_preview->updatePreview();
    });
    connect(&bench, &Bench::signedIn, this, &RecordsPage::updateActs);
    connect(&bench, &Bench::openRecord, this, &RecordsPage::showRecord);
    connect(m_list, &lists::ListView::currentKeyChanged, this, &RecordsPage::showCurrent);
    connect(m_list, &lists::ListView::exportFailed, &bench, &Bench::refused);
    setFocusProxy(m_list);
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
    return session ? std::optional(recordWithPhotos(m_bench.workbench(), *session)) : std::nullopt;
}

void RecordsPage::refresh() {
    m_stale = false;
    {
        const QScopedValueRollback filling(m_filling, true);
        m_model->setRows(m_rows.of(m_bench));
    }
    // The latest session is what one comes here for.
    if (m_list->currentKey().isEmpty() && m_bench.shop().lastSession() > 0)
        m_list->select(QString::number(m_bench.shop().lastSession()));
    showCurrent();
}

void RecordsPage::showEvent(QShowEvent* event) {
    QWidget::showEvent(event);
    if (m_stale) refresh();
    else showCurrent(); // filled behind another tab, where nothing is painted
}

void RecordsPage::showCurrent() {
    if (m_filling) return;
    updateActs();
    m_preview->setVisible(current() > 0);
    if (current() > 0 && isVisible()) preview();
}

void RecordsPage::preview() {
    const SessionState* session = m_bench.shop().session(current());
    const std::pair<qint64, qint64> now(current(), session ? session->lastEvent : 0);
    if (std::exchange(m_previewed, now) == now) {
        m_previewLater.start();
        return;
    }
    m_previewLater.stop();
    m_preview->updatePreview();
}

} // namespace interlude
