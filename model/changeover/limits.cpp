#include "model/changeover/judging.h"
#include "model/changeover/plain_words.h"

#include <algorithm>
#include <array>

namespace interlude {

namespace {

void judgeChamber(const Judging& j) {
    Transition& t = j.transition;
    const std::optional<Temperature> wanted = j.request().wanted.chamber ? j.request().wanted.chamber : j.part->chamber;
    if (!wanted) {
        j.say(
            Severity::Refusal, QStringLiteral("chamber-set-point"),
            QStringLiteral("No chamber set-point is known: neither the job nor %1 states one.").arg(gradeName(*j.part)),
            QStringLiteral("state chamber-c of the material or of the job's variant"), j.part->id);
        return;
    }
    t.chamberAfter = *wanted;
    if (t.chamberAfter > t.chamberBefore)
        j.addFact(fact::hotter);
    if (t.chamberAfter < t.chamberBefore)
        j.addFact(fact::cooler);
    if (j.printerType->chamberMax && t.chamberAfter > *j.printerType->chamberMax)
        j.say(Severity::Refusal, QStringLiteral("printer-chamber"),
              QStringLiteral("The chamber of %1 goes up to %2; %3 wants %4.")
                  .arg(printerName(j), plainWords(*j.printerType->chamberMax), j.part->id, plainWords(t.chamberAfter)),
              QStringLiteral("choose a printer with a hotter chamber"), j.printer->id);
}

void judgeMaterialOnPrinter(const Judging& j, Role role) {
    const Material* m = j.wanted(role);
    if (!m)
        return;
    (role == Role::Part ? j.transition.partNozzleAfter : j.transition.supportNozzleAfter) = m->nozzle;
    if (j.printerType->nozzleMax && m->nozzle > *j.printerType->nozzleMax)
        j.say(Severity::Refusal, QStringLiteral("printer-nozzle-temperature"),
              QStringLiteral("The extrusion heads of %1 go up to %2; %3 wants %4.")
                  .arg(printerName(j), plainWords(*j.printerType->nozzleMax), m->id, plainWords(m->nozzle)),
              QStringLiteral("choose a printer with hotter heads"), j.printer->id);
    if (!j.printerType->materials.isEmpty() && !j.printerType->materials.contains(m->id))
        j.say(Severity::Refusal, QStringLiteral("printer-materials"),
              QStringLiteral("%1 is not among the materials of printer type %2.").arg(gradeName(*m), j.printerType->id),
              QStringLiteral("choose another printer, or add it to the type's materials"), m->id);
    if (m->role != role)
        j.say(Severity::Refusal, role == Role::Support ? QStringLiteral("printer-support") : QStringLiteral("material"),
              role == Role::Support
                  ? QStringLiteral("The support position takes support materials only; %1 is a part material.")
                        .arg(gradeName(*m))
                  : QStringLiteral("%1 is a support material; it cannot be the part.").arg(gradeName(*m)),
              QStringLiteral("choose a material of the right role"), m->id);
}

void judgeSupport(const Judging& j) {
    if (!j.support)
        return;
    if (!j.printerType->supportPosition)
        j.say(
            Severity::Refusal, QStringLiteral("printer-support"),
            QStringLiteral("%1 has no support position; the setup wants %2.").arg(printerName(j), gradeName(*j.support)),
            QStringLiteral("choose a printer with a support position"), j.printer->id);
    if (!j.part->supports.isEmpty() && !j.part->supports.contains(j.support->id))
        j.say(Severity::Warning, QStringLiteral("support-fit"),
              QStringLiteral("%1 is not among the supports that go with %2 (%3).")
                  .arg(j.support->id, j.part->id, plainList(j.part->supports)),
              QStringLiteral("choose one of these"), j.support->id);
}

void judgeState(const Judging& j) {
    const PrinterNow& p = j.before();
    if (p.activity == Activity::Down)
        j.say(Severity::Warning, QStringLiteral("printer-down"),
              QStringLiteral("%1 is down%2.")
                  .arg(printerName(j), p.downWhy.isEmpty() ? QString() : QStringLiteral(": ") + p.downWhy),
              QStringLiteral("end the downtime before the changeover"), p.id);
}

} // namespace

void judgeJob(const Judging& j) {
    const TransitionRequest& r = j.request();
    QStringList names;
    for (const PrinterId& id : r.allowedPrinters)
        names.append(j.catalogue.printerName(id));
    if (!r.allowedPrinters.isEmpty() && !r.allowedPrinters.contains(r.now.id))
        j.say(Severity::Refusal, QStringLiteral("job-printers"),
              QStringLiteral("Job %1 may go to %2 only.").arg(r.job, plainList(names)),
              QStringLiteral("choose one of these printers"), r.job);
    if (!r.envelope || !j.printerType->envelope)
        return;
    const Envelope &part = *r.envelope, &room = *j.printerType->envelope;
    const auto tooLong = [&](Length p, Length limit, const QString& axis) {
        if (p <= limit)
            return;
        j.say(Severity::Refusal, QStringLiteral("printer-envelope"),
              QStringLiteral("The part measures %1 in %2; the build envelope of %3 has %4.")
                  .arg(plainWords(p), axis, printerName(j), plainWords(limit)),
              QStringLiteral("choose a larger printer, or turn the part in its build file"), r.job);
    };
    tooLong(part.x, room.x, QStringLiteral("X"));
    tooLong(part.y, room.y, QStringLiteral("Y"));
    tooLong(part.z, room.z, QStringLiteral("Z"));
}

void judgeLimits(const Judging& j) {
    judgeChamber(j);
    judgeMaterialOnPrinter(j, Role::Part);
    judgeMaterialOnPrinter(j, Role::Support);
    judgeSupport(j);
    judgeState(j);
}

void nameOtherFacts(const Judging& j) {
    const PrinterNow& p = j.before();
    if (!j.printerType->platformCover.isEmpty() && p.platformCover != QStringLiteral("fresh"))
        j.addFact(fact::platformCover);
    const Material* last = j.catalogue.material(p.lastPart.isEmpty() ? p.part.loaded : p.lastPart);
    if (last && last->chamberFamily != j.part->chamberFamily)
        j.addFact(fact::chamberFamily);
    const bool printing = p.activity == Activity::Printing;
    if (!printing && p.lastPrintEnd && j.now - *p.lastPrintEnd >= std::chrono::days(j.catalogue.fleet.longIdleDays))
        j.addFact(fact::longIdle);
    // The closed list's own order, whatever the order in which the rules found them.
    static const std::array order = {
        &fact::partMaterial,  &fact::supportMaterial, &fact::partNozzle, &fact::supportNozzle,  &fact::platformCover,
        &fact::chamberFamily, &fact::hotter,          &fact::cooler,     &fact::nozzleFirstUse, &fact::longIdle};
    QStringList sorted;
    for (const QString* word : order)
        if (j.transition.has(*word))
            sorted.append(*word);
    j.transition.facts = sorted;
}

} // namespace interlude
