#pragma once
// How long each selected step takes (private to model/changeover). Upper ends of the predictions, rounded up to
// minutes.
//
// A heating starts from the temperature that holds then: where the last cooling of the same subject before it ends,
// else the room if the power was off on the way, else the set-point before (the room after a long idle time). A cooling
// starts from where the last heating of its subject on the way ended, else from the set-point before. The platform is
// heated to the chamber's set-point.

#include "model/changeover/changeover.h"

namespace interlude {

/// Fills planned, predictable, target and purge of every step.
void timeSteps(QList<PlannedStep>& steps, const Catalogue& catalogue, const Transition& t);

} // namespace interlude
