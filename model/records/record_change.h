#pragma once
// What a changeover changes, as lines of a record or checklist. `session` is null before there is one.

#include "model/records/record.h"

namespace interlude {

QList<RecordLine> headOf(const Shop& shop, const Catalogue& c, const Changeover& work);
QList<RecordLine> materialLines(const Shop& shop, const Catalogue& c, const Changeover& work);
QList<RecordLine> nozzleLines(const Shop& shop, const Catalogue& c, const Changeover& work, const SessionState* session);
QList<RecordLine> cleanOutLines(const Catalogue& c, const Changeover& work, const SessionState* session);

} // namespace interlude
