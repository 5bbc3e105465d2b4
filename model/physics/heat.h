#pragma once
// Heating and cooling of chamber, head and platform. Plain numbers in SI (s, °C as double, K, J/K, W/K): this is the
// numeric core; conversions to quantities happen at its callers. Sources: domain reference 1.1, 1.2, 1.4, 1.5, 2.2
// (Incropera & DeWitt; Cengel; Lienhard for one node; the two-node closed form is derived there). Input that no body can
// have (NaN, infinite, tau, heat capacity or conductance <= 0, time < 0) gives an empty answer, or NaN where there is no
// empty one.

#include <optional>

namespace interlude::physics {

/// Time for one node to go from `t0` to `t` towards `tInf` with time constant `tau` (s). 0 when already there.
/// Empty when `t` is never reached (not strictly between, e.g. the room is warmer than the wanted temperature).
std::optional<double> oneNodeTimeTo(double t0, double tInf, double t, double tau);
/// Temperature of one node after `seconds`.
double oneNodeTemperature(double t0, double tInf, double tau, double seconds);

/// Two nodes, heaters off: head block (1) inside the chamber (2) inside a room. Conductances > 0.
struct TwoNodes {
    double c1, c2;   ///< J/K
    double g12, g20; ///< W/K
};
struct TwoTemperatures {
    double head, chamber;
};
TwoTemperatures twoNodeTemperatures(const TwoNodes& body, double room, TwoTemperatures start, double seconds);
enum class Node { Head, Chamber };
/// Time until that node has fallen to `t` for good; bracketed and bisected to 1 ms. Empty when t <= room.
std::optional<double> twoNodeTimeTo(const TwoNodes& body, double room, TwoTemperatures start, double t, Node node);

/// A predicted time with its upper end, in seconds.
struct TimeBand {
    double expected;
    double upper;
};
/// Cooling of one node; the upper end uses tau + 2·se (domain reference 2.2). 0 when already at or below `t`; empty when
/// the room is not cooler than `t`.
std::optional<TimeBand> oneNodeCooling(double t0, double room, double t, double tau, double tauSe);
/// Cooling of two nodes; the upper end lowers each conductance by 2·se (a conductance that this brings to 0 or below
/// gives no prediction); never less than the expected time.
std::optional<TimeBand> twoNodeCooling(const TwoNodes& body, double g12Se, double g20Se, double room,
                                       TwoTemperatures start, double t, Node node);

/// Heating at full power towards `ceiling` (T∞). `Unreachable` when set >= ceiling, `NotPredictable` when
/// ceiling − set < 5 % of ceiling − t0 (domain reference 1.2), else seconds without the settle time. 0 s when already
/// there. Input that no heater can have answers `Unreachable`.
enum class HeatingAnswer { Seconds, NotPredictable, Unreachable };
struct Heating {
    HeatingAnswer answer = HeatingAnswer::Seconds;
    double seconds = 0;      ///< also given, as a rough figure, when NotPredictable
    double perKelvinCeiling = 0; ///< dt/dT∞, s/K, negative
};
Heating powerLimitedHeating(double t0, double ceiling, double set, double tau);

/// Biot number h·Lc/k and time constant rho·c·Lc/h of a lumped body; SI units.
double biot(double h, double lc, double k);
double lumpedTau(double rho, double c, double lc, double h);

} // namespace interlude::physics
