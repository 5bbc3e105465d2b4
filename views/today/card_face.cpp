#include "views/today/card_face.h"

#include "views/today/plan_ahead.h"
#include "views/words/words.h"

#include "model/session/guide.h"

#include <QCoreApplication>

namespace interlude {

namespace {

QString tr(const char* text) {
    return QCoreApplication::translate("CardFace", text);
}

const QString dash = QStringLiteral("—");

QString removal(const Bench& bench, const PrinterNow& p) {
    const PrinterType* type = bench.catalogue().typeOf(p.id);
    return type && type->partRemoval.count() > 0 ? tr("part out, %1").arg(words::minutes(type->partRemoval))
                                                 : tr("part out");
}

void printing(CardFace& f, const Bench& bench, const PrinterNow& p) {
    f.act = QStringLiteral("print-ended");
    f.big = p.printExpectedEnd ? bench.shortTime(*p.printExpectedEnd) : dash;
    f.state = p.printExpectedEnd ? tr("prints %1 until").arg(p.job) : tr("prints %1, end not known").arg(p.job);
    f.below = tr("then %1").arg(removal(bench, p));
    if (p.printExpectedEnd && *p.printExpectedEnd <= bench.now())
        f.wrong = tr("overdue since %1: has the print ended?").arg(bench.shortTime(*p.printExpectedEnd));
}

void lying(CardFace& f, const Bench& bench, const PrinterNow& p) {
    f.act = QStringLiteral("part-removed");
    f.state = tr("part of %1 waits").arg(p.job);
    f.big = p.lastPrintEnd ? bench.shortTime(*p.lastPrintEnd) : dash;
    f.wrong = p.lastPrintEnd ? tr("part waits since") : tr("part waits");
    f.below = removal(bench, p);
}

void down(CardFace& f, const Bench& bench, const PrinterNow& p) {
    f.act = QStringLiteral("up");
    f.state = p.downSince ? tr("down since %1: %2").arg(bench.shortTime(*p.downSince), p.downWhy)
                          : tr("down: %1").arg(p.downWhy);
    f.big = dash;
    if (p.downUntil) f.below = tr("expected back %1").arg(bench.shortTime(*p.downUntil));
    if (p.downUntil && *p.downUntil <= bench.now())
        f.wrong = tr("should be back since %1").arg(bench.shortTime(*p.downUntil));
}

void idle(CardFace& f, const Bench& bench, const PrinterNow& p) {
    f.act = QStringLiteral("changeover");
    f.state = p.lastPrintEnd ? tr("idle, last print ended %1").arg(bench.shortTime(*p.lastPrintEnd)) : tr("idle");
    f.big = dash;
    if (p.open) f.wrong = tr("left half way: no print may start");
    f.below = tr("nothing is planned");
}

void session(CardFace& f, const Bench& bench, const SessionState& s) {
    const Instant now = bench.now();
    const Guide g = guide(bench.shop(), s, now);
    f.act = QStringLiteral("changeover");
    const auto title = [&](const StepId& id) {
        const PlannedStep* step = s.changeover.step(id);
        return step ? QStringLiteral("%1, %2").arg(step->step.title, words::minutes(step->planned)) : QString();
    };
    const TransitionRequest& r = s.changeover.transition.request;
    f.setup = QStringLiteral("%1 → %2").arg(
        words::setupNow(bench.catalogue(), bench.shop().stock(), s.printerBefore),
        words::setupWanted(bench.catalogue(), r.wanted));
    const QString step = tr("changeover, step %1 of %2").arg(g.index).arg(g.steps.size());
    if (s.phase == SessionPhase::Paused) {
        f.state = tr("%1: paused").arg(step);
        f.big = words::minutes(g.handsOnLeft);
        f.below = tr("hands-on left");
        f.wrong = g.blockedBecause;
    } else if (g.finished) {
        f.state = tr("changeover: all steps done");
        f.big = dash;
        f.below = tr("finish it in the guide");
        f.inHand = true;
    } else if (!g.current.isEmpty()) {
        f.state = tr("%1: needs you now").arg(step);
        f.big = words::minutes(g.handsOnLeft);
        f.below = tr("hands-on left, ready %1 · now: %2").arg(bench.shortTime(g.readyAt), title(g.current));
        f.inHand = true;
    } else if (!g.waits.isEmpty()) {
        const Countdown& c = g.waits.first();
        const auto left = c.left(now);
        f.state = left && *left > Milliseconds(0) ? tr("%1: %2, still").arg(step, c.title) : QStringLiteral("%1: %2").arg(step, c.title);
        f.big = left ? words::countdown(*left) : tr("measure");
        f.below = g.next.isEmpty() ? tr("ready %1").arg(bench.shortTime(g.readyAt))
                                   : tr("then %1 · ready %2").arg(title(g.next), bench.shortTime(g.readyAt));
        if (left && *left <= Milliseconds(0)) f.wrong = tr("over: look and confirm");
    } else {
        f.state = step;
        f.big = dash;
        f.below = g.blockedBecause;
    }
}

/// The next planned job, with the time and the people that its changeover takes.
QString nextText(const Bench& bench, const PlanAhead::Next& n) {
    const QString name = n.title.isEmpty() ? n.job : QStringLiteral("%1 %2").arg(n.job, n.title);
    if (n.length.count() == 0) return tr("next %1, prints %2").arg(name, bench.shortTime(n.printStart));
    const QString people = n.people == 1 ? tr("1 person") : tr("%1 people").arg(n.people);
    const QString work = tr("changeover %1, %2").arg(bench.shortTime(n.begins), words::minutes(n.length));
    return n.people > 0 ? tr("next %1: %2, %3").arg(name, work, people) : tr("next %1: %2").arg(name, work);
}

void planned(CardFace& f, const Bench& bench, const PrinterNow& p, const PlanAhead& plan) {
    const auto next = plan.next(p.id);
    if (!next) return;
    const QString text = nextText(bench, *next);
    f.below = p.activity == Activity::Idle || f.below.isEmpty() ? text : f.below + QStringLiteral(" · ") + text;
    if (f.wrong.isEmpty() && !next->late.isEmpty()) f.wrong = QStringLiteral("%1: %2").arg(next->job, next->late);
}

} // namespace

CardFace cardFace(const Bench& bench, const PrinterNow& p, const PlanAhead* plan) {
    CardFace f;
    f.name = bench.catalogue().printerName(p.id);
    f.setup = words::setupNow(bench.catalogue(), bench.shop().stock(), p);
    const SessionState* open = bench.shop().openSession(p.id);
    switch (p.activity) {
    case Activity::Printing: printing(f, bench, p); break;
    case Activity::PartLying: lying(f, bench, p); break;
    case Activity::Down: down(f, bench, p); break;
    case Activity::Idle:
    case Activity::InChangeover: idle(f, bench, p); break;
    }
    // A print or a fault is what the printer does; a session that prepares meanwhile comes next.
    if (open && (p.activity == Activity::Printing || p.activity == Activity::Down)) {
        const Guide g = guide(bench.shop(), *open, bench.now());
        f.below = tr("then changeover, %1 hands-on left").arg(words::minutes(g.handsOnLeft));
        f.inHand = !g.current.isEmpty();
    } else if (open) {
        f.wrong.clear();
        session(f, bench, *open);
    }
    if (plan && !open) planned(f, bench, p, *plan);
    if (!open) return f;
    for (const Countdown& c : countdowns(bench.shop(), *open, bench.now())) {
        const auto left = c.left(bench.now());
        const QString line = QStringLiteral("%1  %2").arg(c.title, left ? words::countdown(*left) : tr("measure"));
        if (!f.state.contains(c.title)) f.countdowns << line;
    }
    return f;
}

} // namespace interlude
