#pragma once
// Opening a fleet folder with its ledger, as every verb needs it. What is wrong is said on standard error.

#include "app/verbs/verbs.h"
#include "model/shop/workbench.h"

namespace interlude::app {

/// Prints one line to standard output / to standard error, in UTF-8.
void say(const QString& line);
void complain(const QString& line);

/// Null when the folder has problems; all of them have been printed to standard error.
CataloguePtr readFleet(const QString& folder);
/// The file of the ledger; empty when the answer is a refusal, which has been printed.
QString ledgerPath(const FleetOptions& options, const Catalogue& catalogue);

enum class Access {
    Write, ///< takes the station's lock; opening entries are imported
    Look   ///< beside a running window; where there is no ledger yet, one in memory as the first opening would make it
};
/// Null when it cannot be opened; the reason has been printed. `clock` is borrowed.
std::unique_ptr<Workbench> openShop(const FleetOptions& options, Access access, const Clock& clock);

} // namespace interlude::app
