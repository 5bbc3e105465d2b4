#pragma once
// The step lines of a record and of an empty checklist.

#include "model/records/record.h"

namespace interlude {

QList<RecordStep> stepLines(const Catalogue& catalogue, const SessionState& session);
QList<RecordStep> blankStepLines(const Changeover& changeover);
/// "reason: …; approved by JK", or that no second person approved it.
QString overrideText(const Catalogue& catalogue, const act::Override& o);
/// Readings of the steps that align the nozzles, corrected values in force.
QList<RecordLine> calibrationLines(const Catalogue& catalogue, const SessionState& session);

} // namespace interlude
