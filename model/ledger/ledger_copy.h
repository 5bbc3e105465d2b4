#pragma once
// A consistent copy of a ledger, also while a station works on it.

#include "model/findings/finding.h"

#include <QByteArray>

namespace interlude {

/// Where a ledger's chain stands.
struct LedgerPosition {
    qint64 events = 0;
    QByteArray hash; ///< of the last event, or the genesis value

    bool operator==(const LedgerPosition&) const = default;
};

/// Copies the fleet's ledger into a new file as it stands at one moment (SQLite's VACUUM INTO: one file without a log),
/// makes that durable, then opens the copy and verifies its whole chain. Refused when anything does not fit, in the ledger
/// or in the copy; what was made of the copy then stays to be looked at. The copy has no name in a synced folder yet.
Outcome<LedgerPosition> copyLedger(const QString& ledger, const QString& fleetId, const QString& copy);

/// Verifies the whole chain of a closed ledger and says where it stands.
Outcome<LedgerPosition> verifiedPosition(const QString& ledger, const QString& fleetId);

} // namespace interlude
