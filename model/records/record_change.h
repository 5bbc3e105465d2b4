#pragma once
// What a changeover changes, as lines of a record or checklist. `session` is null before there is one.

#include "model/records/record.h"

namespace interlude {

/// `job` is null where there is none: a setup without a job.
QList<RecordLine> headOf(const Job* job, const Catalogue& c, const Changeover& work, const SessionState* session);
QList<RecordLine> materialLines(const Shop& shop, const Catalogue& c, const Changeover& work, const SessionState* session);
QList<RecordLine> nozzleLines(const Shop& shop, const Catalogue& c, const Changeover& work, const SessionState* session);
QList<RecordLine> cleanOutLines(const Catalogue& c, const Changeover& work, const SessionState* session);

} // namespace interlude
