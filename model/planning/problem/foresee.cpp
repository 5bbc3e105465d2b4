#include "model/planning/problem/foresee.h"

#include "model/shop/fold/residue.h"

namespace interlude::planning {

namespace {

class Foresight {
public:
    Foresight(const Catalogue& catalogue, const Stock& stock, PrinterNow printer, const Changeover& changeover)
        : m_catalogue(catalogue), m_stock(stock), m_changeover(changeover), m_printer(std::move(printer)) {}

    void happen(const PlannedStep& step) {
        heat(step);
        switch (step.step.effect) {
        case Effect::UnloadPart: return unload(Role::Part);
        case Effect::UnloadSupport: return unload(Role::Support);
        case Effect::RemoveNozzlePart: return dismount(Role::Part);
        case Effect::RemoveNozzleSupport: return dismount(Role::Support);
        case Effect::MountNozzlePart: return mount(Role::Part);
        case Effect::MountNozzleSupport: return mount(Role::Support);
        case Effect::LoadPart: return load(Role::Part);
        case Effect::LoadSupport: return load(Role::Support);
        case Effect::PurgePart: return purge(Role::Part);
        case Effect::PurgeSupport: return purge(Role::Support);
        case Effect::FitCover: m_printer.platformCover = QStringLiteral("fresh"); return;
        case Effect::CleanOut: m_printer.residue.clear(); m_printer.wiper.clear(); return;
        case Effect::ClearWiper: m_printer.wiper.clear(); return;
        case Effect::None:
        case Effect::Align:
        case Effect::RemovePart:
        case Effect::StartPrint: return;
        }
    }
    PrinterNow printed() {
        const Setup& setup = m_changeover.transition.request.wanted;
        if (!m_printer.platformCover.isEmpty()) m_printer.platformCover = QStringLiteral("used");
        m_printer.label = setup.label;
        m_printer.open = false;
        if (!setup.part.isEmpty()) print(setup);
        m_printer.activity = Activity::PartLying;
        m_printer.job = m_changeover.transition.request.job;
        m_printer.variant = m_changeover.transition.request.variant;
        return m_printer;
    }

private:
    void heat(const PlannedStep& step) {
        if (step.step.duration != DurationKind::Heat || !step.target) return;
        if (step.step.subject == Subject::Chamber) {
            m_printer.chamberSet = step.target;
            raiseSeen(m_printer.residue, step.target, {});
            raiseSeen(m_printer.wiper, step.target, {});
        } else if (step.step.subject == Subject::HeadPart || step.step.subject == Subject::HeadSupport) {
            m_printer.nozzleSet = step.target;
            raiseSeen(m_printer.residue, {}, step.target);
            raiseSeen(m_printer.wiper, {}, step.target);
        }
    }
    void unload(Role role) {
        at(m_printer, role).spool.clear();
        at(m_printer, role).loaded.clear();
    }
    void dismount(Role role) {
        PositionNow& here = at(m_printer, role);
        const auto n = m_stock.nozzles.constFind(here.nozzle);
        const NozzleType* type = n == m_stock.nozzles.cend() ? nullptr : m_catalogue.nozzleType(n->type);
        if (type && type->unitWithMeltZone) here.inMelt.clear();
        here.nozzle.clear();
    }
    void mount(Role role) {
        for (const NozzleChange& c : m_changeover.transition.nozzles)
            if (c.role == role) at(m_printer, role).nozzle = c.in;
    }
    void load(Role role) {
        for (const SpoolChange& c : m_changeover.transition.spools) {
            if (c.role != role) continue;
            const auto s = m_stock.spools.constFind(c.in);
            if (s == m_stock.spools.cend()) continue;
            at(m_printer, role).spool = c.in;
            at(m_printer, role).loaded = s->material;
        }
    }
    void purge(Role role) {
        PositionNow& here = at(m_printer, role);
        if (here.loaded.isEmpty()) return;
        const Transition& t = m_changeover.transition;
        std::optional<Temperature> set = role == Role::Part ? t.partNozzleAfter : t.supportNozzleAfter;
        const Material* m = m_catalogue.material(here.loaded);
        if (!set && m) set = m->nozzle;
        raiseSeen(m_printer.wiper, {}, set);
        deposit(m_printer.wiper, here.inMelt, {}, set);
        deposit(m_printer.wiper, here.loaded, {}, set);
        here.inMelt = here.loaded;
    }
    void print(const Setup& setup) {
        const MaterialId part = m_printer.part.loaded;
        const MaterialId support = setup.support.isEmpty() ? MaterialId() : m_printer.support.loaded;
        const Material* partMaterial = m_catalogue.material(part);
        m_printer.chamberSet = setup.chamber;
        if (!m_printer.chamberSet && partMaterial) m_printer.chamberSet = partMaterial->chamber;
        m_printer.nozzleSet.reset();
        for (const Material* m : {partMaterial, m_catalogue.material(support)})
            if (m && (!m_printer.nozzleSet || *m_printer.nozzleSet < m->nozzle)) m_printer.nozzleSet = m->nozzle;
        if (!part.isEmpty()) m_printer.part.inMelt = part;
        if (!support.isEmpty()) m_printer.support.inMelt = support;
        for (QList<ResidueItem>* where : {&m_printer.residue, &m_printer.wiper}) {
            raiseSeen(*where, m_printer.chamberSet, m_printer.nozzleSet);
            deposit(*where, part, m_printer.chamberSet, m_printer.nozzleSet);
            deposit(*where, support, m_printer.chamberSet, m_printer.nozzleSet);
        }
        m_printer.lastPart = part;
        m_printer.lastSupport = support;
    }

    const Catalogue& m_catalogue;
    const Stock& m_stock;
    const Changeover& m_changeover;
    PrinterNow m_printer;
};

} // namespace

PrinterNow foreseePrinted(const Catalogue& catalogue, const Stock& stock, PrinterNow before, const Changeover& changeover,
                          const QSet<StepId>& done) {
    Foresight f(catalogue, stock, std::move(before), changeover);
    for (const PlannedStep& s : changeover.steps)
        if (!done.contains(s.step.id)) f.happen(s);
    return f.printed();
}

} // namespace interlude::planning
