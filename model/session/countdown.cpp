#include "model/session/countdown.h"

#include "model/changeover/plain_words.h"
#include "model/changeover/wait_target.h"
#include "model/session/prediction.h"

#include <algorithm>
#include <cmath>

namespace interlude {

namespace {

Milliseconds millisecondsUp(double seconds) {
    return Milliseconds(static_cast<qint64>(std::ceil(seconds * 1000.0)));
}

/// A session keeps the catalogue that it began with.
CataloguePtr catalogueOf(const Shop& shop, const SessionState& session) {
    const CataloguePtr own = shop.catalogueByHash(session.catalogueHash);
    return own ? own : shop.cataloguePtr();
}

/// Which head it is, where the printer has both.
QString bodyWords(Subject s, bool twoHeads) {
    switch (s) {
    case Subject::HeadPart: return twoHeads ? QStringLiteral("Part head") : QStringLiteral("Head");
    case Subject::HeadSupport: return QStringLiteral("Support head");
    case Subject::Platform: return QStringLiteral("Platform");
    case Subject::Chamber:
    case Subject::Part:
    case Subject::Support: break;
    }
    return QStringLiteral("Chamber");
}

bool isThermal(const PlannedStep& s) {
    return s.step.duration == DurationKind::Heat || s.step.duration == DurationKind::Cool;
}

/// One nozzle set-point is kept for both heads; the support's is never assumed below its material's nominal one.
void supposeSupportHead(Evidence& evidence, const SessionState& session, const Catalogue& catalogue) {
    const Material* m = catalogue.material(session.printerBefore.lastSupport);
    if (m && evidence.headSet) evidence.headSet = std::max(*evidence.headSet, m->nozzle.celsius());
}

Prediction predict(const Shop& shop, const SessionState& session, const PlannedStep& s, Instant now) {
    Evidence evidence = evidenceFor(session, s, now);
    Prediction none;
    none.from = evidence.from;
    const CataloguePtr catalogue = catalogueOf(shop, session);
    const PrinterType* type = catalogue ? catalogue->typeOf(session.printer) : nullptr;
    const std::optional<Temperature> target = waitTarget(s);
    if (!type || !target) {
        none.why = type ? QStringLiteral("no temperature is stated for this step: measure")
                        : QStringLiteral("this printer's type is not known: measure");
        return none;
    }
    if (s.step.subject == Subject::HeadSupport) supposeSupportHead(evidence, session, *catalogue);
    const Temperature room = catalogue->fleet.room;
    return s.step.duration == DurationKind::Cool ? predictCooling(evidence, *type, room, s.step.subject, *target)
                                                 : predictHeating(evidence, *type, room, s, *target);
}

void countThermal(Countdown& c, const Shop& shop, const SessionState& session, const PlannedStep& s, Instant now) {
    c.target = waitTarget(s);
    c.sensor = sensorOf(s.step.subject);
    const CataloguePtr catalogue = catalogueOf(shop, session);
    const PrinterType* type = catalogue ? catalogue->typeOf(session.printer) : nullptr;
    if (c.target)
        c.title = bodyWords(s.step.subject, !type || type->supportPosition) +
                  (s.step.duration == DurationKind::Cool ? QStringLiteral(" below ") : QStringLiteral(" at ")) +
                  plainWords(*c.target);
    const Prediction p = predict(shop, session, s, now);
    c.basis = p.why;
    c.nearLimit = p.nearLimit;
    if (p.band) {
        c.due = p.from + millisecondsUp(p.band->upper);
        c.expected = p.from + millisecondsUp(p.band->expected);
    }
}

void countPurge(Countdown& c, const Shop& shop, const SessionState& session, const PlannedStep& s, Instant started) {
    const CataloguePtr catalogue = catalogueOf(shop, session);
    const PrinterType* type = catalogue ? catalogue->typeOf(session.printer) : nullptr;
    const double flow = type ? type->purgeFlowMm3PerS : 0.0;
    if (!s.purge || !(flow > 0)) {
        c.basis = QStringLiteral("the volume or the flow of this purge is not known: watch the bead");
        return;
    }
    c.due = started + millisecondsUp(static_cast<double>(s.purge->mm3()) / flow);
    c.expected = c.due;
    c.basis = QStringLiteral("%1 at %2 mm³/s").arg(plainWords(*s.purge), plainNumber(flow, 1));
}

Countdown countdownOf(const Shop& shop, const SessionState& session, const PlannedStep& s, Instant now) {
    const StepProgress& p = session.progress(s.step.id);
    const Instant started = inPresentClock(session, *p.started, p.startEvent);
    Countdown c;
    c.session = session.number;
    c.printer = session.printer;
    c.step = s.step.id;
    c.title = s.step.title;
    if (isThermal(s)) {
        countThermal(c, shop, session, s, now);
    } else if (s.step.duration == DurationKind::Purge) {
        countPurge(c, shop, session, s, started);
    } else {
        c.due = c.expected = started + s.planned;
        c.basis = QStringLiteral("the procedure's own time, %1 min").arg(s.planned.count());
    }
    c.needsReading = s.step.onlyBelow.has_value() || !c.due || !s.step.confirm.readings.isEmpty();
    return c;
}

std::optional<Countdown> printCountdown(const PrinterNow& printer) {
    if (printer.activity != Activity::Printing) return {};
    Countdown c;
    c.printer = printer.id;
    c.title = printer.job.isEmpty() ? QStringLiteral("Print ends") : QStringLiteral("Print of %1 ends").arg(printer.job);
    c.due = c.expected = printer.printExpectedEnd;
    c.basis = c.due ? QStringLiteral("print time as the job states it")
                    : QStringLiteral("the print's time is not known: read the display");
    return c;
}

} // namespace

QList<Countdown> countdowns(const Shop& shop, const SessionState& session, Instant now) {
    QList<Countdown> out;
    if (!session.isOpen()) return out;
    for (const PlannedStep& s : session.changeover.steps) {
        const StepProgress& p = session.progress(s.step.id);
        if (!s.step.handsOn() && p.state == StepState::Started && p.started)
            out.append(countdownOf(shop, session, s, now));
    }
    return out;
}

QList<Countdown> allCountdowns(const Shop& shop, Instant now) {
    QList<Countdown> out;
    for (const PrinterNow& printer : shop.printers())
        if (const auto print = printCountdown(printer)) out.append(*print);
    for (const SessionState& session : shop.sessions()) out.append(countdowns(shop, session, now));
    std::stable_sort(out.begin(), out.end(), [](const Countdown& a, const Countdown& b) {
        if (a.due.has_value() != b.due.has_value()) return a.due.has_value(); // without a prediction: last
        return a.due && *a.due < *b.due;
    });
    return out;
}

QList<CurvePoint> curve(const Shop& shop, const SessionState& session, const Countdown& c) {
    const PlannedStep* s = session.changeover.step(c.step);
    if (!s || !isThermal(*s) || !c.due || !session.progress(c.step).started) return {};
    // The newest evidence: everything that this session's countdown could have been based on.
    const Prediction p = predict(shop, session, *s, Instant::max());
    if (!p.band || !p.course) return {};
    constexpr int intervals = 60;
    const double span = std::max(p.band->upper, 60.0); // already there: one minute of it
    QList<CurvePoint> out;
    for (int i = 0; i <= intervals; ++i) {
        const double seconds = span * i / intervals;
        const CourseBand at = p.course(seconds);
        out.append({p.from + millisecondsUp(seconds), at.expected, at.low, at.high});
    }
    return out;
}

} // namespace interlude
