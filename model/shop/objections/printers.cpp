#include "model/shop/objections/asking.h"

#include <algorithm>

namespace interlude {

namespace {

void notInSession(Asking& a, const PrinterNow& p) {
    if (const SessionState* s = a.shop.openSession(p.id))
        a.refuse("open-session", QStringLiteral("Session %1 is open on %2").arg(s->number).arg(a.named(p.id)),
                 QStringLiteral("finish or stop it first"), p.id);
}

void notPrinting(Asking& a, const PrinterNow& p) {
    if (p.activity == Activity::Printing)
        a.refuse("printing", QStringLiteral("%1 is printing").arg(a.named(p.id)), QStringLiteral("end the print first"), p.id);
}

void askWorn(Asking& a, const PrinterId& printer, Role role, const NozzleSerial& serial, const SpoolId& spool,
             const MaterialId& material) {
    if (!serial.isEmpty())
        if (const Nozzle* n = a.nozzle(serial)) {
            if (n->where == NozzleWhere::Retired)
                a.refuse("retired", QStringLiteral("Nozzle %1 is retired").arg(serial), {}, serial);
            if (n->where == NozzleWhere::Mounted && n->place != printer)
                a.refuse("mounted", QStringLiteral("Nozzle %1 is mounted on %2").arg(serial, a.named(n->place)),
                         QStringLiteral("declare that printer first"), serial);
            const NozzleType* t = a.shop.nozzleType(n->type);
            if (t && !t->roles.isEmpty() && !t->roles.contains(role))
                a.refuse("role",
                         QStringLiteral("A nozzle of type %1 does not fit the %2").arg(t->id, positionWords(role)), {},
                         serial);
        }
    if (!material.isEmpty()) {
        const Material* m = a.shop.catalogue().material(material);
        if (!m)
            a.refuse("unknown-id", QStringLiteral("There is no material %1").arg(material), {}, material);
        else if (m->role != role)
            a.refuse("role", QStringLiteral("%1 does not go into the %2").arg(material, positionWords(role)), {},
                     material);
    }
    if (spool.isEmpty())
        return;
    const Spool* s = a.spool(spool);
    if (!s)
        return;
    if (s->where == SpoolWhere::Retired)
        a.refuse("retired", QStringLiteral("Spool %1 is retired").arg(spool), {}, spool);
    if (s->where == SpoolWhere::Loaded && s->place != printer)
        a.refuse("loaded", QStringLiteral("Spool %1 is loaded on %2").arg(spool, a.named(s->place)),
                 QStringLiteral("declare that printer first"), spool);
    if (!material.isEmpty() && s->material != material)
        a.refuse("spool-material", QStringLiteral("Spool %1 is %2, not %3").arg(spool, s->material, material),
                 QStringLiteral("name the spool that is loaded"), spool);
}

} // namespace

void askSetup(Asking& a, const OpeningSetup& s) {
    askWorn(a, s.printer, Role::Part, s.partNozzle, s.partSpool, s.part);
    askWorn(a, s.printer, Role::Support, s.supportNozzle, s.supportSpool, s.support);
    if (!s.partNozzle.isEmpty() && s.partNozzle == s.supportNozzle)
        a.refuse("duplicate", QStringLiteral("Nozzle %1 cannot be in both positions").arg(s.partNozzle), {},
                 s.partNozzle);
    if (!s.partSpool.isEmpty() && s.partSpool == s.supportSpool)
        a.refuse("duplicate", QStringLiteral("Spool %1 cannot be in both positions").arg(s.partSpool), {}, s.partSpool);
    for (const OpeningResidue& r : s.residue)
        if (!r.material.isEmpty() && !a.shop.catalogue().material(r.material))
            a.refuse("unknown-id", QStringLiteral("There is no material %1").arg(r.material),
                     QStringLiteral("leave it empty where the residue is unknown"), r.material);
    if (s.lastPrint)
        a.dated(*s.lastPrint, QStringLiteral("The last print"), "last-print");
}

void object(Asking& a, const act::SetupOpening& x) {
    const PrinterNow* p = a.printer(x.setup.printer);
    if (!p)
        return;
    const bool untouched = p->part == PositionNow() && p->support == PositionNow() && p->label.isEmpty() &&
                           p->residue.isEmpty() && p->activity == Activity::Idle && !p->lastPrintEnd;
    if (!untouched)
        a.refuse("opening", QStringLiteral("%1 has a state already").arg(a.named(p->id)),
                 QStringLiteral("declare its state in the window"), p->id);
    askSetup(a, x.setup);
}

void object(Asking& a, const act::PrinterDeclared& x) {
    const PrinterNow* p = a.printer(x.printer);
    if (!p)
        return;
    if (x.setup.printer != x.printer)
        a.refuse("printer", QStringLiteral("The setup is that of %1").arg(a.named(x.setup.printer)), {}, x.printer);
    notPrinting(a, *p);
    notInSession(a, *p);
    a.stated(x.why, QStringLiteral("Why the state is declared"), "why");
    askSetup(a, x.setup);
}

void askPrint(Asking& a, const PrinterNow& p, const JobId& id, const QString& variant) {
    if (p.activity == Activity::Down)
        a.refuse("down", QStringLiteral("%1 is down: %2").arg(a.named(p.id), p.downWhy),
                 QStringLiteral("end the downtime first"), p.id);
    notPrinting(a, p);
    if (!p.job.isEmpty() && p.activity != Activity::Printing)
        a.refuse("part-lying", QStringLiteral("The part of job %1 is still on %2").arg(p.job, a.named(p.id)),
                 QStringLiteral("take it out first"), p.id);
    const Job* j = a.job(id);
    if (!j)
        return;
    if (j->state != JobState::Open && j->state != JobState::Failed)
        a.refuse("job-closed", QStringLiteral("Job %1 is not open").arg(id), QStringLiteral("choose an open job"), id);
    if (!j->printers.isEmpty() && !j->printers.contains(p.id)) {
        QStringList allowed;
        for (const PrinterId& each : j->printers) allowed << a.named(each);
        a.refuse("job-printers", QStringLiteral("Job %1 may not run on %2").arg(id, a.named(p.id)),
                 QStringLiteral("allowed: %1").arg(allowed.join(QStringLiteral(", "))), p.id);
    }
    const Variant* v = j->variantNamed(variant);
    if (!v)
        return a.refuse("unknown-id", QStringLiteral("Job %1 has no variant %2").arg(id, variant), {}, variant);
    const auto matches = [&](Role role, const MaterialId& material, const NozzleTypeId& type) {
        const PositionNow& here = at(p, role);
        if (!material.isEmpty() && here.loaded != material)
            a.refuse("changeover",
                     QStringLiteral("%1 is wanted in the %2, there is %3")
                         .arg(material, positionWords(role),
                              here.loaded.isEmpty() ? QStringLiteral("nothing") : here.loaded),
                     QStringLiteral("do a changeover first"), p.id);
        const auto n = a.shop.stock().nozzles.constFind(here.nozzle);
        const NozzleTypeId mounted = n == a.shop.stock().nozzles.constEnd() ? NozzleTypeId() : n->type;
        if (!type.isEmpty() && mounted != type)
            a.refuse("changeover",
                     QStringLiteral("A nozzle of type %1 is wanted in the %2, there is %3")
                         .arg(type, positionWords(role), mounted.isEmpty() ? QStringLiteral("none") : mounted),
                     QStringLiteral("do a changeover first"), p.id);
    };
    matches(Role::Part, v->setup.part, v->setup.partNozzle);
    matches(Role::Support, v->setup.support, v->setup.supportNozzle);
    if (!v->setup.label.isEmpty() && v->setup.label != p.label)
        a.refuse("changeover", QStringLiteral("Setup %1 is wanted, %2 wears %3").arg(v->setup.label, a.named(p.id), p.label.isEmpty() ? QStringLiteral("no known setup") : p.label),
                 QStringLiteral("declare the new state after the changeover"), p.id);
}

namespace {

/// What a print without changeover would trespass: the same judgement as before a changeover.
void askStraightOn(Asking& a, const PrinterNow& p, const Job& j, const Variant& v) {
    const Transition t = judgeTransition(a.shop.catalogue(), a.shop.stock(), requestFor(p, j, v), a.now);
    for (const Finding& f : t.verdicts) {
        if (f.severity == Severity::Refusal || f.severity == Severity::Mandatory)
            a.found.append(Finding{Severity::Refusal, f.rule, f.reason,
                                   QStringLiteral("do a changeover, which deals with it"), f.place, false});
        else if (f.severity == Severity::Warning)
            a.found.append(f);
    }
    if (t.has(fact::platformCover))
        a.warn("platform-cover", QStringLiteral("The platform cover of %1 is not fresh").arg(a.named(p.id)),
               QStringLiteral("do a changeover, which fits one"), p.id);
}

} // namespace

void object(Asking& a, const act::PrintStarted& x) {
    const PrinterNow* p = a.printer(x.printer);
    if (!p)
        return;
    notInSession(a, *p);
    if (p->open)
        a.refuse("mixed", QStringLiteral("%1 was left half-way by a stopped changeover").arg(a.named(p->id)),
                 QStringLiteral("do a changeover from its present state first"), p->id);
    if (x.expected.count() <= 0)
        a.refuse("negative", QStringLiteral("The expected time must be at least 1 min"), {},
                 QStringLiteral("expected"));
    if (p->lastPrintEnd && a.statedBefore(*p->lastPrintEnd))
        a.refuse("when", QStringLiteral("%1 was printing until %2").arg(a.named(p->id), a.local(*p->lastPrintEnd)),
                 QStringLiteral("check the time"), p->id);
    if (const SessionState* s = sessionOfJob(a.shop, x.job))
        a.refuse("open-session",
                 QStringLiteral("Session %1 on %2 prepares job %3").arg(QString::number(s->number), a.named(s->printer), x.job),
                 QStringLiteral("stop it first"), x.job);
    askPrint(a, *p, x.job, x.variant);
    if (!refusalsIn(a.found).isEmpty())
        return;
    const Job& j = *a.shop.job(x.job);
    if (const Variant* v = j.variantNamed(x.variant); v && v->setup.label.isEmpty())
        askStraightOn(a, *p, j, *v);
}

void object(Asking& a, const act::PrintOpening& x) {
    const PrinterNow* p = a.printer(x.print.printer);
    if (!p)
        return;
    if (x.print.expected.count() <= 0)
        a.refuse("negative", QStringLiteral("The expected time must be at least 1 min"), {},
                 QStringLiteral("expected"));
    a.dated(x.print.started, QStringLiteral("The print's start"), "started", 1);
    const QList<SessionSummary> sessions = a.shop.sessionList();
    const bool worked = std::any_of(sessions.begin(), sessions.end(),
                                    [&](const SessionSummary& s) { return s.printer == p->id; });
    if (worked || (p->lastPrintEnd && x.print.started < *p->lastPrintEnd))
        a.refuse("opening", QStringLiteral("%1 has a state already").arg(a.named(p->id)),
                 QStringLiteral("start the print in the window"), p->id);
    askPrint(a, *p, x.print.job, x.print.variant);
}

void object(Asking& a, const act::PrintEnded& x) {
    const PrinterNow* p = a.printer(x.printer);
    if (!p)
        return;
    if (p->activity != Activity::Printing)
        return a.refuse("not-printing", QStringLiteral("%1 is not printing").arg(a.named(p->id)), {}, p->id);
    if (p->printStarted && a.statedBefore(*p->printStarted))
        a.refuse("when", QStringLiteral("The print began at %1").arg(a.local(*p->printStarted)),
                 QStringLiteral("check the time"), p->id);
    for (const auto& v : {x.part, x.support})
        if (v)
            a.notNegative(v->mm3(), QStringLiteral("The volume"), "part");
    const Job* j = a.shop.job(p->job);
    if (!j)
        return;
    for (const Variant& v : j->variants) {
        if (v.name != p->variant)
            continue;
        if (x.part && v.partVolume.mm3() > 0 && x.part->mm3() > 2 * v.partVolume.mm3())
            a.warn("implausible", QStringLiteral("%1 cm³ is more than twice what the job states").arg(x.part->cm3()),
                   QStringLiteral("check figure and unit"), p->job);
        if (x.outcome != PrintOutcome::Good && !x.part && v.partVolume.mm3() > 0)
            a.warn("volume-estimated", QStringLiteral("What was extruded is estimated from the time that passed"),
                   QStringLiteral("weigh the spool, or state the volume"), p->job);
    }
}

void object(Asking& a, const act::PartRemoved& x) {
    const PrinterNow* p = a.printer(x.printer);
    if (!p)
        return;
    notPrinting(a, *p);
    if (p->job.isEmpty())
        a.refuse("no-part", QStringLiteral("No part is on %1").arg(a.named(p->id)), {}, p->id);
    const SessionState* s = a.shop.openSession(p->id);
    if (!s)
        return;
    for (const PlannedStep& step : s->changeover.steps)
        if (step.step.effect == Effect::RemovePart && !s->settled(step.step.id))
            a.refuse("open-session", QStringLiteral("Taking the part out is a step of session %1").arg(s->number),
                     QStringLiteral("confirm it there"), p->id);
}

void object(Asking& a, const act::DowntimeBegun& x) {
    const PrinterNow* p = a.printer(x.printer);
    if (!p)
        return;
    if (p->activity == Activity::Down)
        a.refuse("down", QStringLiteral("%1 is down already").arg(a.named(p->id)), {}, p->id);
    notPrinting(a, *p);
    a.stated(x.why, QStringLiteral("Why the printer is down"), "why");
    if (x.until && *x.until <= a.happened)
        a.refuse("when", QStringLiteral("The downtime ends before it begins"), QStringLiteral("check the time"), p->id);
}

void object(Asking& a, const act::DowntimeEnded& x) {
    const PrinterNow* p = a.printer(x.printer);
    if (!p)
        return;
    if (p->activity != Activity::Down)
        return a.refuse("not-down", QStringLiteral("%1 is not down").arg(a.named(p->id)), {}, p->id);
    if (p->downSince && a.statedBefore(*p->downSince))
        a.refuse("when", QStringLiteral("The downtime began at %1").arg(a.local(*p->downSince)),
                 QStringLiteral("check the time"), p->id);
}

} // namespace interlude
