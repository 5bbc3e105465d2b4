#pragma once
// What the shop has in hand, by id, as the fold sees it now.

#include "model/stock/nozzle.h"
#include "model/stock/spool.h"

#include <QMap>

namespace interlude {

struct Stock {
    QMap<SpoolId, Spool> spools;
    QMap<NozzleSerial, Nozzle> nozzles;
};

} // namespace interlude
