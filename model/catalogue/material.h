#pragma once
// materials.yaml. Example of one entry, with the YAML keys in the order of the fields:
//
//   - id: abs-grey
//     polymer: ABS                # ISO 1043-1 abbreviation
//     name: Marlow 20             # invented grade name
//     role: part                  # or support
//     chamber-family: styrenics
//     melt-family: styrenics
//     chamber-c: 90               # nominal set-point; a support may leave it out: it follows the part material
//     nozzle-c: 265               # nominal
//     melt-min-c: 230             # the window in which it flows …
//     melt-max-c: 280             # … and above which it decomposes
//     softening-c: 105
//     density-g-per-cm3: 1.04
//     diameter-mm: 1.75
//     abrasive: false
//     leaves: soluble             # supports only: soluble | break-away
//     supports: [acr-clear]       # part materials: the support materials that go with it
//     orifices-mm: [0.4, 0.6]     # allowed
//     flow-index: 0.4             # power-law n; left out = 1.0 (conservative)
//     drying-c: 80 / drying-hours: 3 / exposure-hours: 12   # overdue after this long in the open; left out = no rule
//     price-per-kg: 90
//     emission: styrene …         # free text for the caution

#include "model/quantities/quantities.h"

#include <QList>
#include <QString>
#include <QStringList>

#include <optional>

namespace interlude {

using MaterialId = QString;

enum class Role { Part, Support };
enum class Leaves { NotASupport, Soluble, BreakAway };

struct Material {
    MaterialId id;
    QString polymer;
    QString name;
    Role role = Role::Part;
    QString chamberFamily;
    QString meltFamily;
    std::optional<Temperature> chamber;
    Temperature nozzle;
    Temperature meltMin;
    Temperature meltMax;
    Temperature softening;
    double densityGPerCm3 = 1.0;
    Length diameter = Length::fromMicrometres(1750);
    bool abrasive = false;
    Leaves leaves = Leaves::NotASupport;
    QStringList supports;
    QList<Length> orifices;
    double flowIndex = 1.0;
    std::optional<Temperature> drying;
    std::optional<Minutes> dryingTime;
    std::optional<Minutes> exposureLimit;
    Money pricePerKg;
    QString emission;

    bool operator==(const Material&) const = default;
};

} // namespace interlude
