// Spools and nozzles. Stock changes only by signed entries: while `left` is known it is their sum, while it is unknown
// the entries go on, so that a weighing closes the gap with one entry.

#include "model/shop/fold/fold.h"

#include <algorithm>
#include <numeric>

namespace interlude {

namespace {

Mass sum(const QList<StockEntry>& entries) {
    return std::accumulate(entries.begin(), entries.end(), Mass(),
                           [](Mass m, const StockEntry& e) { return m + e.change; });
}

} // namespace

void Fold::enter(Spool& s, const QString& why, Mass change, const QString& reference) {
    s.entries.append(StockEntry{m_at, why, change, reference});
    if (s.left)
        s.left = *s.left + change;
}

void Fold::keepSpool(Spool s) {
    s.order = m_shop.m_spoolsEver++;
    s.where = SpoolWhere::Shelf;
    s.retiredWhy.clear();
    s.entries.clear();
    if (s.left)
        s.entries.append(StockEntry{m_at, QStringLiteral("received"), *s.left, {}});
    m_shop.m_stock.spools.insert(s.id, s);
}

Fold::Trouble Fold::on(const act::SpoolOpening& x) {
    if (spool(x.spool.id))
        return repeated(QStringLiteral("spool"), x.spool.id);
    keepSpool(x.spool);
    return {};
}

Fold::Trouble Fold::on(const act::SpoolReceived& x) {
    if (spool(x.spool.id))
        return repeated(QStringLiteral("spool"), x.spool.id);
    Spool s = x.spool;
    if (!s.received)
        s.received = m_at;
    keepSpool(s);
    return {};
}

Fold::Trouble Fold::on(const act::SpoolWeighed& x) {
    Spool* s = spool(x.spool);
    if (!s)
        return unknown(QStringLiteral("spool"), x.spool);
    if (x.tare)
        s->tare = x.tare;
    if (!s->tare) {
        s->left.reset();
        enter(*s, QStringLiteral("weighed, tare unknown"), Mass(), {});
        return {};
    }
    const Mass left = x.gross - *s->tare;
    enter(*s, QStringLiteral("weighed"), left - sum(s->entries), {});
    s->left = left;
    s->leftSe = x.se;
    return {};
}

Fold::Trouble Fold::on(const act::SpoolDried& x) {
    Spool* s = spool(x.spool);
    if (!s)
        return unknown(QStringLiteral("spool"), x.spool);
    if (s->dried && x.to <= *s->dried)
        return {}; // entered after a later one: what has been in the open since then stays counted
    s->dried = x.to;
    s->exposedBefore = Milliseconds(0);
    if (s->exposedFrom)
        s->exposedFrom = std::max(*s->exposedFrom, x.to);
    return {};
}

void Fold::expose(Spool& s) {
    if (!s.opened)
        s.opened = m_at;
    if (!s.exposedFrom)
        s.exposedFrom = m_at;
}

void Fold::seal(Spool& s) {
    if (s.exposedFrom)
        s.exposedBefore += std::max(Milliseconds(0), m_at - *s.exposedFrom);
    s.exposedFrom.reset();
}

Fold::Trouble Fold::on(const act::SpoolMoved& x) {
    Spool* s = spool(x.spool);
    if (!s)
        return unknown(QStringLiteral("spool"), x.spool);
    s->place = x.place;
    if (x.exposed)
        expose(*s);
    else
        seal(*s);
    return {};
}

Fold::Trouble Fold::on(const act::SpoolLoaded& x) {
    PrinterNow* p = printer(x.printer);
    if (!p)
        return unknown(QStringLiteral("printer"), x.printer);
    if (!spool(x.spool))
        return unknown(QStringLiteral("spool"), x.spool);
    load(*p, x.position, x.spool);
    return {};
}

Fold::Trouble Fold::on(const act::SpoolUnloaded& x) {
    Spool* s = spool(x.spool);
    if (!s)
        return unknown(QStringLiteral("spool"), x.spool);
    PrinterNow* p = s->where == SpoolWhere::Loaded ? printer(s->place) : nullptr;
    if (!p)
        return unknown(QStringLiteral("a printer with spool"), x.spool);
    const Role role = s->position;
    if (p->activity == Activity::Printing)
        useSoFar(*p, role);
    unload(*p, role, x.place);
    return {};
}

Fold::Trouble Fold::on(const act::SpoolRetired& x) {
    Spool* s = spool(x.spool);
    if (!s)
        return unknown(QStringLiteral("spool"), x.spool);
    if (s->left && s->left->milligrams() != 0)
        enter(*s, QStringLiteral("scrapped"), Mass() - *s->left, {});
    s->where = SpoolWhere::Retired;
    s->retiredWhy = x.why;
    return {};
}

void Fold::use(const SpoolId& id, Volume v, const QString& why, const QString& reference) {
    Spool* s = spool(id);
    if (!s || v.mm3() == 0)
        return;
    if (const Material* m = m_shop.material(s->material)) {
        enter(*s, why, Mass() - massOf(v, m->densityGPerCm3), reference);
    } else {
        s->left.reset();
        enter(*s, why + QStringLiteral(", density unknown"), Mass(), reference);
    }
}

// -- nozzles ------------------------------------------------------------------------------------------------------

void Fold::keepNozzle(Nozzle n) {
    n.order = m_shop.m_nozzlesEver++;
    if (n.where == NozzleWhere::Mounted)
        n.where = NozzleWhere::Shelf; // a setup says what is mounted
    m_shop.m_stock.nozzles.insert(n.serial, n);
}

Fold::Trouble Fold::on(const act::NozzleOpening& x) {
    if (nozzle(x.nozzle.serial))
        return repeated(QStringLiteral("nozzle"), x.nozzle.serial);
    keepNozzle(x.nozzle);
    return {};
}

Fold::Trouble Fold::on(const act::NozzleReceived& x) {
    if (nozzle(x.nozzle.serial))
        return repeated(QStringLiteral("nozzle"), x.nozzle.serial);
    keepNozzle(x.nozzle);
    return {};
}

Fold::Trouble Fold::on(const act::NozzleUseStated& x) {
    Nozzle* n = nozzle(x.nozzle);
    if (!n)
        return unknown(QStringLiteral("nozzle"), x.nozzle);
    n->run = x.run;
    return {};
}

Fold::Trouble Fold::on(const act::NozzleMeasured& x) {
    Nozzle* n = nozzle(x.nozzle);
    if (!n)
        return unknown(QStringLiteral("nozzle"), x.nozzle);
    n->measurements.append(NozzleMeasurement{m_at, x.orifice, x.instrument, m_event.who});
    return {};
}

Fold::Trouble Fold::on(const act::NozzleRetired& x) {
    Nozzle* n = nozzle(x.nozzle);
    if (!n)
        return unknown(QStringLiteral("nozzle"), x.nozzle);
    n->where = NozzleWhere::Retired;
    n->retiredWhy = x.why;
    return {};
}

void Fold::run(const NozzleSerial& serial, Volume v, const MaterialId& material) {
    Nozzle* n = nozzle(serial);
    if (!n || !n->run.known)
        return; // without history it stays so until somebody states its use
    const Material* m = m_shop.material(material);
    (m && m->abrasive ? n->run.abrasive : n->run.plain) += v;
}

void Fold::serveFamily(const NozzleSerial& serial, const MaterialId& material) {
    Nozzle* n = nozzle(serial);
    const Material* m = m_shop.material(material);
    if (n && m && n->meltFamily.isEmpty())
        n->meltFamily = m->meltFamily;
}

} // namespace interlude
