#include "views/plan/compare_dialog.h"

#include "model/planning/plans/published.h"
#include "model/planning/yardsticks.h"
#include "views/lists/list_view.h"
#include "views/look/widgets.h"
#include "views/plan/figures_panel.h"
#include "views/plan/plan_words.h"

#include <QComboBox>
#include <QHeaderView>
#include <QTableWidget>
#include <QThread>
#include <QVBoxLayout>

namespace interlude {

using lists::Cell;
using planning::Minute;

namespace {

std::vector<ComparedJob::Place> placesIn(const planning::ShopProblem& problem, const planning::Timetable& t) {
    std::vector<ComparedJob::Place> out(static_cast<std::size_t>(problem.jobs.size()));
    for (const auto& list : t.printers)
        for (const planning::TimedJob& j : list)
            if (j.job >= 0 && j.complete < planning::never)
                out[static_cast<std::size_t>(j.job)] = {j.printer, j.printStart, j.complete, planning::lateMinutes(problem, j).value_or(0)};
    return out;
}

} // namespace

CompareDialog::CompareDialog(PlanDesk& desk, QWidget* parent)
    : QDialog(parent), m_desk(desk), m_figures(new QTableWidget), m_against(new QComboBox), m_model(nullptr), m_list(nullptr) {
    setObjectName(QStringLiteral("compareDialog"));
    setAttribute(Qt::WA_DeleteOnClose);
    setWindowTitle(tr("Compare plans"));
    setAccessibleName(windowTitle());
    resize(156 * look::unit, 78 * look::unit);
    m_model = new lists::ListModel<ComparedJob>(columns(), [](const ComparedJob& j) { return j.job.id; });
    m_list = new lists::ListView(QStringLiteral("compare"), tr("Jobs that stand otherwise"), m_model);
    m_list->setEmptyText(tr("Timing the plans…"));
    m_against->setObjectName(QStringLiteral("compareAgainst"));
    m_against->setAccessibleName(tr("Plan to compare the draft with"));
    connect(m_against, &QComboBox::currentIndexChanged, this, &CompareDialog::showJobs);
    auto* all = new QVBoxLayout(this);
    all->setContentsMargins(3 * look::unit, 2 * look::unit, 3 * look::unit, 2 * look::unit);
    all->setSpacing(look::unit);
    all->addWidget(look::label(look::Text::PanelTitle, windowTitle(), true));
    all->addWidget(m_figures);
    auto* row = new QHBoxLayout;
    auto* said = look::label(look::Text::Body, tr("Jobs that the draft places otherwise than"), true);
    said->setWordWrap(false);
    row->addWidget(said);
    row->addWidget(m_against);
    row->addStretch(1);
    all->addLayout(row);
    all->addWidget(m_list, 1);
    auto* close = look::button(tr("Close"));
    connect(close, &QPushButton::clicked, this, &QDialog::reject);
    all->addWidget(close, 0, Qt::AlignRight);
    reckon();
    buildFigures();
}

CompareDialog::~CompareDialog() {
    m_stop.request_stop();
    if (m_thread) m_thread->wait();
}

lists::Column<ComparedJob> CompareDialog::when(const QString& title, bool draft, Minute ComparedJob::Place::*value) const {
    return {title,
            [this, draft, value](const ComparedJob& j) {
                const ComparedJob::Place& place = draft ? j.draft : j.other;
                Cell c;
                c.sort = lists::sortLast();
                if (place.printer < 0) return c;
                c.text = plan_words::time(m_desk.bench(), *m_problem, place.*value);
                c.sort = static_cast<qint64>(place.*value);
                return c;
            },
            false, 0};
}

QList<lists::Column<ComparedJob>> CompareDialog::columns() const {
    const auto printer = [this](const QString& title, bool draft) {
        return lists::Column<ComparedJob>{title,
                                          [this, draft](const ComparedJob& j) {
                                              const int p = draft ? j.draft.printer : j.other.printer;
                                              return lists::textCell(p < 0 ? tr("not placed") : plan_words::printer(m_desk, p));
                                          },
                                          false, 0};
    };
    const auto late = [](const QString& title, bool draft) {
        return lists::Column<ComparedJob>{title,
                                          [draft](const ComparedJob& j) {
                                              const Minute m = draft ? j.draft.late : j.other.late;
                                              Cell c;
                                              c.sort = static_cast<qint64>(m);
                                              if (m > 0) c.text = QStringLiteral("▲ ") + plan_words::length(m);
                                              if (m > 0) c.tone = QStringLiteral("alarm");
                                              return c;
                                          },
                                          true, 0};
    };
    return {{tr("Job"), [](const ComparedJob& j) { return lists::textCell(plan_words::job(j.job)); }, false, 20},
            printer(tr("Draft on"), true),
            when(tr("prints"), true, &ComparedJob::Place::printStart),
            when(tr("done"), true, &ComparedJob::Place::complete),
            late(tr("late"), true),
            printer(tr("Other on"), false),
            when(tr("prints there"), false, &ComparedJob::Place::printStart),
            when(tr("done there"), false, &ComparedJob::Place::complete),
            late(tr("late there"), false),
            {tr("Done later by, h"),
             [](const ComparedJob& j) {
                 Cell c;
                 c.sort = lists::sortLast();
                 if (j.draft.printer < 0 || j.other.printer < 0) return c;
                 c.text = plan_words::hoursChange(j.draft.complete - j.other.complete);
                 c.sort = static_cast<qint64>(j.draft.complete - j.other.complete);
                 return c;
             },
             true, 0}};
}

void CompareDialog::buildFigures() {
    QStringList rows = figureNames(m_desk.bench());
    rows.insert(3, tr("changeovers"));
    m_figures->setAccessibleName(tr("Figures of the plans"));
    m_figures->setColumnCount(static_cast<int>(rows.size()));
    m_figures->setHorizontalHeaderLabels(rows);
    m_figures->setRowCount(static_cast<int>(m_plans.size()));
    QStringList names;
    for (const Plan& p : m_plans) names << p.name;
    m_figures->setVerticalHeaderLabels(names);
    m_figures->setEditTriggers(QAbstractItemView::NoEditTriggers);
    m_figures->setTabKeyNavigation(false);
    m_figures->setCornerButtonEnabled(false);
    m_figures->setShowGrid(false);
    m_figures->horizontalHeader()->setSectionResizeMode(QHeaderView::Stretch);
    m_figures->horizontalHeader()->setDefaultAlignment(Qt::AlignRight | Qt::AlignVCenter);
    m_figures->horizontalHeader()->setAccessibleName(tr("Figures"));
    m_figures->verticalHeader()->setDefaultSectionSize(30);
    m_figures->verticalHeader()->setAccessibleName(tr("Plans"));
    m_figures->verticalHeader()->setDefaultAlignment(Qt::AlignLeft | Qt::AlignVCenter);
    m_figures->setFixedHeight(static_cast<int>(m_plans.size()) * 30 + 40);
    for (int r = 0; r < m_figures->rowCount(); ++r)
        for (int c = 0; c < m_figures->columnCount(); ++c) {
            auto* item = new QTableWidgetItem(QStringLiteral("…"));
            item->setTextAlignment(Qt::AlignRight | Qt::AlignVCenter);
            m_figures->setItem(r, c, item);
        }
}

void CompareDialog::reckon() {
    m_problem = std::make_shared<planning::ShopProblem>(m_desk.problem());
    std::shared_ptr<planning::Changes> changes = m_problem->changes->clone();
    m_problem->changes = std::static_pointer_cast<planning::ShopChanges>(changes);
    m_problem->problem.changes = m_problem->changes;
    const bool published = m_desk.bench().shop().plan().has_value();
    m_plans = {{tr("draft"), {}}, {tr("published"), {}}, {tr("first in, first out"), {}}, {tr("same setup first"), {}}};
    for (std::size_t i = 1; i < m_plans.size(); ++i) m_against->addItem(m_plans[i].name, static_cast<int>(i));
    m_against->setCurrentIndex(published ? 0 : 1);
    auto timed = std::make_shared<std::vector<std::optional<planning::Timetable>>>(m_plans.size());
    const planning::Orders draft = m_desk.draft().orders();
    const planning::Orders follows = planning::publishedOrders(m_desk.bench().shop(), *m_problem);
    m_thread.reset(QThread::create([problem = m_problem, timed, draft, follows, published, stop = m_stop.get_token()] {
        const planning::Problem& p = problem->problem;
        planning::Changes& c = *problem->changes;
        (*timed)[0] = planning::timetable(p, c, draft);
        if (published) (*timed)[1] = planning::timetable(p, c, follows);
        (*timed)[2] = planning::timetable(p, c, planning::firstInFirstOut(p, c, nullptr, stop));
        (*timed)[3] = planning::timetable(p, c, planning::sameSetupFirst(p, c, nullptr, stop));
    }));
    connect(m_thread.get(), &QThread::finished, this, [this, timed] {
        for (std::size_t i = 0; i < m_plans.size(); ++i) m_plans[i].timetable = std::move((*timed)[i]);
        showFigures();
        showJobs();
        Q_EMIT reckoned();
    }, Qt::QueuedConnection);
    m_thread->start();
}

void CompareDialog::showFigures() {
    for (int r = 0; r < m_figures->rowCount(); ++r) {
        const auto& t = m_plans[static_cast<std::size_t>(r)].timetable;
        QStringList figures = t ? figuresOf(t->totals) : QStringList();
        if (t) figures.insert(3, QString::number(plan_words::changeovers(*t)));
        for (int c = 0; c < m_figures->columnCount(); ++c) m_figures->item(r, c)->setText(figures.value(c, QStringLiteral("—")));
    }
}

void CompareDialog::showJobs() {
    if (m_plans.empty() || !m_plans.front().timetable) return;
    const auto& other = m_plans[static_cast<std::size_t>(m_against->currentData().toInt())].timetable;
    QList<ComparedJob> rows;
    if (other) {
        const auto draft = placesIn(*m_problem, *m_plans.front().timetable), there = placesIn(*m_problem, *other);
        for (qsizetype i = 0; i < m_problem->jobs.size(); ++i) {
            const ComparedJob j{m_problem->jobs[i], draft[static_cast<std::size_t>(i)], there[static_cast<std::size_t>(i)]};
            if (!j.same()) rows.append(j);
        }
    }
    m_list->setEmptyText(other ? tr("Every job stands at the same place and time in both plans.") : tr("Nothing is published yet."));
    m_model->setRows(rows);
}

} // namespace interlude
