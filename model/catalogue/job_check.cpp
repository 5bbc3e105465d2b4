#include "model/catalogue/readers.h"

namespace interlude {

namespace {

QString degrees(Temperature t) { return QStringLiteral("%1 °C").arg(t.celsius()); }

/// Why materials and nozzles of a variant do not go together, whatever the printer.
QStringList clashes(const Catalogue& c, const Setup& s) {
    QStringList out;
    const Material* part = c.material(s.part);
    const Material* support = c.material(s.support);
    const auto nozzle = [&](const Material* m, const NozzleType* t, Role role) {
        if (!m || !t) return;
        if (!t->roles.contains(role))
            out.append(QStringLiteral("nozzle type `%1` does not fit the %2 position").arg(t->id, role == Role::Part ? QStringLiteral("part") : QStringLiteral("support")));
        if (!m->orifices.contains(t->orifice))
            out.append(QStringLiteral("orifice %1 mm is not allowed for `%2`").arg(t->orifice.mm()).arg(m->id));
        if (m->abrasive && !t->hardened)
            out.append(QStringLiteral("`%1` is abrasive and nozzle type `%2` is not hardened").arg(m->id, t->id));
        if (t->max < m->nozzle)
            out.append(QStringLiteral("nozzle type `%1` goes up to %2, `%3` wants %4").arg(t->id, degrees(t->max), m->id, degrees(m->nozzle)));
    };
    nozzle(part, c.nozzleType(s.partNozzle), Role::Part);
    nozzle(support, c.nozzleType(s.supportNozzle), Role::Support);
    return out;
}

/// Why this printer cannot take it; empty = it can.
QString unfit(const Catalogue& c, const Job& job, const Setup& s, const PrinterType& type) {
    const Material* part = c.material(s.part);
    const Material* support = c.material(s.support);
    const auto chamber = s.chamber ? s.chamber : part ? part->chamber : std::nullopt;
    if (chamber && type.chamberMax && *chamber > *type.chamberMax)
        return QStringLiteral("chamber %1 above its %2").arg(degrees(*chamber), degrees(*type.chamberMax));
    for (const Material* m : {part, support}) {
        if (!m) continue;
        if (type.nozzleMax && m->nozzle > *type.nozzleMax)
            return QStringLiteral("nozzle %1 above its %2").arg(degrees(m->nozzle), degrees(*type.nozzleMax));
        if (!type.materials.isEmpty() && !type.materials.contains(m->id))
            return QStringLiteral("`%1` is not among its materials").arg(m->id);
    }
    if (support && !type.supportPosition) return QStringLiteral("no support position");
    for (const QString& id : {s.partNozzle, s.supportNozzle}) {
        const NozzleType* t = c.nozzleType(id);
        if (t && !t->printerTypes.isEmpty() && !t->printerTypes.contains(type.id))
            return QStringLiteral("nozzle type `%1` does not fit it").arg(id);
    }
    if (job.envelope && type.envelope) {
        const Envelope& e = *job.envelope;
        const Envelope& room = *type.envelope;
        // As it lies in its build file: turned, it would be another file.
        if (e.x > room.x || e.y > room.y || e.z > room.z) return QStringLiteral("the part is greater than its envelope");
    }
    return {};
}

/// Why a setup known by its label cannot be reached from what this printer wears.
QString unreachable(const Catalogue& c, const QString& label, const Printer& p) {
    for (const MeasuredChangeover& m : p.measured)
        if (m.to == label) return {};
    for (const OpeningSetup& s : c.openings.setups)
        if (s.printer == p.id && s.label == label) return {};
    return QStringLiteral("no measured changeover leads to `%1`").arg(label);
}

void checkVariant(Reading& r, const Catalogue& c, const Job& job, const Variant& v, const Where& at) {
    const QString name = v.name.isEmpty() ? QStringLiteral("job `%1`").arg(job.id)
                                          : QStringLiteral("variant `%1` of job `%2`").arg(v.name, job.id);
    const QStringList wrong = clashes(c, v.setup);
    if (!wrong.isEmpty()) {
        r.warn(at, QStringLiteral("%1 cannot be printed: %2").arg(name, wrong.join(QStringLiteral("; "))),
               QStringLiteral("change the variant, or the entries that forbid it"));
        return;
    }
    const Material* part = c.material(v.setup.part);
    if (part && !v.setup.support.isEmpty() && !part->supports.isEmpty() && !part->supports.contains(v.setup.support))
        r.warn(at, QStringLiteral("`%1` of %2 is not among the supports that go with `%3`").arg(v.setup.support, name, part->id),
               QStringLiteral("choose among %1, or list it there").arg(part->supports.join(QStringLiteral(", "))));
    QStringList reasons;
    for (const Printer& p : c.fleet.printers) {
        const PrinterType* type = c.typeOf(p.id);
        if (!type) return;
        QString why;
        if (!job.printers.isEmpty() && !job.printers.contains(p.id))
            why = QStringLiteral("not among the job's printers");
        else
            why = v.setup.label.isEmpty() ? unfit(c, job, v.setup, *type) : unreachable(c, v.setup.label, p);
        if (why.isEmpty()) return;
        reasons.append(QStringLiteral("%1: %2").arg(p.id, why));
    }
    if (!reasons.isEmpty())
        r.warn(at, QStringLiteral("no printer can take %1: %2").arg(name, reasons.join(QStringLiteral("; "))),
               QStringLiteral("change the variant, or the limits of a printer type"));
}

/// Everything that a verdict about this variant would rest on was read without an error.
bool sure(const Reading& r, const Catalogue& c, const Job& job, const Setup& s) {
    const auto good = [&](Kind kind, const QString& id) { return id.isEmpty() || r.sure(kind, id); };
    return r.sure(Kind::Job, job.id) && good(Kind::Material, s.part) && good(Kind::Material, s.support) &&
           good(Kind::NozzleType, s.partNozzle) && good(Kind::NozzleType, s.supportNozzle) &&
           std::all_of(c.fleet.printers.begin(), c.fleet.printers.end(), [&](const Printer& p) {
               return r.sure(Kind::Printer, p.id) && r.sure(Kind::PrinterType, p.type);
           });
}

/// False after having complained.
bool checkRoles(Reading& r, const Catalogue& c, const Setup& s, const YamlNode& entry) {
    const auto role = [&](const QString& id, Role wanted, const QString& key) {
        const Material* m = r.sure(Kind::Material, id) ? c.material(id) : nullptr;
        if (!m || m->role == wanted) return true;
        r.complain(whereOf(entry, key), QStringLiteral("`%1` is not a %2 material").arg(id, key),
                   QStringLiteral("a material with `role: %1` is wanted here").arg(key));
        return false;
    };
    const bool part = role(s.part, Role::Part, QStringLiteral("part"));
    return role(s.support, Role::Support, QStringLiteral("support")) && part;
}

} // namespace

void checkJobs(Reading& r, const Catalogue& c) {
    for (const Job& job : c.openings.jobs) {
        const YamlNode* entry = r.entry(Kind::Job, job.id);
        if (!entry) continue;
        const YamlNode* list = entry->find(QStringLiteral("variants"));
        for (qsizetype i = 0; i < job.variants.size(); ++i) {
            const auto index = static_cast<std::size_t>(i);
            const YamlNode& at = list && index < list->items.size() ? list->items[index] : *entry;
            const Setup& setup = job.variants[i].setup;
            if (checkRoles(r, c, setup, at) && sure(r, c, job, setup)) checkVariant(r, c, job, job.variants[i], at.where);
        }
    }
}

} // namespace interlude
