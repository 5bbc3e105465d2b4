#pragma once
// Opening a fleet folder with its ledger, as every verb needs it. What is wrong is said on standard error, or told to
// whom the caller names.

#include "app/verbs/verbs.h"
#include "app/verbs/watched_store.h"
#include "model/shop/workbench.h"

#include <functional>

namespace interlude::app {

/// Prints one line to standard output / to standard error, in UTF-8.
void say(const QString& line);
void complain(const QString& line);
/// Writes the whole file (`-`: standard output); false, having complained, when it cannot.
bool writeFile(const QString& file, const QByteArray& bytes);

/// Takes one line of what is wrong.
using Tell = std::function<void(const QString&)>;

/// Null when the folder has problems; all of them have been told. `problems` (may be null) takes them, warnings too.
CataloguePtr readFleet(const QString& folder, const Tell& tell = complain, Problems* problems = nullptr);
/// The file of the ledger; empty when the answer is a refusal, which has been told.
QString ledgerPath(const FleetOptions& options, const Catalogue& catalogue, const Tell& tell = complain);

/// Writes the files of a small fleet into a new or empty folder; the exit code, and what went wrong is told.
int newFleet(const QString& folder, const Tell& tell);

enum class Access {
    Write, ///< takes the station's lock; opening entries are imported
    Look   ///< beside a running window; where there is no ledger yet, one in memory as the first opening would make it
};
/// Null when it cannot be opened; the reason has been told. `clock` is borrowed. `reading` hears how far the ledger has
/// been read; where it stopped that, it is null and nothing is told. `problems` (may be null): those of the folder.
std::unique_ptr<Workbench> openShop(const FleetOptions& options, Access access, const Clock& clock,
                                    const Tell& tell = complain, const Reading& reading = readingOnStandardError(),
                                    Problems* problems = nullptr);

} // namespace interlude::app
