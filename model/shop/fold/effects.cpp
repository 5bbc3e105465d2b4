// What a confirmed step does to the shop: after each one the printer is in a valid, perhaps mixed, state.

#include "model/shop/fold/fold.h"

namespace interlude {

namespace {

/// What was scanned for this target, or nothing.
QString scannedFor(ScanTarget target, const PlannedStep& step, const act::StepConfirmed& x) {
    for (qsizetype i = 0; i < step.step.confirm.scans.size() && i < x.scans.size(); ++i)
        if (step.step.confirm.scans[i].target == target)
            return x.scans[i].value.trimmed();
    return {};
}

/// What the step brings into a position: as scanned, else as the changeover has it.
template <class Changes>
QString comesIn(ScanTarget target, Role role, const Changes& changes, const PlannedStep& step,
                const act::StepConfirmed& x) {
    if (const QString scanned = scannedFor(target, step, x); !scanned.isEmpty())
        return scanned;
    for (const auto& c : changes)
        if (c.role == role)
            return c.in;
    return {};
}

NozzleSerial nozzleIn(Role role, const SessionState& s, const PlannedStep& step, const act::StepConfirmed& x) {
    return comesIn(role == Role::Part ? ScanTarget::NozzleInPart : ScanTarget::NozzleInSupport, role,
                   s.changeover.transition.nozzles, step, x);
}

SpoolId spoolIn(Role role, const SessionState& s, const PlannedStep& step, const act::StepConfirmed& x) {
    return comesIn(role == Role::Part ? ScanTarget::SpoolInPart : ScanTarget::SpoolInSupport, role,
                   s.changeover.transition.spools, step, x);
}

bool isFor(Effect e, Role role) {
    switch (e) {
    case Effect::UnloadPart:
    case Effect::RemoveNozzlePart:
    case Effect::MountNozzlePart:
    case Effect::LoadPart:
    case Effect::PurgePart:
        return role == Role::Part;
    case Effect::UnloadSupport:
    case Effect::RemoveNozzleSupport:
    case Effect::MountNozzleSupport:
    case Effect::LoadSupport:
    case Effect::PurgeSupport:
        return role == Role::Support;
    default:
        return false;
    }
}

} // namespace

Surroundings Fold::surroundings(const SessionState& s, const PlannedStep& step, const act::StepConfirmed& x) {
    Surroundings out;
    const bool touches = step.step.effect != Effect::None || (step.step.duration == DurationKind::Heat && step.target);
    if (!touches)
        return out;
    out.printer = *printer(s.printer);
    const auto add = [](auto& map, const QString& id, const auto* item) {
        if (item)
            map.insert(id, *item);
    };
    // Taken from what was there at the session's start, is there now, and comes in, so that both snapshots name the
    // same.
    for (const Role role : {Role::Part, Role::Support}) {
        if (!isFor(step.step.effect, role))
            continue;
        for (const QString& id :
             {at(s.printerBefore, role).nozzle, at(out.printer, role).nozzle, nozzleIn(role, s, step, x)})
            add(out.nozzles, id, nozzle(id));
        for (const QString& id :
             {at(s.printerBefore, role).spool, at(out.printer, role).spool, spoolIn(role, s, step, x)})
            add(out.spools, id, spool(id));
    }
    if (step.step.effect == Effect::StartPrint) {
        add(out.jobs, s.changeover.transition.request.job, job(s.changeover.transition.request.job));
        for (const Role role : {Role::Part, Role::Support}) { // a first use gives a nozzle its melt family
            const NozzleSerial serial = at(out.printer, role).nozzle;
            add(out.nozzles, serial, nozzle(serial));
        }
    }
    if (step.step.effect == Effect::RemovePart) {
        const JobId lying = out.printer.job.isEmpty() ? s.printerBefore.job : out.printer.job;
        add(out.jobs, lying, job(lying));
    }
    return out;
}

void Fold::effectAt(SessionState& s, PrinterNow& p, Role role, const PlannedStep& step, const act::StepConfirmed& x) {
    const QString place = scannedFor(ScanTarget::Place, step, x);
    const Transition& transition = s.changeover.transition;
    switch (step.step.effect) {
    case Effect::UnloadPart:
    case Effect::UnloadSupport:
        unload(p, role, place);
        break;
    case Effect::RemoveNozzlePart:
    case Effect::RemoveNozzleSupport:
        dismount(p, role, place);
        break;
    case Effect::MountNozzlePart:
    case Effect::MountNozzleSupport:
        mount(p, role, nozzleIn(role, s, step, x), x.useSoFar);
        break;
    case Effect::LoadPart:
    case Effect::LoadSupport:
        if (const SpoolId id = spoolIn(role, s, step, x); spool(id))
            load(p, role, id);
        break;
    case Effect::PurgePart:
    case Effect::PurgeSupport: {
        Volume v = step.purge.value_or(Volume());
        for (const PurgePlan& plan : transition.purges)
            if (!step.purge && plan.role == role)
                v = plan.volume;
        purge(p, role, v, role == Role::Part ? transition.partNozzleAfter : transition.supportNozzleAfter,
              QStringLiteral("session %1").arg(s.number));
        break;
    }
    default:
        break;
    }
}

void Fold::effect(SessionState& s, const PlannedStep& step, const act::StepConfirmed& x) {
    PrinterNow& p = *printer(s.printer);
    heat(p, step);
    switch (step.step.effect) {
    case Effect::None:
    case Effect::Align:
        break;
    case Effect::RemovePart:
        takePartOut(p);
        break;
    case Effect::FitCover:
        p.platformCover = QStringLiteral("fresh");
        break;
    case Effect::CleanOut:
        p.residue.clear();
        p.wiper.clear();
        break;
    case Effect::ClearWiper:
        p.wiper.clear();
        break;
    case Effect::StartPrint: {
        const TransitionRequest& request = s.changeover.transition.request;
        if (Job* j = job(request.job))
            startPrint(p, *j, request.variant, m_at, request.print, s.number);
        else
            p.open = false; // dressed without a job: nothing prints, but nothing is mixed either
        break;
    }
    default:
        effectAt(s, p, isFor(step.step.effect, Role::Part) ? Role::Part : Role::Support, step, x);
        break;
    }
    if (p.activity != Activity::Printing && p.activity != Activity::Down)
        p.activity = restingActivity(p);
}

} // namespace interlude
