#include "views/plan/plan_actions.h"

#include "model/planning/plans/plan_maker.h"
#include "views/asking/ask_dialog.h"
#include "views/bench/keys.h"
#include "views/bench/remembered.h"
#include "views/look/flow.h"
#include "views/look/widgets.h"
#include "views/plan/compare_dialog.h"
#include "views/plan/plan_words.h"
#include "views/plan/what_if_dialog.h"
#include "views/plan/worth_dialog.h"
#include "views/words/counted.h"
#include "views/words/words.h"

#include <QLineEdit>
#include <QMenu>
#include <QSpinBox>

#include <cmath>

namespace interlude {

namespace {
const QString secondsKey = QStringLiteral("plan/seconds");
} // namespace

PlanActions::PlanActions(PlanDesk& desk, QWidget* parent) : QWidget(parent), m_desk(desk), m_seconds(new QSpinBox) {
    setObjectName(QStringLiteral("planActions"));
    auto* row = new look::Flow(this);
    m_undo = add(*row, "planUndo", tr("&Undo"), "plan.undo", &PlanActions::undo);
    m_redo = add(*row, "planRedo", tr("Re&do"), "plan.redo", &PlanActions::redo);
    row->addSpacing(look::unit);
    m_group = add(*row, "planGroup", tr("&Group by family"), "plan.group", &PlanActions::groupByFamily);
    m_improve = add(*row, "planImprove", tr("&Improve"), "plan.improve", &PlanActions::improveOrStop);
    m_seconds->setRange(1, 3600);
    m_seconds->setSuffix(tr(" s"));
    m_seconds->setValue(remembered()->value(secondsKey, 10).toInt());
    m_seconds->setObjectName(QStringLiteral("planSeconds"));
    m_seconds->setAccessibleName(tr("Seconds that Improve may search"));
    m_seconds->setToolTip(m_seconds->accessibleName());
    connect(m_seconds, &QSpinBox::valueChanged, this, [](int s) { remembered()->setValue(secondsKey, s); });
    row->add(m_seconds);
    m_lock = add(*row, "planLock", tr("&Lock"), "plan.lock", &PlanActions::toggleLock);
    m_whatIf = add(*row, "planWhatIf", tr("What i&f…"), "plan.what-if", &PlanActions::whatIf);
    m_compare = add(*row, "planCompare", tr("&Compare"), "plan.compare", &PlanActions::compare);
    m_worth = add(*row, "planWorth", tr("&Worth it?"), "plan.worth", &PlanActions::worthIt);
    buildMore(*row);
    row->addGap();
    m_discard = add(*row, "planDiscard", tr("Disca&rd"), "plan.discard", nullptr);
    connect(m_discard, &QPushButton::clicked, this, [this] { discard(); });
    m_publish = look::primaryButton(tr("&Publish"));
    m_publish->setObjectName(QStringLiteral("planPublish"));
    m_tips.insert(m_publish, {tr("Publish: the shop follows this plan"), QStringLiteral("plan.publish")});
    connect(m_publish, &QPushButton::clicked, this, [this] { publish(); });
    row->add(m_publish);
    connect(&desk, &PlanDesk::changed, this, &PlanActions::update);
    connect(&desk, &PlanDesk::selectionChanged, this, &PlanActions::update);
    connect(&desk, &PlanDesk::improved, this, &PlanActions::update);
    connect(&desk.bench(), &Bench::signedIn, this, &PlanActions::update);
    connect(&keys(), &Keys::changed, this, &PlanActions::update);
    update();
}

QPushButton* PlanActions::add(look::Flow& row, const char* name, const QString& text, const char* key,
                              void (PlanActions::*act)()) {
    QPushButton* b = look::button(text);
    b->setObjectName(QString::fromLatin1(name));
    m_tips.insert(b, {QString(text).remove(QLatin1Char('&')), QString::fromLatin1(key)});
    if (act) connect(b, &QPushButton::clicked, this, act);
    row.add(b);
    return b;
}

void PlanActions::buildMore(look::Flow& row) {
    m_more = look::button(tr("M&ore"));
    m_more->setObjectName(QStringLiteral("planMore"));
    m_menu = new QMenu(m_more);
    m_menu->setAccessibleName(tr("More that can be done with the plan"));
    const auto entry = [this](const QString& text, const char* key, auto act) {
        QAction* action = m_menu->addAction(text, this, act);
        const auto sayKey = [action, text, key] { action->setText(text + QLatin1Char('\t') + keyText(QString::fromLatin1(key))); };
        sayKey();
        connect(&keys(), &Keys::changed, action, sayKey);
    };
    entry(tr("&Re-plan from now…"), "plan.replan", [this] { replan(); });
    m_menu->addAction(tr("&Take back the assumptions"), this, &PlanActions::takeBackAssumptions)->setObjectName(QStringLiteral("planTakeBack"));
    m_menu->addSeparator();
    entry(tr("&Import jobs from CSV…"), "plan.import", [this] { importJobs(); });
    entry(tr("&Export as JSON, CSV or calendar…"), "plan.export", [this] { exportPlan(); });
    entry(tr("&Print…"), "plan.print", [this] { print(); });
    m_more->setMenu(m_menu);
    row.add(m_more);
}

QPushButton* PlanActions::button(const char* name) const {
    return findChild<QPushButton*>(QString::fromLatin1(name));
}

void PlanActions::allow(QPushButton* b, const QString& whyNot) {
    b->setEnabled(whyNot.isEmpty());
    const Tip say = m_tips.value(b);
    const QString tip = say.text + keyHint(say.key);
    b->setToolTip(whyNot.isEmpty() ? tip : tip + QLatin1Char('\n') + whyNot);
    b->setAccessibleDescription(b->toolTip());
}

void PlanActions::update() {
    planning::Draft& draft = m_desk.draft();
    const bool improving = m_desk.improving();
    allow(m_undo, draft.canUndo() ? QString() : tr("Nothing to undo"));
    allow(m_redo, draft.canRedo() ? QString() : tr("Nothing to redo"));
    if (draft.canUndo()) m_undo->setToolTip(tr("Undo: %1").arg(draft.undoText()) + keyHint(QStringLiteral("plan.undo")));
    if (draft.canRedo()) m_redo->setToolTip(tr("Redo: %1").arg(draft.redoText()) + keyHint(QStringLiteral("plan.redo")));
    const QString idle = m_desk.problem().plannable.empty() ? tr("No job waits to be planned") : QString();
    allow(m_group, idle);
    m_improve->setText(improving ? tr("Stop &it") : tr("&Improve"));
    m_improve->setAccessibleName(improving ? tr("Stop the search") : tr("Improve"));
    allow(m_improve, improving ? QString() : idle);
    m_seconds->setEnabled(!improving);
    const std::vector<int>& chosen = m_desk.selected();
    const auto& locked = draft.orders().locked;
    const bool allLocked = !chosen.empty() && std::all_of(chosen.begin(), chosen.end(), [&](int j) { return locked[static_cast<std::size_t>(j)] != 0; });
    m_lock->setText(allLocked ? tr("Un&lock") : tr("&Lock"));
    m_lock->setAccessibleName(allLocked ? tr("Unlock") : tr("Lock"));
    allow(m_lock, chosen.empty() ? tr("Choose jobs on the board first") : QString());
    allow(m_whatIf, {});
    allow(m_compare, {});
    allow(m_worth, chosen.size() == 1 ? QString() : tr("Choose one job first"));
    const bool assumed = !draft.whatIf().isEmpty();
    m_menu->findChild<QAction*>(QStringLiteral("planTakeBack"))->setEnabled(assumed);
    allow(m_discard, m_desk.differs() || assumed ? QString() : tr("The draft is what is published"));
    QString whyNot;
    if (m_desk.bench().who().isEmpty()) whyNot = tr("Sign in first%1: the window is read-only.").arg(keyHint(QStringLiteral("sign-in")));
    else if (assumed) whyNot = tr("It rests on assumptions: take them back, or enter them for the shop.");
    else if (!m_desk.differs()) whyNot = tr("The draft is what is published.");
    allow(m_publish, whyNot);
}

void PlanActions::say(const std::optional<Finding>& finding, const QString& done) {
    Q_EMIT told(finding ? sentence(*finding) : done);
}

void PlanActions::undo() {
    if (!m_desk.draft().canUndo()) return;
    const QString what = m_desk.draft().undoText();
    m_desk.undo();
    say({}, tr("Undone: %1").arg(what));
}

void PlanActions::redo() {
    if (!m_desk.draft().canRedo()) return;
    const QString what = m_desk.draft().redoText();
    m_desk.redo();
    say({}, tr("Done again: %1").arg(what));
}

void PlanActions::groupByFamily() {
    const planning::Totals before = m_desk.figures();
    const planning::Orders orders = m_desk.draft().orders();
    m_desk.groupByFamily();
    if (orders == m_desk.draft().orders()) {
        say({}, tr("Grouping changes nothing: the families are in runs already, or a job would lose its place"));
        return;
    }
    const planning::Totals& after = m_desk.figures();
    const auto count = [](int from, int to) { return QStringLiteral("%1 → %2").arg(from).arg(to); };
    say({}, tr("Grouped by family: cost %1 → %2 %3 (%4), turnaround %5 → %6 h, late jobs %7, not placed %8. Undo takes it back.")
                .arg(plan_words::money(before.cost), plan_words::money(after.cost), m_desk.bench().catalogue().fleet.currency,
                     plan_words::moneyChange(after.cost - before.cost), plan_words::hours(before.turnaround), plan_words::hours(after.turnaround),
                     count(before.lateJobs, after.lateJobs), count(before.notPlaced, after.notPlaced)));
}

void PlanActions::improveOrStop() {
    if (m_desk.improving()) {
        m_desk.stopImproving();
    } else if (!m_desk.problem().plannable.empty()) {
        m_desk.improve(m_seconds->value());
        say({}, tr("Improving…"));
    }
    update();
}

void PlanActions::toggleLock() {
    std::vector<int> jobs;
    for (const int job : m_desk.selected()) {
        const planning::TimedJob* timed = m_desk.timed(job);
        if (timed && !timed->running && !timed->session) jobs.push_back(job);
    }
    if (jobs.empty()) {
        say({}, tr("Only jobs that are placed and have not begun can be locked: choose them on the board"));
        return;
    }
    const auto& locked = m_desk.draft().orders().locked;
    const bool all = std::all_of(jobs.begin(), jobs.end(), [&](int j) { return locked[static_cast<std::size_t>(j)] != 0; });
    m_desk.setLocked(jobs, !all);
    const QString count = words::jobs(static_cast<qint64>(jobs.size()));
    say({}, all ? tr("%1 unlocked").arg(count) : tr("%1 locked, with printer and position").arg(count));
}

void PlanActions::whatIf() {
    auto* dialog = new WhatIfDialog(m_desk, this);
    connect(dialog, &WhatIfDialog::told, this, &PlanActions::told);
    dialog->open();
}

void PlanActions::takeBackAssumptions() {
    if (m_desk.draft().whatIf().isEmpty()) return;
    m_desk.assume({});
    say({}, tr("The assumptions are taken back; the draft stays"));
}

void PlanActions::compare() {
    (new CompareDialog(m_desk, this))->open();
}

void PlanActions::worthIt() {
    if (m_desk.selected().size() != 1) say({}, tr("Choose one job first"));
    else (new WorthDialog(m_desk, m_desk.selected().front(), this))->open();
}

AskDialog* PlanActions::replan() {
    auto* d = new AskDialog(tr("Re-plan from now"),
                            tr("The draft is put on the shop as it is now: what runs stays, what has begun or ended falls out. "
                               "What begins within the hours given is locked where it is; the rest is free to be moved."),
                            tr("Re-plan"), this);
    d->setObjectName(QStringLiteral("replanDialog"));
    QLineEdit* hours = d->addLine(QStringLiteral("replanHours"), tr("Keep the first hours"), QStringLiteral("8"), tr("0 keeps nothing"));
    d->setAct([this, hours]() -> std::optional<Finding> {
        const auto read = words::readNumber(hours->text(), QStringLiteral("h"));
        if (!read || *read < 0 || *read > 10000 || *read != std::floor(*read))
            return Finding{Severity::Refusal, QStringLiteral("hours"), tr("“%1” hours cannot be kept").arg(hours->text()), tr("a whole number from 0"), {}, false};
        m_desk.replanFromNow(static_cast<int>(*read));
        say({}, tr("Planned from now on; %1 h are kept. Improve%2 finds better places for the rest.").arg(static_cast<int>(*read)).arg(keyHint(QStringLiteral("plan.improve"))));
        return {};
    });
    d->open();
    hours->selectAll();
    hours->setFocus();
    return d;
}

QString PlanActions::publishText() const {
    const planning::Totals& t = m_desk.figures();
    const planning::Orders& orders = m_desk.draft().orders();
    std::size_t jobs = 0, undone = 0;
    for (const auto& list : orders.printers) jobs += list.size();
    for (const planning::NotPlaced& n : m_desk.timetable().notPlaced)
        undone += n.job >= 0 && !std::binary_search(orders.leftOut.begin(), orders.leftOut.end(), n.job) ? 1 : 0;
    jobs -= std::min(jobs, undone);
    const auto are = [](std::size_t n, const QString& one, const QString& many) { return n == 1 ? one : many.arg(n); };
    QStringList lines{are(jobs, tr("1 job is planned; from now on Today and the changeovers follow this plan."),
                          tr("%1 jobs are planned; from now on Today and the changeovers follow this plan.")),
                      tr("Timed from now on: cost %1 %2, turnaround %3 h, changeover %4 h, clean-outs %5, late jobs %6, all done in %7 h.")
                          .arg(plan_words::money(t.cost), m_desk.bench().catalogue().fleet.currency, plan_words::hours(t.turnaround),
                               plan_words::hours(t.changeover))
                          .arg(t.cleanOuts)
                          .arg(t.lateJobs)
                          .arg(plan_words::hours(t.makespan))};
    if (undone > 0)
        lines << are(undone, tr("▲ 1 job cannot be done where it stands and is left out; the list of jobs not yet placed names the reason."),
                     tr("▲ %1 jobs cannot be done where they stand and are left out; the list of jobs not yet placed names the reasons."));
    const auto left = orders.leftOut.size();
    if (left > 0) lines << are(left, tr("1 job is left out."), tr("%1 jobs are left out."));
    if (t.lateJobs > 0) lines << are(static_cast<std::size_t>(t.lateJobs), tr("▲ 1 job will be late."), tr("▲ %1 jobs will be late."));
    QMap<MaterialId, Mass> grams;
    QStringList warnings;
    for (const planning::Reservation& r : m_desk.reservations()) {
        grams[r.material] = grams.value(r.material) + r.need;
        if (!r.reason.isEmpty()) warnings << QStringLiteral("▲ %1: %2").arg(r.job, r.reason);
    }
    QStringList held;
    for (auto i = grams.cbegin(); i != grams.cend(); ++i)
        held << tr("%1 g %2").arg(std::ceil(i->grams()), 0, 'f', 0).arg(words::material(m_desk.bench().catalogue(), i.key()));
    if (!held.isEmpty()) lines << tr("Reserved: %1.").arg(held.join(QStringLiteral("; ")));
    constexpr qsizetype shown = 6;
    lines += warnings.mid(0, shown);
    if (warnings.size() > shown) lines << tr("… and %1 more; Why names them job by job.").arg(warnings.size() - shown);
    return lines.join(QLatin1Char('\n'));
}

AskDialog* PlanActions::publish() {
    m_desk.stopImproving();
    if (!m_desk.draft().whatIf().isEmpty()) { // the desk refuses it, with the reason
        say(m_desk.publish(), {});
        return nullptr;
    }
    if (!m_publish->isEnabled()) {
        say({}, m_publish->toolTip().section(QLatin1Char('\n'), 1));
        return nullptr;
    }
    m_desk.catchUp();
    auto* d = new AskDialog(tr("Publish the plan"), {}, tr("Publish"), this);
    d->setObjectName(QStringLiteral("publishDialog"));
    d->setMinimumWidth(80 * look::unit);
    QLabel* text = look::mutedLabel(look::Text::Body, publishText());
    text->setObjectName(QStringLiteral("publishText"));
    d->form()->addRow(text);
    // What stands there is what would be published, however long it is read.
    connect(&m_desk.bench(), &Bench::ticked, d, [this] { m_desk.catchUp(); });
    connect(&m_desk, &PlanDesk::changed, d, [this, text] { text->setText(publishText()); });
    d->setAct([this, text]() -> std::optional<Finding> {
        const QString read = text->text();
        m_desk.catchUp();
        if (text->text() != read)
            return Finding{Severity::Refusal, QStringLiteral("time-went-on"), tr("Nothing is published yet: time has gone on, and the figures above are new"),
                           tr("read them and press Publish again"), {}, false};
        auto refused = m_desk.publish();
        if (!refused) say({}, tr("Published: Today and the changeovers follow it"));
        return refused;
    });
    d->open();
    d->acceptButton()->setFocus();
    return d;
}

AskDialog* PlanActions::discard() {
    if (!m_discard->isEnabled()) return nullptr;
    const bool published = m_desk.bench().shop().plan().has_value();
    auto* d = new AskDialog(tr("Discard the draft"),
                            published ? tr("The draft goes back to the published plan. What was moved and assumed is lost; the shop is not touched.")
                                      : tr("All jobs go back to those not placed. What was moved and assumed is lost; the shop is not touched."),
                            tr("Discard"), this);
    d->setObjectName(QStringLiteral("discardDialog"));
    d->setAct([this]() -> std::optional<Finding> {
        m_desk.discard();
        say({}, tr("The draft is discarded"));
        return {};
    });
    d->open();
    d->acceptButton()->setFocus();
    return d;
}

} // namespace interlude
