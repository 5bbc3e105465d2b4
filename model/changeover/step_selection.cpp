#include "model/changeover/step_selection.h"

#include <algorithm>

namespace interlude {

bool partLies(const PrinterNow& printer) {
    return printer.activity == Activity::PartLying || printer.activity == Activity::Printing;
}

namespace {

const NozzleChange* nozzleAt(const Transition& t, Role role) {
    for (const NozzleChange& c : t.nozzles)
        if (c.role == role)
            return &c;
    return nullptr;
}
const SpoolChange* spoolAt(const Transition& t, Role role) {
    for (const SpoolChange& c : t.spools)
        if (c.role == role)
            return &c;
    return nullptr;
}
bool purged(const Transition& t, Role role) {
    return std::any_of(t.purges.begin(), t.purges.end(),
                       [role](const PurgePlan& p) { return p.role == role && p.needed; });
}
bool removes(const NozzleChange* c) {
    return c && c->exchange && !c->out.isEmpty();
}
bool mounts(const NozzleChange* c) {
    return c && c->exchange && !c->in.isEmpty();
}

bool hasSomethingToActOn(Effect effect, const Transition& t) {
    const auto spool = [&](Role role, bool SpoolChange::*what) {
        const SpoolChange* c = spoolAt(t, role);
        return c && c->*what;
    };
    switch (effect) {
    case Effect::RemovePart:
        return partLies(t.request.now);
    case Effect::UnloadPart:
        return spool(Role::Part, &SpoolChange::unload);
    case Effect::UnloadSupport:
        return spool(Role::Support, &SpoolChange::unload);
    case Effect::RemoveNozzlePart:
        return removes(nozzleAt(t, Role::Part));
    case Effect::RemoveNozzleSupport:
        return removes(nozzleAt(t, Role::Support));
    case Effect::MountNozzlePart:
        return mounts(nozzleAt(t, Role::Part));
    case Effect::MountNozzleSupport:
        return mounts(nozzleAt(t, Role::Support));
    case Effect::LoadPart:
        return spool(Role::Part, &SpoolChange::load);
    case Effect::LoadSupport:
        return spool(Role::Support, &SpoolChange::load);
    case Effect::PurgePart:
        return purged(t, Role::Part);
    case Effect::PurgeSupport:
        return purged(t, Role::Support);
    case Effect::CleanOut:
        return t.cleanOut;
    case Effect::ClearWiper:
        return t.clearWiper || t.cleanOut;
    case Effect::None:
    case Effect::FitCover:
    case Effect::Align:
    case Effect::StartPrint:
        return true;
    }
    return true;
}

bool holds(const Condition& when, const QSet<QString>& words) {
    const auto met = [&](const QString& term) { return words.contains(term); };
    if (when.terms.isEmpty())
        return !when.all;
    return when.all ? std::all_of(when.terms.begin(), when.terms.end(), met)
                    : std::any_of(when.terms.begin(), when.terms.end(), met);
}

/// The selected steps that come before `step`, led through those that were not selected.
QStringList selectedBefore(const Catalogue& catalogue, const StepTemplate& step, const QSet<StepId>& selected) {
    QSet<StepId> seen{step.id}, found;
    QStringList open = step.after;
    while (!open.isEmpty()) {
        const StepId id = open.takeFirst();
        if (seen.contains(id))
            continue;
        seen.insert(id);
        if (selected.contains(id))
            found.insert(id);
        else if (const StepTemplate* passed = catalogue.step(id))
            open += passed->after;
    }
    QStringList inFileOrder;
    for (const StepTemplate& other : catalogue.procedures.steps)
        if (found.contains(other.id))
            inFileOrder.append(other.id);
    return inFileOrder;
}

/// Where what is scanned beside a place comes from; empty = any place of the shop will do. What is on a printer now has none yet:
/// it is put somewhere before it goes in again.
QString placeBeside(const StepTemplate& step, const Stock& stock, const Transition& t) {
    for (const ScanWanted& scan : step.confirm.scans) {
        const bool part = scan.target == ScanTarget::NozzleInPart || scan.target == ScanTarget::SpoolInPart;
        const Role role = part ? Role::Part : Role::Support;
        if (scan.target == ScanTarget::NozzleInPart || scan.target == ScanTarget::NozzleInSupport) {
            const NozzleChange* c = nozzleAt(t, role);
            if (const auto n = c ? stock.nozzles.constFind(c->in) : stock.nozzles.constEnd(); n != stock.nozzles.constEnd())
                return n->where == NozzleWhere::Shelf ? n->place : QString();
        }
        if (scan.target == ScanTarget::SpoolInPart || scan.target == ScanTarget::SpoolInSupport) {
            const SpoolChange* c = spoolAt(t, role);
            if (const auto s = c ? stock.spools.constFind(c->in) : stock.spools.constEnd(); s != stock.spools.constEnd())
                return s->where == SpoolWhere::Shelf ? s->place : QString();
        }
    }
    return {};
}

QString expectedScan(ScanTarget target, const StepTemplate& step, const Catalogue& catalogue, const Stock& stock,
                     const Transition& t) {
    const auto nozzle = [&](Role role, NozzleSerial NozzleChange::*which) {
        const NozzleChange* c = nozzleAt(t, role);
        return c ? c->*which : at(t.request.now, role).nozzle;
    };
    const auto spool = [&](Role role, SpoolId SpoolChange::*which) {
        const SpoolChange* c = spoolAt(t, role);
        return c ? c->*which : at(t.request.now, role).spool;
    };
    switch (target) {
    case ScanTarget::Printer:
        return t.request.now.id;
    case ScanTarget::NozzleOutPart:
        return nozzle(Role::Part, &NozzleChange::out);
    case ScanTarget::NozzleOutSupport:
        return nozzle(Role::Support, &NozzleChange::out);
    case ScanTarget::NozzleInPart:
        return nozzle(Role::Part, &NozzleChange::in);
    case ScanTarget::NozzleInSupport:
        return nozzle(Role::Support, &NozzleChange::in);
    case ScanTarget::SpoolOutPart:
        return spool(Role::Part, &SpoolChange::out);
    case ScanTarget::SpoolOutSupport:
        return spool(Role::Support, &SpoolChange::out);
    case ScanTarget::SpoolInPart:
        return spool(Role::Part, &SpoolChange::in);
    case ScanTarget::SpoolInSupport:
        return spool(Role::Support, &SpoolChange::in);
    case ScanTarget::PlatformCover: {
        const PrinterType* type = catalogue.typeOf(t.request.now.id);
        return type ? type->platformCover : QString();
    }
    case ScanTarget::Place:
        return placeBeside(step, stock, t);
    }
    return {};
}

QString mandatoryBecause(const StepTemplate& step, const Transition& t) {
    const auto about = [&](Effect effect, const char* term) {
        return step.effect == effect || step.when.terms.contains(QLatin1String(term));
    };
    if (t.chamber.level == CleanOut::Mandatory && about(Effect::CleanOut, "clean-out=mandatory"))
        return t.chamber.reason;
    if (t.wiper.level == CleanOut::Mandatory && about(Effect::ClearWiper, "wiper-and-bin=mandatory"))
        return t.wiper.reason;
    return {};
}

} // namespace

QSet<QString> conditionsThatHold(const Transition& t) {
    QSet<QString> words(t.facts.begin(), t.facts.end());
    if (t.cleanOut)
        words.insert(QStringLiteral("clean-out=mandatory"));
    if (t.clearWiper)
        words.insert(QStringLiteral("wiper-and-bin=mandatory"));
    if (purged(t, Role::Part))
        words.insert(QStringLiteral("purge=part"));
    if (purged(t, Role::Support))
        words.insert(QStringLiteral("purge=support"));
    if (!t.request.wanted.support.isEmpty())
        words.insert(QStringLiteral("support=wanted"));
    if (partLies(t.request.now))
        words.insert(QStringLiteral("part-lying"));
    return words;
}

QList<PlannedStep> selectSteps(const Catalogue& catalogue, const Stock& stock, const Transition& t) {
    const QSet<QString> words = conditionsThatHold(t);
    const PrinterType* type = catalogue.typeOf(t.request.now.id);
    QList<PlannedStep> planned;
    QSet<StepId> selected;
    for (const StepTemplate& step : catalogue.procedures.steps) {
        if (!step.printerTypes.isEmpty() && !(type && step.printerTypes.contains(type->id)))
            continue;
        if (!holds(step.when, words) || !hasSomethingToActOn(step.effect, t))
            continue;
        PlannedStep p;
        p.step = step;
        p.mandatoryBecause = mandatoryBecause(step, t);
        for (const ScanWanted& scan : step.confirm.scans)
            p.expectedScans.append(expectedScan(scan.target, step, catalogue, stock, t));
        planned.append(p);
        selected.insert(step.id);
    }
    for (PlannedStep& p : planned)
        p.after = selectedBefore(catalogue, p.step, selected);
    return planned;
}

} // namespace interlude
