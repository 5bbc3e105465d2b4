#pragma once
// How long the internal steps take when so many people work side by side, and which steps decide it. Only a look ahead:
// segments, plan and guide count one team doing one hands-on step after the other.
//
// Two hands-on steps overlap only where nothing puts them in order (`after`, directly or through others), where people and
// tools suffice for both, and where both want the power in the same state. What the step library leaves unsaid this cannot
// know: whether two people may work at one printer is decided by the manual and the shop's rules.

#include "model/changeover/changeover.h"

namespace interlude {

class Catalogue;

struct CrewStep {
    StepId step;
    Minutes start{0}, end{0}; ///< from the moment the printer stands without its part
};

struct CrewLayout {
    int people = 1;
    Minutes length{0};
    QList<CrewStep> steps; ///< in the order in which they begin
    QStringList chain;     ///< one longest chain: what comes after what, and who is busy until when
    bool shortest = false; ///< proved: equals the longest chain of `after`, or the work divided by the people
};

/// Empty when a step needs more people than that, or when there is no internal step.
std::optional<CrewLayout> layOutFor(const Changeover& changeover, const Catalogue& catalogue, int people);

} // namespace interlude
