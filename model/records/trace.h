#pragma once
// Which parts came from a lot or through a nozzle, and everything that went into a part or job: told from the prints that the
// shop has folded from its ledger. What ran before the ledger began is not known to it.

#include "model/shop/shop.h"

namespace interlude {

enum class TraceBy { Lot, Nozzle, Part, Job };
/// The word of the command line for it; empty for an unknown one.
std::optional<TraceBy> traceBy(const QString& word);
QString word(TraceBy by);

/// One print.
struct TracedPrint {
    PrintRun run;
    Job job;          ///< as it is now
    QList<Spool> spools; ///< in the order in which they came to be loaded
    QString lots() const; ///< each once, with its spools: "L2207 (S-12, S-13)"
};

struct Trace {
    TraceBy by = TraceBy::Lot;
    QString id;
    QStringList about;          ///< lines about the lot, nozzle, part or job itself
    QList<TracedPrint> prints;  ///< in the order of their starts
    QList<SessionSummary> sessions; ///< changeovers that ended without a print: of a part or job
};

/// Refused (`trace-unknown`) when the ledger knows nothing of that name. A part is named by its part number.
Outcome<Trace> trace(const Shop& shop, TraceBy by, const QString& id);

/// "good", "failed", "stopped", "running" or "not said".
QString outcomeWord(const PrintRun& run);
/// Lines for people, times in the shop's zone.
QString traceText(const Trace& trace, const Catalogue& catalogue);

} // namespace interlude
