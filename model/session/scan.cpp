// A scan against what the step expects. The shop's rule decides (the same that stands before the ledger); here a person is
// told more about what it was that was scanned.

#include "model/session/guide.h"

namespace interlude {

namespace {

/// What carries this id besides spools, nozzles, printers, places, people and jobs, which the rule names itself.
QString whatIs(const Catalogue& catalogue, const QString& id) {
    if (const Tool* t = catalogue.tool(id)) return QStringLiteral("the tool %1").arg(t->name);
    if (const Consumable* c = catalogue.consumable(id)) return QStringLiteral("the consumable %1").arg(c->name);
    if (const Instrument* i = catalogue.instrument(id)) return QStringLiteral("the instrument %1").arg(i->name);
    if (const Material* m = catalogue.material(id)) return QStringLiteral("the material %1, not a package of it").arg(m->name);
    return {};
}

bool isKnown(const Shop& shop, const QString& id) {
    return shop.spool(id) || shop.nozzle(id) || shop.printer(id) || shop.job(id) ||
           shop.catalogue().place(id) || shop.catalogue().person(id);
}

} // namespace

Outcome<QString> matchScan(const Shop& shop, const SessionState& session, const StepId& step, int scanIndex,
                           const QString& scanned) {
    const PlannedStep* s = session.changeover.step(step);
    if (!s)
        return refusal(QStringLiteral("scan"), QStringLiteral("“%1” is not a step of this changeover").arg(step), {}, step);
    const QString value = scanned.trimmed().left(40); // no id is longer; a page of text is not repeated
    const Outcome<QString> accepted = acceptScan(shop, session, *s, scanIndex, value);
    if (accepted || value.isEmpty() || isKnown(shop, value)) return accepted;
    Finding why = accepted.error();
    const QString expected = s->expectedScans.value(scanIndex);
    if (const QString what = whatIs(shop.catalogue(), value); !what.isEmpty())
        why.reason = QStringLiteral("%1 is %2").arg(value, what);
    else if (!expected.isEmpty() && value.compare(expected, Qt::CaseInsensitive) == 0)
        why.reason = QStringLiteral("“%1” is written differently from %2: capitals count").arg(value, expected);
    return tl::unexpected<Finding>(why);
}

} // namespace interlude
