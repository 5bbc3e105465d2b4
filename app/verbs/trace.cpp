#include "app/verbs/opened_shop.h"

#include "model/records/trace.h"

namespace interlude::app {

int trace(const FleetOptions& options, const QString& kind, const QString& id) {
    const auto by = traceBy(kind);
    if (!by) {
        complain(QStringLiteral("trace what? lot, nozzle, part or job, not \"%1\"").arg(kind));
        return 2;
    }
    const SystemClock clock;
    const auto workbench = openShop(options, Access::Look, clock);
    if (!workbench) return 1;
    const auto found = interlude::trace(workbench->shop(), *by, id);
    if (!found) {
        complain(sentence(found.error()));
        return 2;
    }
    say(traceText(*found, workbench->catalogue()).chopped(1)); // say ends the line itself
    return 0;
}

} // namespace interlude::app
