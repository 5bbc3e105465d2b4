#include "model/shop/fold/residue.h"

#include <algorithm>

namespace interlude {

namespace {

void raise(std::optional<Temperature>& seen, std::optional<Temperature> to) {
    if (to && (!seen || *seen < *to))
        seen = to;
}

std::optional<Temperature> lower(std::optional<Temperature> a, std::optional<Temperature> b) {
    if (!a || !b)
        return {};
    return std::min(*a, *b);
}

} // namespace

void raiseSeen(QList<ResidueItem>& residue, std::optional<Temperature> chamber, std::optional<Temperature> nozzle) {
    for (ResidueItem& item : residue) {
        raise(item.chamberSeen, chamber);
        raise(item.nozzleSeen, nozzle);
    }
}

void deposit(QList<ResidueItem>& residue, const MaterialId& material, std::optional<Temperature> chamber,
             std::optional<Temperature> nozzle) {
    if (material.isEmpty())
        return;
    for (ResidueItem& item : residue) {
        if (item.material != material)
            continue;
        item.chamberSeen = lower(item.chamberSeen, chamber);
        item.nozzleSeen = lower(item.nozzleSeen, nozzle);
        return;
    }
    residue.append(ResidueItem{material, chamber, nozzle});
}

} // namespace interlude
