#include "model/ledger/ledger_copy.h"

#include "model/ledger/durable_file.h"
#include "model/ledger/sqlite_connection.h"
#include "model/ledger/sqlite_tables.h"
#include "model/ledger/store.h"

namespace interlude {

namespace {

Outcome<qint64> vacuumInto(const QString& ledger, const QString& fleetId, const QString& copy) {
    std::unique_ptr<StationLock> none;
    auto connection = sqlite::connect(ledger, fleetId, {}, true, none);
    if (!connection) return tl::unexpected<Finding>(connection.error());
    QSqlQuery query((*connection)->database);
    query.prepare(QStringLiteral("VACUUM INTO ?"));
    query.addBindValue(copy);
    if (!query.exec()) return tl::unexpected<Finding>(sqlite::finding(query.lastError(), QStringLiteral("copied"), ledger));
    return 0;
}

} // namespace

Outcome<LedgerPosition> verifiedPosition(const QString& ledger, const QString& fleetId) {
    const auto store = openSqliteStore(ledger, fleetId, {}, true);
    if (!store) return tl::unexpected<Finding>(store.error());
    if (const auto misfit = (*store)->verify())
        return refusal(QStringLiteral("ledger-damaged"),
                       QStringLiteral("event %1 of the ledger does not fit: %2").arg(misfit->sequence).arg(misfit->reason),
                       QStringLiteral("keep this file as it is and continue from the last backup that verifies"), ledger);
    return LedgerPosition{(*store)->lastSequence(), (*store)->lastHash()};
}

Outcome<LedgerPosition> copyLedger(const QString& ledger, const QString& fleetId, const QString& copy) {
    if (const auto copied = vacuumInto(ledger, fleetId, copy); !copied) return tl::unexpected<Finding>(copied.error());
    if (const auto synced = syncFile(copy); !synced) return tl::unexpected<Finding>(synced.error());
    return verifiedPosition(copy, fleetId);
}

} // namespace interlude
