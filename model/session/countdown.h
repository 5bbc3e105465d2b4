#pragma once
// Countdowns are arithmetic on recorded starts and readings, never timers: they survive a restart and show the truth.
// They inform and never confirm.

#include "model/shop/shop.h"

namespace interlude {

struct CurvePoint {
    Instant at;
    double expectedC = 0, lowC = 0, highC = 0;
};

/// One running wait of a session.
struct Countdown {
    qint64 session = 0;
    PrinterId printer;
    StepId step;
    QString title;               ///< e.g. "Chamber below 60 °C"
    std::optional<Instant> due;  ///< upper end of the prediction; empty: not predictable, only measure
    std::optional<Instant> expected;
    QString basis;               ///< "upper end of the prediction · air sensor · room 23 °C", or why there is none
    bool nearLimit = false;      ///< heating too near its limit to be predicted
    bool needsReading = false;   ///< at its end a reading is needed, not a look at the clock
    std::optional<Sensor> sensor;
    std::optional<Temperature> target;
    /// Time left; negative when over. Empty when not predictable.
    std::optional<Milliseconds> left(Instant now) const {
        return due ? std::optional(*due - now) : std::nullopt;
    }
};

/// All countdowns of a session: one for each waiting step that has started and is not done.
QList<Countdown> countdowns(const Shop& shop, const SessionState& session, Instant now);
/// All running countdowns of the shop, prints included (their expected end), in order of `due`.
QList<Countdown> allCountdowns(const Shop& shop, Instant now);
/// The model band of the temperature that a countdown watches, from its basis to its end, about 60 points; empty
/// without a prediction. Readings are in the session.
QList<CurvePoint> curve(const Shop& shop, const SessionState& session, const Countdown& c);

} // namespace interlude
