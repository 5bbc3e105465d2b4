#pragma once
// Which steps of the library this transition needs, with everything resolved but their times (private to
// model/changeover).

#include "model/changeover/changeover.h"

namespace interlude {

/// Words of `when` that hold: the facts, `clean-out=mandatory` (also when an advised clean-out is taken),
/// `wiper-and-bin=mandatory` (its own verdict, so that it stands when a clean-out is left out), `purge=part`,
/// `purge=support` (priming included), `support=wanted`, `part-lying` (also of a running print, whose part will lie
/// there).
QSet<QString> conditionsThatHold(const Transition& t);
bool partLies(const PrinterNow& printer);

/// In file order; `after` leads through steps that were not selected. A step whose effect has nothing to act on (no
/// nozzle to remove, nothing to unload) is not selected, whatever its `when` says.
QList<PlannedStep> selectSteps(const Catalogue& catalogue, const Stock& stock, const Transition& t);

} // namespace interlude
