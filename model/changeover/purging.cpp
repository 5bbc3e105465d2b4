#include "model/changeover/judging.h"
#include "model/changeover/plain_words.h"
#include "model/physics/purge.h"

#include <algorithm>
#include <cmath>

namespace interlude {

namespace {

/// Stored and printed in millionths, so kept at that.
double inMillionths(double v) {
    return std::round(v * 1e6) / 1e6;
}

Seconds timeToExtrude(Volume v, const PrinterType& type) {
    if (!(type.purgeFlowMm3PerS > 0))
        return Seconds(0);
    return Seconds(static_cast<qint64>(std::ceil(static_cast<double>(v.mm3()) / type.purgeFlowMm3PerS)));
}

/// Materials through which one could get from `a` to `b` at this position.
QStringList goBetweens(const Judging& j, const Material& a, const Material& b) {
    QStringList ids;
    for (const Material& m : j.catalogue.materials)
        if (m.id != a.id && m.id != b.id && windowsOverlap(a, m) && windowsOverlap(m, b) && ids.size() < 3)
            ids.append(m.id);
    return ids;
}

void refuseWindows(const Judging& j, const Material& from, const Material& to, Role role) {
    const QStringList through = goBetweens(j, from, to);
    j.say(
        Severity::Refusal, QStringLiteral("purge-windows"),
        QStringLiteral("%1 (%2 to %3) left in the melt zone of the %4 cannot be purged with %5 (%6 to %7): there is no "
                       "temperature at which both flow and neither decomposes.")
            .arg(from.id, plainWords(from.meltMin), plainWords(from.meltMax), positionName(role), to.id,
                 plainWords(to.meltMin), plainWords(to.meltMax)),
        QStringLiteral(
            "go through an intermediate material%1, or use another nozzle that is one unit with its melt zone")
            .arg(through.isEmpty() ? QString() : QStringLiteral(" (%1)").arg(through.join(QStringLiteral(", ")))),
        from.id);
}

/// The windows overlap, but the next material is fed outside that of what is left: above it that decomposes, below it it stays.
void warnTemperature(const Judging& j, const Material& old, const Material& next, Role role) {
    const bool above = next.nozzle > old.meltMax;
    if (!above && next.nozzle >= old.meltMin)
        return;
    const Temperature low = std::max(old.meltMin, next.meltMin), high = std::min(old.meltMax, next.meltMax);
    const QString there = low == high ? QStringLiteral("at %1").arg(plainWords(low))
                                      : QStringLiteral("between %1 and %2").arg(plainWords(low), plainWords(high));
    j.say(Severity::Warning, QStringLiteral("purge-windows"),
          QStringLiteral("%1 left in the melt zone of the %2 %3 %4; %5 is fed at %6.")
              .arg(old.id, positionName(role), above ? QStringLiteral("decomposes above") : QStringLiteral("does not flow below"),
                   plainWords(above ? old.meltMax : old.meltMin), next.id, plainWords(next.nozzle)),
          QStringLiteral("purge %1, and go to %2 only when it is out").arg(there, plainWords(next.nozzle)), old.id);
}

void purgeOut(const Judging& j, PurgePlan& plan, const Material& old, const Material& next, const NozzleType& type) {
    const Fleet& fleet = j.catalogue.fleet;
    const double n = old.flowIndex > 0 && old.flowIndex <= 1 ? old.flowIndex : 1.0;
    plan.needed = true;
    plan.residual =
        std::clamp(inMillionths(old.polymer == next.polymer ? fleet.residualSamePolymer : fleet.residualNewPolymer),
                   1e-6, 0.999999);
    plan.theta = inMillionths(physics::thetaForOutletFraction(plan.residual, n));
    plan.volume = Volume::fromMm3(static_cast<qint64>(std::ceil(
        physics::purgeVolumeMm3(plan.residual, n, static_cast<double>(type.meltZone.mm3()), type.deadSpaceFactor))));
    plan.time = timeToExtrude(plan.volume, *j.printerType);
}

void planOne(const Judging& j, const NozzleChange& change) {
    const auto nozzle = j.stock.nozzles.constFind(change.in);
    const NozzleType* type = nozzle == j.stock.nozzles.constEnd() ? nullptr : j.catalogue.nozzleType(nozzle->type);
    const Material* next = j.wanted(change.role);
    if (!type || !next)
        return;
    PurgePlan plan;
    plan.role = change.role;
    plan.to = next->id;
    const MaterialId left = at(j.before(), change.role).inMelt;
    const bool gone = change.exchange && type->unitWithMeltZone;
    if (!gone)
        plan.from = left;
    const Material* old = j.catalogue.material(plan.from);
    if (plan.from.isEmpty()) {
        prime(j, plan, *type);
    } else if (plan.from == next->id) {
        if (change.exchange)
            prime(j, plan, *type);
    } else if (!old) {
        j.say(Severity::Refusal, QStringLiteral("purge-windows"),
              QStringLiteral("The melt zone of the %1 holds %2, which materials.yaml does not know.")
                  .arg(positionName(change.role), plan.from),
              QStringLiteral("declare what the printer holds"), plan.from);
    } else if (!windowsOverlap(*old, *next)) {
        refuseWindows(j, *old, *next, change.role);
    } else {
        warnTemperature(j, *old, *next, change.role);
        purgeOut(j, plan, *old, *next, *type);
    }
    j.transition.purges.append(plan);
}

} // namespace

void prime(const Judging& j, PurgePlan& plan, const NozzleType& type) {
    plan.needed = true;
    plan.primeOnly = true;
    plan.volume = type.prime;
    plan.time = timeToExtrude(plan.volume, *j.printerType);
}

bool windowsOverlap(const Material& a, const Material& b) {
    return std::max(a.meltMin, b.meltMin) <= std::min(a.meltMax, b.meltMax);
}

bool purgeable(const Judging& j, Role role) {
    const MaterialId left = at(j.before(), role).inMelt;
    const Material* next = j.wanted(role);
    if (left.isEmpty() || !next || left == next->id)
        return true;
    const Material* old = j.catalogue.material(left);
    return old && windowsOverlap(*old, *next);
}

void planPurges(const Judging& j) {
    for (const NozzleChange& change : j.transition.nozzles)
        if (!change.in.isEmpty())
            planOne(j, change);
}

} // namespace interlude
