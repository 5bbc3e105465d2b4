#include "model/shop/objections/asking.h"

#include <cmath>

namespace interlude {

namespace {

void askNewNozzle(Asking& a, const Nozzle& n) {
    if (!a.stated(n.serial, QStringLiteral("The nozzle's serial"), "serial"))
        return;
    if (a.shop.nozzle(n.serial))
        a.refuse("duplicate", QStringLiteral("There is a nozzle %1 already").arg(n.serial),
                 QStringLiteral("read the serial again"), n.serial);
    if (!a.shop.catalogue().nozzleType(n.type))
        a.refuse("unknown-id", QStringLiteral("There is no nozzle type %1").arg(n.type),
                 QStringLiteral("choose one from nozzles.yaml, or add it there"), n.type);
    a.runVolume(n.run, RunVolume());
    a.knownPlace(n.place);
}

const Nozzle* liveNozzle(Asking& a, const NozzleSerial& serial) {
    const Nozzle* n = a.nozzle(serial);
    if (n && n->where == NozzleWhere::Retired) {
        a.refuse("retired", QStringLiteral("Nozzle %1 is retired").arg(serial), {}, serial);
        return nullptr;
    }
    return n;
}

} // namespace

void object(Asking& a, const act::NozzleOpening& x) {
    askNewNozzle(a, x.nozzle);
}

void object(Asking& a, const act::NozzleReceived& x) {
    askNewNozzle(a, x.nozzle);
    if (x.nozzle.where != NozzleWhere::Shelf)
        a.refuse("where", QStringLiteral("A nozzle is received on the shelf"), QStringLiteral("mount it afterwards"));
}

void object(Asking& a, const act::NozzleUseStated& x) {
    if (const Nozzle* n = liveNozzle(a, x.nozzle))
        a.runVolume(x.run, n->run);
}

void object(Asking& a, const act::NozzleMeasured& x) {
    const Nozzle* n = liveNozzle(a, x.nozzle);
    if (!n)
        return;
    if (x.orifice.micrometres() <= 0)
        return a.refuse("negative", QStringLiteral("The orifice must be more than zero"), {},
                        QStringLiteral("orifice"));
    a.knownInstrument(x.instrument, QStringLiteral("the orifice"));
    const NozzleType* t = a.shop.nozzleType(n->type);
    // Far more than any wear (retired at about 5 % of diameter): a wrong unit or a wrong nozzle.
    if (t && std::abs(x.orifice.mm() - t->orifice.mm()) > 0.25 * t->orifice.mm())
        a.warn("implausible",
               QStringLiteral("%1 mm is far from the nominal %2 mm").arg(x.orifice.mm()).arg(t->orifice.mm()),
               QStringLiteral("check figure, unit and nozzle"), x.nozzle);
}

void object(Asking& a, const act::NozzleRetired& x) {
    const Nozzle* n = liveNozzle(a, x.nozzle);
    if (!n)
        return;
    if (n->where == NozzleWhere::Mounted)
        a.refuse("mounted", QStringLiteral("Nozzle %1 is mounted on %2").arg(x.nozzle, a.named(n->place)),
                 QStringLiteral("remove it first"), x.nozzle);
    if (const SessionState* s = reservedBy(a.shop, x.nozzle, 0))
        a.refuse("reserved", QStringLiteral("Nozzle %1 is chosen for session %2").arg(x.nozzle).arg(s->number), {},
                 x.nozzle);
    a.stated(x.why, QStringLiteral("Why the nozzle is retired"), "why");
}

void askMount(Asking& a, const PrinterNow& p, Role role, const NozzleSerial& serial, const MaterialId& material) {
    if (serial.isEmpty())
        return a.refuse("nozzle", QStringLiteral("No nozzle is chosen for the %1").arg(positionWords(role)),
                        QStringLiteral("scan the nozzle"));
    const Nozzle* n = liveNozzle(a, serial);
    if (!n)
        return;
    if (!at(p, role).nozzle.isEmpty())
        a.refuse(
            "occupied",
            QStringLiteral("Nozzle %1 is mounted in the %2 of %3").arg(at(p, role).nozzle, positionWords(role), a.named(p.id)),
            QStringLiteral("remove it first"), p.id);
    if (n->where == NozzleWhere::Mounted)
        a.refuse("mounted", QStringLiteral("Nozzle %1 is mounted on %2").arg(serial, a.named(n->place)),
                 QStringLiteral("remove it there first"), serial);
    const NozzleType* t = a.shop.nozzleType(n->type);
    if (t && !t->roles.isEmpty() && !t->roles.contains(role))
        a.refuse("role", QStringLiteral("A nozzle of type %1 does not fit the %2").arg(t->id, positionWords(role)), {},
                 serial);
    const Material* m = a.shop.material(material);
    if (m && !n->meltFamily.isEmpty() && n->meltFamily != m->meltFamily)
        a.refuse(
            "melt-family",
            QStringLiteral("Nozzle %1 serves %2, %3 belongs to %4").arg(serial, n->meltFamily, m->id, m->meltFamily),
            QStringLiteral("take a nozzle of that family, or a new one"), serial);
}

} // namespace interlude
