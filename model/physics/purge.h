#pragma once
// How much must flow through a melt zone until little enough of the old material leaves the nozzle. theta is the purged
// volume over the melt-zone volume. Two residuals are never mixed up: W, the flow-weighted fraction of OLD material in
// what leaves now, and Vres, the volume fraction of it still inside. Source: domain reference 3 (Levenspiel for the
// Newtonian tube and the mixed tanks; the power law is derived there and checked by quadrature). Invalid input (NaN, n
// outside (0, 1], tanks < 1, a fraction outside (0, 1)) answers NaN; theta <= 0 is a zone not purged yet: fraction 1.

#include <optional>

namespace interlude::physics {

/// Outlet fraction of old material of a laminar tube with power-law index n in (0, 1].
double tubeOutletFraction(double theta, double n);
/// Volume fraction of old material still in the tube.
double tubeVolumeFraction(double theta, double n);
/// The same for N equal mixed tanks in a row (N >= 1).
double tanksOutletFraction(double theta, int tanks);
double tanksVolumeFraction(double theta, int tanks);

/// Smallest theta with tubeOutletFraction(theta, n) <= fraction; fraction in (0, 1).
double thetaForOutletFraction(double fraction, double n);
double thetaForVolumeFraction(double fraction, double n);
double tanksThetaForOutletFraction(double fraction, int tanks);

/// Volume to purge, mm³: theta(W <= fraction) × melt zone × dead-space factor.
double purgeVolumeMm3(double outletFraction, double n, double meltZoneMm3, double deadSpaceFactor);

} // namespace interlude::physics
