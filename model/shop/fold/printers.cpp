// What is in and on a printer, and whether it may run.

#include "model/shop/fold/fold.h"

namespace interlude {

void Fold::load(PrinterNow& p, Role role, const SpoolId& id) {
    Spool& s = *spool(id);
    if (s.where != SpoolWhere::Loaded)
        s.home = s.place;
    s.where = SpoolWhere::Loaded;
    s.place = p.id;
    s.position = role;
    expose(s);
    if (PrintRun* run = p.activity == Activity::Printing ? runningPrint(p.id) : nullptr; run && !run->spools.contains(id))
        run->spools.append(id);
    at(p, role).spool = id;
    at(p, role).loaded = s.material;
}

void Fold::unload(PrinterNow& p, Role role, const QString& place) {
    if (Spool* s = spool(at(p, role).spool)) {
        s->where = SpoolWhere::Shelf;
        // Nobody said where it went: it belongs where it came from. Whether it lies dry there somebody has to say.
        s->place = place.isEmpty() ? s->home : place;
        const Place* known = m_shop.m_catalogue->place(place);
        if (known && known->dry)
            seal(*s);
    }
    at(p, role).spool.clear();
    at(p, role).loaded.clear();
}

void Fold::mount(PrinterNow& p, Role role, const NozzleSerial& serial, const std::optional<RunVolume>& useSoFar) {
    Nozzle* n = nozzle(serial);
    if (!n)
        return;
    if (useSoFar)
        n->run = *useSoFar;
    if (n->where != NozzleWhere::Mounted)
        n->home = n->place;
    n->where = NozzleWhere::Mounted;
    n->place = p.id;
    n->position = role;
    at(p, role).nozzle = serial;
}

void Fold::dismount(PrinterNow& p, Role role, const QString& place) {
    Nozzle* n = nozzle(at(p, role).nozzle);
    if (!n)
        return;
    n->where = NozzleWhere::Shelf;
    n->place = place.isEmpty() ? n->home : place;
    takeNozzleOff(at(p, role), m_shop.nozzleType(n->type));
}

void Fold::purge(PrinterNow& p, Role role, Volume v, std::optional<Temperature> nozzleSet, const QString& reference) {
    const PositionNow& here = at(p, role);
    if (here.loaded.isEmpty())
        return;
    use(here.spool, v, QStringLiteral("purged"), reference);
    run(here.nozzle, v, here.loaded);
    serveFamily(here.nozzle, here.loaded);
    purgeThrough(p, role, nozzleSet, materialOf());
}

void Fold::undress(PrinterNow& p) {
    for (const Role role : {Role::Part, Role::Support}) {
        unload(p, role, {});
        dismount(p, role, {});
        at(p, role) = PositionNow();
    }
}

void Fold::dress(PrinterNow& p, const OpeningSetup& s) {
    p.label = s.label;
    const auto wear = [&](Role role, const NozzleSerial& serial, const SpoolId& id, const MaterialId& stated) {
        mount(p, role, serial, {});
        if (spool(id))
            load(p, role, id);
        PositionNow& here = at(p, role);
        if (here.loaded.isEmpty())
            here.loaded = stated;
        const Nozzle* n = nozzle(serial);
        const bool used = n && (!n->meltFamily.isEmpty() || !n->run.known || n->run.plain + n->run.abrasive > Volume());
        if (!used)
            return; // nothing has flowed through it yet
        here.inMelt = here.loaded;
        serveFamily(serial, here.inMelt);
    };
    wear(Role::Part, s.partNozzle, s.partSpool, s.part);
    wear(Role::Support, s.supportNozzle, s.supportSpool, s.support);
    const bool fresh = s.platformCover == QStringLiteral("new") || s.platformCover == QStringLiteral("fresh");
    p.platformCover = s.platformCover.isEmpty() ? QString() : fresh ? QStringLiteral("fresh") : QStringLiteral("used");
    p.residue.clear();
    for (const OpeningResidue& r : s.residue)
        p.residue.append(ResidueItem{r.material, r.chamberMax, r.nozzleMax});
    p.wiper = p.residue;
    p.lastPart = p.part.loaded;
    p.lastSupport = p.support.loaded;
    if (s.lastPrint)
        p.lastPrintEnd = s.lastPrint;
    const Material* m = m_shop.material(p.part.loaded);
    p.chamberSet = p.lastPrintEnd && m ? m->chamber : std::nullopt;
    p.nozzleSet = p.lastPrintEnd && m ? std::optional(m->nozzle) : std::nullopt;
    p.open = false;
}

Fold::Trouble Fold::on(const act::SetupOpening& x) {
    PrinterNow* p = printer(x.setup.printer);
    if (!p)
        return unknown(QStringLiteral("printer"), x.setup.printer);
    dress(*p, x.setup);
    return {};
}

Fold::Trouble Fold::on(const act::PrinterDeclared& x) {
    PrinterNow* p = printer(x.printer);
    if (!p)
        return unknown(QStringLiteral("printer"), x.printer);
    undress(*p);
    dress(*p, x.setup);
    return {};
}

Fold::Trouble Fold::on(const act::DowntimeBegun& x) {
    PrinterNow* p = printer(x.printer);
    if (!p)
        return unknown(QStringLiteral("printer"), x.printer);
    p->activity = Activity::Down;
    p->downWhy = x.why;
    p->downSince = m_at;
    p->downUntil = x.until;
    return {};
}

Fold::Trouble Fold::on(const act::DowntimeEnded& x) {
    PrinterNow* p = printer(x.printer);
    if (!p)
        return unknown(QStringLiteral("printer"), x.printer);
    p->downWhy.clear();
    p->downSince.reset();
    p->downUntil.reset();
    p->activity = restingActivity(*p);
    return {};
}

} // namespace interlude
