#include "model/physics/feedstock.h"

#include <cmath>
#include <limits>
#include <numbers>

namespace interlude::physics {

namespace {
constexpr double notANumber = std::numeric_limits<double>::quiet_NaN();
} // namespace

double strandAreaMm2(double diameterMm) {
    return diameterMm > 0 ? std::numbers::pi * diameterMm * diameterMm / 4 : notANumber;
}

double metresPerCm3(double diameterMm) {
    return 1.0 / strandAreaMm2(diameterMm); // 1000 mm³ over mm² in mm, over 1000
}

double gramsPerMetre(double diameterMm, double densityGPerCm3) {
    return densityGPerCm3 > 0 ? strandAreaMm2(diameterMm) * densityGPerCm3 : notANumber; // mm² = cm³ per metre
}

double probabilityShort(double left, double leftSe, double need, double needSe) {
    if (!std::isfinite(left) || !std::isfinite(need) || !(leftSe >= 0) || !(needSe >= 0)) return notANumber;
    const double spread = std::hypot(leftSe, needSe);
    if (spread == 0) return need > left ? 1.0 : 0.0;
    return 0.5 * std::erfc((left - need) / spread / std::numbers::sqrt2);
}

} // namespace interlude::physics
