#include "model/physics/heat.h"

#include <boost/math/tools/toms748_solve.hpp>

#include <algorithm>
#include <cmath>
#include <limits>

namespace interlude::physics {

namespace {

constexpr double notANumber = std::numeric_limits<double>::quiet_NaN();

template <typename... T> bool finite(T... v) {
    return (std::isfinite(v) && ...);
}

/// One temperature over the room as slow·e^(−l1·t) + fast·e^(−l2·t), 0 < l1 < l2.
struct TwoModes {
    double l1, l2, slow, fast;
    double at(double t) const { return slow * std::exp(-l1 * t) + fast * std::exp(-l2 * t); }
    /// The only extremum after the start, or 0: from there on the course is monotonic.
    double turning() const {
        if (slow == 0.0) return 0.0;
        const double ratio = -fast * l2 / (slow * l1);
        return ratio > 1.0 ? std::log(ratio) / (l2 - l1) : 0.0;
    }
};

struct Modes {
    TwoModes head, chamber;
};

/// Domain reference 1.4. Empty for a body or temperatures that no real printer can have.
std::optional<Modes> solve(const TwoNodes& body, double room, TwoTemperatures start) {
    if (!finite(body.c1, body.c2, body.g12, body.g20, room, start.head, start.chamber)) return {};
    if (body.c1 <= 0 || body.c2 <= 0 || body.g12 <= 0 || body.g20 <= 0) return {};
    const double a = body.g12 / body.c1, b = body.g12 / body.c2, g = body.g20 / body.c2;
    const double s = a + b + g;
    // (a−g)² + b² + 2b(a+g) = s² − 4ag without the cancellation; likewise l1 = ag/l2.
    const double root = std::sqrt((a - g) * (a - g) + b * b + 2 * b * (a + g));
    const double l2 = (s + root) / 2, l1 = a * g / l2;
    if (!finite(l1, l2) || !(l1 > 0) || !(root > 0)) return {};
    const double r1 = 1 - l1 / a, r2 = 1 - l2 / a;
    const double u1 = start.head - room, u2 = start.chamber - room;
    const double a1 = (u2 - r2 * u1) / (r1 - r2), a2 = (r1 * u1 - u2) / (r1 - r2);
    if (!finite(a1, a2)) return {};
    return Modes{{l1, l2, a1, a2}, {l1, l2, r1 * a1, r2 * a2}};
}

/// Root of `over` in [from, to], over(from) > 0 >= over(to); the later end, so that the level is reached.
template <typename F> double crossing(const F& over, double from, double to) {
    std::uintmax_t most = 300;
    const auto close = [](double x, double y) { return std::abs(y - x) <= 1e-4 + 4e-16 * std::abs(y); };
    return boost::math::tools::toms748_solve(over, from, to, close, most).second;
}

} // namespace

std::optional<double> oneNodeTimeTo(double t0, double tInf, double t, double tau) {
    if (!finite(t0, tInf, t, tau) || tau <= 0) return {};
    if (t == t0) return 0.0;
    const bool between = (t0 > t && t > tInf) || (t0 < t && t < tInf);
    if (!between) return {};
    return tau * std::log((t0 - tInf) / (t - tInf));
}

double oneNodeTemperature(double t0, double tInf, double tau, double seconds) {
    if (!finite(t0, tInf, tau, seconds) || tau <= 0 || seconds < 0) return notANumber;
    return tInf + (t0 - tInf) * std::exp(-seconds / tau);
}

TwoTemperatures twoNodeTemperatures(const TwoNodes& body, double room, TwoTemperatures start, double seconds) {
    const std::optional<Modes> modes = solve(body, room, start);
    if (!modes || !finite(seconds) || seconds < 0) return {notANumber, notANumber};
    return {room + modes->head.at(seconds), room + modes->chamber.at(seconds)};
}

std::optional<double> twoNodeTimeTo(const TwoNodes& body, double room, TwoTemperatures start, double t, Node node) {
    const std::optional<Modes> modes = solve(body, room, start);
    if (!modes || !std::isfinite(t) || t <= room) return {};
    const TwoModes& course = node == Node::Head ? modes->head : modes->chamber;
    const double level = t - room, turning = course.turning();
    const auto over = [&](double at) { return course.at(at) - level; };
    if (course.slow < 0) // falls below the room and comes back from there: only the first stretch can be above
        return over(0) <= 0 ? 0.0 : crossing(over, 0, turning);
    // Rises first (a head that the chamber still warms), or falls from the start; from `turning` on it only falls.
    if (over(turning) <= 0) return 0.0;
    const double span = (std::abs(course.slow) + std::abs(course.fast)) / level;
    const double latest = std::log(std::max(span, 1.0)) / (course.slow > 0 ? course.l1 : course.l2);
    return crossing(over, turning, std::max(latest, turning) * (1 + 1e-9) + 1.0);
}

std::optional<TimeBand> oneNodeCooling(double t0, double room, double t, double tau, double tauSe) {
    if (!finite(t0, room, t, tau, tauSe) || tau <= 0 || tauSe < 0 || room >= t) return {};
    if (t0 <= t) return TimeBand{0, 0};
    const std::optional<double> expected = oneNodeTimeTo(t0, room, t, tau);
    const std::optional<double> upper = oneNodeTimeTo(t0, room, t, tau + 2 * tauSe);
    if (!expected || !upper) return {};
    return TimeBand{*expected, *upper};
}

std::optional<TimeBand> twoNodeCooling(const TwoNodes& body, double g12Se, double g20Se, double room,
                                       TwoTemperatures start, double t, Node node) {
    if (!finite(g12Se, g20Se) || g12Se < 0 || g20Se < 0) return {};
    const TwoNodes slow{body.c1, body.c2, body.g12 - 2 * g12Se, body.g20 - 2 * g20Se};
    const std::optional<double> expected = twoNodeTimeTo(body, room, start, t, node);
    const std::optional<double> upper = twoNodeTimeTo(slow, room, start, t, node);
    if (!expected || !upper) return {};
    // A weaker coupling can let the chamber look cool a little earlier while the head is still full of heat.
    return TimeBand{*expected, std::max(*expected, *upper)};
}

Heating powerLimitedHeating(double t0, double ceiling, double set, double tau) {
    if (!finite(t0, ceiling, set, tau) || tau <= 0 || set >= ceiling) return {HeatingAnswer::Unreachable, 0, 0};
    if (t0 >= set) return {HeatingAnswer::Seconds, 0, 0};
    Heating out;
    out.seconds = tau * std::log((ceiling - t0) / (ceiling - set));
    out.perKelvinCeiling = tau * (1 / (ceiling - t0) - 1 / (ceiling - set));
    if (ceiling - set < 0.05 * (ceiling - t0)) out.answer = HeatingAnswer::NotPredictable;
    return out;
}

double biot(double h, double lc, double k) {
    return finite(h, lc, k) && k > 0 ? h * lc / k : notANumber;
}

double lumpedTau(double rho, double c, double lc, double h) {
    return finite(rho, c, lc, h) && h > 0 ? rho * c * lc / h : notANumber;
}

} // namespace interlude::physics
