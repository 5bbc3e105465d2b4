#pragma once
// One reader for each file of a fleet folder: tree in, catalogue filled, problems collected in the reading.

#include "model/catalogue/fields.h"

namespace interlude {

void readFleet(Reading& r, const YamlNode& root, Catalogue& out);
void readMaterials(Reading& r, const YamlNode& root, Catalogue& out);
void readNozzles(Reading& r, const YamlNode& root, Catalogue& out);
/// The list `nozzles` of nozzles.yaml alone, without the types.
void readNozzleUnits(Reading& r, Fields& top, Catalogue& out);
void readSpools(Reading& r, const YamlNode& root, Catalogue& out);
void readSetups(Reading& r, const YamlNode& root, Catalogue& out);
void readJobs(Reading& r, const YamlNode& root, Catalogue& out);
void readProcedures(Reading& r, const YamlNode& root, Catalogue& out);

/// `print` of a setup; empty after having complained.
std::optional<OpeningPrint> readRunningPrint(Reading& r, const YamlNode& node, const PrinterId& printer);

/// Parts of fleet.yaml.
void readShifts(Fields& fleet, Fleet& out);
void readPrinterTypes(Fields& fleet, Fleet& out);
void readPrinters(Fields& fleet, Fleet& out);
/// The table of `measured-changeovers`.
QList<MeasuredChangeover> readMeasured(Reading& r, const QString& file, const Where& named);
/// Part of a step.
void readConfirmation(Fields& step, Confirmation& out);
void readDuration(Fields& step, StepTemplate& out);

/// `[x, y, z]` in mm.
bool readEnvelope(Fields& f, const QString& key, std::optional<Envelope>& out);

// Checks across entries, when every file has been read.
/// Opening setups against spools, nozzles, materials and printers.
void checkSetups(Reading& r, const Catalogue& c);
/// Running prints against jobs and setups; fills in the variant and the minutes where the job says them.
void settleRunningPrints(Reading& r, Catalogue& c);
/// What two entries say together: supports softer than the part's chamber, nozzles and their families, opening dates.
void checkMaterials(Reading& r, const Catalogue& c);
/// Warns of variants that no printer can take, and says why.
void checkJobs(Reading& r, const Catalogue& c);
/// Cycles, and effects that cannot hold in the order of the steps.
void checkProcedures(Reading& r, const Catalogue& c);

} // namespace interlude
