#pragma once
// Must the chamber be cleaned out before the next run? Design section 5, domain reference section 6. Plain data in,
// verdict out; used for the chamber (chamber set-point against softening temperature) and, with other figures, for
// wiper and waste bin (nozzle temperature against melt-max).

#include "model/catalogue/fleet.h"
#include "model/findings/finding.h"

namespace interlude {

enum class CleanOut { None, Advised, Mandatory };

/// One residue item with the figures that the rule needs.
struct ResidueFigures {
    QString material;                 ///< empty = unknown
    Temperature limit;                ///< softening temperature (chamber) or melt-max (wiper and bin)
    std::optional<Temperature> seen;  ///< highest seen, see ResidueItem; empty = never warm
};

struct CleanOutQuestion {
    QList<ResidueFigures> residue;
    QString lastPart, lastSupport; ///< pair of the last run; empty support = none
    QString nextPart, nextSupport;
    Temperature next;              ///< next set-point: chamber or nozzle
    double marginK = 10.0;
    CleanOutRule rule = CleanOutRule::GoingUp;
};

struct CleanOutVerdict {
    CleanOut level = CleanOut::None;
    QStringList because; ///< materials that make it mandatory (or, advised, that remain)
    QString reason;      ///< plain words, with the figures
};

CleanOutVerdict judgeCleanOut(const CleanOutQuestion& q);

} // namespace interlude
