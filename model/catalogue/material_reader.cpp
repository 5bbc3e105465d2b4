#include "model/catalogue/readers.h"

#include <cmath>

namespace interlude {

namespace {

const Range orifice{0.05, 5, QStringLiteral("mm")};

void readTemperatures(Fields& f, Material& m) {
    Temperature chamber;
    if (f.celsius(QStringLiteral("chamber-c"), chamber, f.node().find(QStringLiteral("role")) && f.node().find(QStringLiteral("role"))->text.trimmed() == QStringLiteral("part")
                      ? Need::Required : Need::Optional))
        m.chamber = chamber;
    const bool nozzle = f.celsius(QStringLiteral("nozzle-c"), m.nozzle, Need::Required);
    const bool low = f.celsius(QStringLiteral("melt-min-c"), m.meltMin, Need::Required);
    const bool high = f.celsius(QStringLiteral("melt-max-c"), m.meltMax, Need::Required);
    const bool soft = f.celsius(QStringLiteral("softening-c"), m.softening, Need::Required);
    if (low && high && m.meltMin >= m.meltMax) {
        f.complain(QStringLiteral("melt-min-c"), QStringLiteral("`melt-min-c` is not below `melt-max-c`"),
                   QStringLiteral("the window in which it flows has a lower and an upper end"));
    } else if (low && high && nozzle && (m.nozzle < m.meltMin || m.nozzle > m.meltMax)) {
        f.complain(QStringLiteral("nozzle-c"), QStringLiteral("`nozzle-c` is %1").arg(m.nozzle.celsius()),
                   QStringLiteral("it lies within the melt window, %1 to %2 °C").arg(m.meltMin.celsius()).arg(m.meltMax.celsius()));
    }
    if (low && soft && m.softening >= m.meltMin)
        f.complain(QStringLiteral("softening-c"), QStringLiteral("`softening-c` is not below `melt-min-c`"),
                   QStringLiteral("a material softens before it flows"));
    if (low && m.chamber && *m.chamber >= m.meltMin)
        f.complain(QStringLiteral("chamber-c"), QStringLiteral("`chamber-c` is not below `melt-min-c`"),
                   QStringLiteral("a part would not stand in that chamber"));
}

void readRole(Fields& f, Material& m) {
    const bool known = f.choice<Role>(QStringLiteral("role"), m.role,
                                      {{QStringLiteral("part"), Role::Part}, {QStringLiteral("support"), Role::Support}},
                                      Need::Required);
    const bool support = m.role == Role::Support;
    f.choice<Leaves>(QStringLiteral("leaves"), m.leaves,
                     {{QStringLiteral("soluble"), Leaves::Soluble}, {QStringLiteral("break-away"), Leaves::BreakAway}},
                     support ? Need::Required : Need::Optional);
    f.refersToAll(Kind::Material, QStringLiteral("supports"), m.supports);
    if (!known) return;
    if (!support && f.has(QStringLiteral("leaves")))
        f.complain(QStringLiteral("leaves"), QStringLiteral("a part material does not leave the part"),
                   QStringLiteral("remove `leaves`, or write `role: support`"));
    if (support && f.has(QStringLiteral("supports")))
        f.complain(QStringLiteral("supports"), QStringLiteral("a support material has no supports of its own"),
                   QStringLiteral("list it under `supports` of the part materials that it goes with"));
}

void readDrying(Fields& f, Material& m) {
    f.celsius(QStringLiteral("drying-c"), m.drying);
    const auto hours = [&](const QString& key, std::optional<Minutes>& out) {
        double h = 0;
        if (f.number(key, h, {0, 2000, QStringLiteral("hours"), true})) out = Minutes(static_cast<int>(std::ceil(h * 60)));
    };
    hours(QStringLiteral("drying-hours"), m.dryingTime);
    hours(QStringLiteral("exposure-hours"), m.exposureLimit);
    if (f.has(QStringLiteral("drying-c")) != f.has(QStringLiteral("drying-hours")))
        f.reading().complain(f.where(m.drying ? QStringLiteral("drying-c") : QStringLiteral("drying-hours")),
                             QStringLiteral("`drying-c` and `drying-hours` belong together"),
                             QStringLiteral("give both, or neither"));
    if (m.drying && m.softening > Temperature() && *m.drying >= m.softening)
        f.reading().warn(f.where(QStringLiteral("drying-c")), QStringLiteral("`drying-c` is not below `softening-c`"),
                         QStringLiteral("the strand may fuse on the spool; check the supplier's sheet"));
}

Material readMaterial(Fields& f) {
    Material m;
    f.defines(Kind::Material, QStringLiteral("id"), m.id);
    f.text(QStringLiteral("polymer"), m.polymer, Need::Required, 60);
    m.name = m.id;
    f.text(QStringLiteral("name"), m.name);
    readRole(f, m);
    f.text(QStringLiteral("chamber-family"), m.chamberFamily, Need::Required, 60);
    if (f.text(QStringLiteral("melt-family"), m.meltFamily, Need::Required, 60))
        f.reading().defineShared(Kind::MeltFamily, m.meltFamily);
    readTemperatures(f, m);
    f.number(QStringLiteral("density-g-per-cm3"), m.densityGPerCm3, {0, 25, QStringLiteral("g/cm³"), true}, Need::Required);
    double mm = 0;
    if (f.number(QStringLiteral("diameter-mm"), mm, {0.5, 10, QStringLiteral("mm")})) m.diameter = Length::fromMm(mm);
    f.yesNo(QStringLiteral("abrasive"), m.abrasive);
    for (const YamlNode* n : f.list(QStringLiteral("orifices-mm"), Need::Required, Empty::Refused))
        if (const auto size = numberOf(f.reading(), *n, QStringLiteral("orifices-mm"), orifice))
            m.orifices.append(Length::fromMm(*size));
    f.number(QStringLiteral("flow-index"), m.flowIndex, {0, 1, {}, true});
    readDrying(f, m);
    f.money(QStringLiteral("price-per-kg"), m.pricePerKg);
    f.text(QStringLiteral("emission"), m.emission, Need::Optional, 500);
    return m;
}

void checkSupports(Reading& r, const Catalogue& c, const Material& part) {
    const YamlNode* entry = r.entry(Kind::Material, part.id);
    const YamlNode* list = entry ? entry->find(QStringLiteral("supports")) : nullptr;
    if (!list || part.role != Role::Part) return;
    for (const YamlNode& item : list->items) {
        const Material* support = c.material(item.text);
        if (!support || !r.sure(Kind::Material, part.id) || !r.sure(Kind::Material, support->id)) continue;
        if (support->role != Role::Support)
            r.complain(item.where, QStringLiteral("`%1` is not a support material").arg(support->id),
                       QStringLiteral("list materials with `role: support` here"));
        else if (part.chamber && support->softening < *part.chamber)
            r.warn(item.where,
                   QStringLiteral("`%1` softens at %2 °C, below the chamber of `%3` at %4 °C")
                       .arg(support->id).arg(support->softening.celsius()).arg(part.id).arg(part.chamber->celsius()),
                   QStringLiteral("check that this support is fit for purpose"));
    }
}

void checkDate(Reading& r, const Catalogue& c, const std::optional<Instant>& t, const Where& at, const QString& key) {
    if (!t || !c.fleet.exampleClock || *t <= instantOf(*c.fleet.exampleClock)) return;
    r.complain(at, QStringLiteral("`%1` lies after `example-clock`").arg(key),
               QStringLiteral("it has not happened yet when the example begins"));
}

} // namespace

void readMaterials(Reading& r, const YamlNode& root, Catalogue& out) {
    Fields top(r, root, QStringLiteral("materials.yaml"));
    for (const YamlNode* node : top.list(QStringLiteral("materials"), Need::Required)) {
        Fields f(r, *node, QStringLiteral("a material"));
        const Material m = readMaterial(f);
        if (!m.id.isEmpty()) out.materials.append(m);
    }
}

void checkMaterials(Reading& r, const Catalogue& c) {
    for (const Material& m : c.materials) checkSupports(r, c, m);
    const auto at = [&](Kind kind, const QString& id, const char* key) { return r.where(kind, id, QString::fromLatin1(key)); };
    for (const Spool& s : c.openings.spools) {
        checkDate(r, c, s.received, at(Kind::Spool, s.id, "received"), QStringLiteral("received"));
        checkDate(r, c, s.opened, at(Kind::Spool, s.id, "opened"), QStringLiteral("opened"));
        checkDate(r, c, s.dried, at(Kind::Spool, s.id, "dried"), QStringLiteral("dried"));
    }
    for (const Nozzle& n : c.openings.nozzles) {
        const NozzleType* type = r.sure(Kind::NozzleType, n.type) ? c.nozzleType(n.type) : nullptr;
        if (type && !type->hardened && n.run.abrasive > Volume())
            r.warn(at(Kind::Nozzle, n.serial, "run-abrasive-cm3"),
                   QStringLiteral("`%1` ran abrasive material though its type `%2` is not hardened").arg(n.serial, n.type),
                   QStringLiteral("check the figure, and measure the orifice"));
    }
}

} // namespace interlude
