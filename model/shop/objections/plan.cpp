#include "model/shop/objections/asking.h"

namespace interlude {

namespace {

void askPlanned(Asking& a, const PlannedJob& planned, const PrinterId& printer, QStringList& seen) {
    const Job* j = a.job(planned.job);
    if (!j) return;
    if (seen.contains(planned.job))
        a.refuse("duplicate", QStringLiteral("Job %1 stands in the plan twice").arg(planned.job), QStringLiteral("keep one"), planned.job);
    seen.append(planned.job);
    const bool open = j->state == JobState::Open || j->state == JobState::Failed;
    if (!open)
        a.refuse("job-closed", QStringLiteral("Job %1 is not waiting to be printed any more").arg(planned.job),
                 QStringLiteral("plan again from now"), planned.job);
    if (!j->variantNamed(planned.variant))
        a.refuse("variant", QStringLiteral("Job %1 has no variant %2").arg(planned.job, planned.variant), {}, planned.job);
    QStringList names;
    for (const PrinterId& id : j->printers) names.append(a.named(id));
    if (!j->printers.isEmpty() && !j->printers.contains(printer))
        a.refuse("job-printers", QStringLiteral("Job %1 may not go to %2").arg(planned.job, a.named(printer)),
                 QStringLiteral("choose one of %1").arg(names.join(QStringLiteral(", "))), planned.job);
}

template <class Spans> void askSpan(Asking& a, Instant from, Instant to, const QString& what, const QString& id,
                                    const Spans& existing) {
    a.stated(id, QStringLiteral("The id"), "id");
    if (existing.contains(id)) a.refuse("duplicate", QStringLiteral("There is a %1 %2 already").arg(what, id), {}, id);
    if (to <= from)
        a.refuse("when", QStringLiteral("The %1 ends before it begins").arg(what), QStringLiteral("check both times"), id);
    if (to <= a.now)
        a.refuse("when", QStringLiteral("The %1 is over already").arg(what), QStringLiteral("check both times"), id);
}

} // namespace

void object(Asking& a, const act::PlanPublished& x) {
    QStringList seen, printers;
    for (const PrinterOrder& p : x.plan.printers) {
        a.printer(p.printer);
        if (printers.contains(p.printer))
            a.refuse("duplicate", QStringLiteral("Printer %1 stands in the plan twice").arg(a.named(p.printer)), QStringLiteral("keep one"), p.printer);
        printers.append(p.printer);
        for (const PlannedJob& j : p.jobs) askPlanned(a, j, p.printer, seen);
    }
    for (const ReservedFeedstock& r : x.plan.reserved) a.notNegative(r.need.milligrams(), QStringLiteral("Feedstock"), "need");
}

void object(Asking& a, const act::AbsenceEntered& x) {
    askSpan(a, x.absence.from, x.absence.to, QStringLiteral("absence"), x.absence.id, a.shop.absences());
    if (x.absence.people < 1)
        a.refuse("negative", QStringLiteral("At least one person is absent"), {}, QStringLiteral("people"));
}

void object(Asking& a, const act::AbsenceWithdrawn& x) {
    if (!a.shop.absences().contains(x.id))
        a.refuse("unknown-id", QStringLiteral("There is no absence %1").arg(x.id), {}, x.id);
}

void object(Asking& a, const act::DowntimePlanned& x) {
    a.printer(x.downtime.printer);
    askSpan(a, x.downtime.from, x.downtime.to, QStringLiteral("downtime"), x.downtime.id, a.shop.downtimes());
    a.stated(x.downtime.why, QStringLiteral("Why the printer is down"), "why");
}

void object(Asking& a, const act::DowntimeWithdrawn& x) {
    if (!a.shop.downtimes().contains(x.id))
        a.refuse("unknown-id", QStringLiteral("There is no planned downtime %1").arg(x.id), {}, x.id);
}

} // namespace interlude
