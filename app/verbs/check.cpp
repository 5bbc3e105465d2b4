#include "app/verbs/opened_shop.h"

#include "model/catalogue/reader.h"

namespace interlude::app {

namespace {

/// Opening entries that differ from what the ledger imported earlier, or that it cannot import, are reported, never applied.
/// Where there is no ledger yet, as the first opening would find them.
void reportDifferences(const FleetOptions& options, const Catalogue& catalogue) {
    if (!ledgerFile(options.ledger, catalogue.fleet.ledger, options.folder, catalogue.fleet.id)) return;
    const SystemClock clock;
    const auto workbench = openShop(options, Access::Look, clock);
    if (!workbench) return;
    for (const Problem& p : workbench->openingDifferences()) say(p.text());
}

} // namespace

int check(const FleetOptions& options) {
    const CatalogueReading reading = readFleetFolder(options.folder);
    qsizetype wrong = 0;
    for (const Problem& p : reading.problems) {
        say(p.text());
        if (!p.warning) ++wrong;
    }
    if (!reading.catalogue) {
        complain(QStringLiteral("%1 problem%2: the folder is refused as a whole until they are mended")
                     .arg(wrong)
                     .arg(wrong == 1 ? QString() : QStringLiteral("s")));
        return 1;
    }
    reportDifferences(options, *reading.catalogue);
    const Catalogue& c = *reading.catalogue;
    say(QStringLiteral("%1: %2 printers, %3 materials, %4 nozzle types, %5 steps; opening entries: %6 nozzles, "
                       "%7 spools, %8 jobs. Nothing refuses it.")
            .arg(c.fleet.name)
            .arg(c.fleet.printers.size())
            .arg(c.materials.size())
            .arg(c.nozzleTypes.size())
            .arg(c.procedures.steps.size())
            .arg(c.openings.nozzles.size())
            .arg(c.openings.spools.size())
            .arg(c.openings.jobs.size()));
    return 0;
}

} // namespace interlude::app
