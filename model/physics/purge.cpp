#include "model/physics/purge.h"

#include <boost/math/special_functions/gamma.hpp>
#include <boost/math/tools/toms748_solve.hpp>

#include <cmath>
#include <limits>

namespace interlude::physics {

namespace {

constexpr double notANumber = std::numeric_limits<double>::quiet_NaN();

bool validIndex(double n) {
    return n > 0 && n <= 1; // false for NaN too
}

double thetaMin(double n) {
    return (n + 1) / (3 * n + 1);
}

/// ln of s^p·(1 + p·q) with s = 1 − q: −(p + p²)q²/2 + …. The first-order terms cancel, so in the long tail the series
/// is summed instead; otherwise W would be lost in rounding.
double logNewFraction(double p, double q) {
    if (q > 0.05) return p * std::log1p(-q) + std::log1p(p * q);
    double sum = 0, qk = q, pk = p;
    for (int k = 2; k < 40; ++k) {
        qk *= q;
        pk *= -p; // (−1)^(k+1)·p^k
        sum += qk / k * (pk - p);
        if (qk < 1e-18 * std::abs(sum)) break;
    }
    return sum;
}

/// Smallest theta >= from with fraction(theta) <= wanted; `fraction` falls from 1 to 0.
template <typename F> double thetaWhere(const F& fraction, double from, double wanted) {
    double high = from > 0 ? 2 * from : 1.0;
    for (int doublings = 0; fraction(high) > wanted; ++doublings) {
        if (doublings > 1020) return notANumber;
        high *= 2;
    }
    const auto over = [&](double theta) { return fraction(theta) - wanted; };
    if (over(from) <= 0) return from;
    std::uintmax_t most = 400;
    const auto close = [](double x, double y) { return y - x <= 4e-15 * y; };
    return boost::math::tools::toms748_solve(over, from, high, close, most).second;
}

bool validFraction(double f) {
    return f > 0 && f < 1;
}

} // namespace

double tubeOutletFraction(double theta, double n) {
    if (!validIndex(n) || std::isnan(theta)) return notANumber;
    const double least = thetaMin(n);
    if (theta <= least) return 1.0;
    return -std::expm1(logNewFraction(2 * n / (n + 1), least / theta));
}

double tubeVolumeFraction(double theta, double n) {
    if (!validIndex(n) || std::isnan(theta)) return notANumber;
    const double least = thetaMin(n);
    if (theta <= 0) return 1.0;
    if (theta <= least) return 1 - theta;
    if (std::isinf(theta)) return 0.0;
    const double p = 2 * n / (n + 1), q = least / theta;
    return -std::expm1(p * std::log1p(-q)) - theta * tubeOutletFraction(theta, n);
}

double tanksOutletFraction(double theta, int tanks) {
    if (tanks < 1 || std::isnan(theta)) return notANumber;
    if (theta <= 0) return 1.0;
    if (std::isinf(theta)) return 0.0;
    return boost::math::gamma_q(static_cast<double>(tanks), tanks * theta); // = e^(−Nθ)·Σ (Nθ)^i/i!
}

double tanksVolumeFraction(double theta, int tanks) {
    if (tanks < 1 || std::isnan(theta)) return notANumber;
    if (theta <= 0) return 1.0;
    if (std::isinf(theta)) return 0.0;
    const double count = tanks, x = count * theta;
    if (tanks > 1000) // two functions instead of a long sum; their difference is accurate while it matters
        return boost::math::gamma_q(count, x) - theta * boost::math::gamma_q(count - 1, x);
    double sum = 0;
    for (int j = 0; j < tanks; ++j)
        sum += (count - j) / count * std::exp(j * std::log(x) - x - std::lgamma(j + 1.0));
    return sum;
}

double thetaForOutletFraction(double fraction, double n) {
    if (!validFraction(fraction) || !validIndex(n)) return notANumber;
    return thetaWhere([n](double theta) { return tubeOutletFraction(theta, n); }, thetaMin(n), fraction);
}

double thetaForVolumeFraction(double fraction, double n) {
    if (!validFraction(fraction) || !validIndex(n)) return notANumber;
    return thetaWhere([n](double theta) { return tubeVolumeFraction(theta, n); }, 0.0, fraction);
}

double tanksThetaForOutletFraction(double fraction, int tanks) {
    if (!validFraction(fraction) || tanks < 1) return notANumber;
    return thetaWhere([tanks](double theta) { return tanksOutletFraction(theta, tanks); }, 0.0, fraction);
}

double purgeVolumeMm3(double outletFraction, double n, double meltZoneMm3, double deadSpaceFactor) {
    if (!(meltZoneMm3 >= 0) || !(deadSpaceFactor > 0)) return notANumber;
    return thetaForOutletFraction(outletFraction, n) * meltZoneMm3 * deadSpaceFactor;
}

} // namespace interlude::physics
