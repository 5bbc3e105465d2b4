#pragma once
// One physical nozzle. In nozzles.yaml, list `nozzles`, and in CSV with the same names as columns:
//
//   nozzles:
//     - {serial: N-031, type: h04, run-cm3: 412, run-abrasive-cm3: 80, melt-family: polyamides, place: rack-a, state: used}
//     - {serial: N-032, type: h04, run-cm3: no-history, melt-family: styrenics, place: rack-a}
//     - {serial: N-033, type: h04, place: rack-a}          # new: both run volumes left out = 0, no melt family

#include "model/catalogue/nozzle_type.h"
#include "model/clock/instant.h"

namespace interlude {

using NozzleSerial = QString;

/// Run volume: what went through so far, plain and abrasive apart. Empty = no history, which is never counted as zero.
struct RunVolume {
    bool known = true;
    Volume plain;
    Volume abrasive;
    bool operator==(const RunVolume&) const = default;
};

enum class NozzleWhere { Shelf, Mounted, Retired };

struct NozzleMeasurement {
    Instant at;
    Length orifice;
    QString instrument;
    QString who;
};

struct Nozzle {
    NozzleSerial serial;
    NozzleTypeId type;
    RunVolume run;
    QString meltFamily; ///< served since first use; empty = never used
    NozzleWhere where = NozzleWhere::Shelf;
    QString place;       ///< shelf place id, or the printer's id when mounted
    QString home;        ///< while mounted: the shelf place that it came from
    Role position = Role::Part; ///< when mounted
    bool toBeCleaned = false;
    QList<NozzleMeasurement> measurements;
    QString retiredWhy;
    int order = 0; ///< file order, then order of receipt
};

/// Share of the rated life used, 0 = new; the abrasive and the plain account are added. Empty when without history or
/// without a rated life for what it ran.
std::optional<double> lifeUsed(const Nozzle& n, const NozzleType& t);
/// Volume of a material of this abrasiveness that the rated life still allows; 0 when worn. Empty: no history,
/// or no rated life for it.
std::optional<Volume> lifeLeft(const Nozzle& n, const NozzleType& t, bool abrasive);

} // namespace interlude
