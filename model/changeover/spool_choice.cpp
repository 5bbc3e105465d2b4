#include "model/changeover/judging.h"
#include "model/changeover/plain_words.h"
#include "model/stock/expiry.h"

#include <algorithm>

namespace interlude {

namespace {

/// One position's question: what it needs, and what the shop has.
struct SpoolQuestion {
    const Judging& j;
    Role role;
    const Material& material;
    Mass need;                     ///< with purge and prime
    QList<const Spool*> usable;    ///< first expired first out, then opened first
    const Spool* loaded = nullptr; ///< the one loaded here, when it is of the wanted material

    bool isExpired(const Spool& s) const { return expired(s, j.now, j.catalogue.fleet.zone); }
    bool suffices(const Spool& s) const { return s.left && *s.left >= need; }
    /// All that may be used one after the other with this spool first.
    Mass together(const Spool& first) const {
        Mass sum;
        for (const Spool* s : usable)
            if (s == &first || !j.request().sameLot || (s->lot == first.lot && !s->lot.isEmpty()))
                sum = sum + s->left.value_or(Mass());
        return sum;
    }
};

bool usedBefore(const Spool* a, const Spool* b) {
    const auto key = [](const std::optional<Instant>& t) { return t.value_or(Instant::max()); };
    if (key(a->expires) != key(b->expires))
        return key(a->expires) < key(b->expires);
    if (key(a->opened) != key(b->opened))
        return key(a->opened) < key(b->opened);
    return std::pair(a->order, a->id) < std::pair(b->order, b->id);
}

bool isUsable(const Judging& j, Role role, const Spool& s) {
    return s.where == SpoolWhere::Shelf || (s.where == SpoolWhere::Loaded && s.id == at(j.before(), role).spool);
}

SpoolQuestion question(const Judging& j, Role role) {
    const Material& m = *j.wanted(role);
    const Volume job = role == Role::Part ? j.request().partVolume : j.request().supportVolume;
    const PurgePlan* purge = j.purge(role);
    SpoolQuestion q{
        j, role, m, massOf(job + (purge && purge->needed ? purge->volume : Volume()), m.densityGPerCm3), {}};
    for (const Spool& s : j.stock.spools) {
        if (s.material != m.id || !isUsable(j, role, s))
            continue;
        q.usable.append(&s);
        if (s.id == at(j.before(), role).spool)
            q.loaded = &s;
    }
    std::sort(q.usable.begin(), q.usable.end(), usedBefore);
    return q;
}

/// The spool by rule; null when there is none at all.
const Spool* byRule(const SpoolQuestion& q) {
    if (q.loaded && (q.suffices(*q.loaded) || !q.loaded->left))
        return q.loaded;
    const auto first = [&](const auto& wanted) -> const Spool* {
        const auto found = std::find_if(q.usable.begin(), q.usable.end(), wanted);
        return found == q.usable.end() ? nullptr : *found;
    };
    if (const Spool* s = first([&](const Spool* x) { return q.suffices(*x) && !q.isExpired(*x); }))
        return s;
    if (const Spool* s = first([&](const Spool* x) { return !x->left && !q.isExpired(*x); }))
        return s;
    if (const Spool* s = first([&](const Spool* x) { return q.suffices(*x); }))
        return s;
    if (q.loaded && q.together(*q.loaded) >= q.need)
        return q.loaded;
    if (const Spool* s = first([&](const Spool* x) { return q.together(*x) >= q.need; }))
        return s;
    const auto most = std::max_element(q.usable.begin(), q.usable.end(), [](const Spool* a, const Spool* b) {
        return a->left.value_or(Mass()) < b->left.value_or(Mass());
    });
    return most == q.usable.end() ? nullptr : *most;
}

void judgeAmount(const SpoolQuestion& q, const Spool& s) {
    const QString left = s.left ? plainWords(*s.left) : QStringLiteral("an unknown weight");
    if (!s.left) {
        q.j.say(Severity::Warning, QStringLiteral("spool-weight"),
                QStringLiteral("The weight of spool %1 is not known; %2 of %3 are needed.")
                    .arg(s.id, plainWords(q.need), q.material.id),
                QStringLiteral("weigh it"), s.id);
    } else if (*s.left >= q.need) {
        return;
    } else if (q.together(s) >= q.need) {
        q.j.say(Severity::Warning, QStringLiteral("spool-change"),
                QStringLiteral("Spool %1 has %2 left, %3 are needed: it will run out during the print%4.")
                    .arg(s.id, left, plainWords(q.need),
                         q.j.request().sameLot ? QStringLiteral(" (lot %1 has enough)").arg(s.lot) : QString()),
                QStringLiteral("keep the next spool ready and somebody there"), s.id);
    } else {
        Mass all;
        for (const Spool* x : q.usable)
            all = all + x->left.value_or(Mass());
        const bool lot = q.j.request().sameLot && all >= q.need;
        Finding& f = q.j.say(Severity::Refusal, lot ? QStringLiteral("spool-lot") : QStringLiteral("spool-stock"),
                             lot ? QStringLiteral("The job wants one lot; no spool and no single lot of %1 holds %2.")
                                       .arg(q.material.id, plainWords(q.need))
                                 : QStringLiteral("There is not enough %1: %2 are needed, the free spools hold %3.")
                                       .arg(q.material.id, plainWords(q.need), plainWords(all)),
                             QStringLiteral("receive or weigh spools, or override with a reason"), q.material.id);
        f.overridable = true;
    }
}

void judgeCondition(const SpoolQuestion& q, const Spool& s) {
    const DryState dry = dryState(s, q.material, q.j.now);
    if (dry == DryState::Overdue || dry == DryState::Unknown)
        q.j.say(Severity::Warning, QStringLiteral("spool-drying"),
                dry == DryState::Overdue
                    ? QStringLiteral("Spool %1 is overdue for drying: %2 h in the open.")
                          .arg(s.id, plainNumber(static_cast<double>(exposure(s, q.j.now).count()) / 3.6e6, 1))
                    : QStringLiteral("It is not known when spool %1 was dried.").arg(s.id),
                q.material.drying ? QStringLiteral("dry it at %1 first").arg(plainWords(*q.material.drying))
                                  : QStringLiteral("dry it first"),
                s.id);
    if (q.isExpired(s))
        q.j.say(Severity::Warning, QStringLiteral("spool-expired"), QStringLiteral("Spool %1 has expired.").arg(s.id),
                QStringLiteral("take a spool that has not, or ask quality"), s.id);
}

const Spool* choose(const SpoolQuestion& q, const SpoolId& choice) {
    if (choice.isEmpty())
        return byRule(q);
    for (const Spool* s : q.usable)
        if (s->id == choice)
            return s;
    const auto found = q.j.stock.spools.constFind(choice);
    q.j.say(Severity::Refusal, QStringLiteral("spool-choice"),
            found == q.j.stock.spools.constEnd() ? QStringLiteral("There is no spool %1.").arg(choice)
            : found->material != q.material.id
                ? QStringLiteral("Spool %1 holds %2, not %3.").arg(choice, found->material, q.material.id)
                : QStringLiteral("Spool %1 is not free.").arg(choice),
            QStringLiteral("choose another spool, or leave the choice to the rule"), choice);
    return nullptr;
}

/// Another spool in the same nozzle still has to be primed.
void primeAfterLoading(const Judging& j, Role role) {
    PurgePlan* plan = j.purge(role);
    const NozzleChange* change = j.nozzle(role);
    if (!plan || plan->needed || !change || plan->from != plan->to)
        return;
    const auto nozzle = j.stock.nozzles.constFind(change->in);
    const NozzleType* type = nozzle == j.stock.nozzles.constEnd() ? nullptr : j.catalogue.nozzleType(nozzle->type);
    if (type)
        prime(j, *plan, *type);
}

void chooseAt(const Judging& j, Role role) {
    const PositionNow& now = at(j.before(), role);
    SpoolQuestion q = question(j, role);
    const SpoolId choice = role == Role::Part ? j.request().choosePartSpool : j.request().chooseSupportSpool;
    const Spool* s = choose(q, choice);
    const NozzleChange* nozzle = j.nozzle(role);
    SpoolChange change{role, false, false, now.spool, s ? s->id : SpoolId(), q.need};
    const bool other = now.loaded != q.material.id || change.in != now.spool;
    const bool exchange = nozzle && nozzle->exchange;
    change.unload = !now.loaded.isEmpty() && (other || exchange);
    // Planned ahead, a spool that is still to come takes the time of loading too.
    change.load = other || exchange;
    if (other)
        j.addFact(role == Role::Part ? fact::partMaterial : fact::supportMaterial);
    if (change.load) {
        primeAfterLoading(j, role);
        q.need = change.need = question(j, role).need;
    }
    j.transition.spools.append(change);
    if (s) {
        judgeAmount(q, *s);
        judgeCondition(q, *s);
    } else if (choice.isEmpty()) {
        j.say(Severity::Refusal, QStringLiteral("spool-none"),
              QStringLiteral("There is no free spool of %1; %2 are needed.")
                  .arg(gradeName(q.material), plainWords(q.need)),
              QStringLiteral("receive one, or unload one elsewhere"), q.material.id);
    }
}

/// A support that is not wanted stays loaded, unless the chamber would soften it in its path.
void judgeIdleSupport(const Judging& j) {
    const PositionNow& now = j.before().support;
    const Material* left = j.catalogue.material(now.loaded);
    if (j.support || !left)
        return;
    const auto limit = left->softening.milliCelsius() - std::llround(j.catalogue.fleet.cleanOutMarginK * 1000.0);
    if (j.transition.chamberAfter.milliCelsius() < limit)
        return;
    j.addFact(fact::supportMaterial);
    j.transition.spools.append({Role::Support, true, false, now.spool, {}, {}});
    j.say(
        Severity::Warning, QStringLiteral("support-left-loaded"),
        QStringLiteral("%1 is loaded at the support position and not wanted; it softens at %2, the chamber goes to %3.")
            .arg(left->id, plainWords(left->softening), plainWords(j.transition.chamberAfter)),
        QStringLiteral("unload it"), left->id);
}

} // namespace

void chooseSpools(const Judging& j) {
    for (Role role : {Role::Part, Role::Support})
        if (j.wanted(role))
            chooseAt(j, role);
    judgeIdleSupport(j);
}

} // namespace interlude
