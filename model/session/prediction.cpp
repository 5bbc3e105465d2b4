#include "model/session/prediction.h"

#include "model/changeover/plain_words.h"

#include <algorithm>

namespace interlude {

namespace {

/// A wait longer than this is no plan but a fault in the constants.
constexpr double longestSeconds = 7 * 24 * 3600.0;

Prediction unknown(Instant from, const QString& why) {
    Prediction out;
    out.from = from;
    out.why = why;
    return out;
}

CourseBand ordered(double expected, double a, double b) {
    return {expected, std::min({a, b, expected}), std::max({a, b, expected})};
}

QString sensorWords(Sensor s, const PrinterType& type) {
    switch (s) {
    case Sensor::Head: return type.supportPosition ? QStringLiteral("part head sensor") : QStringLiteral("head sensor");
    case Sensor::SupportHead: return QStringLiteral("support head sensor");
    case Sensor::Platform: return QStringLiteral("platform sensor");
    case Sensor::Chamber: break;
    }
    return QStringLiteral("air sensor");
}

QString upperEnd(Sensor s, const PrinterType& type, Temperature room) {
    return QStringLiteral("upper end of the prediction · %1 · room %2").arg(sensorWords(s, type), plainWords(room));
}

QString missingConstants() {
    return QStringLiteral("no cooling constants for this printer type: measure");
}

QString roomTooWarm(Temperature room, Temperature target) {
    return QStringLiteral("no prediction: the room, %1, is not cooler than %2: measure")
        .arg(plainWords(room), plainWords(target));
}

Prediction coolChamber(const Evidence& e, const PrinterType& type, Temperature room, Temperature target) {
    const ChamberCooling& k = *type.chamberCool;
    Instant from = e.from;
    std::optional<double> start = e.chamberSet;
    for (const SensorReading& r : e.readings) {
        if (r.sensor != Sensor::Chamber) continue;
        from = r.at;
        start = r.value.celsius();
    }
    if (!start) return unknown(from, QStringLiteral("the chamber's temperature is not known: measure"));
    const double tau = static_cast<double>(k.tau.count()), se = static_cast<double>(k.tauSe.count());
    Prediction out = unknown(from, upperEnd(Sensor::Chamber, type, room));
    out.band = physics::oneNodeCooling(*start, room.celsius(), target.celsius(), tau, se);
    if (!out.band) return unknown(from, QStringLiteral("the cooling constants of this printer type do not serve: measure"));
    out.course = [t0 = *start, r = room.celsius(), tau, se](double seconds) {
        const double fast = std::max(tau - 2 * se, 1.0);
        return ordered(physics::oneNodeTemperature(t0, r, tau, seconds),
                       physics::oneNodeTemperature(t0, r, fast, seconds),
                       physics::oneNodeTemperature(t0, r, tau + 2 * se, seconds));
    };
    return out;
}

/// One head and the chamber followed from the heaters' end through every reading; each reading replaces what it measured.
class TwoNodeTrack {
public:
    TwoNodeTrack(physics::TwoNodes body, double room, Sensor head) : m_body(body), m_room(room), m_sensor(head) {}

    void follow(const Evidence& e) {
        m_at = e.from;
        m_head = e.headSet;
        m_chamber = e.chamberSet;
        for (const SensorReading& r : e.readings) {
            if (r.sensor != m_sensor && r.sensor != Sensor::Chamber) continue; // the other head, the platform
            advanceTo(r.at);
            (r.sensor == m_sensor ? m_head : m_chamber) = r.value.celsius();
        }
    }
    std::optional<physics::TwoTemperatures> state() const {
        if (!m_head || !m_chamber) return {};
        return physics::TwoTemperatures{*m_head, *m_chamber};
    }
    Instant at() const { return m_at; }
    const physics::TwoNodes& body() const { return m_body; }

private:
    void advanceTo(Instant t) {
        const double seconds = std::max(0.0, static_cast<double>((t - m_at).count()) / 1000.0);
        m_at = std::max(m_at, t);
        const auto before = state();
        if (!before) return; // one of the two is still unknown: what was measured stands until it is
        const physics::TwoTemperatures after = physics::twoNodeTemperatures(m_body, m_room, *before, seconds);
        m_head = after.head;
        m_chamber = after.chamber;
    }

    physics::TwoNodes m_body;
    double m_room;
    Sensor m_sensor;
    Instant m_at;
    std::optional<double> m_head, m_chamber;
};

TwoNodeTrack track(const Evidence& e, const HeadCooling& k, Temperature room, Sensor head, double standardErrors) {
    TwoNodeTrack out({k.c1, k.c2, k.g12 + standardErrors * k.g12Se, k.g20 + standardErrors * k.g20Se}, room.celsius(),
                     head);
    out.follow(e);
    return out;
}

Prediction coolHead(const Evidence& e, const PrinterType& type, Temperature room, Sensor head, Temperature target) {
    const HeadCooling& k = *type.headCool;
    const TwoNodeTrack middle = track(e, k, room, head, 0), slow = track(e, k, room, head, -2),
                       fast = track(e, k, room, head, 2);
    const auto start = middle.state(), warmest = slow.state(), coolest = fast.state();
    if (!start || !warmest || !coolest)
        return unknown(e.from, QStringLiteral("the temperatures of head and chamber are not both known: measure"));
    const double r = room.celsius(), t = target.celsius();
    const auto expected = physics::twoNodeTimeTo(middle.body(), r, *start, t, physics::Node::Head);
    const auto upper = physics::twoNodeTimeTo(slow.body(), r, *warmest, t, physics::Node::Head);
    if (!expected || !upper)
        return unknown(e.from, QStringLiteral("the cooling constants of this printer type do not serve: measure"));
    Prediction out = unknown(middle.at(), upperEnd(head, type, room));
    out.band = physics::TimeBand{*expected, std::max(*expected, *upper)};
    out.course = [=](double seconds) {
        return ordered(physics::twoNodeTemperatures(middle.body(), r, *start, seconds).head,
                       physics::twoNodeTemperatures(slow.body(), r, *warmest, seconds).head,
                       physics::twoNodeTemperatures(fast.body(), r, *coolest, seconds).head);
    };
    return out;
}

const std::optional<HeatingConstants>& heatingOf(const PrinterType& type, Subject subject) {
    switch (sensorOf(subject)) {
    case Sensor::Head:
    case Sensor::SupportHead: return type.headHeat;
    case Sensor::Platform: return type.platformHeat;
    case Sensor::Chamber: break;
    }
    return type.chamberHeat;
}

/// Without a prediction: why, with what can be done about it.
Prediction nearLimit(Instant from, const physics::Heating& h, const HeatingConstants& k, Temperature target) {
    const bool never = h.answer == physics::HeatingAnswer::Unreachable;
    Prediction out = unknown(
        from, never ? QStringLiteral("%1 is beyond what this heater reaches (%2): check the set-point")
                          .arg(plainWords(target), plainWords(k.ceiling))
                    : QStringLiteral("time not predictable, %1 is too near the heater's limit of %2; hardly less than %3 "
                                     "min: check mains voltage and door seal")
                          .arg(plainWords(target), plainWords(k.ceiling))
                          .arg(std::chrono::ceil<Minutes>(Seconds(static_cast<qint64>(h.seconds))).count()));
    out.nearLimit = true;
    return out;
}

} // namespace

Prediction predictCooling(const Evidence& evidence, const PrinterType& type, Temperature room, Subject subject,
                          Temperature target) {
    const Sensor sensor = sensorOf(subject);
    if (sensor == Sensor::Platform || (sensor == Sensor::Chamber ? !type.chamberCool : !type.headCool))
        return unknown(evidence.from, missingConstants());
    if (room >= target) return unknown(evidence.from, roomTooWarm(room, target));
    Prediction out = sensor == Sensor::Chamber ? coolChamber(evidence, type, room, target)
                                               : coolHead(evidence, type, room, sensor, target);
    if (out.band && out.band->upper > longestSeconds)
        return unknown(out.from, QStringLiteral("the prediction is longer than a week: measure, check the constants"));
    return out;
}

Prediction predictHeating(const Evidence& evidence, const PrinterType& type, Temperature room, const PlannedStep& step,
                          Temperature target) {
    const std::optional<HeatingConstants>& k = heatingOf(type, step.step.subject);
    if (!k) return unknown(evidence.from, QStringLiteral("no heating constants for this printer type: read the display"));
    const Sensor sensor = sensorOf(step.step.subject);
    // The upper end begins in the room, the expectation where the body is believed to be; a reading ends the doubt.
    Instant from = evidence.from;
    double cold = room.celsius(), warm = std::max(cold, evidence.heldBefore.value_or(cold));
    for (const SensorReading& r : evidence.readings) {
        if (r.sensor != sensor) continue;
        from = r.at;
        cold = warm = r.value.celsius();
    }
    const double tau = static_cast<double>(k->tau.count()), ceiling = k->ceiling.celsius(), set = target.celsius();
    const physics::Heating slow = physics::powerLimitedHeating(cold, ceiling, set, tau);
    const physics::Heating fast = physics::powerLimitedHeating(warm, ceiling, set, tau);
    if (slow.answer != physics::HeatingAnswer::Seconds) return nearLimit(from, slow, *k, target);
    const double settle = static_cast<double>(Seconds(k->settle + step.step.settle).count());
    if (slow.seconds + settle > longestSeconds)
        return unknown(from, QStringLiteral("the prediction is longer than a week: check the constants"));
    Prediction out = unknown(from, upperEnd(sensor, type, room) + QStringLiteral(", full power, settling included"));
    out.band = physics::TimeBand{fast.seconds + settle, slow.seconds + settle};
    out.course = [=](double seconds) {
        const auto at = [&](double start) {
            return start >= set ? set : std::min(set, physics::oneNodeTemperature(start, ceiling, tau, seconds));
        };
        return ordered(at(warm), at(cold), at(warm));
    };
    return out;
}

} // namespace interlude
