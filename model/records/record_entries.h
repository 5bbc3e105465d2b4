#pragma once
// What was confirmed in one step, entry by entry, with the corrections beside it.

#include "model/records/record.h"

namespace interlude {

QList<RecordEntry> entriesOf(const Catalogue& catalogue, const PlannedStep& planned, const StepProgress& progress);
/// Puts each correction of these events beside the entry that it names, or at the end as an entry of its own. `row` holds
/// what stands in the row's own columns.
void addCorrections(QList<RecordEntry>& entries, const QList<Correction>& corrections, const QList<qint64>& events,
                    const QList<RecordEntry>& row, const Catalogue& catalogue);
RecordCorrection correctionOf(const Correction& c, const Catalogue& catalogue);
/// One reading with its limits, its instrument and the instrument's calibration.
RecordEntry readingEntry(const Catalogue& catalogue, const PlannedStep& planned, const act::ReadingDone& r);

} // namespace interlude
