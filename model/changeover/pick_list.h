#pragma once
// What to fetch before the printer stops (private to model/changeover).

#include "model/changeover/changeover.h"

namespace interlude {

/// Nozzles and spools that go in, a platform cover, tools (the most that one step needs), consumables (summed),
/// instruments with their calibration, protection. Places are ids of fleet.yaml.
QList<PickItem> pickList(const Catalogue& catalogue, const Stock& stock, const Changeover& c, Instant now);

} // namespace interlude
