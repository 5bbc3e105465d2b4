// A scan against what the step expects. Only blanks at its ends are forgiven; everything else is explained.

#include "model/session/guide.h"

namespace interlude {

namespace {

QString targetWords(ScanTarget t) {
    switch (t) {
    case ScanTarget::Printer: return QStringLiteral("printer");
    case ScanTarget::NozzleOutPart:
    case ScanTarget::NozzleOutSupport:
    case ScanTarget::NozzleInPart:
    case ScanTarget::NozzleInSupport: return QStringLiteral("nozzle");
    case ScanTarget::SpoolOutPart:
    case ScanTarget::SpoolOutSupport:
    case ScanTarget::SpoolInPart:
    case ScanTarget::SpoolInSupport: return QStringLiteral("spool");
    case ScanTarget::PlatformCover: return QStringLiteral("platform cover");
    case ScanTarget::Place: return QStringLiteral("place");
    }
    return {};
}

QString spoolWords(const Shop& shop, const Spool& s) {
    const Material* m = shop.catalogue().material(s.material);
    return m ? QStringLiteral("a spool of %1 (%2)").arg(m->polymer, m->name) : QStringLiteral("a spool of %1").arg(s.material);
}

QString nozzleWords(const Shop& shop, const Nozzle& n) {
    const NozzleType* t = shop.catalogue().nozzleType(n.type);
    return QStringLiteral("a nozzle of type %1").arg(t && !t->name.isEmpty() ? t->name : n.type);
}

/// What carries this id, "a spool of ACR (…)"; empty when nothing here does.
QString whatIs(const Shop& shop, const QString& id) {
    const Stock& stock = shop.stock();
    const Catalogue& catalogue = shop.catalogue();
    if (const auto s = stock.spools.constFind(id); s != stock.spools.constEnd()) return spoolWords(shop, *s);
    if (const auto n = stock.nozzles.constFind(id); n != stock.nozzles.constEnd()) return nozzleWords(shop, *n);
    if (const Printer* p = catalogue.printer(id)) return QStringLiteral("the printer %1").arg(p->name);
    if (const Place* p = catalogue.place(id)) return QStringLiteral("the place %1").arg(p->name);
    if (const Job* j = shop.job(id)) return QStringLiteral("the job %1").arg(j->title.isEmpty() ? j->id : j->title);
    if (const Tool* t = catalogue.tool(id)) return QStringLiteral("the tool %1").arg(t->name);
    if (const Consumable* c = catalogue.consumable(id)) return QStringLiteral("the consumable %1").arg(c->name);
    if (const Instrument* i = catalogue.instrument(id)) return QStringLiteral("the instrument %1").arg(i->name);
    if (const Material* m = catalogue.material(id)) return QStringLiteral("the material %1, not a package of it").arg(m->name);
    if (const Person* p = catalogue.person(id)) return QStringLiteral("the badge of %1").arg(p->name);
    return {};
}

/// Where the changeover could not say which one it will be: any place, and what comes off a printer whose dress was not
/// known. What goes in was chosen and is never open.
bool servesUnknown(const Shop& shop, ScanTarget target, const QString& id) {
    switch (target) {
    case ScanTarget::Place: return shop.catalogue().place(id) != nullptr;
    case ScanTarget::NozzleOutPart:
    case ScanTarget::NozzleOutSupport: return shop.stock().nozzles.contains(id);
    case ScanTarget::SpoolOutPart:
    case ScanTarget::SpoolOutSupport: return shop.stock().spools.contains(id);
    case ScanTarget::PlatformCover: return true;
    case ScanTarget::Printer:
    case ScanTarget::NozzleInPart:
    case ScanTarget::NozzleInSupport:
    case ScanTarget::SpoolInPart:
    case ScanTarget::SpoolInSupport: break;
    }
    return false;
}

QString differsInCase(const QString& scanned, const QString& expected) {
    return !expected.isEmpty() && scanned.compare(expected, Qt::CaseInsensitive) == 0
               ? QStringLiteral("“%1” is written differently from %2: capitals count").arg(scanned, expected)
               : QString();
}

} // namespace

Outcome<QString> matchScan(const Shop& shop, const SessionState& session, const StepId& step, int scanIndex,
                           const QString& scanned) {
    const QString rule = QStringLiteral("scan");
    const PlannedStep* s = session.changeover.step(step);
    if (!s) return refusal(rule, QStringLiteral("“%1” is not a step of this changeover").arg(step));
    if (scanIndex < 0 || scanIndex >= s->step.confirm.scans.size())
        return refusal(rule, QStringLiteral("This step asks for no such scan"), {}, step);
    const ScanTarget target = s->step.confirm.scans.at(scanIndex).target;
    const QString expected = s->expectedScans.value(scanIndex);
    const QString value = scanned.trimmed();
    const QString wanted = QStringLiteral("expected %1 %2").arg(targetWords(target), expected).trimmed();
    if (value.isEmpty()) return refusal(rule, QStringLiteral("Nothing was scanned"), wanted, step);
    if (expected.isEmpty() ? servesUnknown(shop, target, value) : value == expected) return value;
    if (const QString what = whatIs(shop, value); !what.isEmpty())
        return refusal(rule, QStringLiteral("%1 is %2").arg(value, what), wanted, step);
    if (const QString other = differsInCase(value, expected); !other.isEmpty()) return refusal(rule, other, wanted, step);
    return refusal(rule, QStringLiteral("“%1” is not known here").arg(value.left(40)), wanted, step);
}

} // namespace interlude
