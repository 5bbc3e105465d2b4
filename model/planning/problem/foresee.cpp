#include "model/planning/problem/foresee.h"

#include "model/shop/fold/printer_effects.h"

namespace interlude::planning {

namespace {

class Foresight {
public:
    Foresight(const Catalogue& catalogue, const Stock& stock, PrinterNow printer, const Changeover& changeover)
        : m_catalogue(catalogue), m_stock(stock), m_changeover(changeover), m_printer(std::move(printer)) {}

    void happen(const PlannedStep& step) {
        heat(m_printer, step);
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
        printWith(m_printer, &setup, m_materialOf);
        m_printer.activity = Activity::PartLying;
        m_printer.job = m_changeover.transition.request.job;
        m_printer.variant = m_changeover.transition.request.variant;
        return m_printer;
    }

private:
    void unload(Role role) {
        at(m_printer, role).spool.clear();
        at(m_printer, role).loaded.clear();
    }
    void dismount(Role role) {
        PositionNow& here = at(m_printer, role);
        const auto n = m_stock.nozzles.constFind(here.nozzle);
        takeNozzleOff(here, n == m_stock.nozzles.cend() ? nullptr : m_catalogue.nozzleType(n->type));
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
        const Transition& t = m_changeover.transition;
        purgeThrough(m_printer, role, role == Role::Part ? t.partNozzleAfter : t.supportNozzleAfter, m_materialOf);
    }

    const Catalogue& m_catalogue;
    const Stock& m_stock;
    const Changeover& m_changeover;
    PrinterNow m_printer;
    const MaterialOf m_materialOf = [this](const MaterialId& id) { return m_catalogue.material(id); };
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
