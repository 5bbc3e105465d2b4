#include "model/shop/fold/printer_effects.h"

#include "model/shop/fold/residue.h"

namespace interlude {

void heat(PrinterNow& p, const PlannedStep& step) {
    if (step.step.duration != DurationKind::Heat || !step.target)
        return;
    if (step.step.subject == Subject::Chamber) {
        p.chamberSet = step.target;
        raiseSeen(p.residue, step.target, {});
        raiseSeen(p.wiper, step.target, {});
    } else if (step.step.subject == Subject::HeadPart || step.step.subject == Subject::HeadSupport) {
        p.nozzleSet = step.target;
        raiseSeen(p.residue, {}, step.target);
        raiseSeen(p.wiper, {}, step.target);
    }
}

void purgeThrough(PrinterNow& p, Role role, std::optional<Temperature> nozzleSet, const MaterialOf& materialOf) {
    PositionNow& here = at(p, role);
    if (here.loaded.isEmpty())
        return;
    const Material* m = materialOf(here.loaded);
    if (!nozzleSet && m)
        nozzleSet = m->nozzle;
    raiseSeen(p.wiper, {}, nozzleSet);
    deposit(p.wiper, here.inMelt, {}, nozzleSet);
    deposit(p.wiper, here.loaded, {}, nozzleSet);
    here.inMelt = here.loaded;
}

void takeNozzleOff(PositionNow& here, const NozzleType* type) {
    // A nozzle that is one unit with its melt zone takes the old material away with it.
    if (type && type->unitWithMeltZone)
        here.inMelt.clear();
    here.nozzle.clear();
}

namespace {

void flow(PrinterNow& p, const Setup& setup, const MaterialId& part, const MaterialId& support,
          const MaterialOf& materialOf) {
    const Material* partMaterial = materialOf(part);
    p.chamberSet = setup.chamber;
    if (!p.chamberSet && partMaterial)
        p.chamberSet = partMaterial->chamber;
    p.nozzleSet.reset();
    for (const Material* m : {partMaterial, materialOf(support)})
        if (m && (!p.nozzleSet || *p.nozzleSet < m->nozzle))
            p.nozzleSet = m->nozzle;
    if (!part.isEmpty())
        p.part.inMelt = part;
    if (!support.isEmpty())
        p.support.inMelt = support;
    // The highest temperature that a deposit has seen includes the run that left it.
    for (QList<ResidueItem>* where : {&p.residue, &p.wiper}) {
        raiseSeen(*where, p.chamberSet, p.nozzleSet);
        deposit(*where, part, p.chamberSet, p.nozzleSet);
        deposit(*where, support, p.chamberSet, p.nozzleSet);
    }
    p.lastPart = part;
    p.lastSupport = support;
}

} // namespace

void printWith(PrinterNow& p, const Setup* setup, const MaterialOf& materialOf) {
    if (!p.platformCover.isEmpty())
        p.platformCover = QStringLiteral("used");
    p.open = false;
    if (!setup)
        return;
    p.label = setup->label;
    // A job by label has no materials, and a job without support leaves what is loaded there alone.
    if (!setup->part.isEmpty())
        flow(p, *setup, p.part.loaded, setup->support.isEmpty() ? MaterialId() : p.support.loaded, materialOf);
}

} // namespace interlude
