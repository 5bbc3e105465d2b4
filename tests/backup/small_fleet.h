#pragma once
// A fleet's ledger and what a backup of it takes in.

#include "model/backup/daily.h"
#include "model/backup/restore.h"
#include "tests/ledger/fixture.h"

namespace interlude::tests {

inline const Instant monday = instantOf(QDateTime(QDate(2026, 3, 2), QTime(6, 30), Qt::UTC));

inline BackupSource sourceOf(const QString& ledger, Instant madeAt = monday) {
    return {fleet, ledger, {{QStringLiteral("fleet.yaml"), QStringLiteral("id: two-printers # ä\n")}, {QStringLiteral("bay-1.csv"), QStringLiteral("from,to\n")}},
            photosBeside(ledger), madeAt};
}

/// An event on that day at that hour.
inline Event at(Instant when) {
    Event e = numbered(1);
    e.recordedAt = e.happenedAt = when;
    return e;
}

inline QStringList below(const QString& folder) { return QDir(folder).entryList(QDir::AllEntries | QDir::Hidden | QDir::NoDotAndDotDot, QDir::Name); }

} // namespace interlude::tests
