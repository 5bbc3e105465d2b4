#include "views/today/wall_face.h"

#include "views/today/plan_ahead.h"
#include "views/words/words.h"

#include "model/session/guide.h"

#include <QCoreApplication>

namespace interlude {

namespace {

QString tr(const char* text) {
    return QCoreApplication::translate("WallFace", text);
}

void printing(WallFace& f, const Bench& bench, const PrinterNow& p) {
    if (!p.printExpectedEnd) {
        f.big = tr("prints");
        f.state = {tr("%1, end not known").arg(p.job), tr("end not known")};
        return;
    }
    f.big = bench.shortTime(*p.printExpectedEnd);
    f.wrong = *p.printExpectedEnd <= bench.now();
    f.state = f.wrong ? QStringList{tr("%1 should have ended").arg(p.job), tr("%1 overdue").arg(p.job), tr("overdue")}
                      : QStringList{tr("prints %1 until").arg(p.job), tr("%1 until").arg(p.job), tr("prints until")};
}

void lying(WallFace& f, const Bench& bench, const PrinterNow& p) {
    f.big = p.lastPrintEnd ? bench.shortTime(*p.lastPrintEnd) : tr("part");
    f.wrong = true;
    f.state = p.lastPrintEnd ? QStringList{tr("part of %1 waits since").arg(p.job), tr("part waits since")}
                             : QStringList{tr("part of %1 waits").arg(p.job), tr("part waits")};
}

void down(WallFace& f, const Bench& bench, const PrinterNow& p) {
    f.big = p.downUntil ? bench.shortTime(*p.downUntil) : tr("down");
    f.wrong = p.downUntil && *p.downUntil <= bench.now();
    if (f.wrong) f.state = {tr("down, should be back"), tr("should be back")};
    else if (p.downUntil) f.state = {tr("down until: %1").arg(p.downWhy), tr("down until")};
    else f.state = {p.downWhy};
}

void idle(WallFace& f, const Bench& bench, const PrinterNow& p) {
    f.big = tr("idle");
    f.wrong = p.open;
    if (p.open) f.state = {tr("left half way: no print"), tr("left half way")};
    else if (p.lastPrintEnd) f.state = {tr("since %1").arg(bench.shortTime(*p.lastPrintEnd))};
}

void session(WallFace& f, const Bench& bench, const SessionState& s) {
    const Guide g = guide(bench.shop(), s, bench.now());
    f.big = words::minutes(g.handsOnLeft);
    const QString step = tr("step %1 of %2").arg(g.index).arg(g.steps.size());
    if (s.phase == SessionPhase::Paused) {
        f.wrong = !g.blockedBecause.isEmpty();
        f.state = {tr("paused, hands-on left"), tr("paused")};
    } else if (g.finished) {
        f.big = tr("done");
        f.state = {tr("finish it in the guide"), tr("to be finished")};
        f.inHand = true;
    } else if (!g.current.isEmpty()) {
        f.state = {tr("hands-on left, %1").arg(step), tr("left, %1").arg(step), step};
        f.inHand = true;
    } else if (!g.waits.isEmpty()) {
        const Countdown& c = g.waits.first();
        const auto left = c.left(bench.now());
        f.big = left ? words::countdown(*left) : tr("measure");
        f.wrong = left && *left <= Milliseconds(0);
        f.state = {c.title};
        if (c.target) {
            const QString to = tr("to %1 °C").arg(words::number(std::round(c.target->celsius())));
            f.state << QStringLiteral("%1 %2").arg(c.title.section(QLatin1Char(' '), 0, 0), to) << to;
        }
        if (f.wrong) f.state = {tr("over: look and confirm"), tr("over: look")};
    } else {
        f.state = {step};
    }
}

QString peopleWord(int people) {
    return people == 1 ? tr("1 person") : tr("%1 people").arg(people);
}

void people(WallFace& f, const Bench& bench, const QList<Need>& needs, const PrinterId& printer) {
    for (const Need& n : needs) {
        if (n.printer != printer) continue;
        const QString who = peopleWord(n.people);
        const QString when = n.waitsNow ? tr("now") : bench.shortTime(n.at);
        const QString brief = QStringLiteral("%1 %2").arg(who, when);
        if (n.length.count() > 0) f.people << QStringLiteral("%1, %2").arg(brief, words::minutes(n.length));
        f.people << brief << QStringLiteral("%1 %2").arg(n.people).arg(when);
        return;
    }
}

} // namespace

WallFace wallFace(const Bench& bench, const PrinterNow& p, const PlanAhead* plan, const QList<Need>& needs) {
    WallFace f;
    f.name = bench.catalogue().printerName(p.id);
    const SessionState* open = bench.shop().openSession(p.id);
    switch (p.activity) {
    case Activity::Printing: printing(f, bench, p); break;
    case Activity::PartLying: lying(f, bench, p); break;
    case Activity::Down: down(f, bench, p); break;
    case Activity::Idle:
    case Activity::InChangeover: idle(f, bench, p); break;
    }
    if (open && p.activity != Activity::Printing && p.activity != Activity::Down) {
        f.wrong = false;
        session(f, bench, *open);
    }
    people(f, bench, needs, p.id);
    if (open && !open->changeover.transition.request.job.isEmpty()) {
        const JobId& job = open->changeover.transition.request.job;
        f.next = {tr("next %1").arg(job), QStringLiteral("→ %1").arg(job)};
    } else if (const auto next = plan ? plan->next(p.id) : std::nullopt) {
        f.late = !next->late.isEmpty();
        f.next = f.late ? QStringList{tr("▲ %1 late").arg(next->job), QStringLiteral("▲ %1").arg(next->job)}
                        : QStringList{tr("next %1").arg(next->job), QStringLiteral("→ %1").arg(next->job)};
        // A printer that stands although it should not: that is what counts, more than since when.
        if (f.late && !f.wrong && p.activity == Activity::Idle) {
            f.wrong = true;
            f.state = {tr("%1 should have begun").arg(next->job), tr("%1 is late").arg(next->job)};
            f.next.clear();
        }
    }
    if (f.wrong)
        for (QString& words : f.state) words.prepend(QStringLiteral("▲ "));
    return f;
}

QStringList callWords(const Bench& bench, const QList<Need>& needs) {
    QStringList out;
    QString moment;
    for (const Need& n : needs) {
        QString who = bench.catalogue().printerName(n.printer);
        if (n.people > 1) who += tr(" (%1 people)").arg(n.people);
        const QString when = n.waitsNow ? tr("now") : bench.shortTime(n.at);
        if (when == moment) out.last() += QStringLiteral(", ") + who;
        else out << QStringLiteral("%1 %2").arg(when, who);
        moment = when;
    }
    return out;
}

QString wallSentence(const WallFace& f) {
    QStringList parts{f.name, f.state.value(0), f.big, f.people.value(0), f.next.value(0)};
    parts.removeAll(QString());
    return parts.join(QStringLiteral(", "));
}

} // namespace interlude
