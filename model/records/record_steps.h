#pragma once
// The step lines of a record and of an empty checklist.

#include "model/records/record.h"

namespace interlude {

QList<RecordStep> stepLines(const Catalogue& catalogue, const SessionState& session);
QList<RecordStep> blankStepLines(const Changeover& changeover);
/// "reason: …; approved by JK, as ML states" (`who` said so; the second person signs on paper), or that nobody approved it.
QString overrideText(const Catalogue& catalogue, const act::Override& o, const QString& who);
/// Readings of the steps that align the nozzles, corrected values in force.
QList<RecordLine> calibrationLines(const Catalogue& catalogue, const SessionState& session);

} // namespace interlude
