#pragma once
// The present state of one printer, as far as a changeover needs it: a plain snapshot.

#include "model/catalogue/fleet.h"
#include "model/stock/job.h"
#include "model/stock/nozzle.h"
#include "model/stock/spool.h"

namespace interlude {

/// One residue item per deposit. Empty temperatures = not known (treated as never having been warm).
struct ResidueItem {
    MaterialId material; ///< empty = unknown material: clean-out mandatory
    std::optional<Temperature>
        chamberSeen;                       ///< highest chamber temperature since deposited, the depositing run included
    std::optional<Temperature> nozzleSeen; ///< highest nozzle temperature likewise (wiper and bin)
    bool operator==(const ResidueItem&) const = default;
};

/// One of the two positions: what is mounted and loaded.
struct PositionNow {
    NozzleSerial nozzle; ///< empty = no nozzle mounted
    SpoolId spool;       ///< empty = nothing loaded
    MaterialId loaded;   ///< material of the feedstock in the path; empty = none
    MaterialId inMelt;   ///< material that stays in the melt zone; empty = none (new or cleaned)
    bool operator==(const PositionNow&) const = default;
};

enum class Activity { Idle, Printing, PartLying, InChangeover, Down };
enum class PrintOutcome { Good, Failed, Stopped };

struct PrinterNow {
    PrinterId id;
    QString label; ///< of a setup known by label only
    PositionNow part, support;
    QString platformCover;                 ///< empty = none mounted or not tracked; else `fresh` or `used`
    QList<ResidueItem> residue;            ///< chamber
    QList<ResidueItem> wiper;              ///< wiper and waste bin
    MaterialId lastPart, lastSupport;      ///< pair of the last print
    std::optional<Temperature> chamberSet; ///< last chamber set-point (of the running or last print or heating)
    std::optional<Temperature> nozzleSet;
    Activity activity = Activity::Idle;
    JobId job; ///< running, or whose part is lying there
    QString variant;
    std::optional<Instant> printStarted, printExpectedEnd, lastPrintEnd;
    QString downWhy;
    std::optional<Instant> downSince, downUntil;
    bool open = false; ///< left mixed by a stopped session: no print may start
};

/// Position of a role.
inline const PositionNow& at(const PrinterNow& p, Role r) {
    return r == Role::Part ? p.part : p.support;
}
inline PositionNow& at(PrinterNow& p, Role r) {
    return r == Role::Part ? p.part : p.support;
}

} // namespace interlude
