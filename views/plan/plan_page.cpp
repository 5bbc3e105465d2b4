#include "views/plan/plan_page.h"

#include "model/planning/plans/published.h"
#include "views/asking/ask_dialog.h"
#include "views/bench/keys.h"
#include "views/bench/remembered.h"
#include "views/look/widgets.h"
#include "views/plan/board.h"
#include "views/plan/figures_panel.h"
#include "views/plan/jobs_tree.h"
#include "views/plan/leave_dialog.h"
#include "views/plan/plan_actions.h"
#include "views/plan/plan_words.h"
#include "views/plan/what_if_dialog.h"
#include "views/plan/why_panel.h"

#include <QComboBox>
#include <QLineEdit>
#include <QScrollArea>
#include <QShortcut>
#include <QSpinBox>
#include <QSplitter>
#include <QVBoxLayout>

namespace interlude {

namespace {
constexpr int leftWidth = 37 * look::unit, rightWidth = 44 * look::unit;
const QString splitKey = QStringLiteral("plan/split");
} // namespace

PlanPage::PlanPage(Bench& bench, QWidget* parent)
    : QWidget(parent), m_bench(bench), m_desk(std::make_unique<PlanDesk>(bench)), m_actions(new PlanActions(*m_desk)),
      m_jobs(new JobsTree(*m_desk)), m_board(new Board(*m_desk)), m_figures(new FiguresPanel(*m_desk)),
      m_why(new WhyPanel(*m_desk)), m_split(new QSplitter), m_state(look::label(look::Text::Body, {}, true)),
      m_said(look::mutedLabel(look::Text::Body)), m_departed(look::label(look::Text::Body)), m_follow(new QWidget),
      m_replan(look::button(tr("Re-plan from now…"))), m_takeBack(look::button(tr("Take back the assumptions"))) {
    setObjectName(QStringLiteral("planPage"));
    layOut();
    connectParts();
    buildKeys();
    sayState();
    sayDepartures();
}

PlanPage::~PlanPage() {
    // The parts hold the desk by reference.
    for (QObject* part : {static_cast<QObject*>(m_actions), static_cast<QObject*>(m_split)}) delete part;
}

void PlanPage::layOut() {
    m_state->setWordWrap(false);
    m_state->setObjectName(QStringLiteral("planState"));
    m_said->setObjectName(QStringLiteral("planSaid"));
    m_said->setAccessibleName(tr("What came of it"));
    m_departed->setObjectName(QStringLiteral("planDepartures"));
    m_replan->setObjectName(QStringLiteral("planReplan"));
    m_takeBack->setObjectName(QStringLiteral("planTakeBackButton"));
    auto* line = new QHBoxLayout;
    line->setSpacing(2 * look::unit);
    line->addWidget(m_state);
    line->addWidget(m_takeBack);
    line->addWidget(m_said, 1);
    auto* follow = new QHBoxLayout(m_follow);
    follow->setContentsMargins(0, 0, 0, 0);
    follow->addWidget(m_departed, 1);
    follow->addWidget(m_replan, 0, Qt::AlignTop);
    auto* right = new QWidget;
    auto* rightRoom = new QScrollArea; // figures and reasons keep their height in a low window
    rightRoom->setObjectName(QStringLiteral("planRight"));
    rightRoom->setWidgetResizable(true);
    rightRoom->setFocusPolicy(Qt::NoFocus);
    rightRoom->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    rightRoom->setWidget(right);
    auto* column = new QVBoxLayout(right);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(look::unit);
    column->addWidget(m_figures);
    column->addWidget(m_why, 1);
    m_split->addWidget(m_jobs);
    m_split->addWidget(m_board);
    m_split->addWidget(rightRoom);
    m_split->setHandleWidth(look::unit);
    m_split->setChildrenCollapsible(false);
    m_split->setStretchFactor(0, 0);
    m_split->setStretchFactor(1, 1);
    m_split->setStretchFactor(2, 0);
    m_jobs->setMinimumWidth(25 * look::unit);
    rightRoom->setMinimumWidth(rightWidth);
    m_why->setMinimumHeight(16 * look::unit);
    m_split->setSizes({leftWidth, 90 * look::unit, rightWidth});
    m_split->restoreState(remembered()->value(splitKey).toByteArray());
    connect(m_split, &QSplitter::splitterMoved, this, [this] { remembered()->setValue(splitKey, m_split->saveState()); });
    auto* all = new QVBoxLayout(this);
    all->setContentsMargins(2 * look::unit, look::unit, 2 * look::unit, look::unit);
    all->setSpacing(look::unit);
    all->addWidget(m_actions);
    all->addLayout(line);
    all->addWidget(m_follow);
    all->addWidget(m_split, 1);
}

void PlanPage::connectParts() {
    connect(m_actions, &PlanActions::told, this, &PlanPage::say);
    connect(m_jobs, &JobsTree::told, this, &PlanPage::say);
    connect(m_jobs, &JobsTree::worthWanted, m_actions, &PlanActions::worthIt);
    connect(m_why, &WhyPanel::told, this, &PlanPage::say);
    connect(m_board, &Board::told, this, &PlanPage::say);
    // Enter on the board goes on to what can be chosen about the job.
    connect(m_board, &Board::opened, this, [this](int job) {
        m_desk->select({job});
        if (m_why->variantChoice()->isEnabled()) m_why->variantChoice()->setFocus();
    });
    connect(m_replan, &QPushButton::clicked, this, [this] { m_actions->replan(); });
    connect(m_takeBack, &QPushButton::clicked, m_actions, &PlanActions::takeBackAssumptions);
    connect(m_desk.get(), &PlanDesk::changed, this, &PlanPage::sayState);
    connect(m_desk.get(), &PlanDesk::improved, this, [this](const QString& text) {
        say(tr("%1: %2").arg(text, plan_words::value(m_bench, m_desk->draft().goal(), m_desk->timetable().value(m_desk->draft().goal()))));
    });
    connect(m_desk.get(), &PlanDesk::progressed, this, [this](double seconds, qint64 moves, double) {
        const planning::Goal goal = m_desk->draft().goal();
        say(tr("Improving: %1 s of %2 s, %L3 moves tried, %4 %5 so far. %6 stops it.")
                .arg(seconds, 0, 'f', 1)
                .arg(m_actions->seconds()->value())
                .arg(moves)
                .arg(plan_words::goal(goal), plan_words::value(m_bench, goal, m_desk->timetable().value(goal)),
                     keyText(QStringLiteral("plan.improve"))));
    });
    connect(&m_bench, &Bench::changed, this, [this] {
        m_departuresAt.reset();
        if (isVisible()) sayDepartures();
        sayState();
    });
    connect(&m_bench, &Bench::ticked, this, [this] {
        if (isVisible() && (!m_departuresAt || m_bench.now() - *m_departuresAt >= std::chrono::minutes(1))) sayDepartures();
    });
}

void PlanPage::buildKeys() {
    const auto on = [this](const char* id, auto act) {
        connect(onKey(QString::fromLatin1(id), this, Qt::WidgetWithChildrenShortcut), &QShortcut::activated, this, act);
    };
    on("plan.undo", [this] { m_actions->undo(); });
    on("plan.redo", [this] { m_actions->redo(); });
    on("plan.group", [this] { m_actions->groupByFamily(); });
    on("plan.improve", [this] { m_actions->improveOrStop(); });
    on("plan.lock", [this] { m_actions->toggleLock(); });
    on("plan.what-if", [this] { m_actions->whatIf(); });
    on("plan.compare", [this] { m_actions->compare(); });
    on("plan.worth", [this] { m_actions->worthIt(); });
    on("plan.replan", [this] { m_actions->replan(); });
    on("plan.import", [this] { m_actions->importJobs(); });
    on("plan.export", [this] { m_actions->exportPlan(); });
    on("plan.print", [this] { m_actions->print(); });
    on("plan.publish", [this] { m_actions->publish(); });
    on("plan.discard", [this] { m_actions->discard(); });
    on("plan.filter", [this] {
        m_jobs->filterField()->setFocus();
        m_jobs->filterField()->selectAll();
    });
}

QString PlanPage::state() const {
    return m_state->text();
}

QString PlanPage::said() const {
    return m_said->text();
}

QString PlanPage::departed() const {
    return m_follow->isHidden() ? QString() : m_departed->text();
}

void PlanPage::say(const QString& text) {
    m_said->setText(text);
}

void PlanPage::sayState() {
    const planning::Draft& draft = m_desk->draft();
    const auto& printers = draft.orders().printers;
    const bool nothing = std::all_of(printers.begin(), printers.end(), [](const auto& list) { return list.empty(); });
    const auto& plan = m_bench.shop().plan();
    const QString assumed = assumptionsText(draft.whatIf());
    m_takeBack->setVisible(!assumed.isEmpty());
    QString text;
    if (!assumed.isEmpty()) text = tr("What if: %1. Not for publishing").arg(assumed);
    else if (m_desk->problem().plannable.empty()) text = tr("No job waits to be planned. Import jobs%1, or add one in Changeover.").arg(keyHint(QStringLiteral("plan.import")));
    else if (nothing) text = tr("Nothing is planned yet. Drag jobs onto a printer, Group by family, or Improve.");
    else if (plan && !m_desk->differs()) text = tr("As published %1 by %2").arg(m_bench.shortTime(plan->at), plan->who);
    else if (draft.canUndo()) text = tr("Draft, not published · last: %1").arg(draft.undoText());
    else text = tr("Draft, not published");
    m_state->setText(text);
}

void PlanPage::sayDepartures() {
    m_departuresAt = m_bench.now();
    const QList<planning::Departure> all = planning::departures(m_bench.shop(), m_bench.now());
    m_follow->setVisible(!all.isEmpty());
    if (all.isEmpty()) return;
    QStringList lines;
    for (const planning::Departure& d : all)
        lines << tr("%1 on %2: %3").arg(d.job, m_bench.catalogue().printerName(d.printer), d.reason);
    constexpr qsizetype shown = 2;
    QString text = QStringLiteral("▲ ") + lines.mid(0, shown).join(QStringLiteral(" · "));
    if (lines.size() > shown) text += tr(" · and %1 more").arg(lines.size() - shown);
    m_departed->setText(text);
    m_departed->setToolTip(lines.join(QLatin1Char('\n')));
    m_departed->setAccessibleName(tr("Otherwise than planned: %1").arg(lines.join(QStringLiteral("; "))));
}

bool PlanPage::mayLeave(const std::function<void()>& leave) {
    m_desk->stopImproving();
    if (m_desk->differs()) m_desk->catchUp(); // another station may have published the same
    if (!m_desk->differs()) return true;
    for (const LeaveDialog* asked : window()->findChildren<LeaveDialog*>())
        if (asked->isVisible()) return false;
    const QPushButton* publish = m_actions->button("planPublish");
    auto* d = new LeaveDialog(publish->isEnabled() ? QString() : publish->toolTip().section(QLatin1Char('\n'), 1), window());
    connect(d, &LeaveDialog::discardWanted, this, [this, leave] {
        m_desk->discard();
        leave();
    });
    connect(d, &LeaveDialog::publishWanted, this, [this, leave] {
        if (AskDialog* asked = m_actions->publish()) connect(asked, &QDialog::accepted, this, leave);
    });
    d->open();
    return false;
}

void PlanPage::showEvent(QShowEvent* event) {
    QWidget::showEvent(event);
    m_desk->setWatched(true);
    sayDepartures();
    sayState();
}

void PlanPage::hideEvent(QHideEvent* event) {
    QWidget::hideEvent(event);
    m_desk->setWatched(false);
}

void PlanPage::focusInEvent(QFocusEvent* event) {
    const bool toBoard = m_jobs->chosen().empty() && m_desk->draft().orders().leftOut.empty();
    (toBoard ? static_cast<QWidget*>(m_board) : m_jobs->rows())->setFocus(event->reason());
}

} // namespace interlude
