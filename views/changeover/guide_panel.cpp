#include "views/changeover/guide_panel.h"

#include "views/asking/correction_dialog.h"
#include "views/bench/keys.h"
#include "views/changeover/confirm_button.h"
#include "views/changeover/finish_panel.h"
#include "views/changeover/hand_over_dialog.h"
#include "views/changeover/pause_panel.h"
#include "views/changeover/scan_field.h"
#include "views/changeover/session_dialogs.h"
#include "views/changeover/step_list.h"
#include "views/changeover/step_panel.h"
#include "views/changeover/wait_column.h"
#include "views/words/words.h"

#include <QAction>
#include <QApplication>
#include <QGridLayout>
#include <QHBoxLayout>
#include <QMenu>
#include <QScrollArea>
#include <QShortcut>
#include <QStackedWidget>

namespace interlude {

namespace {
constexpr int leftWidth = 35 * look::unit;
constexpr int rightWidth = 39 * look::unit;
/// From here on steps, step and countdowns stand side by side.
constexpr int roomForThree = 150 * look::unit;
/// From here on there is room for margins and for what comes next.
constexpr int roomForNext = 60 * look::unit;
constexpr int leastStep = 14 * look::unit, leastConfirm = 18 * look::unit;

/// What the confirm button says where there is no room for its whole text.
QString brief(const QList<Missing>& missing) {
    if (missing.isEmpty()) return GuidePanel::tr("Done: outside its limits");
    switch (missing.first().what) {
    case Missing::What::Measure: return GuidePanel::tr("Done: measure first");
    case Missing::What::Scan: return GuidePanel::tr("Done: scan first");
    case Missing::What::Use: return GuidePanel::tr("Done: state the use first");
    case Missing::What::Answer: return GuidePanel::tr("Done: answer first");
    case Missing::What::Reading: break;
    }
    return GuidePanel::tr("Done: read first");
}

/// What is higher than the room that it has is scrolled.
QScrollArea* scrolled(QWidget* inside) {
    auto* area = new QScrollArea;
    area->setWidgetResizable(true);
    area->setFocusPolicy(Qt::NoFocus);
    area->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    area->setWidget(inside);
    QObject::connect(qApp, &QApplication::focusChanged, area, [area](QWidget*, QWidget* now) {
        if (now && area->widget()->isAncestorOf(now)) area->ensureWidgetVisible(now, 0, look::unit);
    });
    return area;
}
} // namespace

GuidePanel::GuidePanel(Bench& bench, QWidget* parent) : QWidget(parent), m_bench(bench), m_desk(bench) {
    setObjectName(QStringLiteral("guidePanel"));
    build();
    wire();
}

void GuidePanel::build() {
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(look::unit + 4);
    auto* head = new QHBoxLayout;
    head->setSpacing(2 * look::unit);
    m_printer = look::label(look::Text::PanelTitle);
    m_fromTo = look::label(look::Text::Body);
    m_figures = look::label(look::Text::Body);
    m_figures->setObjectName(QStringLiteral("guideFigures"));
    m_printer->setWordWrap(false);
    m_figures->setWordWrap(false);
    head->addWidget(m_printer);
    head->addWidget(m_fromTo, 1);
    head->addWidget(m_figures);
    column->addLayout(head);
    m_parts = new QGridLayout;
    m_parts->setSpacing(2 * look::unit);
    m_parts->setColumnStretch(1, 1);
    m_steps = new StepList;
    m_centre = new look::Panel;
    look::Panel* middle = m_centre;
    m_middle = new QStackedWidget;
    m_step = new StepPanel(m_desk);
    m_pause = new PausePanel(m_desk);
    m_finish = new FinishPanel(m_desk);
    for (QWidget* w : {static_cast<QWidget*>(m_step), static_cast<QWidget*>(scrolled(m_pause)), static_cast<QWidget*>(scrolled(m_finish))})
        m_middle->addWidget(w);
    m_middle->setMinimumHeight(leastStep);
    m_blocked = look::label(look::Text::Detail, {}, true);
    look::setTone(m_blocked, QStringLiteral("warning"));
    m_scan = new ScanField(m_bench.workbench().clock());
    m_scan->setProperty("surface", QString());
    m_scan->layout()->setContentsMargins(0, 0, 0, 0);
    middle->body()->addWidget(m_blocked);
    middle->body()->addWidget(m_middle, 1);
    middle->body()->addWidget(m_scan);
    middle->body()->addWidget(buildFoot());
    m_next = look::mutedLabel(look::Text::Body);
    m_next->setObjectName(QStringLiteral("nextStep"));
    middle->body()->addWidget(m_next);
    m_waits = new WaitColumn(m_desk);
    m_waits->setFixedWidth(rightWidth);
    column->addLayout(m_parts, 1);
    fold();
}

void GuidePanel::fold() {
    const bool narrow = width() < roomForThree, low = height() < roomForNext;
    if (low != m_low) {
        m_low = low;
        const int edge = low ? look::unit : 2 * look::unit;
        m_centre->layout()->setContentsMargins(3 * look::unit, edge, 3 * look::unit, edge);
        m_next->setVisible(!low);
    }
    if (narrow == m_narrow) return;
    m_narrow = narrow;
    m_steps->setFixedWidth(narrow ? rightWidth : leftWidth);
    for (QWidget* w : {static_cast<QWidget*>(m_steps), static_cast<QWidget*>(m_centre), static_cast<QWidget*>(m_waits)}) m_parts->removeWidget(w);
    m_parts->addWidget(m_steps, 0, 0);
    m_parts->addWidget(m_centre, 0, 1, narrow ? 2 : 1, 1);
    m_parts->addWidget(m_waits, narrow ? 1 : 0, narrow ? 0 : 2);
    m_parts->setRowStretch(0, 2);
    m_parts->setRowStretch(1, narrow ? 3 : 0); // a countdown is read whole
    QPushButton* others[] = {m_takeBack, m_problem, m_handOver, m_more};
    m_acts->removeWidget(m_confirm);
    m_acts->addWidget(m_confirm, 0, 0, narrow ? 2 : 1, 1);
    for (int i = 0; i < 4; ++i) {
        m_acts->removeWidget(others[i]);
        others[i]->setMinimumHeight(narrow ? look::buttonHeight - 4 : look::confirmHeight);
        m_acts->addWidget(others[i], narrow ? i / 2 : 0, 1 + (narrow ? i % 2 : i));
    }
    m_acts->setVerticalSpacing(look::unit / 2);
}

void GuidePanel::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    fold();
}

QWidget* GuidePanel::buildFoot() {
    auto* foot = new QWidget;
    m_acts = new QGridLayout(foot);
    m_acts->setContentsMargins(0, 0, 0, 0);
    m_acts->setSpacing(look::unit + 4);
    m_acts->setColumnStretch(0, 1);
    m_confirm = new ConfirmButton;
    m_confirm->setObjectName(QStringLiteral("confirmButton"));
    m_confirm->setMinimumWidth(leastConfirm);
    m_confirm->setParent(foot);
    const auto other = [&](QPushButton*& b, const QString& name, const QString& text) {
        b = look::button(text);
        b->setObjectName(name);
        b->setFocusPolicy(Qt::TabFocus);
        b->setParent(foot); // in this order Tab goes through them
    };
    other(m_takeBack, QStringLiteral("takeBackButton"), tr("Take back"));
    other(m_problem, QStringLiteral("problemButton"), tr("Problem"));
    other(m_handOver, QStringLiteral("handOverButton"), tr("Pause / Hand over"));
    other(m_more, QStringLiteral("moreButton"), tr("More"));
    auto* menu = new QMenu(m_more);
    m_skip = menu->addAction(tr("Skip this step…"));
    m_correct = menu->addAction(tr("Correct something earlier…"));
    m_stop = menu->addAction(tr("Stop half way…"));
    m_skip->setObjectName(QStringLiteral("skipAction"));
    m_correct->setObjectName(QStringLiteral("correctAction"));
    m_stop->setObjectName(QStringLiteral("stopAction"));
    m_more->setMenu(menu);
    return foot;
}

void GuidePanel::wire() {
    connect(&m_desk, &GuideDesk::changed, this, [this] { redraw(m_whole); });
    connect(&m_desk, &GuideDesk::accepted, m_scan, &ScanField::explainRight);
    connect(&m_desk, &GuideDesk::wrong, this, &GuidePanel::explain);
    connect(&m_desk, &GuideDesk::overrideWanted, this, [this](const Finding& f) {
        askOverride(m_bench, tr("Override"), f, [this](const act::Override& o) { return m_desk.confirmWith(o); }, this);
    });
    connect(&m_desk, &GuideDesk::earlyEndAsked, this, [this](const Countdown& wait) { askEarlyEnd(m_desk, wait, this); });
    connect(&m_desk, &GuideDesk::accepted, &m_bench, &Bench::attended);
    connect(m_steps, &StepList::chosen, this, [this](const QString& step) {
        m_desk.choose(step);
        takeFocus();
    });
    connect(m_step, &StepPanel::left, this, &GuidePanel::takeFocus);
    connect(m_waits, &WaitColumn::left, this, &GuidePanel::takeFocus);
    connect(m_scan, &ScanField::entered, this, &GuidePanel::enter);
    connect(m_finish, &FinishPanel::left, this, &GuidePanel::takeFocus);
    connect(m_finish, &FinishPanel::confirmAsked, this, &GuidePanel::confirm);
    connect(m_scan, &ScanField::confirmAsked, this, &GuidePanel::confirm);
    // Only what is seen is answered: not the step behind a pause or the end.
    connect(m_scan, &ScanField::yes, this, [this] { if (!paused() && !finishing()) m_desk.answer(true); });
    connect(m_scan, &ScanField::no, this, [this] { if (!paused() && !finishing()) m_desk.answer(false); });
    connect(m_scan, &ScanField::cancelled, this, [this] { m_desk.choose({}); });
    connect(m_confirm, &QPushButton::clicked, this, [this] {
        confirm();
        takeFocus();
    });
    connect(m_takeBack, &QPushButton::clicked, this, [this] { askTakeBack(m_desk, this); });
    connect(m_problem, &QPushButton::clicked, this, [this] { askProblem(m_desk, false, this); });
    connect(m_handOver, &QPushButton::clicked, this, [this] { (new HandOverDialog(m_desk, this))->open(); });
    connect(m_skip, &QAction::triggered, this, [this] { askSkip(m_desk, this); });
    connect(m_stop, &QAction::triggered, this, [this] { askProblem(m_desk, true, this); });
    connect(m_correct, &QAction::triggered, this,
            [this] { (new CorrectionDialog(m_bench, m_desk.number(), this))->open(); });
    // This key goes round the waits that run, so that they too are confirmed without a mouse.
    QShortcut* round = onKey(QStringLiteral("guide.round"), this, Qt::WidgetWithChildrenShortcut);
    connect(&keys(), &Keys::changed, this, [this] { redraw(true); });
    connect(round, &QShortcut::activated, this, [this] {
        const QList<Countdown>& waits = m_desk.guide().waits;
        qsizetype at = -1;
        for (qsizetype i = 0; i < waits.size(); ++i)
            if (m_desk.shown() && waits.at(i).step == m_desk.shown()->step.id) at = i;
        m_desk.choose(at + 1 < waits.size() ? waits.at(at + 1).step : StepId());
    });
}

bool GuidePanel::paused() const {
    return m_desk.session() && m_desk.session()->phase == SessionPhase::Paused;
}

bool GuidePanel::finishing() const {
    return m_desk.session() && !paused() && m_desk.guide().finished;
}

void GuidePanel::setSession(qint64 number) {
    if (number != m_desk.number()) m_scan->clearMessage();
    m_whole = true;
    m_desk.setSession(number);
}

void GuidePanel::refresh(bool whole) {
    m_whole = whole;
    m_desk.refresh();
    m_whole = true;
}

void GuidePanel::takeFocus() {
    m_scan->takeFocus();
}

void GuidePanel::enter(const QString& text, bool typed) {
    if (paused()) return m_pause->enter(text, typed), redrawFoot();
    m_desk.enter(text, typed);
}

void GuidePanel::confirm() {
    const qint64 session = m_desk.number();
    if (paused()) {
        if (const auto f = m_pause->goOn()) explain(*f, false);
        else m_desk.refresh();
    } else if (finishing()) {
        if (const auto f = m_finish->finish()) explain(*f, false);
        else Q_EMIT finished(session);
    } else {
        m_desk.confirm();
    }
}

void GuidePanel::explain(const Finding& finding, bool scan) {
    m_scan->explainWrong(sentence(finding));
    if (scan) Q_EMIT m_bench.attention(tr("Wrong scan: %1").arg(finding.reason));
}

void GuidePanel::redraw(bool whole) {
    if (!m_desk.session()) return;
    redrawHead();
    m_steps->show(m_desk.guide(), m_desk.shown() ? m_desk.shown()->step.id : StepId());
    if (paused()) {
        m_pause->refresh();
        m_middle->setCurrentIndex(1);
    } else if (finishing()) {
        m_finish->refresh();
        m_middle->setCurrentIndex(2);
    } else {
        m_step->refresh();
        m_middle->setCurrentWidget(m_step);
    }
    redrawFoot();
    m_waits->refresh(whole);
}

void GuidePanel::redrawHead() {
    const SessionState& s = *m_desk.session();
    const Catalogue& c = m_bench.catalogue();
    m_printer->setText(c.printerName(s.printer));
    const TransitionRequest& r = s.changeover.transition.request;
    QString text = QStringLiteral("%1 → %2").arg(words::setupNow(c, m_bench.shop().stock(), s.printerBefore),
                                                 words::setupWanted(c, r.wanted));
    if (!r.job.isEmpty()) text += tr(" · job %1").arg(r.job);
    text += tr(" · clean-out %1").arg(words::cleanOut(s.changeover.transition.chamber.level));
    if (s.enteredLate) text += tr(" · entered late from paper");
    m_fromTo->setText(text);
    const Guide& g = m_desk.guide();
    m_figures->setText(tr("step %1 of %2 · hands-on left %3 · printer ready %4")
                           .arg(g.index)
                           .arg(g.steps.size())
                           .arg(words::minutes(g.handsOnLeft), m_bench.shortTime(g.readyAt)));
}

void GuidePanel::redrawFoot() {
    const Guide& g = m_desk.guide();
    const bool working = !paused() && !finishing();
    const bool signedIn = !m_bench.who().isEmpty();
    const PlannedStep* shown = m_desk.shown();
    const bool ready = paused() ? m_pause->complete() : finishing() || (shown && m_desk.missing().isEmpty());
    QString text = paused() ? m_pause->confirmText() : finishing() ? tr("Finish") : m_desk.confirmText();
    if (!signedIn) text = tr("Sign in first");
    if (text.isEmpty()) text = tr("Nothing to confirm now");
    const QList<Missing> missing = working ? m_desk.missing() : QList<Missing>();
    const bool toDo = signedIn && working && shown;
    m_confirm->setFullText(text, toDo ? brief(missing) : signedIn && paused() ? tr("Go on: scan first") : QString());
    m_confirm->setEnabled(ready && signedIn);
    const QString readOnly = signedIn ? QString() : tr("Sign in first%1: the window is read-only.").arg(keyHint(QStringLiteral("sign-in")));
    for (QPushButton* b : {m_takeBack, m_problem, m_handOver, m_more}) {
        b->setToolTip(readOnly);
        b->setAccessibleDescription(readOnly);
    }
    m_takeBack->setEnabled(signedIn && (working || finishing()));
    m_skip->setEnabled(working && shown);
    m_problem->setEnabled(signedIn);
    m_handOver->setEnabled(signedIn && !paused());
    m_more->setEnabled(signedIn);
    QString next;
    for (const GuideStep& step : g.steps)
        if (step.id == g.next) next = tr("Next hands-on: %1 (%2)").arg(step.title, words::minutes(step.planned));
    m_next->setText(working ? next : QString());
    m_blocked->setText(QStringLiteral("▲ ") + g.blockedBecause);
    m_blocked->setVisible(working && !g.blockedBecause.isEmpty());
    const Countdown* running = working ? m_desk.countdown() : nullptr;
    const QString confirms = tr("%1 confirms").arg(keyText(QStringLiteral("guide.confirm")));
    m_scan->setHint(!missing.isEmpty() ? tr("Scan or type, then Enter: %1").arg(missing.first().text)
                    : running && running->sensor ? tr("Type a temperature read now, then Enter · %1").arg(confirms)
                                                 : confirms);
}

} // namespace interlude
