#include "views/plan/import_dialog.h"

#include "views/bench/bench.h"
#include "views/lists/list_view.h"
#include "views/look/widgets.h"
#include "views/plan/plan_words.h"
#include "views/words/words.h"

#include <QFile>
#include <QFileInfo>
#include <QPlainTextEdit>
#include <QProgressDialog>
#include <QVBoxLayout>

namespace interlude {

ImportDialog::ImportDialog(Bench& bench, const QString& file, QWidget* parent)
    : QDialog(parent), m_bench(bench), m_model(nullptr), m_list(nullptr), m_said(look::label(look::Text::Body)),
      m_problems(new QPlainTextEdit), m_import(look::primaryButton({})) {
    setObjectName(QStringLiteral("importDialog"));
    setAttribute(Qt::WA_DeleteOnClose);
    setWindowTitle(tr("Import jobs · %1").arg(QFileInfo(file).fileName()));
    setAccessibleName(windowTitle());
    resize(120 * look::unit, 68 * look::unit);
    m_model = new lists::ListModel<Job>(columns(), [](const Job& j) { return j.id; });
    m_list = new lists::ListView(QStringLiteral("import-jobs"), tr("Jobs that would come in"), m_model);
    m_list->setEmptyText(tr("Nothing would be imported. Mend the file and choose it again."));
    m_problems->setReadOnly(true);
    m_problems->setObjectName(QStringLiteral("importProblems"));
    m_problems->setAccessibleName(tr("What stands against the file"));
    m_problems->setMaximumHeight(24 * look::unit);
    m_problems->setTabChangesFocus(true);
    m_import->setObjectName(QStringLiteral("importAccept"));
    auto* all = new QVBoxLayout(this);
    all->setContentsMargins(3 * look::unit, 2 * look::unit, 3 * look::unit, 2 * look::unit);
    all->setSpacing(look::unit);
    all->addWidget(look::label(look::Text::PanelTitle, windowTitle(), true));
    all->addWidget(m_said);
    all->addWidget(m_problems);
    all->addWidget(m_list, 1);
    auto* row = new QHBoxLayout;
    auto* cancel = look::button(tr("Cancel"));
    row->addStretch(1);
    row->addWidget(cancel);
    row->addWidget(m_import);
    all->addLayout(row);
    connect(cancel, &QPushButton::clicked, this, &QDialog::reject);
    connect(m_import, &QPushButton::clicked, this, &ImportDialog::enter);
    connect(&bench, &Bench::signedIn, this, &ImportDialog::update);
    read(file);
    update();
}

QList<lists::Column<Job>> ImportDialog::columns() const {
    const auto when = [this](const std::optional<Instant>& t) {
        lists::Cell c;
        c.sort = lists::sortLast();
        if (!t) return c;
        c.text = m_bench.longTime(*t);
        c.sort = toMs(*t);
        return c;
    };
    return {{tr("Job"), [](const Job& j) { return lists::textCell(j.id); }, false, 0},
            {tr("Title"), [](const Job& j) { return lists::textCell(j.title); }, false, 20},
            {tr("Quantity"), [](const Job& j) {
                 lists::Cell c = lists::textCell(QString::number(j.quantity));
                 c.sort = j.quantity;
                 return c;
             }, true, 0},
            {tr("Release"), [when](const Job& j) { return when(j.release); }, false, 0},
            {tr("Due"), [when](const Job& j) { return when(j.due); }, false, 0},
            {tr("Variants"), [this](const Job& j) {
                 QStringList texts;
                 for (const Variant& v : j.variants)
                     texts << QStringLiteral("%1 %2").arg(v.name, words::setupWanted(m_bench.catalogue(), v.setup)).trimmed();
                 return lists::textCell(texts.join(QStringLiteral("; ")));
             }, false, 30},
            {tr("Printers"), [](const Job& j) {
                 return lists::textCell(j.printers.isEmpty() ? ImportDialog::tr("any") : j.printers.join(QStringLiteral(", ")));
             }, false, 16}};
}

void ImportDialog::read(const QString& file) {
    QFile in(file);
    const QString name = QFileInfo(file).fileName();
    if (in.size() > 8 * 1024 * 1024)
        m_reading.problems.append({name, 0, 0, tr("the file is larger than 8 MB"), tr("split it into smaller files")});
    else if (!in.open(QIODevice::ReadOnly))
        m_reading.problems.append({name, 0, 0, tr("the file cannot be read: %1").arg(in.errorString()), tr("choose another file")});
    else
        m_reading = readJobsCsv(m_bench.shop(), name, in.readAll());
    m_model->setRows(m_reading.jobs);
    QStringList lines;
    for (const Problem& p : m_reading.problems) lines << p.text();
    m_problems->setPlainText(lines.join(QLatin1Char('\n')));
    m_problems->setVisible(!lines.isEmpty());
}

void ImportDialog::update() {
    const auto problems = m_reading.problems.size(), jobs = m_reading.jobs.size();
    const bool nobody = m_bench.who().isEmpty();
    if (!m_reading.isGood()) m_said->setText(problems == 1 ? tr("■ One thing stands against this file; nothing is imported.") : tr("■ %1 things stand against this file; nothing is imported.").arg(problems));
    else if (nobody) m_said->setText(tr("Sign in (Ctrl+I) to import: the window is read-only."));
    else if (problems > 0) m_said->setText(tr("▲ %1 jobs can be imported; %2 of the notes below deserve a look.").arg(jobs).arg(problems));
    else m_said->setText(tr("%1 jobs can be imported.").arg(jobs));
    look::setTone(m_said, m_reading.isGood() ? QString() : QStringLiteral("alarm"));
    m_import->setText(jobs == 1 ? tr("Import 1 job") : tr("Import %1 jobs").arg(jobs));
    m_import->setEnabled(m_reading.isGood() && !nobody);
    m_import->setToolTip(m_import->isEnabled() ? QString() : m_said->text());
}

void ImportDialog::enter() {
    const int count = static_cast<int>(m_reading.jobs.size());
    QProgressDialog progress(tr("Entering the jobs in the ledger…"), QString(), 0, count, this);
    progress.setWindowModality(Qt::WindowModal);
    const auto done = enterJobs(m_bench, m_reading.jobs, [&progress](int n) { progress.setValue(n); });
    progress.reset();
    if (!done) {
        m_said->setText(sentence(done.error()));
        look::setTone(m_said, QStringLiteral("alarm"));
        return;
    }
    Q_EMIT imported(*done);
    accept();
}

} // namespace interlude
