// A published plan as the ledger keeps it, JSON: whatever it names, what is left of it can be planned with and told.

#include "model/planning/plans/plan_maker.h"
#include "model/planning/plans/published.h"
#include "tests/fuzz/small_shop.h"

#include <QJsonDocument>

using namespace interlude;
using namespace interlude::tests;

static QStringList sequences(const Plan& plan) {
    QStringList out;
    for (const PrinterOrder& order : plan.printers)
        for (const PlannedJob& job : order.jobs) out << order.printer + QLatin1Char('/') + job.job + QLatin1Char('/') + job.variant;
    return out;
}

INTERLUDE_FUZZ_TARGET(plan) {
    const auto act = fromPayload(QString::fromLatin1(act::PlanPublished::kind), QJsonDocument::fromJson(input).object());
    if (!act) return;
    Shop after = smallShop().shop();
    if (!after.apply(nextEvent(kindOf(*act), toPayload(*act)))) return;
    const planning::ShopProblem problem = planning::shopProblem(after, smallNow());
    const planning::Orders orders = planning::publishedOrders(after, problem);
    const planning::Timetable times = planning::timetable(problem.problem, *problem.changes, orders);
    (void)planning::departures(after, smallNow());
    for (const Printer& p : after.catalogue().fleet.printers) (void)planning::nextPlanned(after, p.id);
    const Plan plan = planning::planOf(problem, orders, times, planning::Goal::Cost, {});
    Shop twice = after;
    Event e = nextEvent(QString::fromLatin1(act::PlanPublished::kind), toPayload(act::PlanPublished{plan}));
    e.sequence = after.lastSequence() + 1;
    promise(twice.apply(e).has_value(), "what is left of a plan can be published again");
    // What could not be placed has gone from it; what was placed stands where it stood.
    const planning::ShopProblem left = planning::shopProblem(twice, smallNow());
    const planning::Orders again = planning::publishedOrders(twice, left);
    const planning::Timetable same = planning::timetable(left.problem, *left.changes, again);
    promise(sequences(planning::planOf(left, again, same, planning::Goal::Cost, {})) == sequences(plan), "and is the same plan");
}
