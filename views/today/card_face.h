#pragma once
// What one printer's card says: plain words and the large digits, from the shop alone.

#include "views/bench/bench.h"

#include "model/session/countdown.h"

namespace interlude {

class PlanAhead;

struct CardFace {
    QString name, setup;
    QString state;  ///< "prints 7408 until"
    QString big;    ///< "20:12", "24 min", a countdown, or an em dash
    QString below;  ///< "then 3 min hands-on: strand even?"
    QString wrong;  ///< what is wrong now; empty when nothing is
    bool inHand = false; ///< a changeover needs people now
    QStringList countdowns; ///< further running countdowns, "Chamber below 60 °C  18:40"
    QString act;    ///< the act that the card offers first, see below
};

/// Words of `act`: "changeover" (start or go to the guide), "print-ended", "part-removed", "up".
/// `plan` says what comes next; null: nothing is known of it.
CardFace cardFace(const Bench& bench, const PrinterNow& printer, const PlanAhead* plan = nullptr);

} // namespace interlude
