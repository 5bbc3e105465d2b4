#pragma once
// nozzles.yaml, list `nozzle-types`. Example:
//
//   - id: h04
//     name: hardened 0.4
//     orifice-mm: 0.4
//     alloy: hardened steel
//     hardened: true              # may run abrasive materials
//     roles: [part, support]      # positions it fits
//     rated-life-cm3: 9000        # plain
//     rated-life-abrasive-cm3: 2500
//     max-c: 450
//     melt-zone-mm3: 400          # volume of the melt zone that old material stays in
//     dead-space-factor: 2        # 1.5 to 3, common practice
//     unit-with-melt-zone: false  # true: the nozzle comes with its melt zone, only prime
//     prime-cm3: 1.5
//     price: 60
//     printer-types: [low, mid]   # left out = fits all

#include "model/catalogue/material.h"

namespace interlude {

using NozzleTypeId = QString;

struct NozzleType {
    NozzleTypeId id;
    QString name;
    Length orifice;
    QString alloy;
    bool hardened = false;
    QList<Role> roles;
    Volume ratedLife;
    Volume ratedLifeAbrasive;
    Temperature max;
    Volume meltZone;
    double deadSpaceFactor = 2.0;
    bool unitWithMeltZone = false;
    Volume prime;
    Money price;
    QStringList printerTypes;

    bool operator==(const NozzleType&) const = default;
};

} // namespace interlude
