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
        return QStringLiteral("it is mounted on %1").arg(shop.catalogue().printerName(n.place));
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
        return QStringLiteral("it is loaded on %1").arg(shop.catalogue().printerName(spool.place));
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

bool nozzleComesIn(const Shop& shop, const SessionState& s, Role role, const QString& expected, const QString& id,
                   QString& why) {
    const Nozzle* n = shop.nozzle(id);
    if (!n)
        return false;
    // The chosen one was judged with the transition (and what stood against it, overridden).
    if (id == expected && n->where == NozzleWhere::Shelf)
        return true;
    why = nozzleWillNotDo(shop, s, role, *n);
    return why.isEmpty();
}

bool spoolComesIn(const Shop& shop, const SessionState& s, Role role, const QString& expected, const QString& id,
                  QString& why) {
    const Spool* spool = shop.spool(id);
    if (!spool)
        return false;
    if (id == expected && spool->where == SpoolWhere::Shelf)
        return true;
    why = spoolWillNotDo(shop, s, role, *spool);
    return why.isEmpty();
}

/// Another spool may have followed since, in the middle of the print.
bool spoolGoesOut(const Shop& shop, const SessionState& s, Role role, const QString& expected, const QString& id) {
    const PrinterNow* p = shop.printer(s.printer);
    const SpoolId loaded = p ? at(*p, role).spool : SpoolId();
    return expected.isEmpty() ? shop.stock().spools.contains(id) : id == (loaded.isEmpty() ? expected : loaded);
}

/// Whether this id is what the scan wants; `why`: what is to be said against it beside what it is. What comes off a printer
/// whose dress was not known may be any that is known.
bool standsFor(const Shop& shop, const SessionState& s, ScanTarget target, const QString& expected, const QString& id,
               QString& why) {
    switch (target) {
    case ScanTarget::NozzleInPart:
        return nozzleComesIn(shop, s, Role::Part, expected, id, why);
    case ScanTarget::NozzleInSupport:
        return nozzleComesIn(shop, s, Role::Support, expected, id, why);
    case ScanTarget::SpoolInPart:
        return spoolComesIn(shop, s, Role::Part, expected, id, why);
    case ScanTarget::SpoolInSupport:
        return spoolComesIn(shop, s, Role::Support, expected, id, why);
    case ScanTarget::Place:
        return id == expected ||
               (expected.isEmpty() && (shop.catalogue().place(id) || shop.catalogue().fleet.places.isEmpty()));
    case ScanTarget::PlatformCover:
        return id == expected || expected.isEmpty();
    case ScanTarget::Printer:
        return id == s.printer;
    case ScanTarget::NozzleOutPart:
    case ScanTarget::NozzleOutSupport:
        return expected.isEmpty() ? shop.stock().nozzles.contains(id) : id == expected;
    case ScanTarget::SpoolOutPart:
        return spoolGoesOut(shop, s, Role::Part, expected, id);
    case ScanTarget::SpoolOutSupport:
        return spoolGoesOut(shop, s, Role::Support, expected, id);
    }
    return false;
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
    if (standsFor(shop, session, target, expected, id, why))
        return id;
    QString reason = describe(shop, id);
    if (!why.isEmpty())
        reason += QStringLiteral(": ") + why;
    return refusal(QStringLiteral("scan"), reason, wanted(target, expected), step.step.id);
}

} // namespace interlude
