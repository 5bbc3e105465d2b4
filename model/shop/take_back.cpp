#include "model/shop/take_back.h"

#include "model/shop/payload/state_fields.h"

namespace interlude {

namespace {

QString correct() {
    return QStringLiteral("record a correction with its reason instead");
}

/// What those surroundings name, as it is now.
Surroundings asItIsNow(const Shop& shop, const Surroundings& named) {
    Surroundings now;
    if (const PrinterNow* p = shop.printer(named.printer.id))
        now.printer = *p;
    const auto gather = [](auto& into, const auto& names, const auto& from) {
        for (auto it = names.begin(); it != names.end(); ++it)
            if (from.contains(it.key()))
                into.insert(it.key(), from.value(it.key()));
    };
    gather(now.spools, named.spools, shop.stock().spools);
    gather(now.nozzles, named.nozzles, shop.stock().nozzles);
    for (const Job& each : named.jobs)
        if (const Job* j = shop.job(each.id))
            now.jobs.insert(j->id, *j);
    return now;
}

/// Something that this confirmation touched is no longer as it left it.
bool touchedSince(const Shop& shop, const SessionState& session) {
    if (session.undo.isEmpty() || session.undo.last().after.printer.id.isEmpty())
        return false; // nothing was touched
    const Surroundings& after = session.undo.last().after;
    return payload::stateOf(asItIsNow(shop, after)) != payload::stateOf(after);
}

} // namespace

Outcome<StepId> takeBackable(const Shop& shop, const SessionState& session) {
    const QString rule = QStringLiteral("take-back");
    if (!session.isOpen())
        return refusal(rule, QStringLiteral("The session is over"), correct());
    if (session.phase == SessionPhase::Paused)
        return refusal(rule, QStringLiteral("The session is paused"), QStringLiteral("go on with it first"));
    if (session.confirmedOrder.isEmpty())
        return refusal(rule, QStringLiteral("Nothing has been confirmed yet"));
    const StepId last = session.confirmedOrder.last();
    const PlannedStep* step = session.changeover.step(last);
    if (!step)
        return refusal(rule, QStringLiteral("The last confirmation is not a step of this changeover"), correct(), last);
    for (const PlannedStep& later : session.changeover.steps)
        if (later.after.contains(last) && session.settled(later.step.id))
            return refusal(rule, QStringLiteral("“%1” depends on it and has been done").arg(later.step.title),
                           correct(), later.step.id);
    if (touchedSince(shop, session))
        return refusal(rule,
                       step->step.effect == Effect::StartPrint
                           ? QStringLiteral("Something has happened to the print since it was started")
                           : QStringLiteral("Something that this step touched was changed afterwards"),
                       correct(), last);
    return last;
}

} // namespace interlude
