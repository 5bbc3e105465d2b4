#pragma once
// Quantities: one integer base unit each, every conversion named, so that a bare number never crosses a border.
// Integers because they are stored, hashed and compared; physics converts to double at its own door.

#include <QtGlobal>

#include <chrono>
#include <cmath>
#include <compare>

namespace interlude {

using Seconds = std::chrono::seconds;
using Minutes = std::chrono::minutes;

/// A temperature in milli-degrees Celsius.
class Temperature {
public:
    constexpr Temperature() = default;
    static Temperature fromCelsius(double c) { return Temperature(static_cast<qint32>(std::lround(c * 1000.0))); }
    static constexpr Temperature fromMilliCelsius(qint64 mc) { return Temperature(static_cast<qint32>(mc)); }
    constexpr qint32 milliCelsius() const { return m_mc; }
    constexpr double celsius() const { return m_mc / 1000.0; }
    /// A warmer (or, negative, cooler) temperature; a difference is in kelvin.
    Temperature plusKelvin(double k) const { return fromCelsius(celsius() + k); }
    constexpr auto operator<=>(const Temperature&) const = default;

private:
    explicit constexpr Temperature(qint32 mc) : m_mc(mc) {}
    qint32 m_mc = 0;
};

/// A volume in cubic millimetres (1 cm³ = 1000 mm³).
class Volume {
public:
    constexpr Volume() = default;
    static Volume fromCm3(double cm3) { return Volume(std::llround(cm3 * 1000.0)); }
    static constexpr Volume fromMm3(qint64 mm3) { return Volume(mm3); }
    constexpr qint64 mm3() const { return m_mm3; }
    constexpr double cm3() const { return static_cast<double>(m_mm3) / 1000.0; }
    constexpr Volume operator+(Volume o) const { return Volume(m_mm3 + o.m_mm3); }
    constexpr Volume operator-(Volume o) const { return Volume(m_mm3 - o.m_mm3); }
    constexpr Volume& operator+=(Volume o) { m_mm3 += o.m_mm3; return *this; }
    constexpr auto operator<=>(const Volume&) const = default;

private:
    explicit constexpr Volume(qint64 mm3) : m_mm3(mm3) {}
    qint64 m_mm3 = 0;
};

/// A mass in milligrams.
class Mass {
public:
    constexpr Mass() = default;
    static Mass fromGrams(double g) { return Mass(std::llround(g * 1000.0)); }
    static constexpr Mass fromMilligrams(qint64 mg) { return Mass(mg); }
    constexpr qint64 milligrams() const { return m_mg; }
    constexpr double grams() const { return static_cast<double>(m_mg) / 1000.0; }
    constexpr Mass operator+(Mass o) const { return Mass(m_mg + o.m_mg); }
    constexpr Mass operator-(Mass o) const { return Mass(m_mg - o.m_mg); }
    constexpr auto operator<=>(const Mass&) const = default;

private:
    explicit constexpr Mass(qint64 mg) : m_mg(mg) {}
    qint64 m_mg = 0;
};

/// A length in micrometres (orifices, filament diameters, offsets, envelopes).
class Length {
public:
    constexpr Length() = default;
    static Length fromMm(double mm) { return Length(std::llround(mm * 1000.0)); }
    static constexpr Length fromMicrometres(qint64 um) { return Length(um); }
    constexpr qint64 micrometres() const { return m_um; }
    constexpr double mm() const { return static_cast<double>(m_um) / 1000.0; }
    constexpr auto operator<=>(const Length&) const = default;

private:
    explicit constexpr Length(qint64 um) : m_um(um) {}
    qint64 m_um = 0;
};

/// Money in integer hundredths of the shop's currency.
class Money {
public:
    constexpr Money() = default;
    static Money fromUnits(double units) { return Money(std::llround(units * 100.0)); }
    static constexpr Money fromCents(qint64 cents) { return Money(cents); }
    constexpr qint64 cents() const { return m_cents; }
    constexpr double units() const { return static_cast<double>(m_cents) / 100.0; }
    constexpr Money operator+(Money o) const { return Money(m_cents + o.m_cents); }
    constexpr auto operator<=>(const Money&) const = default;

private:
    explicit constexpr Money(qint64 cents) : m_cents(cents) {}
    qint64 m_cents = 0;
};

/// Mass of a volume of a material; density in g/cm³.
inline Mass massOf(Volume v, double densityGPerCm3) { return Mass::fromGrams(v.cm3() * densityGPerCm3); }
/// Volume of a mass of a material; density in g/cm³, > 0.
inline Volume volumeOf(Mass m, double densityGPerCm3) { return Volume::fromCm3(m.grams() / densityGPerCm3); }
/// Seconds rounded up to whole minutes, as every printed duration is.
inline Minutes roundUpToMinutes(Seconds s) { return std::chrono::ceil<Minutes>(s); }

} // namespace interlude
