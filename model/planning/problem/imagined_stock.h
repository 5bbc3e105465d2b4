#pragma once
// Planning asks what a changeover would be before it is known which nozzle and which spool will serve. So it asks with an
// imagined stock: of every nozzle type one nozzle of each melt family (and a second one, to be exchanged for a worn one) and
// one never used, and of every material one dry spool that never ends. Which real nozzle serves is the timetable's business,
// whether the feedstock suffices that of the reservations.

#include "model/catalogue/catalogue.h"
#include "model/changeover/printer_now.h"
#include "model/stock/stock.h"

namespace interlude::planning {

Stock imaginedStock(const Catalogue& catalogue);
/// Serial of the imagined nozzle; an empty family is one never used. `other`: the second one.
NozzleSerial imaginedNozzle(const NozzleTypeId& type, const QString& family, bool other = false);
SpoolId imaginedSpool(const MaterialId& material);
/// The printer with its nozzles and spools replaced by imagined ones of the same kind; names, times and job are dropped, so
/// that printers that stand alike become equal. A nozzle in use serves the family of what went through it.
PrinterNow imagined(const Catalogue& catalogue, const Stock& real, PrinterNow printer);

} // namespace interlude::planning
