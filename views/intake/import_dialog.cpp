#include "views/intake/import_dialog.h"

#include "views/bench/bench.h"
#include "views/bench/keys.h"
#include "views/lists/list_view.h"
#include "views/look/widgets.h"
#include "views/words/counted.h"

#include <QApplication>
#include <QFileDialog>
#include <QFileInfo>
#include <QPlainTextEdit>
#include <QProgressBar>
#include <QThread>
#include <QVBoxLayout>

namespace interlude {

namespace {

/// A file that is read within this time shows no progress.
constexpr unsigned long shortMs = 150;
/// So many entries are judged before the window has its turn again; some milliseconds.
constexpr qsizetype partAtOnce = 500;
/// Nobody reads more; the command line prints all of them.
constexpr qsizetype mostProblemsShown = 500;

QString titleOf(EntryKind kind) {
    switch (kind) {
    case EntryKind::Jobs: return ImportDialog::tr("Import jobs");
    case EntryKind::Spools: return ImportDialog::tr("Import spools");
    case EntryKind::Nozzles: break;
    }
    return ImportDialog::tr("Import nozzles");
}

QString counted(qsizetype n, EntryKind kind) {
    switch (kind) {
    case EntryKind::Jobs: return words::jobs(n);
    case EntryKind::Spools: return words::spools(n);
    case EntryKind::Nozzles: break;
    }
    return words::nozzles(n);
}

QList<lists::Column<ImportRow>> columns(EntryKind kind) {
    QList<lists::Column<ImportRow>> out{
        {kind == EntryKind::Nozzles ? ImportDialog::tr("Serial") : ImportDialog::tr("Id"), [](const ImportRow& r) { return lists::textCell(r.id); }, false, 0}};
    const QStringList titles = importTitles(kind);
    for (qsizetype i = 0; i < titles.size(); ++i)
        out.append({titles[i], [i](const ImportRow& r) { return r.cells.value(i); }, false, 20});
    return out;
}

} // namespace

ImportDialog::ImportDialog(Bench& bench, EntryKind kind, const QString& file, QWidget* parent)
    : QDialog(parent), m_bench(bench), m_kind(kind), m_progress(std::make_shared<Progress>()),
      m_model(new lists::ListModel<ImportRow>(columns(kind), [](const ImportRow& r) { return r.id; })), m_list(nullptr),
      m_said(look::label(look::Text::Body)), m_bar(new QProgressBar), m_problems(new QPlainTextEdit),
      m_import(look::primaryButton({})), m_cancel(look::button(tr("Cancel"))) {
    setObjectName(QStringLiteral("importDialog"));
    setAttribute(Qt::WA_DeleteOnClose);
    setWindowTitle(QStringLiteral("%1 · %2").arg(titleOf(kind), QFileInfo(file).fileName()));
    setAccessibleName(windowTitle());
    resize(120 * look::unit, 68 * look::unit);
    build();
    connect(m_cancel, &QPushButton::clicked, this, &QDialog::reject);
    connect(m_import, &QPushButton::clicked, this, &ImportDialog::enter);
    connect(&bench, &Bench::signedIn, this, &ImportDialog::update);
    connect(&m_tick, &QTimer::timeout, this, [this] { m_bar->setValue(static_cast<int>(m_progress->share * 50)); });
    begin(file);
}

ImportDialog::~ImportDialog() {
    if (!m_reader) return;
    m_progress->stop = true;
    m_reader->disconnect(this);
    m_reader->wait();
}

void ImportDialog::build() {
    m_list = new lists::ListView(QStringLiteral("import-%1").arg(wordOf(m_kind)), tr("What would come in"), m_model);
    m_list->setEmptyText(tr("Nothing would be imported."));
    m_problems->setReadOnly(true);
    m_problems->setObjectName(QStringLiteral("importProblems"));
    m_problems->setAccessibleName(tr("What stands against the file"));
    m_problems->setMaximumHeight(24 * look::unit);
    m_problems->setTabChangesFocus(true);
    m_bar->setObjectName(QStringLiteral("importProgress"));
    m_bar->setAccessibleName(tr("Share of the file that is read"));
    m_bar->setRange(0, 100);
    m_import->setObjectName(QStringLiteral("importAccept"));
    m_cancel->setObjectName(QStringLiteral("importCancel"));
    auto* all = new QVBoxLayout(this);
    all->setContentsMargins(3 * look::unit, 2 * look::unit, 3 * look::unit, 2 * look::unit);
    all->setSpacing(look::unit);
    all->addWidget(look::label(look::Text::PanelTitle, windowTitle(), true));
    all->addWidget(m_said);
    all->addWidget(m_bar);
    all->addWidget(m_problems);
    all->addWidget(m_list, 1);
    auto* row = new QHBoxLayout;
    row->addStretch(1);
    row->addWidget(m_cancel);
    row->addWidget(m_import);
    all->addLayout(row);
}

void ImportDialog::begin(const QString& file) {
    // What the thread works on outlives this dialog; it knows the catalogue, which never changes, and not the shop.
    m_progress->reader = std::make_unique<IntakeReader>(m_bench.shop().cataloguePtr(), m_kind);
    m_reader = QThread::create([progress = m_progress, file] {
        progress->reader->readFile(file, [&progress](double share) {
            progress->share = share;
            return !progress->stop;
        });
    });
    m_reader->setParent(this);
    m_reader->start();
    connect(&m_judging, &QTimer::timeout, this, &ImportDialog::judge);
    m_tick.start(100);
    update();
    const auto ended = [this] {
        delete std::exchange(m_reader, nullptr);
        judge();
    };
    if (m_reader->wait(shortMs)) return ended();
    connect(m_reader, &QThread::finished, this, [this, ended] {
        m_reader->wait();
        ended();
    }, Qt::QueuedConnection);
}

void ImportDialog::judge() {
    IntakeReader& reader = *m_progress->reader;
    const bool more = reader.judge(m_bench.shop(), m_bench.now(), partAtOnce);
    m_progress->share = 1 + reader.judged();
    if (more) return m_judging.start(0);
    m_judging.stop();
    taken();
}

void ImportDialog::taken() {
    m_isReading = false;
    m_tick.stop();
    m_reading = m_progress->reader->take();
    QStringList lines;
    for (const Problem& p : m_reading.problems.mid(0, mostProblemsShown)) lines << p.text();
    if (const auto more = m_reading.problems.size() - mostProblemsShown; more > 0)
        lines << tr("… and %1 more").arg(more);
    m_problems->setPlainText(lines.join(QLatin1Char('\n')));
    if (m_reading.isGood()) m_model->setRows(importRows(m_bench, m_reading));
    update();
    if (m_import->isEnabled()) m_import->setFocus();
    else if (m_problems->isVisibleTo(this)) m_problems->setFocus();
}

QString ImportDialog::said() const {
    if (isReading()) return tr("Reading the file…");
    const auto errors = m_reading.errors();
    if (errors == 1) return tr("■ One thing stands against this file; nothing of it is imported.");
    if (errors > 1) return tr("■ %1 things stand against this file; nothing of it is imported.").arg(errors);
    const auto known = m_reading.known.size(), differing = m_reading.differing();
    QStringList parts;
    if (m_reading.count() > 0) parts << tr("%1 can be imported.").arg(counted(m_reading.count(), m_kind));
    else parts << tr("There is nothing new in this file.");
    if (known > differing) parts << tr("%1 already there, unchanged.").arg(counted(known - differing, m_kind));
    if (differing > 0) parts << tr("▲ %1 already there but different in the file: nothing of that is changed.").arg(counted(differing, m_kind));
    if (m_reading.problems.size() > differing) parts << tr("▲ The notes below deserve a look.");
    if (m_reading.count() > 0 && m_bench.who().isEmpty()) parts << tr("Sign in%1 to import: the window is read-only.").arg(keyHint(QStringLiteral("sign-in")));
    return parts.join(QLatin1Char(' '));
}

void ImportDialog::update() {
    m_said->setText(said());
    look::setTone(m_said, isReading() || m_reading.errors() == 0 ? QString() : QStringLiteral("alarm"));
    m_bar->setVisible(isReading());
    m_list->setVisible(!isReading() && m_reading.isGood());
    // Notes beside good rows take no more room than they need; what stands against a file has all of it.
    const int lines = m_problems->document()->blockCount() * 2 + 1;
    m_problems->setMaximumHeight(m_reading.isGood() ? std::min(24 * look::unit, lines * m_problems->fontMetrics().lineSpacing()) : QWIDGETSIZE_MAX);
    m_problems->setVisible(!isReading() && !m_reading.problems.isEmpty());
    m_cancel->setText(isReading() ? tr("Stop") : tr("Cancel"));
    m_import->setText(m_reading.count() > 0 ? tr("Import %1").arg(counted(m_reading.count(), m_kind)) : tr("Import"));
    m_import->setEnabled(!isReading() && m_reading.isGood() && m_reading.count() > 0 && !m_bench.who().isEmpty());
    m_import->setToolTip(m_import->isEnabled() ? QString() : m_said->text());
}

void ImportDialog::enter() {
    QApplication::setOverrideCursor(Qt::WaitCursor);
    const auto done = m_bench.perform(actOf(m_reading));
    QApplication::restoreOverrideCursor();
    if (!done) {
        m_said->setText(sentence(done.error()));
        look::setTone(m_said, QStringLiteral("alarm"));
        return;
    }
    Q_EMIT imported(tr("%1 imported from %2.").arg(counted(m_reading.count(), m_kind), m_reading.file));
    accept();
}

void ImportDialog::choose(Bench& bench, EntryKind kind, QWidget* parent, const std::function<void(const QString&)>& imported) {
    auto* files = new QFileDialog(parent, titleOf(kind), {}, tr("CSV (*.csv);;All files (*)"));
    files->setObjectName(QStringLiteral("importFileDialog"));
    files->setFileMode(QFileDialog::ExistingFile);
    files->setAttribute(Qt::WA_DeleteOnClose);
    connect(files, &QFileDialog::fileSelected, parent, [&bench, kind, parent, imported](const QString& file) {
        auto* dialog = new ImportDialog(bench, kind, file, parent);
        connect(dialog, &ImportDialog::imported, parent, imported);
        dialog->open();
    });
    files->open();
}

} // namespace interlude
