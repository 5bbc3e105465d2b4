// What a scan must be. A nozzle or spool that serves as well as the chosen one is accepted and used; all else is told.

#include "model/shop/objections/asking.h"

namespace interlude {

namespace {

QString describe(const Shop& shop, const QString& id) {
    if (const Spool* s = shop.spool(id))
        return QStringLiteral("%1 is a spool of %2").arg(id, s->material);
    if (const Nozzle* n = shop.nozzle(id))
        return QStringLiteral("%1 is a nozzle of type %2").arg(id, n->type);
    if (shop.catalogue().printer(id))
        return QStringLiteral("%1 is a printer").arg(id);
    if (shop.catalogue().place(id))
        return QStringLiteral("%1 is a place").arg(id);
    if (shop.catalogue().person(id))
        return QStringLiteral("%1 is a person").arg(id);
    if (shop.job(id))
        return QStringLiteral("%1 is a job").arg(id);
    return QStringLiteral("%1 is not known here").arg(id);
}

QString wanted(ScanTarget t, const QString& expected) {
    QString what;
    switch (t) {
    case ScanTarget::Printer:
        what = QStringLiteral("printer");
        break;
    case ScanTarget::NozzleOutPart:
    case ScanTarget::NozzleOutSupport:
    case ScanTarget::NozzleInPart:
    case ScanTarget::NozzleInSupport:
        what = QStringLiteral("nozzle");
        break;
    case ScanTarget::SpoolOutPart:
    case ScanTarget::SpoolOutSupport:
    case ScanTarget::SpoolInPart:
    case ScanTarget::SpoolInSupport:
        what = QStringLiteral("spool");
        break;
    case ScanTarget::PlatformCover:
        what = QStringLiteral("platform cover");
        break;
    case ScanTarget::Place:
        what = QStringLiteral("place");
        break;
    }
    return expected.isEmpty() ? QStringLiteral("scan a %1").arg(what)
                              : QStringLiteral("expected %1 %2").arg(what, expected);
}

/// Why this nozzle will not do instead of the chosen one; empty when it will.
QString nozzleWillNotDo(const Shop& shop, const SessionState& s, Role role, const Nozzle& n) {
    const TransitionRequest& r = s.changeover.transition.request;
    const NozzleTypeId type = role == Role::Part ? r.wanted.partNozzle : r.wanted.supportNozzle;
    if (n.type != type)
        return QStringLiteral("type %1 is wanted").arg(type);
    if (n.where == NozzleWhere::Retired)
        return QStringLiteral("it is retired");
    if (n.where == NozzleWhere::Mounted)
        return QStringLiteral("it is mounted on %1").arg(n.place);
    if (const SessionState* other = reservedBy(shop, n.serial, s.number))
        return QStringLiteral("it is chosen for session %1").arg(other->number);
    const Material* m = shop.material(role == Role::Part ? r.wanted.part : r.wanted.support);
    if (m && !n.meltFamily.isEmpty() && n.meltFamily != m->meltFamily)
        return QStringLiteral("it serves %1, %2 is wanted").arg(n.meltFamily, m->meltFamily);
    const NozzleType* t = shop.nozzleType(n.type);
    const std::optional<Volume> left = t && m ? lifeLeft(n, *t, m->abrasive) : std::nullopt;
    if (left && *left < (role == Role::Part ? r.partVolume : r.supportVolume))
        return QStringLiteral("it has %1 cm³ of life left, too little for the job").arg(left->cm3());
    return {};
}

QString spoolWillNotDo(const Shop& shop, const SessionState& s, Role role, const Spool& spool) {
    const TransitionRequest& r = s.changeover.transition.request;
    const MaterialId material = role == Role::Part ? r.wanted.part : r.wanted.support;
    if (spool.material != material)
        return QStringLiteral("%1 is wanted").arg(material);
    if (spool.where == SpoolWhere::Retired)
        return QStringLiteral("it is retired");
    if (spool.where == SpoolWhere::Loaded)
        return QStringLiteral("it is loaded on %1").arg(spool.place);
    if (const SessionState* other = reservedBy(shop, spool.id, s.number))
        return QStringLiteral("it is chosen for session %1").arg(other->number);
    for (const SpoolChange& c : s.changeover.transition.spools) {
        if (c.role != role)
            continue;
        const auto chosen = shop.stock().spools.constFind(c.in);
        if (r.sameLot && chosen != shop.stock().spools.constEnd() && chosen->lot != spool.lot)
            return QStringLiteral("it is of lot %1, the job wants lot %2").arg(spool.lot, chosen->lot);
        if (spool.left && *spool.left < c.need)
            return QStringLiteral("%1 g are left, %2 g are needed")
                .arg(spool.left->milligrams() / 1000)
                .arg(c.need.milligrams() / 1000);
    }
    return {};
}

} // namespace

const SessionState* reservedBy(const Shop& shop, const QString& id, qint64 except) {
    for (const SessionState& s : shop.sessions()) {
        if (!s.isOpen() || s.number == except || id.isEmpty())
            continue;
        for (const NozzleChange& c : s.changeover.transition.nozzles)
            if (c.in == id)
                return &s;
        for (const SpoolChange& c : s.changeover.transition.spools)
            if (c.in == id)
                return &s;
    }
    return nullptr;
}

const SessionState* sessionOfJob(const Shop& shop, const JobId& job) {
    for (const SessionState& s : shop.sessions())
        if (s.isOpen() && !job.isEmpty() && s.changeover.transition.request.job == job &&
            !s.doneStep(Effect::StartPrint))
            return &s;
    return nullptr;
}

Outcome<QString> acceptScan(const Shop& shop, const SessionState& session, const PlannedStep& step, int scanIndex,
                            const QString& scanned) {
    const QString id = scanned.trimmed();
    if (scanIndex < 0 || scanIndex >= step.step.confirm.scans.size())
        return refusal(QStringLiteral("scan"), QStringLiteral("This step wants no such scan"), {}, step.step.id);
    const ScanTarget target = step.step.confirm.scans[scanIndex].target;
    const QString expected = step.expectedScans.value(scanIndex);
    if (id.isEmpty())
        return refusal(QStringLiteral("scan"), QStringLiteral("Nothing was scanned"), wanted(target, expected),
                       step.step.id);
    QString why;
    const auto role = [&](ScanTarget part) { return target == part ? Role::Part : Role::Support; };
    switch (target) {
    case ScanTarget::NozzleInPart:
    case ScanTarget::NozzleInSupport: {
        const Nozzle* n = shop.nozzle(id);
        if (!n)
            break;
        // The chosen one was judged with the transition (and what stood against it, overridden).
        if (id == expected && n->where == NozzleWhere::Shelf)
            return id;
        why = nozzleWillNotDo(shop, session, role(ScanTarget::NozzleInPart), *n);
        if (why.isEmpty())
            return id;
        break;
    }
    case ScanTarget::SpoolInPart:
    case ScanTarget::SpoolInSupport: {
        const Spool* s = shop.spool(id);
        if (!s)
            break;
        if (id == expected && s->where == SpoolWhere::Shelf)
            return id;
        why = spoolWillNotDo(shop, session, role(ScanTarget::SpoolInPart), *s);
        if (why.isEmpty())
            return id;
        break;
    }
    case ScanTarget::Place:
        if (id == expected ||
            (expected.isEmpty() && (shop.catalogue().place(id) || shop.catalogue().fleet.places.isEmpty())))
            return id;
        break;
    case ScanTarget::PlatformCover:
        if (id == expected || expected.isEmpty())
            return id;
        break;
    case ScanTarget::Printer:
        if (id == session.printer)
            return id;
        break;
    // What comes off a printer whose dress was not known may be any that is known.
    case ScanTarget::NozzleOutPart:
    case ScanTarget::NozzleOutSupport:
        if (expected.isEmpty() ? shop.stock().nozzles.contains(id) : id == expected)
            return id;
        break;
    case ScanTarget::SpoolOutPart:
    case ScanTarget::SpoolOutSupport: {
        // Another spool may have followed since, in the middle of the print.
        const PrinterNow* p = shop.printer(session.printer);
        const SpoolId loaded = p ? at(*p, role(ScanTarget::SpoolOutPart)).spool : SpoolId();
        if (expected.isEmpty() ? shop.stock().spools.contains(id) : id == (loaded.isEmpty() ? expected : loaded))
            return id;
        break;
    }
    }
    QString reason = describe(shop, id);
    if (!why.isEmpty())
        reason += QStringLiteral(": ") + why;
    return refusal(QStringLiteral("scan"), reason, wanted(target, expected), step.step.id);
}

} // namespace interlude
