#pragma once
// What one printer says on the wall: few words and one large figure, from the shop and the published plan alone. Where
// there are several ways to say a thing the longest comes first; who paints takes the first that fits.

#include "views/bench/bench.h"
#include "views/today/outlook.h"

namespace interlude {

class PlanAhead;

struct WallFace {
    QString name;
    QString big;        ///< "20:12", "Tue 04:40", "24 min", a countdown, or a word
    QStringList state;  ///< what the figure means
    QStringList next;   ///< what comes next; empty: nothing is planned
    QStringList people; ///< who is needed and when; empty: nobody, as far as is known
    bool wrong = false; ///< something is wrong now: `state` says it
    bool late = false;  ///< `next` came otherwise than planned
    bool inHand = false;///< somebody is needed now
};

/// `needs` are those of all printers, in order of time.
WallFace wallFace(const Bench& bench, const PrinterNow& printer, const PlanAhead* plan, const QList<Need>& needs);
/// The calls for people in order of time, those of one moment together: "now Bay 1, Bay 2", "06:45 Bay 3 (2 people)".
QStringList callWords(const Bench& bench, const QList<Need>& needs);
/// The same as one sentence, for who cannot see it.
QString wallSentence(const WallFace& face);

} // namespace interlude
