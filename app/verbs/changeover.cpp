#include "app/verbs/opened_shop.h"

#include "model/changeover/changeover.h"
#include "model/planning/plans/planned_choice.h"
#include "model/records/wording.h"
#include "views/words/words.h"

#include <QJsonDocument>

namespace interlude::app {

namespace {

QString name(const Catalogue& c, const MaterialId& id) {
    const Material* m = c.material(id);
    return m ? QStringLiteral("%1 (%2)").arg(m->polymer, id) : id.isEmpty() ? QStringLiteral("none") : id;
}

void sayTransition(const Catalogue& c, const Transition& t) {
    const PrinterNow& now = t.request.now;
    say(QStringLiteral("%1: part %2 → %3, support %4 → %5")
            .arg(c.printerName(now.id), name(c, now.part.loaded), name(c, t.request.wanted.part), name(c, now.support.loaded),
                 name(c, t.request.wanted.support)));
    for (const NozzleChange& n : t.nozzles)
        if (n.exchange)
            say(QStringLiteral("%1 nozzle: %2 → %3")
                    .arg(n.role == Role::Part ? QStringLiteral("part") : QStringLiteral("support"),
                         n.out.isEmpty() ? QStringLiteral("none") : n.out,
                         n.in.isEmpty() ? QStringLiteral("none found") : n.in));
    QStringList facts;
    for (const QString& f : t.facts) facts << words::fact(f);
    say(QStringLiteral("Facts: %1").arg(facts.isEmpty() ? QStringLiteral("nothing changes") : facts.join(QStringLiteral(", "))));
    for (const Finding& f : t.verdicts)
        say(QStringLiteral("  %1 · %2: %3").arg(wording::severity(f.severity), f.rule, sentence(f)));
}

void sayWork(const Changeover& c, const Catalogue& catalogue) {
    say(QStringLiteral("Minutes: %1 internal (%2 hands-on, %3 waiting), %4 preparation, %5 part removal")
            .arg(c.internal.count()).arg(c.handsOn.count()).arg(c.waiting.count()).arg(c.preparation.count())
            .arg(c.partRemoval.count()));
    if (const QString two = wording::twoPeople(c, catalogue); !two.isEmpty()) say(QStringLiteral("  ") + two);
    int number = 0;
    for (const PlannedStep& s : c.steps)
        say(QStringLiteral("%1  %2  %3  %4%5")
                .arg(++number, 3)
                .arg(s.predictable ? QStringLiteral("%1 min").arg(s.planned.count(), 4) : QStringLiteral(" measure"))
                .arg(s.step.handsOn() ? QStringLiteral("hands-on") : QStringLiteral("waiting "), s.step.title,
                     s.step.external ? QStringLiteral(" (before the printer stops)")
                     : s.critical    ? QStringLiteral(" *") : QString()));
    say(QStringLiteral("* on the critical path. Pick list:"));
    for (const PickItem& p : c.pickList)
        say(QStringLiteral("  %1 × %2 %3 %4 · %5%6%7").arg(p.count).arg(p.kind, p.id, p.name, p.place,
            p.note.isEmpty() ? QString() : QStringLiteral(" · ") + p.note, p.missing ? QStringLiteral(" · MISSING") : QString()));
    say(QStringLiteral("The printer's manual, the shop's rules and local codes come before this list."));
}

/// Why there is no changeover to this job any more; empty while there may be one.
QString over(const Shop& shop, const Job& job) {
    if (job.state == JobState::Done) return QStringLiteral("done");
    if (job.state == JobState::Withdrawn) return QStringLiteral("withdrawn");
    for (const Printer& p : shop.catalogue().fleet.printers)
        if (const PrinterNow* now = shop.printer(p.id); now && now->job == job.id && job.state != JobState::Open && job.state != JobState::Failed)
            return job.state == JobState::Printing ? QStringLiteral("being printed on %1").arg(shop.catalogue().printerName(p.id))
                                                   : QStringLiteral("printed; its part lies on %1").arg(shop.catalogue().printerName(p.id));
    return {};
}

/// What the printer shall wear: a job's variant, or a label.
Outcome<TransitionRequest> wanted(const Shop& shop, const PrinterNow& printer, const ChangeoverOptions& options) {
    if (const Job* job = shop.job(options.to)) {
        if (const QString state = over(shop, *job); !state.isEmpty())
            return refusal(QStringLiteral("job-closed"), QStringLiteral("job %1 is %2").arg(job->id, state), QStringLiteral("name an open job's id"));
        for (const Variant& v : job->variants)
            if (options.variant.isEmpty() || v.name == options.variant) return requestFor(printer, *job, v);
        QStringList names;
        for (const Variant& v : job->variants) names.append(v.name);
        return refusal(QStringLiteral("variant"), QStringLiteral("job %1 has no variant %2").arg(job->id, options.variant),
                       QStringLiteral("its variants are %1").arg(names.join(QStringLiteral(", "))));
    }
    for (const MeasuredChangeover& m : shop.catalogue().printer(printer.id)->measured)
        if (m.to == options.to || m.from == options.to) {
            TransitionRequest request;
            request.now = printer;
            request.wanted.label = options.to;
            return request;
        }
    return refusal(QStringLiteral("to"), QStringLiteral("%1 is neither a job nor a setup label of %2").arg(options.to, printer.id),
                   QStringLiteral("name an open job's id"));
}

} // namespace

int changeover(const ChangeoverOptions& options) {
    const SystemClock clock;
    const auto workbench = openShop(options.fleet, Access::Look, clock);
    if (!workbench) return 1;
    const Shop& shop = workbench->shop();
    const PrinterNow* printer = shop.printer(options.printer);
    if (!printer) {
        QStringList ids;
        for (const Printer& p : shop.catalogue().fleet.printers) ids.append(p.id);
        complain(QStringLiteral("There is no printer %1; there are %2").arg(options.printer, ids.join(QStringLiteral(", "))));
        return 2;
    }
    const auto request = wanted(shop, *printer, options);
    if (!request) {
        complain(sentence(request.error()));
        return 2;
    }
    const Transition transition =
        judgeTransition(shop.catalogue(), shop.stock(), planning::asPlanned(shop, *request, workbench->now()), workbench->now());
    const bool jsonOnly = options.json == QStringLiteral("-");
    if (!jsonOnly) sayTransition(shop.catalogue(), transition);
    const auto planned = planChangeover(shop.catalogue(), shop.stock(), transition, workbench->now());
    if (!planned) {
        complain(sentence(planned.error()));
        return 1;
    }
    if (!jsonOnly) sayWork(*planned, shop.catalogue());
    return options.json.isEmpty() || writeFile(options.json, QJsonDocument(toJson(*planned)).toJson()) ? 0 : 1;
}

} // namespace interlude::app
