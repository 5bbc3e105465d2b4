#pragma once
// Must the chamber be cleaned out before the next run? Design section 5, domain reference section 6. Plain data in,
// verdict out; used for the chamber (chamber set-point against softening temperature) and, with other figures, for
// wiper and waste bin (nozzle temperature against melt-max), with the same margin.
//
//   none       nothing is left since the last clean-out; or the same pair follows and nothing else is left (tested
//              first, under both rules)
//   mandatory  an item is of unknown material; or for one and the same item  next >= limit - margin  and, unless the
//              rule is strict,  next > seen  (never warm counts as lower than anything)
//   advised    otherwise: the pair changes or something else remains
//
// Judge before the next run is added to the residue.

#include "model/catalogue/fleet.h"
#include "model/findings/finding.h"

namespace interlude {

enum class CleanOut { None, Advised, Mandatory };
/// Which residue is judged; matters for the wording only.
enum class ResiduePlace { Chamber, WiperAndBin };

/// One residue item with the figures that the rule needs.
struct ResidueFigures {
    QString material;                ///< empty = unknown
    Temperature limit;               ///< softening temperature (chamber) or melt-max (wiper and bin)
    std::optional<Temperature> seen; ///< highest seen, see ResidueItem; empty = never warm
};

struct CleanOutQuestion {
    QList<ResidueFigures> residue;
    QString lastPart, lastSupport; ///< pair of the last run; empty support = none
    QString nextPart, nextSupport;
    Temperature next; ///< next set-point: chamber or nozzle
    double marginK = 10.0;
    CleanOutRule rule = CleanOutRule::GoingUp;
    ResiduePlace place = ResiduePlace::Chamber;
};

struct CleanOutVerdict {
    CleanOut level = CleanOut::None;
    QStringList because; ///< materials that make it mandatory (or, advised, that remain), each once; `unknown`
    QString reason;      ///< plain words, with the figures
};

CleanOutVerdict judgeCleanOut(const CleanOutQuestion& q);

} // namespace interlude
