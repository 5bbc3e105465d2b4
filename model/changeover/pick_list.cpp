#include "model/changeover/pick_list.h"

#include "model/changeover/plain_words.h"
#include "model/stock/expiry.h"

#include <algorithm>

namespace interlude {

namespace {

QString nozzleNote(const Nozzle& n, const NozzleType* type, const Material* m) {
    QStringList note;
    const std::optional<Volume> left = type && m ? lifeLeft(n, *type, m->abrasive) : std::nullopt;
    note.append(!n.run.known ? QStringLiteral("no history")
                : left       ? plainWords(*left) + QStringLiteral(" of life left")
                             : QStringLiteral("no rated life"));
    if (n.toBeCleaned)
        note.append(QStringLiteral("clean it first"));
    return note.join(QStringLiteral(", "));
}

QList<PickItem> nozzles(const Catalogue& catalogue, const Stock& stock, const Transition& t) {
    QList<PickItem> out;
    for (const NozzleChange& c : t.nozzles) {
        if (!c.exchange || c.in.isEmpty())
            continue;
        const auto n = stock.nozzles.constFind(c.in);
        PickItem item{QStringLiteral("nozzle"), c.in, {}, {}, 1, {}, n == stock.nozzles.constEnd()};
        if (!item.missing) {
            const NozzleType* type = catalogue.nozzleType(n->type);
            const Material* m =
                catalogue.material(c.role == Role::Part ? t.request.wanted.part : t.request.wanted.support);
            item.name = type && !type->name.isEmpty() ? type->name : n->type;
            item.place = n->place;
            item.note = nozzleNote(*n, type, m);
        }
        out.append(item);
    }
    return out;
}

QList<PickItem> spools(const Catalogue& catalogue, const Stock& stock, const Transition& t, Instant now) {
    QList<PickItem> out;
    for (const SpoolChange& c : t.spools) {
        const MaterialId wanted = c.role == Role::Part ? t.request.wanted.part : t.request.wanted.support;
        const Material* m = catalogue.material(wanted);
        if (c.in.isEmpty() && m)
            out.append({QStringLiteral("spool"),
                        {},
                        m->id,
                        {},
                        1,
                        QStringLiteral("none in stock, %1 needed").arg(plainWords(c.need)),
                        true});
        const auto s = stock.spools.constFind(c.in);
        if (!c.load || c.in == c.out || s == stock.spools.constEnd())
            continue;
        QStringList note{s->left ? plainWords(*s->left) + QStringLiteral(" left") : QStringLiteral("weight not known"),
                         plainWords(c.need) + QStringLiteral(" needed")};
        if (!s->lot.isEmpty())
            note.append(QStringLiteral("lot ") + s->lot);
        if (m && dryState(*s, *m, now) == DryState::Overdue)
            note.append(QStringLiteral("must dry first"));
        if (expired(*s, now, catalogue.fleet.zone))
            note.append(QStringLiteral("expired"));
        out.append({QStringLiteral("spool"), c.in, s->material, s->place, 1, note.join(QStringLiteral(", ")), false});
    }
    return out;
}

/// Counts of ids in the order in which the steps name them first.
struct Counted {
    QStringList ids;
    QMap<QString, int> count;
    void add(const QString& id, int n, bool most) {
        if (!count.contains(id))
            ids.append(id);
        count[id] = most ? std::max(count.value(id), n) : count.value(id) + n;
    }
};

QList<PickItem> tools(const Catalogue& catalogue, const QList<PlannedStep>& steps) {
    Counted counted;
    for (const PlannedStep& p : steps)
        for (const QString& id : p.step.tools)
            counted.add(id, static_cast<int>(p.step.tools.count(id)), true);
    QList<PickItem> out;
    for (const QString& id : counted.ids) {
        const Tool* tool = catalogue.tool(id);
        const int n = counted.count.value(id);
        PickItem item{QStringLiteral("tool"), id, tool ? tool->name : id, tool ? tool->place : QString(), n, {}, !tool};
        if (tool && tool->quantity < n) {
            item.missing = true;
            item.note = QStringLiteral("the shop has %1").arg(tool->quantity);
        }
        out.append(item);
    }
    return out;
}

QList<PickItem> consumables(const Catalogue& catalogue, const Changeover& c) {
    Counted counted;
    for (const PlannedStep& p : c.steps)
        for (auto it = p.step.consumables.begin(); it != p.step.consumables.end(); ++it)
            counted.add(it.key(), it.value(), false);
    const PrinterType* type = catalogue.typeOf(c.transition.request.now.id);
    if (type && c.transition.has(fact::platformCover) && !counted.count.contains(type->platformCover))
        counted.add(type->platformCover, 1, false);
    QList<PickItem> out;
    for (const QString& id : counted.ids) {
        const Consumable* known = catalogue.consumable(id);
        const bool cover = type && id == type->platformCover;
        out.append({QStringLiteral("consumable"), id,
                    known && !known->name.isEmpty() ? known->name
                    : cover                         ? QStringLiteral("platform cover (%1)").arg(id)
                                                    : id,
                    known ? known->place : QString(), counted.count.value(id),
                    cover ? QStringLiteral("a fresh one") : QString(), !known && !cover});
    }
    return out;
}

QList<PickItem> instruments(const Catalogue& catalogue, const QList<PlannedStep>& steps, Instant now) {
    Counted counted;
    for (const PlannedStep& p : steps)
        for (const ReadingWanted& r : p.step.confirm.readings)
            if (!r.instrument.isEmpty())
                counted.add(r.instrument, 1, true);
    const QDate today = toZone(now, catalogue.fleet.zone).date();
    QList<PickItem> out;
    for (const QString& id : counted.ids) {
        const Instrument* known = catalogue.instrument(id);
        PickItem item{QStringLiteral("instrument"),
                      id,
                      known ? known->name : id,
                      known ? known->place : QString(),
                      1,
                      {},
                      !known};
        if (known && known->due.isValid())
            item.note = known->due < today
                            ? QStringLiteral("calibration overdue since %1").arg(known->due.toString(Qt::ISODate))
                            : QStringLiteral("calibration due %1").arg(known->due.toString(Qt::ISODate));
        else if (known)
            item.note = QStringLiteral("calibration date not stated");
        out.append(item);
    }
    return out;
}

QList<PickItem> protection(const QList<PlannedStep>& steps) {
    Counted counted;
    for (const PlannedStep& p : steps)
        for (const QString& id : p.step.protection)
            counted.add(id, std::max(1, p.step.people), true);
    QList<PickItem> out;
    for (const QString& id : counted.ids)
        out.append({QStringLiteral("protection"),
                    id,
                    QString(id).replace(QLatin1Char('-'), QLatin1Char(' ')),
                    {},
                    counted.count.value(id),
                    {},
                    false});
    return out;
}

} // namespace

QList<PickItem> pickList(const Catalogue& catalogue, const Stock& stock, const Changeover& c, Instant now) {
    return nozzles(catalogue, stock, c.transition) + spools(catalogue, stock, c.transition, now) +
           consumables(catalogue, c) + tools(catalogue, c.steps) + instruments(catalogue, c.steps, now) +
           protection(c.steps);
}

} // namespace interlude
