#include "model/shop/objections/asking.h"

namespace interlude {

namespace {

void askMaterial(Asking& a, const MaterialId& id, Role role) {
    if (id.isEmpty())
        return;
    const Material* m = a.shop.catalogue().material(id);
    if (!m)
        a.refuse("unknown-id", QStringLiteral("There is no material %1").arg(id),
                 QStringLiteral("choose one from materials.yaml, or add it there"), id);
    else if (m->role != role)
        a.refuse("role",
                 QStringLiteral("%1 cannot be the %2 material")
                     .arg(id, role == Role::Part ? QStringLiteral("part") : QStringLiteral("support")),
                 {}, id);
}

void askVariant(Asking& a, const Variant& v) {
    if (v.setup.label.isEmpty() && v.setup.part.isEmpty())
        a.refuse("variant", QStringLiteral("Variant %1 names neither a material nor a setup").arg(v.name),
                 QStringLiteral("state the part material, or a setup's label"), v.name);
    askMaterial(a, v.setup.part, Role::Part);
    askMaterial(a, v.setup.support, Role::Support);
    for (const NozzleTypeId& id : {v.setup.partNozzle, v.setup.supportNozzle})
        if (!id.isEmpty() && !a.shop.catalogue().nozzleType(id))
            a.refuse("unknown-id", QStringLiteral("There is no nozzle type %1").arg(id), {}, id);
    bool timed = v.print.count() > 0;
    for (const auto& [printer, minutes] : v.printOn) {
        if (!a.shop.catalogue().printer(printer))
            a.refuse("unknown-id", QStringLiteral("There is no printer %1").arg(printer), {}, printer);
        timed = timed || minutes.count() > 0;
        a.notNegative(minutes.count(), QStringLiteral("The print time on %1").arg(a.named(printer)), "print-minutes");
    }
    a.notNegative(v.print.count(), QStringLiteral("The print time"), "print-minutes");
    if (!timed)
        a.refuse("variant", QStringLiteral("Variant %1 has no print time").arg(v.name),
                 QStringLiteral("at least 1 min"), v.name);
    a.notNegative(v.partVolume.mm3(), QStringLiteral("The part volume"), "part-cm3");
    a.notNegative(v.supportVolume.mm3(), QStringLiteral("The support volume"), "support-cm3");
}

void askJob(Asking& a, const Job& j) {
    a.stated(j.id, QStringLiteral("The job's id"), "id");
    if (j.quantity < 1)
        a.refuse("negative", QStringLiteral("The quantity must be at least 1"), {}, QStringLiteral("quantity"));
    a.notNegative(j.lateCostPerHour.cents(), QStringLiteral("The late cost"), "late-cost-per-hour");
    a.notNegative(j.holdingCostPerHour.cents(), QStringLiteral("The holding cost"), "holding-cost-per-hour");
    if (j.release && j.due && *j.due < *j.release)
        a.warn("when", QStringLiteral("Job %1 is due before its release").arg(j.id), QStringLiteral("check the dates"),
               j.id);
    for (const PrinterId& id : j.printers)
        if (!a.shop.catalogue().printer(id))
            a.refuse("unknown-id", QStringLiteral("There is no printer %1").arg(id), {}, id);
    if (j.variants.isEmpty())
        a.refuse("variant", QStringLiteral("Job %1 has no variant").arg(j.id),
                 QStringLiteral("state materials, nozzle types and print time"), j.id);
    QStringList names;
    for (const Variant& v : j.variants) {
        if (names.contains(v.name))
            a.refuse("duplicate", QStringLiteral("Two variants are named %1").arg(v.name), {}, v.name);
        names.append(v.name);
        askVariant(a, v);
    }
}

void askNewJob(Asking& a, const Job& j) {
    if (a.shop.job(j.id))
        a.refuse("duplicate", QStringLiteral("There is a job %1 already").arg(j.id), QStringLiteral("use another id"),
                 j.id);
    askJob(a, j);
}

/// A job that is not being worked on.
void askFree(Asking& a, const JobId& id) {
    const Job* j = a.job(id);
    if (!j)
        return;
    if (j->state == JobState::Printing || j->state == JobState::PartLying)
        a.refuse("printing", QStringLiteral("Job %1 is being printed").arg(id), QStringLiteral("end the print first"),
                 id);
    else if (j->state != JobState::Open && j->state != JobState::Failed)
        a.refuse("job-closed",
                 QStringLiteral("Job %1 is %2")
                     .arg(id, j->state == JobState::Done ? QStringLiteral("done") : QStringLiteral("withdrawn")),
                 QStringLiteral("add a new job"), id);
    if (const SessionState* s = sessionOfJob(a.shop, id))
        a.refuse("open-session", QStringLiteral("Session %1 prepares job %2").arg(s->number).arg(id),
                 QStringLiteral("finish or stop it first"), id);
}

} // namespace

void object(Asking& a, const act::JobOpening& x) {
    askNewJob(a, x.job);
}
void object(Asking& a, const act::JobAdded& x) {
    askNewJob(a, x.job);
}

void object(Asking& a, const act::JobChanged& x) {
    askFree(a, x.job.id);
    askJob(a, x.job);
}

void object(Asking& a, const act::JobWithdrawn& x) {
    askFree(a, x.job);
    a.stated(x.why, QStringLiteral("Why the job is withdrawn"), "why");
}

} // namespace interlude
