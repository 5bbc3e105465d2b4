#include "model/changeover/transition.h"

#include "model/changeover/judging.h"

#include <algorithm>

namespace interlude {

Finding& Judging::say(Severity severity, const QString& rule, const QString& reason, const QString& remedy,
                      const QString& place) const {
    transition.verdicts.append({severity, rule, reason, remedy, place, false});
    return transition.verdicts.last();
}

void Judging::addFact(const QString& word) const {
    if (!transition.facts.contains(word))
        transition.facts.append(word);
}

NozzleChange* Judging::nozzle(Role role) const {
    for (NozzleChange& change : transition.nozzles)
        if (change.role == role)
            return &change;
    return nullptr;
}

PurgePlan* Judging::purge(Role role) const {
    for (PurgePlan& plan : transition.purges)
        if (plan.role == role)
            return &plan;
    return nullptr;
}

QString positionName(Role role) {
    return role == Role::Part ? QStringLiteral("part position") : QStringLiteral("support position");
}

QString gradeName(const Material& m) {
    return m.name.isEmpty() ? m.id : QStringLiteral("%1 %2 (%3)").arg(m.polymer, m.name, m.id);
}

QString printerName(const Judging& j) {
    return j.catalogue.printerName(j.printer->id);
}

PrinterNow asPrintEnds(PrinterNow printer) {
    if (printer.activity != Activity::Printing)
        return printer;
    const auto raise = [](std::optional<Temperature>& seen, const std::optional<Temperature>& set) {
        if (set && (!seen || *seen < *set))
            seen = set;
    };
    for (QList<ResidueItem>* items : {&printer.residue, &printer.wiper})
        for (ResidueItem& item : *items) {
            raise(item.chamberSeen, printer.chamberSet);
            raise(item.nozzleSeen, printer.nozzleSet);
        }
    if (printer.platformCover == QStringLiteral("fresh"))
        printer.platformCover = QStringLiteral("used");
    return printer;
}

namespace {

/// Finds what the request names; false when the rest cannot be judged.
bool resolve(Judging& j) {
    const TransitionRequest& r = j.request();
    j.printer = j.catalogue.printer(r.now.id);
    if (!j.printer || !(j.printerType = j.catalogue.typeOf(r.now.id))) {
        j.say(Severity::Refusal, QStringLiteral("printer"), QStringLiteral("There is no printer %1.").arg(r.now.id),
              QStringLiteral("name one of fleet.yaml's printers"), r.now.id);
        return false;
    }
    if (!r.wanted.label.isEmpty()) {
        j.say(Severity::Refusal, QStringLiteral("setup-label"),
              QStringLiteral("Setup %1 is known only by its label: it can be planned, not guided.").arg(r.wanted.label),
              QStringLiteral("state materials and nozzle types in the job's variant"), r.job);
        return false;
    }
    if (r.wanted.part.isEmpty()) {
        j.say(Severity::Refusal, QStringLiteral("setup"), QStringLiteral("No part material is stated."),
              QStringLiteral("state the part material and its nozzle type"), r.job);
        return false;
    }
    j.part = j.catalogue.material(r.wanted.part);
    j.support = r.wanted.support.isEmpty() ? nullptr : j.catalogue.material(r.wanted.support);
    for (const MaterialId& id : {r.wanted.part, r.wanted.support})
        if (!id.isEmpty() && !j.catalogue.material(id))
            j.say(Severity::Refusal, QStringLiteral("material"), QStringLiteral("There is no material %1.").arg(id),
                  QStringLiteral("name one of materials.yaml"), id);
    return j.part && (j.support || r.wanted.support.isEmpty());
}

void sortWorstFirst(Findings& verdicts) {
    std::stable_sort(verdicts.begin(), verdicts.end(),
                     [](const Finding& a, const Finding& b) { return a.severity > b.severity; });
}

} // namespace

bool isShortStock(const Finding& f) {
    static const QStringList rules{QStringLiteral("spool-none"), QStringLiteral("spool-stock"),
                                   QStringLiteral("spool-lot")};
    return f.severity == Severity::Refusal && rules.contains(f.rule);
}

bool Transition::plannable() const {
    return std::none_of(verdicts.begin(), verdicts.end(),
                        [](const Finding& f) { return f.severity == Severity::Refusal && !isShortStock(f); });
}

Transition judgeTransition(const Catalogue& catalogue, const Stock& stock, const TransitionRequest& request,
                           Instant now) {
    Transition t;
    t.request = request;
    t.request.now = asPrintEnds(request.now);
    Judging j{catalogue, stock, now, t};
    t.chamberBefore = t.request.now.chamberSet.value_or(catalogue.fleet.room);
    t.chamberAfter = t.chamberBefore;
    const bool known = resolve(j);
    if (j.printerType)
        judgeJob(j);
    if (known) {
        judgeLimits(j);
        chooseNozzles(j);
        planPurges(j);
        chooseSpools(j);
        judgeResidue(j);
        nameOtherFacts(j);
    }
    sortWorstFirst(t.verdicts);
    return t;
}

TransitionRequest requestFor(const PrinterNow& printer, const Job& job, const Variant& variant) {
    TransitionRequest r;
    r.now = printer;
    r.wanted = variant.setup;
    r.job = job.id;
    r.variant = variant.name;
    r.partVolume = variant.partVolume;
    r.supportVolume = variant.supportVolume;
    r.print = variant.printMinutes(printer.id);
    r.envelope = job.envelope;
    r.allowedPrinters = job.printers;
    r.sameLot = job.sameLot;
    return r;
}

} // namespace interlude
