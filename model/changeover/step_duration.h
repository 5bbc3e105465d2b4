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

/// Fills planned, predictable, target and purge of every step. `first` are steps that are over before any other
/// internal step begins (the part's removal): they are on the way of all of these.
void timeSteps(QList<PlannedStep>& steps, const QSet<StepId>& first, const Catalogue& catalogue, const Transition& t);

} // namespace interlude
