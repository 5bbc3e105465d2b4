#include "model/planning/problem/imagined_stock.h"

#include <algorithm>

namespace interlude::planning {

NozzleSerial imaginedNozzle(const NozzleTypeId& type, const QString& family, bool other) {
    return type + QLatin1Char('/') + family + (other ? QStringLiteral("/2") : QString());
}

SpoolId imaginedSpool(const MaterialId& material) {
    return QStringLiteral("spool/") + material;
}

namespace {
Nozzle nozzleOf(const NozzleType& type, const QString& family, bool other, int order) {
    Nozzle n;
    n.serial = imaginedNozzle(type.id, family, other);
    n.type = type.id;
    n.meltFamily = family;
    if (!family.isEmpty()) n.run.plain = Volume::fromMm3(1);
    n.order = order;
    return n;
}
} // namespace

Stock imaginedStock(const Catalogue& catalogue) {
    Stock stock;
    QStringList families;
    for (const Material& m : catalogue.materials) {
        if (!families.contains(m.meltFamily)) families.append(m.meltFamily);
        Spool s;
        s.id = imaginedSpool(m.id);
        s.material = m.id;
        s.lot = QStringLiteral("any");
        s.left = Mass::fromGrams(1e9);
        stock.spools.insert(s.id, s);
    }
    int order = 0;
    for (const NozzleType& type : catalogue.nozzleTypes) {
        for (const QString& family : families)
            for (const bool other : {false, true}) {
                const Nozzle n = nozzleOf(type, family, other, ++order);
                stock.nozzles.insert(n.serial, n);
            }
        const Nozzle fresh = nozzleOf(type, {}, false, ++order);
        stock.nozzles.insert(fresh.serial, fresh);
    }
    return stock;
}

PrinterNow imagined(const Catalogue& catalogue, const Stock& real, PrinterNow p) {
    for (const Role role : {Role::Part, Role::Support}) {
        PositionNow& here = at(p, role);
        if (const auto n = real.nozzles.constFind(here.nozzle); n != real.nozzles.cend()) {
            QString family = n->meltFamily;
            if (const Material* m = catalogue.material(here.inMelt); family.isEmpty() && m) family = m->meltFamily;
            here.nozzle = imaginedNozzle(n->type, family);
        }
        here.spool = here.loaded.isEmpty() ? SpoolId() : imaginedSpool(here.loaded);
    }
    const auto byMaterial = [](const ResidueItem& a, const ResidueItem& b) {
        return std::tuple(a.material, a.chamberSeen, a.nozzleSeen) < std::tuple(b.material, b.chamberSeen, b.nozzleSeen);
    };
    std::sort(p.residue.begin(), p.residue.end(), byMaterial);
    std::sort(p.wiper.begin(), p.wiper.end(), byMaterial);
    p.id.clear();
    p.variant.clear();
    if (!p.job.isEmpty()) p.job = QStringLiteral("part");
    p.printStarted.reset();
    p.printExpectedEnd.reset();
    p.downWhy.clear();
    p.downSince.reset();
    p.downUntil.reset();
    if (p.activity == Activity::Printing) p.activity = Activity::PartLying;
    if (p.activity == Activity::Down || p.activity == Activity::InChangeover)
        p.activity = p.job.isEmpty() ? Activity::Idle : Activity::PartLying;
    return p;
}

} // namespace interlude::planning
