#include "views/plan/why_panel.h"

#include "model/planning/plans/why.h"
#include "views/bench/keys.h"
#include "views/plan/plan_words.h"
#include "views/words/words.h"

#include <QComboBox>
#include <QHBoxLayout>
#include <QScrollArea>
#include <QVBoxLayout>

#include <cmath>

namespace interlude {

using planning::Minute;
using planning::TimedJob;

WhyPanel::WhyPanel(PlanDesk& desk, QWidget* parent)
    : Panel({}, parent), m_desk(desk), m_title(look::label(look::Text::Body, {}, true)), m_choice(new QWidget),
      m_variant(new QComboBox), m_rows(nullptr) {
    setObjectName(QStringLiteral("whyPanel"));
    m_variant->setObjectName(QStringLiteral("planVariant"));
    m_variant->setAccessibleName(tr("Variant of the chosen job"));
    m_variant->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    m_variant->setMinimumContentsLength(12);
    auto* choice = new QHBoxLayout(m_choice);
    choice->setContentsMargins(0, 0, 0, 0);
    auto* said = look::mutedLabel(look::Text::Body, tr("Variant"));
    said->setWordWrap(false);
    choice->addWidget(said);
    choice->addWidget(m_variant, 1);
    auto* scroll = new QScrollArea;
    scroll->setWidgetResizable(true);
    scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    scroll->setAccessibleName(tr("Why"));
    auto* inside = new QWidget;
    m_rows = new QVBoxLayout(inside);
    m_rows->setContentsMargins(0, 0, 0, 0);
    m_rows->setSpacing(look::unit / 2);
    scroll->setWidget(inside);
    body()->addWidget(m_title);
    body()->addWidget(m_choice);
    body()->addWidget(scroll, 1);
    connect(m_variant, &QComboBox::activated, this, [this](int at) {
        if (m_desk.selected().size() != 1) return;
        const auto refused = m_desk.changeVariant(m_desk.selected().front(), m_variant->itemData(at).toInt());
        if (refused) Q_EMIT told(sentence(*refused));
        refresh();
    });
    connect(&desk, &PlanDesk::changed, this, &WhyPanel::refresh);
    connect(&desk, &PlanDesk::selectionChanged, this, &WhyPanel::refresh);
    refresh();
}

void WhyPanel::head(const QString& text) {
    if (m_rows->count() > 0) m_rows->addSpacing(look::unit / 2);
    m_rows->addWidget(look::mutedLabel(look::Text::Small, text));
}

void WhyPanel::say(const QString& text, const QString& tone) {
    QLabel* line = look::label(look::Text::Body, text);
    if (!tone.isEmpty()) look::setTone(line, tone);
    m_rows->addWidget(line);
    m_lines.append(text);
}

void WhyPanel::refresh() {
    look::clear(m_rows);
    m_lines.clear();
    const std::vector<int>& jobs = m_desk.selected();
    m_choice->setVisible(jobs.size() == 1);
    m_title->setText(tr("Why"));
    if (jobs.empty()) say(tr("Choose a job on the board or in the list to see why it stands where it does, and what it takes."), QStringLiteral("muted"));
    else if (jobs.size() == 1) showOne(jobs.front());
    else showMany(jobs);
    m_rows->addStretch(1);
}

void WhyPanel::showOne(int job) {
    const Job& known = m_desk.problem().jobs[job];
    fillVariants(job);
    const TimedJob* timed = m_desk.timed(job);
    m_title->setText(timed ? tr("Why · %1 on %2").arg(known.id, plan_words::printer(m_desk, timed->printer))
                           : tr("Why · %1, not placed").arg(known.id));
    if (!known.title.isEmpty()) say(known.title);
    if (timed) {
        sayTimed(job, *timed);
        sayFeedstock(job);
        return;
    }
    const auto& reasons = m_desk.timetable().notPlaced;
    const auto reason = std::find_if(reasons.begin(), reasons.end(), [job](const planning::NotPlaced& n) { return n.job == job; });
    if (reason != reasons.end()) say(QString::fromStdString(reason->reason));
    QStringList fits;
    const planning::JobNumbers& numbers = m_desk.problem().problem.jobs[static_cast<std::size_t>(job)];
    for (std::size_t p = 0; p < m_desk.problem().problem.printers.size(); ++p)
        if (std::any_of(numbers.variants.begin(), numbers.variants.end(), [p](const auto& v) { return v.print[p] >= 0; }))
            fits << plan_words::printer(m_desk, static_cast<int>(p));
    if (fits.isEmpty()) say(tr("▲ No printer can take it; Worth it?%1 names the reasons.").arg(keyHint(QStringLiteral("plan.worth"))), QStringLiteral("alarm"));
    else say(tr("Fits %1. Enter in the list places it where it is done earliest.").arg(fits.join(QStringLiteral(", "))));
    if (known.due) say(tr("Due %1").arg(m_desk.bench().longTime(*known.due)));
}

void WhyPanel::sayTimed(int job, const TimedJob& timed) {
    const planning::ShopProblem& problem = m_desk.problem();
    const auto at = [&](Minute m) { return plan_words::time(m_desk.bench(), problem, m); };
    const planning::Why why = planning::whyOf(problem, m_desk.timetable(), timed);
    say(timed.running ? tr("Runs until %1").arg(at(timed.printEnd))
                      : tr("Prints %1 to %2, done %3").arg(at(timed.printStart), at(timed.printEnd), at(timed.complete)));
    const auto& locked = m_desk.draft().orders().locked;
    if (static_cast<std::size_t>(job) < locked.size() && locked[static_cast<std::size_t>(job)]) say(tr("Locked: keeps printer and position"));
    if (timed.session) say(tr("In a changeover session: it stays"));
    const std::optional<Minute> late = planning::lateMinutes(problem, timed);
    if (!late) say(tr("▲ Its part does not come out: due %1").arg(m_desk.bench().longTime(*problem.jobs[job].due)), QStringLiteral("alarm"));
    else if (*late > 0) say(tr("▲ Late %1: due %2").arg(plan_words::length(*late), m_desk.bench().longTime(*problem.jobs[job].due)), QStringLiteral("alarm"));
    else if (problem.jobs[job].due) say(tr("In time: due %1").arg(m_desk.bench().longTime(*problem.jobs[job].due)));
    for (const QString& line : why.late)
        if (!line.startsWith(QStringLiteral("late by"))) say(line); // said above, with the due
    if (!why.waits.isEmpty()) head(tr("Waits"));
    for (const QString& line : why.waits) say(line);
    if (timed.running || timed.session) return;
    Minute handsOn = 0;
    for (const planning::TimedWork& w : timed.work)
        if (w.work->kind == planning::Kind::HandsOn) handsOn += w.work->minutes;
    head(timed.changeoverMinutes > 0 ? tr("Changeover %1, hands-on %2").arg(plan_words::length(timed.changeoverMinutes), plan_words::length(handsOn))
                                     : tr("Changeover"));
    if (why.changeover.isEmpty()) say(timed.changeoverMinutes > 0 ? tr("Starting the print") : tr("Nothing is changed"));
    // Facts are single words of the rules; they are said in one line.
    QStringList facts;
    for (const QString& line : why.changeover)
        if (!line.contains(QLatin1Char(' '))) facts.append(words::fact(line));
    if (!facts.isEmpty()) say(facts.join(QStringLiteral(", ")));
    for (const QString& line : why.changeover)
        if (line.contains(QLatin1Char(' '))) say(line);
}

void WhyPanel::sayFeedstock(int job) {
    bool first = true;
    for (const planning::Reservation& r : m_desk.reservations()) {
        if (r.job != m_desk.problem().jobs[job].id) continue;
        if (first) head(tr("Feedstock, reserved at publishing"));
        first = false;
        say(tr("%1 g of %2").arg(std::ceil(r.need.grams()), 0, 'f', 0).arg(words::material(m_desk.bench().catalogue(), r.material)));
        if (!r.reason.isEmpty()) say(QStringLiteral("▲ ") + r.reason, r.isShort ? QStringLiteral("alarm") : QStringLiteral("warning"));
    }
}

void WhyPanel::fillVariants(int job) {
    const planning::JobNumbers& numbers = m_desk.problem().problem.jobs[static_cast<std::size_t>(job)];
    const TimedJob* timed = m_desk.timed(job);
    const QSignalBlocker quiet(m_variant);
    m_variant->clear();
    for (int v = 0; v < static_cast<int>(numbers.variants.size()); ++v) {
        const planning::VariantNumbers& variant = numbers.variants[static_cast<std::size_t>(v)];
        QString text = variant.name.empty() ? QString::fromStdString(variant.setup)
                                            : QStringLiteral("%1 · %2").arg(QString::fromStdString(variant.name), QString::fromStdString(variant.setup));
        const Minute print = timed ? variant.print[static_cast<std::size_t>(timed->printer)] : -1;
        if (timed && print >= 0) text += QStringLiteral(" · ") + plan_words::length(print);
        if (timed && print < 0) text += tr(" · not on this printer");
        m_variant->addItem(text, v);
        m_variant->setItemData(v, text, Qt::ToolTipRole);
    }
    m_variant->setCurrentIndex(timed ? timed->variant : 0);
    m_variant->setToolTip(m_variant->currentText());
    const bool free = timed && !timed->running && !timed->session;
    m_variant->setEnabled(free && m_variant->count() > 1);
}

void WhyPanel::showMany(const std::vector<int>& jobs) {
    Minute print = 0, changeover = 0;
    int placed = 0, late = 0, locked = 0;
    for (const int job : jobs) {
        locked += m_desk.draft().orders().locked[static_cast<std::size_t>(job)] ? 1 : 0;
        const TimedJob* timed = m_desk.timed(job);
        if (!timed) continue;
        ++placed;
        print += timed->printEnd - timed->printStart;
        changeover += timed->changeoverMinutes;
        late += planning::lateMinutes(m_desk.problem(), *timed).value_or(1) > 0 ? 1 : 0;
    }
    m_title->setText(tr("%1 jobs chosen").arg(jobs.size()));
    if (placed == 0) {
        say(tr("Not placed. Drag them onto a printer, or press Enter in the list."));
        return;
    }
    say(tr("%1 placed: printing %2, changeovers %3").arg(placed).arg(plan_words::length(print), plan_words::length(changeover)));
    if (late > 0) say(tr("▲ %1 of them late").arg(late), QStringLiteral("alarm"));
    if (locked > 0) say(tr("%1 of them locked").arg(locked));
}

} // namespace interlude
