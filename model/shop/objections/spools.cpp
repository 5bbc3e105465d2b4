#include "model/shop/objections/asking.h"

#include "model/stock/expiry.h"

namespace interlude {

namespace {

/// Heavier than anybody lifts onto a printer: a slip of the keyboard.
constexpr Mass implausible = Mass::fromMilligrams(25'000'000);

QString grams(Mass m) {
    return QStringLiteral("%1 g").arg(m.milligrams() / 1000);
}

void askNewSpool(Asking& a, const Spool& s) {
    if (!a.stated(s.id, QStringLiteral("The spool's id"), "id"))
        return;
    if (a.shop.spool(s.id))
        a.refuse("duplicate", QStringLiteral("There is a spool %1 already").arg(s.id), QStringLiteral("use another id"),
                 s.id);
    if (!a.shop.catalogue().material(s.material))
        a.refuse("unknown-id", QStringLiteral("There is no material %1").arg(s.material),
                 QStringLiteral("choose one from materials.yaml, or add it there"), s.material);
    if (s.left) {
        a.notNegative(s.left->milligrams(), QStringLiteral("The mass"), "grams");
        if (*s.left > implausible)
            a.warn("implausible", QStringLiteral("%1 is very much for one spool").arg(grams(*s.left)),
                   QStringLiteral("check the figure"), s.id);
    }
    a.notNegative(s.leftSe.milligrams(), QStringLiteral("The uncertainty"), "grams-se");
    if (s.tare)
        a.notNegative(s.tare->milligrams(), QStringLiteral("The tare"), "tare-grams");
    if (s.received)
        a.dated(*s.received, QStringLiteral("The date of receipt"), "received");
    if (s.opened)
        a.dated(*s.opened, QStringLiteral("The opening"), "opened");
    if (s.dried)
        a.dated(*s.dried, QStringLiteral("The drying"), "dried");
    if (expired(s, a.now, a.shop.catalogue().fleet.zone))
        a.warn("expired", QStringLiteral("Spool %1 has expired").arg(s.id), QStringLiteral("keep it apart"), s.id);
    a.knownPlace(s.place);
}

/// A spool that still takes part in the shop's life.
const Spool* liveSpool(Asking& a, const SpoolId& id) {
    const Spool* s = a.spool(id);
    if (s && s->where == SpoolWhere::Retired) {
        a.refuse("retired", QStringLiteral("Spool %1 is retired").arg(id), {}, id);
        return nullptr;
    }
    return s;
}

void notLoaded(Asking& a, const Spool& s) {
    if (s.where == SpoolWhere::Loaded)
        a.refuse("loaded", QStringLiteral("Spool %1 is loaded on %2").arg(s.id, a.named(s.place)),
                 QStringLiteral("unload it first"), s.id);
}

/// What the running print takes from that position; empty when it does not use it, or is known by a label only.
MaterialId fedTo(const PrinterNow& p, Role role) {
    if (p.activity != Activity::Printing)
        return {};
    return role == Role::Part ? p.lastPart : p.lastSupport;
}

/// Feedstock is moved by hand only while nothing else is going on at the printer; but a spool that feeds the running print
/// may be followed by another of the same material.
void mayMoveFeedstock(Asking& a, const PrinterNow& p, Role role) {
    if (!fedTo(p, role).isEmpty())
        return;
    if (p.activity == Activity::Printing)
        a.refuse("printing", QStringLiteral("%1 is printing").arg(a.named(p.id)), QStringLiteral("wait for the print's end"),
                 p.id);
    if (const SessionState* s = a.shop.openSession(p.id))
        a.refuse("open-session", QStringLiteral("Session %1 is open on %2").arg(s->number).arg(a.named(p.id)),
                 QStringLiteral("confirm its steps instead"), p.id);
}

} // namespace

void object(Asking& a, const act::SpoolOpening& x) {
    askNewSpool(a, x.spool);
}

void object(Asking& a, const act::SpoolReceived& x) {
    askNewSpool(a, x.spool);
    if (x.spool.where != SpoolWhere::Shelf)
        a.refuse("where", QStringLiteral("A spool is received on the shelf"), QStringLiteral("load it afterwards"));
}

void object(Asking& a, const act::SpoolWeighed& x) {
    const Spool* s = liveSpool(a, x.spool);
    if (!s)
        return;
    if (x.gross.milligrams() <= 0)
        return a.refuse("negative", QStringLiteral("The gross weight must be more than zero"), {},
                        QStringLiteral("gross"));
    a.notNegative(x.se.milligrams(), QStringLiteral("The uncertainty"), "se");
    if (x.tare)
        a.notNegative(x.tare->milligrams(), QStringLiteral("The tare"), "tare");
    if (x.gross > implausible)
        a.warn("implausible", QStringLiteral("%1 is very much for one spool").arg(grams(x.gross)),
               QStringLiteral("check the figure"), x.spool);
    const std::optional<Mass> tare = x.tare ? x.tare : s->tare;
    if (!tare)
        return a.warn("tare-unknown", QStringLiteral("Without a tare the stock of %1 becomes unknown").arg(x.spool),
                      QStringLiteral("state the tare of the empty spool"), x.spool);
    if (x.gross < *tare)
        return a.refuse("below-tare",
                        QStringLiteral("%1 is less than the tare of %2").arg(grams(x.gross), grams(*tare)),
                        QStringLiteral("check weight and tare"), x.spool);
    // Feedstock does not grow: allow three standard errors of both weighings and what a scale's last digit hides.
    const Mass left = x.gross - *tare;
    if (s->left && left.milligrams() > s->left->milligrams() + 3 * (s->leftSe + x.se).milligrams() + 5'000)
        a.warn("implausible", QStringLiteral("%1 left is more than the %2 on record").arg(grams(left), grams(*s->left)),
               QStringLiteral("check weight, tare and spool"), x.spool);
}

void object(Asking& a, const act::SpoolDried& x) {
    const Spool* s = liveSpool(a, x.spool);
    if (!s)
        return;
    a.dated(x.to, QStringLiteral("The end of drying"), "to", 1);
    if (x.from >= x.to)
        a.refuse("when", QStringLiteral("Drying ends before it begins"), QStringLiteral("check the times"), x.spool);
    const Material* m = a.shop.material(s->material);
    if (!m)
        return;
    if (x.at >= m->softening)
        a.warn("drying",
               QStringLiteral("%1 softens at %2 °C, drying was at %3 °C")
                   .arg(m->id)
                   .arg(m->softening.celsius())
                   .arg(x.at.celsius()),
               QStringLiteral("look whether the strand has fused"), x.spool);
    if (m->drying && x.at < *m->drying)
        a.warn("drying", QStringLiteral("%1 dries at %2 °C").arg(m->id).arg(m->drying->celsius()),
               QStringLiteral("dry it again"), x.spool);
    if (m->dryingTime && x.to - x.from < *m->dryingTime)
        a.warn("drying", QStringLiteral("%1 needs %2 min").arg(m->id).arg(m->dryingTime->count()),
               QStringLiteral("dry it again"), x.spool);
}

void object(Asking& a, const act::SpoolMoved& x) {
    const Spool* s = liveSpool(a, x.spool);
    if (!s)
        return;
    notLoaded(a, *s);
    a.knownPlace(x.place);
}

void askLoad(Asking& a, const PrinterNow& p, Role role, const SpoolId& id) {
    const Spool* s = liveSpool(a, id);
    if (!s)
        return;
    notLoaded(a, *s);
    const PositionNow& here = at(p, role);
    if (!here.spool.isEmpty() || !here.loaded.isEmpty())
        a.refuse("occupied",
                 QStringLiteral("The %1 of %2 holds %3")
                     .arg(positionWords(role), p.id, here.spool.isEmpty() ? here.loaded : here.spool),
                 QStringLiteral("unload it first"), p.id);
    const Material* m = a.shop.material(s->material);
    if (!m)
        return;
    if (m->role != role)
        a.refuse("role",
                 QStringLiteral("%1 is a %2 material")
                     .arg(m->id, m->role == Role::Part ? QStringLiteral("part") : QStringLiteral("support")),
                 QStringLiteral("it does not go into the %1").arg(positionWords(role)), id);
    if (const PrinterType* type = a.shop.catalogue().typeOf(p.id);
        type && !type->materials.isEmpty() && !type->materials.contains(m->id))
        a.refuse("printer-materials", QStringLiteral("%1 does not take %2").arg(a.named(p.id), m->id), {}, id);
    const auto n = a.shop.stock().nozzles.constFind(here.nozzle);
    if (n != a.shop.stock().nozzles.constEnd() && !n->meltFamily.isEmpty() && n->meltFamily != m->meltFamily)
        a.refuse(
            "melt-family",
            QStringLiteral("Nozzle %1 serves %2, %3 belongs to %4").arg(n->serial, n->meltFamily, m->id, m->meltFamily),
            QStringLiteral("exchange the nozzle first"), id);
    if (expired(*s, a.now, a.shop.catalogue().fleet.zone))
        a.warn("expired", QStringLiteral("Spool %1 expired on %2").arg(id, a.local(*s->expires).left(10)),
               QStringLiteral("load another one, or ask who releases material"), id);
    const DryState dry = dryState(*s, *m, a.now);
    if (dry == DryState::Overdue || dry == DryState::Unknown)
        a.warn("spool-drying",
               dry == DryState::Overdue ? QStringLiteral("Spool %1 is overdue for drying").arg(id)
                                        : QStringLiteral("It is not known whether spool %1 is dry").arg(id),
               QStringLiteral("dry it first"), id);
}

namespace {

/// The spool that goes on feeding a running print.
void askFollowing(Asking& a, const PrinterNow& p, Role role, const SpoolId& id) {
    const MaterialId fed = fedTo(p, role);
    const auto s = a.shop.stock().spools.constFind(id);
    if (fed.isEmpty() || s == a.shop.stock().spools.constEnd())
        return;
    if (s->material != fed)
        a.refuse("printing", QStringLiteral("%1 is printing %2; spool %3 is %4").arg(p.id, fed, id, s->material),
                 QStringLiteral("load a spool of the same material"), id);
    const Job* j = a.shop.job(p.job);
    if (!j || !j->sameLot)
        return;
    for (const Spool& gave : a.shop.stock().spools)
        for (const StockEntry& e : gave.entries)
            if (e.reference == p.job && p.printStarted && e.at >= *p.printStarted && gave.material == fed &&
                gave.lot != s->lot)
                return a.warn("spool-lot",
                              QStringLiteral("Job %1 wants one lot; it began with lot %2, spool %3 is of lot %4")
                                  .arg(p.job, gave.lot, id, s->lot),
                              QStringLiteral("load a spool of lot %1").arg(gave.lot), id);
}

} // namespace

void object(Asking& a, const act::SpoolLoaded& x) {
    const PrinterNow* p = a.printer(x.printer);
    if (!p)
        return;
    mayMoveFeedstock(a, *p, x.position);
    askLoad(a, *p, x.position, x.spool);
    askFollowing(a, *p, x.position, x.spool);
    const auto s = a.shop.stock().spools.constFind(x.spool);
    const MaterialId melt = at(*p, x.position).inMelt;
    if (s != a.shop.stock().spools.constEnd() && !melt.isEmpty() && melt != s->material)
        a.warn("purge", QStringLiteral("%1 stays in the melt zone").arg(melt),
               QStringLiteral("do it as a changeover, which purges"), x.spool);
    if (const SessionState* other = reservedBy(a.shop, x.spool, 0))
        a.refuse("reserved", QStringLiteral("Spool %1 is chosen for session %2").arg(x.spool).arg(other->number), {},
                 x.spool);
}

void object(Asking& a, const act::SpoolUnloaded& x) {
    const Spool* s = a.spool(x.spool);
    if (!s)
        return;
    const PrinterNow* p = s->where == SpoolWhere::Loaded ? a.shop.printer(s->place) : nullptr;
    if (!p)
        return a.refuse("not-loaded", QStringLiteral("Spool %1 is not loaded").arg(x.spool), {}, x.spool);
    mayMoveFeedstock(a, *p, s->position);
    a.knownPlace(x.place);
}

void object(Asking& a, const act::SpoolRetired& x) {
    const Spool* s = liveSpool(a, x.spool);
    if (!s)
        return;
    notLoaded(a, *s);
    a.stated(x.why, QStringLiteral("Why the spool is retired"), "why");
}

} // namespace interlude
