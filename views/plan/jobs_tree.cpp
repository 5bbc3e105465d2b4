#include "views/plan/jobs_tree.h"

#include "views/bench/keys.h"
#include "views/lists/list_delegate.h"
#include "views/plan/plan_words.h"
#include "views/words/words.h"

#include <QEvent>
#include <QHeaderView>
#include <QLineEdit>
#include <QMenu>
#include <QPainter>
#include <QScopedValueRollback>
#include <QStackedWidget>
#include <QVBoxLayout>

namespace interlude {

using planning::Minute;

namespace {

constexpr int rowHeight = 26;
constexpr int KeyRole = Qt::UserRole + 2, WordsRole = Qt::UserRole + 3;

QIcon chipOf(int family, const QString& initials) {
    constexpr int width = 4 * look::unit, height = 2 * look::unit;
    QPixmap picture(width * 2, height * 2);
    picture.setDevicePixelRatio(2);
    picture.fill(Qt::transparent);
    QPainter painter(&picture);
    painter.setFont(look::font(look::Text::Small));
    lists::paintChip(&painter, {0, 0, width, height}, family, initials);
    return picture;
}

/// The least minutes of printing on any printer, by the first variant that one takes; -1: none does.
Minute printMinutes(const planning::JobNumbers& job) {
    for (const planning::VariantNumbers& v : job.variants) {
        Minute least = -1;
        for (const Minute m : v.print)
            if (m >= 0 && (least < 0 || m < least)) least = m;
        if (least >= 0) return least;
    }
    return -1;
}

} // namespace

JobsTree::JobsTree(PlanDesk& desk, QWidget* parent)
    : Panel({}, parent), m_desk(desk), m_title(look::label(look::Text::Body, {}, true)), m_filter(new QLineEdit),
      m_stack(new QStackedWidget), m_rows(new JobRows(desk)), m_empty(look::mutedLabel(look::Text::Body)) {
    setObjectName(QStringLiteral("jobsTree"));
    layOut();
    wire();
    refresh();
}

void JobsTree::layOut() {
    const auto sayKey = [this] { m_filter->setPlaceholderText(tr("Filter%1").arg(keyHint(QStringLiteral("plan.filter")))); };
    sayKey();
    connect(&keys(), &Keys::changed, this, sayKey);
    m_filter->setAccessibleName(tr("Filter the jobs not yet placed"));
    m_filter->setClearButtonEnabled(true);
    m_rows->setObjectName(QStringLiteral("jobRows"));
    m_rows->setIconSize({4 * look::unit, 2 * look::unit});
    m_rows->header()->setStretchLastSection(false);
    m_rows->header()->setSectionResizeMode(0, QHeaderView::Stretch);
    m_rows->header()->setSectionResizeMode(1, QHeaderView::ResizeToContents);
    m_rows->header()->setSectionResizeMode(2, QHeaderView::ResizeToContents);
    m_rows->header()->setMinimumSectionSize(4 * look::unit);
    m_rows->header()->setAccessibleName(tr("Columns of the jobs not yet placed"));
    m_empty->setAlignment(Qt::AlignTop | Qt::AlignLeft);
    m_stack->addWidget(m_rows);
    m_stack->addWidget(m_empty);
    layout()->setContentsMargins(look::unit, 2 * look::unit, look::unit, look::unit);
    body()->addWidget(m_title);
    body()->addWidget(m_filter);
    body()->addWidget(m_stack, 1);
}

void JobsTree::wire() {
    connect(m_filter, &QLineEdit::textChanged, this, &JobsTree::applyFilter);
    connect(m_filter, &QLineEdit::returnPressed, this, [this] { m_rows->setFocus(); });
    connect(m_rows, &JobRows::typed, this, [this](const QString& text) {
        m_filter->setFocus();
        m_filter->insert(text);
    });
    connect(m_rows, &JobRows::dropped, this, [this](const std::vector<int>& jobs) {
        if (const auto refused = m_desk.drop(jobs, {})) Q_EMIT told(sentence(*refused));
    });
    connect(m_rows, &QTreeWidget::itemActivated, this, &JobsTree::placeChosen);
    connect(m_rows, &QWidget::customContextMenuRequested, this, &JobsTree::openMenu);
    connect(m_rows, &QTreeWidget::itemSelectionChanged, this, [this] {
        if (m_selecting) return;
        const QScopedValueRollback own(m_selecting, true);
        m_desk.select(chosen());
    });
    connect(m_rows, &QTreeWidget::itemCollapsed, this,
            [this](QTreeWidgetItem* i) { m_closed.insert(i->data(0, KeyRole).toString()); });
    connect(m_rows, &QTreeWidget::itemExpanded, this,
            [this](QTreeWidgetItem* i) { m_closed.remove(i->data(0, KeyRole).toString()); });
    connect(&m_desk, &PlanDesk::changed, this, &JobsTree::refresh);
    connect(&m_desk, &PlanDesk::selectionChanged, this, &JobsTree::showSelection);
}

void JobsTree::refresh() {
    QList<std::pair<int, QString>> jobs;
    const std::vector<int>& left = m_desk.draft().orders().leftOut;
    for (const int job : left) jobs.append(std::pair(job, QString()));
    for (const planning::NotPlaced& n : m_desk.timetable().notPlaced)
        if (n.job >= 0 && !std::binary_search(left.begin(), left.end(), n.job))
            jobs.append({n.job, QString::fromStdString(n.reason)});
    const auto count = jobs.size();
    m_title->setText(tr("Not yet placed · %1").arg(count));
    m_filter->setVisible(count > 0);
    // Improve tells its plans ten times a second; most of them leave this list as it is.
    const std::tuple now(m_desk.problem().now, m_desk.bench().shop().lastSequence(), m_desk.problem().jobs.size());
    if (jobs != m_shown || m_shownFor != now) build(jobs);
    else if (jobs.isEmpty()) applyFilter(); // why it is empty may be another reason now
    m_shownFor = now;
    showSelection();
}

void JobsTree::build(const QList<std::pair<int, QString>>& jobs) {
    const QScopedValueRollback own(m_selecting, true);
    const int current = m_rows->currentItem() ? JobRows::jobOf(m_rows->currentItem()) : -1;
    const JobId kept = current >= 0 && current < static_cast<int>(m_desk.problem().jobs.size())
                           ? m_desk.problem().jobs[current].id : JobId();
    m_shown = jobs;
    m_groups.clear();
    m_rows->setUpdatesEnabled(false);
    m_rows->clear();
    for (const auto& [job, reason] : jobs) {
        static const planning::VariantNumbers none;
        const auto& variants = m_desk.problem().problem.jobs[static_cast<std::size_t>(job)].variants;
        const planning::VariantNumbers& v = variants.empty() ? none : variants.front();
        const QString family = v.family >= 0 ? m_desk.problem().chamberFamilies.value(v.family) : tr("by label");
        QTreeWidgetItem* top = reason.isEmpty() ? groupFor(QStringLiteral("f/") + family, family, nullptr)
                                                : groupFor(QStringLiteral("!"), tr("Cannot be done"), nullptr);
        const Job& known = m_desk.problem().jobs[job];
        const QString setup = known.variants.isEmpty() ? QString() : words::setupWanted(m_desk.bench().catalogue(), known.variants.front().setup);
        auto* row = new QTreeWidgetItem(
            reason.isEmpty() ? groupFor(QStringLiteral("s/%1/%2").arg(family, setup), setup, top) : top);
        fillJob(row, job, reason);
        if (m_desk.problem().jobs[job].id == kept) m_rows->setCurrentItem(row, 0, QItemSelectionModel::NoUpdate);
    }
    for (int i = 0; i < m_rows->topLevelItemCount(); ++i) sum(m_rows->topLevelItem(i));
    for (auto i = m_groups.cbegin(); i != m_groups.cend(); ++i) (*i)->setExpanded(!m_closed.contains(i.key()));
    applyFilter();
    m_rows->setUpdatesEnabled(true);
}

QTreeWidgetItem* JobsTree::groupFor(const QString& key, const QString& text, QTreeWidgetItem* above) {
    QTreeWidgetItem*& group = m_groups[key];
    if (group) return group;
    group = above ? new QTreeWidgetItem(above) : new QTreeWidgetItem(m_rows);
    group->setText(0, text);
    group->setSizeHint(0, {0, rowHeight});
    group->setData(0, KeyRole, key);
    group->setData(0, WordsRole, text);
    group->setToolTip(0, tr("Drag to plan all of them together"));
    if (above) return group;
    group->setFont(0, look::font(look::Text::Body, true));
    const int family = look::familyIndex(m_desk.bench().catalogue(), text);
    if (family >= 0) group->setIcon(0, chipOf(family, look::familyInitials(text)));
    return group;
}

void JobsTree::fillJob(QTreeWidgetItem* row, int number, const QString& reason) {
    const planning::ShopProblem& problem = m_desk.problem();
    const Job& job = problem.jobs[number];
    const planning::JobNumbers& numbers = problem.problem.jobs[static_cast<std::size_t>(number)];
    const Minute print = printMinutes(numbers);
    JobRows::setJob(row, number);
    row->setSizeHint(0, {0, rowHeight});
    row->setData(0, Qt::UserRole, static_cast<qlonglong>(std::max<Minute>(0, print)));
    QStringList flags;
    if (print < 0) flags << tr("▲ fits no printer");
    if (numbers.release && *numbers.release > 0) flags << tr("from %1").arg(plan_words::shortDay(m_desk.bench(), problem.at(*numbers.release)));
    if (job.sameLot) flags << tr("one lot");
    if (job.state == JobState::Failed) flags << tr("failed before");
    QString text = plan_words::job(job);
    if (job.quantity > 1) text += QStringLiteral(" ×%1").arg(job.quantity);
    row->setText(0, flags.isEmpty() ? text : text + QStringLiteral(" · ") + flags.join(QStringLiteral(" · ")));
    const bool overdue = numbers.due && *numbers.due <= 0;
    if (numbers.due) row->setText(1, (overdue ? QStringLiteral("▲ ") : QString()) + plan_words::shortDay(m_desk.bench(), problem.at(*numbers.due)));
    if (overdue) row->setForeground(1, look::colours().alarm);
    if (print < 0 || !reason.isEmpty()) row->setForeground(0, look::colours().alarm);
    row->setText(2, print < 0 ? QStringLiteral("—") : print < 600 ? tr("%1 h").arg(plan_words::hours(print)) : tr("%1 h").arg((print + 30) / 60));
    row->setTextAlignment(2, Qt::AlignRight | Qt::AlignVCenter);
    QStringList tip{row->text(0)};
    if (!reason.isEmpty()) tip << tr("Cannot be done: %1").arg(reason);
    if (print < 0 && !numbers.variants.empty())
        for (std::size_t p = 0; p < problem.problem.printers.size(); ++p)
            tip << QStringLiteral("%1: %2").arg(plan_words::printer(m_desk, static_cast<int>(p)),
                                                QString::fromStdString(numbers.variants.front().whyNot[p]));
    if (job.due) tip << (overdue ? tr("was due %1") : tr("due %1")).arg(m_desk.bench().longTime(*job.due));
    if (job.lateCostPerHour.cents() > 0) tip << tr("late: %1 %2 an hour").arg(job.lateCostPerHour.units()).arg(m_desk.bench().catalogue().fleet.currency);
    QStringList words{text, job.partNumber, job.order, job.revision};
    for (const planning::VariantNumbers& v : numbers.variants) {
        tip << tr("variant %1: %2").arg(QString::fromStdString(v.name), QString::fromStdString(v.setup));
        words << QString::fromStdString(v.setup) << problem.chamberFamilies.value(v.family);
    }
    row->setToolTip(0, tip.join(QLatin1Char('\n')));
    row->setToolTip(1, job.due ? m_desk.bench().longTime(*job.due) : QString());
    row->setData(0, Qt::AccessibleDescriptionRole, tip.join(QStringLiteral("; ")));
    row->setData(0, WordsRole, words.join(QLatin1Char(' ')));
}

void JobsTree::sum(QTreeWidgetItem* row) {
    Minute minutes = 0;
    for (int i = 0; i < row->childCount(); ++i) {
        if (row->child(i)->childCount() > 0) sum(row->child(i));
        minutes += row->child(i)->data(0, Qt::UserRole).toLongLong();
    }
    row->setData(0, Qt::UserRole, static_cast<qlonglong>(minutes));
    const auto jobs = m_rows->jobsOf({row}).size();
    row->setText(1, jobs == 1 ? tr("1 job") : tr("%1 jobs").arg(jobs));
    row->setText(2, tr("%1 h").arg((minutes + 30) / 60));
    row->setForeground(1, look::colours().muted);
    row->setTextAlignment(2, Qt::AlignRight | Qt::AlignVCenter);
}

void JobsTree::applyFilter() {
    const QStringList words = m_filter->text().split(QLatin1Char(' '), Qt::SkipEmptyParts);
    const std::function<bool(QTreeWidgetItem*)> show = [&](QTreeWidgetItem* item) {
        bool any = false;
        for (int i = 0; i < item->childCount(); ++i) any = show(item->child(i)) || any;
        if (item->childCount() == 0) {
            const QString text = item->data(0, WordsRole).toString();
            any = std::all_of(words.begin(), words.end(), [&](const QString& w) { return text.contains(w, Qt::CaseInsensitive); });
        }
        item->setHidden(!any);
        return any;
    };
    bool any = false;
    for (int i = 0; i < m_rows->topLevelItemCount(); ++i) any = show(m_rows->topLevelItem(i)) || any;
    m_stack->setCurrentWidget(any ? static_cast<QWidget*>(m_rows) : m_empty);
    m_empty->setText(!m_shown.isEmpty()
                         ? tr("Nothing matches “%1”.").arg(m_filter->text())
                     : m_desk.problem().plannable.empty()
                         ? tr("No job waits to be printed. Import jobs%1, or add one in Changeover.").arg(keyHint(QStringLiteral("plan.import")))
                         : tr("Every job has its place. Drag one here to leave it out of the plan."));
}

void JobsTree::showSelection() {
    if (m_selecting) return;
    const QScopedValueRollback own(m_selecting, true);
    const std::vector<int>& selected = m_desk.selected();
    // A group that stands for exactly these jobs stays chosen.
    if (chosen() == selected) return;
    m_rows->clearSelection();
    if (selected.empty()) return;
    for (QTreeWidgetItemIterator i(m_rows); *i; ++i)
        if (const int job = JobRows::jobOf(*i); job >= 0)
            (*i)->setSelected(std::find(selected.begin(), selected.end(), job) != selected.end());
}

void JobsTree::openMenu(const QPoint& at) {
    auto* menu = new QMenu(this);
    menu->setAttribute(Qt::WA_DeleteOnClose);
    const auto add = [&](const QString& text, bool enabled, auto act) {
        menu->addAction(text, this, act)->setEnabled(enabled);
    };
    const std::vector<int> jobs = chosen();
    add(tr("Place where it is done earliest (Enter)"), !jobs.empty(), [this] { placeChosen(); });
    add(tr("Worth it?…%1").arg(keyHint(QStringLiteral("plan.worth"))), jobs.size() == 1, [this] { Q_EMIT worthWanted(); });
    menu->addSeparator();
    add(tr("Choose the whole family"), !jobs.empty(), [this, jobs] { m_desk.select(m_desk.familyRun(jobs.front())); });
    add(tr("Open all groups"), true, [this] { m_rows->expandAll(); });
    add(tr("Close all groups"), true, [this] { m_rows->collapseAll(); });
    menu->popup(m_rows->viewport()->mapToGlobal(at));
}

void JobsTree::changeEvent(QEvent* event) {
    // The chips and tones are of the theme.
    if (event->type() == QEvent::StyleChange && !m_shown.isEmpty()) build(QList(m_shown));
    Panel::changeEvent(event);
}

std::optional<QString> JobsTree::place(const std::vector<int>& jobs) {
    const planning::ShopProblem& problem = m_desk.problem();
    struct Best {
        int printer = -1, notPlaced = 0;
        Minute done = 0;
    } best;
    std::optional<Finding> refused;
    const auto count = static_cast<int>(problem.problem.printers.size());
    for (int p = 0; p < count; ++p) {
        const planning::Drop drop{p, m_desk.draft().orders().printers[static_cast<std::size_t>(p)].size(), {}};
        const auto orders = planning::moveJobs(problem, m_desk.draft().orders(), jobs, drop);
        if (!orders) {
            refused = orders.error();
            continue;
        }
        const planning::Timetable t = planning::timetable(problem.problem, *problem.changes, *orders);
        Minute done = 0;
        for (const planning::TimedJob& j : t.printers[static_cast<std::size_t>(p)])
            if (std::find(jobs.begin(), jobs.end(), j.job) != jobs.end()) done = std::max(done, j.complete);
        const bool better = best.printer < 0 || std::pair(t.totals.notPlaced, done) < std::pair(best.notPlaced, best.done);
        if (done > 0 && better) best = {p, t.totals.notPlaced, done};
    }
    if (best.printer < 0) return {};
    const auto stands = m_desk.draft().orders().printers[static_cast<std::size_t>(best.printer)].size();
    if (const auto f = m_desk.drop(jobs, {best.printer, stands, {}})) return sentence(*f);
    const QString what = jobs.size() == 1 ? problem.jobs[jobs.front()].id : tr("%1 jobs").arg(jobs.size());
    return tr("%1 on %2, done %3").arg(what, plan_words::printer(m_desk, best.printer),
                                       plan_words::time(m_desk.bench(), m_desk.problem(), best.done));
}

void JobsTree::placeChosen() {
    const std::vector<int> jobs = chosen();
    if (jobs.empty()) return;
    if (const auto said = place(jobs)) {
        Q_EMIT told(*said);
        return;
    }
    QStringList homeless;
    QString last;
    for (const int job : jobs.size() > 1 ? jobs : std::vector<int>()) {
        const auto said = place({job});
        if (said) last = *said;
        else homeless.append(m_desk.problem().jobs[job].id);
    }
    if (jobs.size() == 1) homeless.append(m_desk.problem().jobs[jobs.front()].id);
    QString text = last;
    if (!homeless.isEmpty())
        text += (text.isEmpty() ? QString() : QStringLiteral("; ")) +
                tr("no printer can take %1: see its tooltip for the reasons").arg(homeless.join(QStringLiteral(", ")));
    Q_EMIT told(text);
}

} // namespace interlude
