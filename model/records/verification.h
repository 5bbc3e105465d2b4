#pragma once
// Does a printed record come from this ledger? Compared by the hash that the record bears as text and as QR code.

#include "model/ledger/store.h"

namespace interlude {

/// What was compared, in words, and whether it agrees.
struct Compared {
    bool fits = false;
    QString said;
};

/// `printed`: the hash (its first 16 digits at least, blanks allowed), or the whole text of the QR code, which names fleet
/// and position, too. Refused (`record-hash`) when it cannot be a hash, or when the ledger cannot be read.
Outcome<Compared> comparePrinted(const EventStore& store, const QString& fleetId, const QString& printed);

} // namespace interlude
