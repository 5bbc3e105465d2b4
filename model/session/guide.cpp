#include "model/session/guide.h"

#include "model/session/evidence.h"
#include "model/session/freshness.h"
#include "model/session/work.h"

#include <algorithm>

namespace interlude {

namespace {

constexpr Minutes soon{15};

QString clockWords(const Shop& shop, Instant t) {
    return toZone(t, shop.catalogue().fleet.zone).toString(QStringLiteral("HH:mm"));
}

bool prints(const Shop& shop, const PrinterId& id) {
    const PrinterNow* p = shop.printer(id);
    return p && p->activity == Activity::Printing;
}

StepMark markOf(const SessionState& session, const PlannedStep& s, const StepId& current, bool printing) {
    switch (session.progress(s.step.id).state) {
    case StepState::Done: return StepMark::Done;
    case StepState::Skipped: return StepMark::Skipped;
    case StepState::Started: return s.step.id == current ? StepMark::Current : StepMark::Running;
    case StepState::Pending: break;
    }
    if (s.step.id == current) return StepMark::Current;
    return isFree(session, s) && (s.step.external || !printing) ? StepMark::Ready : StepMark::Waiting;
}

void listSteps(Guide& g, const SessionState& session, bool printing) {
    int settled = 0;
    for (const PlannedStep& s : session.changeover.steps) {
        settled += session.settled(s.step.id) ? 1 : 0;
        g.steps.append({s.step.id, s.step.group, s.step.title, s.planned, markOf(session, s, g.current, printing),
                        s.step.external, s.step.handsOn(), s.critical});
    }
    const int all = static_cast<int>(session.changeover.steps.size());
    g.index = std::min(settled + 1, all);
    g.finished = settled == all;
}

Instant estimateReady(const Shop& shop, const SessionState& session, const QList<Countdown>& waits, Instant now) {
    RunningEnds ends;
    for (const PlannedStep& s : session.changeover.steps) {
        const StepProgress& p = session.progress(s.step.id);
        if (p.state == StepState::Started && p.started)
            ends.insert(s.step.id, inPresentClock(session, *p.started, p.startEvent) + s.planned);
    }
    for (const Countdown& c : waits)
        if (c.due) ends.insert(c.step, *c.due);
    const PrinterNow* printer = shop.printer(session.printer);
    Instant stands = now;
    if (printer && printer->activity == Activity::Printing)
        stands = std::max(now, printer->printExpectedEnd.value_or(now));
    return replayRemaining(session, ends, now, stands);
}

/// "A reading is needed: the session was interrupted for 12 minutes"; empty when none is owed.
QString owedReading(const SessionState& session, const Guide& g, Instant now) {
    const Interruption* longest = breakWithoutReading(session, g.current, now);
    for (const Countdown& c : g.waits) {
        const Interruption* i = breakWithoutReading(session, c.step, now);
        if (i && (!longest || lengthOf(*i, now) > lengthOf(*longest, now))) longest = i;
    }
    if (!longest) return {};
    const qint64 minutes = std::max<qint64>(1, std::chrono::round<Minutes>(lengthOf(*longest, now)).count());
    const QString what = longest->cause == QStringLiteral("clock") ? QStringLiteral("the clock was set by")
                                                                   : QStringLiteral("the session was interrupted for");
    return QStringLiteral("A reading is needed: %1 %2 minute%3")
        .arg(what)
        .arg(minutes)
        .arg(minutes == 1 ? QString() : QStringLiteral("s"));
}

QString whyBlocked(const Shop& shop, const SessionState& session, const Guide& g, bool printing, Instant now) {
    if (!session.isOpen() || g.finished) return {};
    if (session.phase == SessionPhase::Paused) {
        const Interruption last = session.interruptions.isEmpty() ? Interruption{} : session.interruptions.last();
        const QString note = last.note.isEmpty() ? QString() : QStringLiteral(": “%1”").arg(last.note);
        return (last.handOver ? QStringLiteral("Handed over by %1 at %2%3. Confirm what is mounted to go on")
                              : QStringLiteral("Paused by %1 at %2%3"))
            .arg(last.who.isEmpty() ? session.startedBy : last.who, clockWords(shop, last.from), note);
    }
    const PrinterNow* printer = shop.printer(session.printer);
    if (printer && printer->activity == Activity::Down)
        return QStringLiteral("%1 is down: %2").arg(shop.catalogue().printerName(session.printer), printer->downWhy);
    if (printing && g.current.isEmpty()) {
        const QString until = printer->printExpectedEnd
                                  ? QStringLiteral(", until %1 as planned").arg(clockWords(shop, *printer->printExpectedEnd))
                                  : QString();
        return QStringLiteral("%1 still prints%2. Go on when the print has ended")
            .arg(shop.catalogue().printerName(session.printer), until);
    }
    return owedReading(session, g, now);
}

QString minutesWords(Minutes m) {
    return QStringLiteral("%1 min").arg(m.count());
}

void addOwnExternals(Guide& g, const SessionState& session) {
    if (session.phase != SessionPhase::Open) return;
    for (const PlannedStep& s : session.changeover.steps) {
        const bool open = s.step.external && s.step.handsOn() && !session.settled(s.step.id);
        if (!open || s.step.id == g.current || !isFree(session, s)) continue;
        g.meanwhile.append({session.printer, session.number, s.step.id,
                            QStringLiteral("Here: %1, %2").arg(s.step.title, minutesWords(s.planned))});
    }
}

void addOtherPrinter(Guide& g, const Shop& shop, const PrinterNow& printer) {
    const QString name = shop.catalogue().printerName(printer.id);
    if (const SessionState* other = shop.openSession(printer.id)) {
        const PlannedStep* step = currentStep(*other, printer.activity == Activity::Printing);
        if (!step) return;
        const QString text = other->phase == SessionPhase::Paused ? QStringLiteral("%1: paused before “%2”, %3")
                                                                  : QStringLiteral("%1: %2, %3");
        g.meanwhile.append({printer.id, other->number, step->step.id,
                            text.arg(name, step->step.title, minutesWords(step->planned))});
        return;
    }
    if (printer.activity != Activity::PartLying) return;
    const PrinterType* type = shop.catalogue().typeOf(printer.id);
    QString text = QStringLiteral("%1: part out").arg(name);
    if (type && type->partRemoval.count() > 0) text += QStringLiteral(", ") + minutesWords(type->partRemoval);
    if (printer.lastPrintEnd) text += QStringLiteral(", ready since ") + clockWords(shop, *printer.lastPrintEnd);
    g.meanwhile.append({printer.id, 0, {}, text});
}

void addEndingSoon(Guide& g, const Shop& shop, const PrinterId& here, Instant now) {
    for (const Countdown& c : allCountdowns(shop, now)) {
        if (c.printer == here || !c.due || *c.due > now + soon) continue;
        const QString when = *c.due <= now ? QStringLiteral("over since %1") : QStringLiteral("over at %1");
        g.meanwhile.append({c.printer, c.session, c.step,
                            QStringLiteral("%1: %2, %3").arg(shop.catalogue().printerName(c.printer), c.title,
                                                             when.arg(clockWords(shop, *c.due)))});
    }
}

void suggestMeanwhile(Guide& g, const Shop& shop, const SessionState& session, Instant now) {
    addOwnExternals(g, session);
    for (const PrinterNow& printer : shop.printers())
        if (printer.id != session.printer) addOtherPrinter(g, shop, printer);
    addEndingSoon(g, shop, session.printer, now);
}

} // namespace

Guide guide(const Shop& shop, const SessionState& session, Instant now) {
    Guide g;
    const bool printing = prints(shop, session.printer);
    const PlannedStep* current = session.isOpen() ? currentStep(session, printing) : nullptr;
    if (current) g.current = current->step.id;
    listSteps(g, session, printing);
    if (const PlannedStep* next = session.isOpen() ? nextStep(session, current) : nullptr) g.next = next->step.id;
    g.waits = countdowns(shop, session, now);
    g.handsOnLeft = handsOnLeft(session);
    g.readyAt = session.isOpen() ? estimateReady(shop, session, g.waits, now) : session.ended.value_or(now);
    g.blockedBecause = whyBlocked(shop, session, g, printing, now);
    if (session.isOpen()) suggestMeanwhile(g, shop, session, now);
    return g;
}

} // namespace interlude
