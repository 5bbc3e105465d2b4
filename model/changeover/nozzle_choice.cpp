#include "model/changeover/nozzle_choice.h"

#include "model/changeover/plain_words.h"

#include <algorithm>

namespace interlude {

Life NozzleQuestion::life(const Nozzle& n) const {
    const std::optional<Volume> left = lifeLeft(n, type, material.abrasive);
    if (!left)
        return Life::Unknown;
    return *left >= need() ? Life::Enough : Life::TooLittle;
}

QString NozzleQuestion::lifeInWords(const Nozzle& n) const {
    if (!n.run.known)
        return QStringLiteral("no history");
    const std::optional<Volume> left = lifeLeft(n, type, material.abrasive);
    return left ? plainWords(*left) + QStringLiteral(" left") : QStringLiteral("no rated life");
}

QString NozzleQuestion::obstacle(const Nozzle& n) const {
    if (n.type != type.id)
        return QStringLiteral("is of type %1, not %2").arg(n.type, type.id);
    if (n.where == NozzleWhere::Retired)
        return QStringLiteral("is retired");
    if (n.serial != mounted) {
        if (n.where == NozzleWhere::Mounted)
            return QStringLiteral("is mounted on %1").arg(j.catalogue.printerName(n.place));
        if (j.request().notFree.contains(n.serial))
            return QStringLiteral("is reserved elsewhere");
        for (const NozzleChange& other : j.transition.nozzles)
            if (other.in == n.serial)
                return QStringLiteral("goes to the other position");
    }
    if (!n.meltFamily.isEmpty() && n.meltFamily != material.meltFamily)
        return QStringLiteral("has served %1, not %2").arg(n.meltFamily, material.meltFamily);
    return {};
}

namespace {

void refuseLife(const NozzleQuestion& q, const Nozzle& n) {
    q.j.say(Severity::Refusal, QStringLiteral("nozzle-life"),
            QStringLiteral("Nozzle %1 has too little life for the job: %2, %3 needed.")
                .arg(n.serial, q.lifeInWords(n), plainWords(q.need())),
            QStringLiteral("take a nozzle with more life left, or override with a reason"), n.serial)
        .overridable = true;
}

void settle(const NozzleQuestion& q, const Nozzle& n) {
    NozzleChange change{q.role, n.serial != q.mounted, q.mounted, n.serial};
    if (change.exchange)
        q.j.addFact(q.role == Role::Part ? fact::partNozzle : fact::supportNozzle);
    if (change.exchange && n.meltFamily.isEmpty())
        q.j.addFact(fact::nozzleFirstUse);
    q.j.transition.nozzles.append(change);
    if (q.life(n) == Life::TooLittle)
        refuseLife(q, n);
    if (!n.run.known)
        q.j.say(Severity::Warning, QStringLiteral("nozzle-history"),
                QStringLiteral("Nozzle %1 has no history: nobody can say whether its life suffices for %2.")
                    .arg(n.serial, plainWords(q.need())),
                QStringLiteral("measure its orifice, or take a nozzle with a history"), n.serial);
    else if (n.meltFamily.isEmpty() && (n.run.plain + n.run.abrasive).mm3() > 0)
        q.j.say(Severity::Warning, QStringLiteral("nozzle-history"),
                QStringLiteral("Nozzle %1 is used, but what it has run is not recorded.").arg(n.serial),
                QStringLiteral("find out which melt family it has served"), n.serial);
    if (lifeUsed(n, q.type).value_or(0) >= 1 && q.life(n) != Life::TooLittle)
        q.j.say(Severity::Warning, QStringLiteral("nozzle-worn"),
                QStringLiteral("Nozzle %1 is at the end of its rated life.").arg(n.serial),
                QStringLiteral("measure its orifice and decide whether to retire it"), n.serial);
}

/// Nozzles that could be mounted instead, those with enough life first.
QList<const Nozzle*> candidates(const NozzleQuestion& q) {
    QList<const Nozzle*> all;
    for (const Nozzle& n : q.j.stock.nozzles)
        if (n.serial != q.mounted && q.obstacle(n).isEmpty())
            all.append(&n);
    std::sort(all.begin(), all.end(), [&](const Nozzle* a, const Nozzle* b) {
        const auto rank = [&](const Nozzle* n) {
            const Life life = q.life(*n);
            return life == Life::Enough ? 0 : life == Life::Unknown ? 1 : 2;
        };
        if (rank(a) != rank(b))
            return rank(a) < rank(b);
        const auto left = [&](const Nozzle* n) { return lifeLeft(*n, q.type, q.material.abrasive).value_or(Volume()); };
        // Among those that suffice the least life; among those that do not, the most.
        if (left(a) != left(b))
            return rank(a) == 2 ? left(a) > left(b) : left(a) < left(b);
        return std::pair(a->order, a->serial) < std::pair(b->order, b->serial);
    });
    return all;
}

void refuseNone(const NozzleQuestion& q) {
    QStringList why;
    for (const Nozzle& n : q.j.stock.nozzles)
        if (n.type == q.type.id && why.size() < 6)
            why.append(n.serial + QLatin1Char(' ') + q.obstacle(n));
    QString reason = QStringLiteral("No free nozzle of type %1 serves %2 at the %3")
                         .arg(q.type.id, q.material.meltFamily, positionName(q.role));
    reason += why.isEmpty() ? QStringLiteral(": the shop has none.") : QStringLiteral(": %1.").arg(plainList(why));
    NozzleChange change{q.role, false, q.mounted, {}};
    q.j.transition.nozzles.append(change);
    q.j.say(Severity::Refusal, QStringLiteral("nozzle-none"), reason,
            QStringLiteral("free one, receive one, or choose another nozzle type"), q.type.id);
}

void chooseByRule(const NozzleQuestion& q) {
    const auto mounted = q.j.stock.nozzles.constFind(q.mounted);
    const bool fits = mounted != q.j.stock.nozzles.constEnd() && q.obstacle(*mounted).isEmpty();
    // Where the melt zone stays in the printer another nozzle would not take the old material away.
    const bool clean = purgeable(q.j, q.role) || !q.type.unitWithMeltZone;
    if (fits && clean && q.life(*mounted) != Life::TooLittle)
        return settle(q, *mounted);
    const QList<const Nozzle*> others = candidates(q);
    if (!others.isEmpty() && q.life(*others.first()) != Life::TooLittle)
        return settle(q, *others.first());
    if (fits && clean)
        return settle(q, *mounted);
    if (!others.isEmpty())
        return settle(q, *others.first());
    if (fits)
        return settle(q, *mounted); // purging is then refused, which says the way out
    refuseNone(q);
}

void chooseAsTold(const NozzleQuestion& q, const NozzleSerial& choice) {
    const auto chosen = q.j.stock.nozzles.constFind(choice);
    const bool known = chosen != q.j.stock.nozzles.constEnd();
    const QString why = known ? q.obstacle(*chosen) : QStringLiteral("is not among the shop's nozzles");
    if (why.isEmpty())
        return settle(q, *chosen);
    q.j.transition.nozzles.append(
        NozzleChange{q.role, known && choice != q.mounted, q.mounted, known ? choice : QString()});
    q.j.say(Severity::Refusal, QStringLiteral("nozzle-choice"),
            QStringLiteral("Nozzle %1 cannot serve %2 at the %3: it %4.")
                .arg(choice, q.material.id, positionName(q.role), why),
            QStringLiteral("choose another nozzle, or leave the choice to the rule"), choice);
}

const NozzleType* wantedType(const Judging& j, Role role, const NozzleSerial& mounted) {
    const NozzleTypeId id = role == Role::Part ? j.request().wanted.partNozzle : j.request().wanted.supportNozzle;
    const auto now = j.stock.nozzles.constFind(mounted);
    const NozzleTypeId asked = !id.isEmpty() ? id : now == j.stock.nozzles.constEnd() ? NozzleTypeId() : now->type;
    if (const NozzleType* type = j.catalogue.nozzleType(asked))
        return type;
    j.say(Severity::Refusal, QStringLiteral("nozzle-type"),
          asked.isEmpty() ? QStringLiteral("No nozzle type is stated for the %1.").arg(positionName(role))
                          : QStringLiteral("There is no nozzle type %1.").arg(asked),
          QStringLiteral("state one of nozzles.yaml's types"), asked);
    return nullptr;
}

} // namespace

void chooseNozzles(const Judging& j) {
    for (Role role : {Role::Part, Role::Support}) {
        const Material* m = j.wanted(role);
        if (!m)
            continue;
        const NozzleSerial mounted = at(j.before(), role).nozzle;
        const NozzleType* type = wantedType(j, role, mounted);
        if (!type)
            continue;
        judgeNozzleType(j, *type, *m, role);
        const NozzleQuestion q{j, role, *m, *type, mounted};
        const NozzleSerial choice = role == Role::Part ? j.request().choosePartNozzle : j.request().chooseSupportNozzle;
        choice.isEmpty() ? chooseByRule(q) : chooseAsTold(q, choice);
    }
}

} // namespace interlude
