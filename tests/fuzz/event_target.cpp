// A stored event: the first line is its kind, the rest its payload as JSON. What can be read is written as it was read,
// and what a person may do leaves a shop that can be planned.

#include "model/planning/plans/plan_maker.h"
#include "model/planning/plans/published.h"
#include "tests/fuzz/small_shop.h"

#include <QJsonDocument>

using namespace interlude;
using namespace interlude::tests;

INTERLUDE_FUZZ_TARGET(event) {
    const auto end = input.indexOf('\n');
    if (end < 0) return;
    const QString kind = QString::fromUtf8(input.left(end));
    const QJsonObject payload = QJsonDocument::fromJson(input.mid(end + 1)).object();
    const auto act = fromPayload(kind, payload);
    if (!act) {
        promise(!act.error().reason.isEmpty(), "a refusal says why");
        return;
    }
    const QJsonObject out = toPayload(*act);
    const auto again = fromPayload(kind, out);
    promise(again.has_value(), "what was written can be read", again ? QString() : sentence(again.error()));
    promise(toPayload(*again) == out, "what was written says the same");
    const Shop& shop = smallShop().shop();
    // The program alone tells of a catalogue, and has read it by then.
    const bool allowed = kind != QLatin1String(act::CatalogueRead::kind) && refusalsIn(objections(shop, *act, QStringLiteral("ML"), smallNow())).isEmpty();
    Shop after = shop;
    const auto folded = after.apply(nextEvent(kind, out));
    promise(folded || stateJson(after) == stateJson(shop), "what cannot be folded changes nothing");
    promise(folded || !allowed, "what may happen can be folded", folded ? QString() : sentence(folded.error()));
    (void)stateJson(after);
    if (!allowed) return;
    const planning::ShopProblem problem = planning::shopProblem(after, smallNow());
    (void)planning::timetable(problem.problem, *problem.changes, planning::publishedOrders(after, problem));
}
