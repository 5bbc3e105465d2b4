#pragma once
// Feedstock arithmetic, domain reference 4: length, volume and mass of a strand; risk of running out. Invalid input
// (NaN, a diameter or density <= 0, a negative standard error) answers NaN.

namespace interlude::physics {

/// Cross section of a strand, mm².
double strandAreaMm2(double diameterMm);
/// Metres of strand per cm³.
double metresPerCm3(double diameterMm);
/// Grams per metre at a density in g/cm³.
double gramsPerMetre(double diameterMm, double densityGPerCm3);
/// Probability that need exceeds what is left, both normal, in grams.
double probabilityShort(double left, double leftSe, double need, double needSe);

} // namespace interlude::physics
