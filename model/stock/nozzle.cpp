#include "model/stock/nozzle.h"

#include <algorithm>

namespace interlude {

namespace {

/// Share of one account; empty when something ran that the type is not rated for.
std::optional<double> share(Volume run, Volume rated) {
    if (run.mm3() <= 0) return 0.0;
    if (rated.mm3() <= 0) return {};
    return static_cast<double>(run.mm3()) / static_cast<double>(rated.mm3());
}

} // namespace

std::optional<double> lifeUsed(const Nozzle& n, const NozzleType& t) {
    if (!n.run.known || (t.ratedLife.mm3() <= 0 && t.ratedLifeAbrasive.mm3() <= 0)) return {};
    const std::optional<double> plain = share(n.run.plain, t.ratedLife);
    const std::optional<double> abrasive = share(n.run.abrasive, t.ratedLifeAbrasive);
    if (!plain || !abrasive) return {};
    return *plain + *abrasive;
}

std::optional<Volume> lifeLeft(const Nozzle& n, const NozzleType& t, bool abrasive) {
    const std::optional<double> used = lifeUsed(n, t);
    const Volume rated = abrasive ? t.ratedLifeAbrasive : t.ratedLife;
    if (!used || rated.mm3() <= 0) return {};
    return Volume::fromCm3(std::max(0.0, 1 - *used) * rated.cm3());
}

} // namespace interlude
