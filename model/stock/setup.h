#pragma once
// A setup: what a printer is dressed with, or shall be. In setups.yaml and in job variants:
//
//   setups:
//     - {printer: bay-2, part: pc-ivory, support: acr-clear, part-nozzle: N-031, support-nozzle: N-044,
//        part-spool: S-12, support-spool: S-40, platform-cover: new,
//        residue: [{material: pc-ivory, chamber-max-c: 125, nozzle-max-c: 320}, {material: unknown}], last-print: 2026-02-20T14:00}
//     - {printer: bay-1, label: start}      # a shop that plans by labels only

#include "model/catalogue/nozzle_type.h"
#include "model/clock/instant.h"

namespace interlude {

/// A wanted setup. Empty ids mean: that position is not used.
struct Setup {
    QString label; ///< of a setup known by a label only; then all else is empty
    MaterialId part;
    MaterialId support;
    NozzleTypeId partNozzle;
    NozzleTypeId supportNozzle;
    std::optional<Temperature> chamber; ///< set-point other than the part material's nominal one
    bool operator==(const Setup&) const = default;
};

} // namespace interlude
