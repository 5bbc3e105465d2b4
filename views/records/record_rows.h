#pragma once
// Sessions as rows of the list, and what a record's figures look like in it.

#include "views/bench/bench.h"
#include "views/lists/list_model.h"

namespace interlude {

struct RecordRow {
    qint64 number = 0;
    QString printer, job, change, phase, begun, by, minutes, remarks;
    qint64 begunMs = 0, minutesWorth = -1;
    bool operator==(const RecordRow&) const = default;
};

/// Makes the rows, and makes again only those of sessions that have changed: a shop has many and changes one.
class RecordRows {
public:
    QList<RecordRow> of(const Bench& bench);

private:
    CataloguePtr m_catalogue;
    QHash<qint64, std::pair<SessionSummary, RecordRow>> m_known;
};
QList<lists::Column<RecordRow>> recordColumns();

} // namespace interlude
