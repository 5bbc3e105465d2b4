// The widgets of the start panel, laid out once.

#include "views/asking/ask_dialog.h"
#include "views/asking/job_dialog.h"
#include "views/asking/time_field.h"
#include "views/changeover/job_list.h"
#include "views/changeover/start_panel.h"
#include "views/changeover/summary_panel.h"
#include "views/look/flow.h"
#include "views/look/widgets.h"

#include <QCheckBox>
#include <QListWidget>

namespace interlude {

namespace {
constexpr int printersWidth = 25 * look::unit, narrowPrinters = 21 * look::unit;
/// Of the width that the printers leave, the jobs take two parts in five.
constexpr int jobsPart = 2, summaryPart = 3;
} // namespace

StartPanel::StartPanel(Bench& bench, QWidget* parent) : QWidget(parent), m_bench(bench) {
    setObjectName(QStringLiteral("startPanel"));
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(2 * look::unit);
    row->addWidget(buildPrinters());
    row->addWidget(buildJobs(), jobsPart);
    row->addWidget(buildSummary(), summaryPart);
    refresh();
}

QWidget* StartPanel::buildPrinters() {
    auto* panel = new look::Panel(tr("Printer"));
    panel->setMinimumWidth(narrowPrinters);
    panel->setMaximumWidth(printersWidth);
    m_printers = new QListWidget;
    m_printers->setObjectName(QStringLiteral("printerList"));
    m_printers->setAccessibleName(tr("Printers and what they wear"));
    m_printers->setWordWrap(true);
    m_printers->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    panel->body()->addWidget(m_printers);
    connect(m_printers, &QListWidget::currentItemChanged, this, [this](QListWidgetItem* item) {
        if (m_filling || !item) return;
        const QString id = item->data(Qt::UserRole).toString();
        QMetaObject::invokeMethod(this, [this, id] { choosePrinter(id); }, Qt::QueuedConnection);
    });
    return panel;
}

QWidget* StartPanel::buildJobs() {
    auto* panel = new look::Panel(tr("Job to print next"));
    m_jobs = makeJobList(m_bench, this);
    m_list = new lists::ListView(QStringLiteral("start-jobs"), tr("Jobs that can be printed"), m_jobs);
    m_list->setObjectName(QStringLiteral("jobList"));
    m_list->setFirstSort(1, Qt::AscendingOrder);
    m_list->setEmptyText(tr("No job is open. Add one below, or import jobs from CSV."));
    connect(m_list, &lists::ListView::currentKeyChanged, this, [this](const QString& id) {
        if (!m_filling && !id.isEmpty()) chooseJob(id);
    });
    panel->body()->addWidget(m_list, 1);
    auto* row = new look::Flow;
    const auto action = [&](const QString& name, const QString& text) {
        auto* b = look::button(text);
        b->setObjectName(name);
        row->add(b);
        return b;
    };
    m_add = action(QStringLiteral("addJob"), tr("Add a job…"));
    m_change = action(QStringLiteral("changeJob"), tr("Change…"));
    m_withdraw = action(QStringLiteral("withdrawJob"), tr("Withdraw…"));
    panel->body()->addLayout(row);
    panel->body()->addWidget(look::label(look::Text::Body, tr("Variant"), true));
    m_variants = new QVBoxLayout;
    m_variants->setSpacing(0);
    panel->body()->addLayout(m_variants);
    connect(m_add, &QPushButton::clicked, this, [this] { (new JobDialog(m_bench, {}, this))->open(); });
    connect(m_change, &QPushButton::clicked, this, [this] { (new JobDialog(m_bench, m_draft.job, this))->open(); });
    connect(m_withdraw, &QPushButton::clicked, this, [this] { askWithdraw(m_bench, m_draft.job, this); });
    return panel;
}

QWidget* StartPanel::buildSummary() {
    auto* panel = new look::Panel;
    m_summary = new SummaryPanel(m_bench);
    panel->body()->addWidget(m_summary, 1);
    m_message = look::label(look::Text::Body, {}, true);
    m_message->setObjectName(QStringLiteral("startMessage"));
    m_message->hide();
    panel->body()->addWidget(m_message);
    auto* late = new look::Flow;
    m_late = new QCheckBox(tr("Enter a paper checklist afterwards; begun at"));
    m_late->setObjectName(QStringLiteral("enterLate"));
    m_late->setAccessibleName(tr("Enter a paper checklist afterwards"));
    m_lateStart = new TimeField;
    m_lateStart->setObjectName(QStringLiteral("lateStart"));
    m_lateStart->setAccessibleName(tr("When the changeover on paper began"));
    m_lateStart->setMinimumWidth(25 * look::unit);
    m_lateStart->setEnabled(false);
    connect(m_late, &QCheckBox::toggled, this, [this](bool on) {
        m_lateStart->setEnabled(on);
        if (on) setZoned(*m_lateStart, m_bench.now() - Minutes(60), m_bench.catalogue().fleet.zone);
    });
    setZoned(*m_lateStart, m_bench.now(), m_bench.catalogue().fleet.zone);
    late->add(m_late);
    late->add(m_lateStart);
    panel->body()->addLayout(late);
    auto* foot = new look::Flow;
    m_start = look::primaryButton(tr("Start the changeover"));
    m_start->setObjectName(QStringLiteral("startButton"));
    m_start->setMinimumHeight(look::confirmHeight);
    m_start->setFont(look::font(look::Text::PanelTitle));
    m_printSummary = look::button(tr("Summary on paper…"));
    m_printChecklist = look::button(tr("Empty checklist…"));
    m_printSummary->setObjectName(QStringLiteral("printSummary"));
    m_printChecklist->setObjectName(QStringLiteral("printChecklist"));
    foot->add(m_start, true);
    for (QPushButton* b : {m_printSummary, m_printChecklist}) {
        b->setMinimumHeight(look::confirmHeight);
        foot->add(b);
    }
    panel->body()->addLayout(foot);
    connect(m_summary, &SummaryPanel::changed, this, [this](const Draft& d) {
        m_draft = d;
        judge();
    });
    connect(m_summary, &SummaryPanel::liftAsked, this, &StartPanel::lift);
    connect(m_start, &QPushButton::clicked, this, [this] { start(); });
    connect(m_printSummary, &QPushButton::clicked, this, [this] {
        putOnPaper(tr("Changeover summary"), QStringLiteral("changeover-summary"), &StartPanel::writeSummary, &StartPanel::printSummary);
    });
    connect(m_printChecklist, &QPushButton::clicked, this, [this] {
        putOnPaper(tr("Empty checklist"), QStringLiteral("changeover-checklist"), &StartPanel::writeChecklist, &StartPanel::printChecklist);
    });
    return panel;
}

} // namespace interlude
