#pragma once
// A working shift on a ledger whose disk fails: the acts of one whole guided changeover through the workbench, and what
// must hold afterwards. Whatever does not hold is returned as a sentence; empty means that every promise was kept.

#include "tests/failures/disk.h"
#include "tests/harness/technician.h"

namespace interlude::tests {

/// What the shop in memory said when the shift ended, however it ended.
struct Claim {
    qint64 sequence = 0;
    QByteArray hash;
    QByteArray state; ///< the whole shop; empty: no shop was ever shown
    int confirmed = 0, refused = 0;
    bool unsure = false; ///< the last refusal was one after which it is not known what the disk holds
    bool done = false;   ///< the changeover was finished
    QString refusal;     ///< the last one, with its rule
};

/// A ledger file as the first opening leaves it: opening entries imported, closed. Made once.
const QByteArray& openedLedger();
inline QString ledgerIn(const QString& folder) { return folder + QStringLiteral("/ledger.sqlite"); }

/// Opens the ledger and works until the changeover is done or three acts in a row were refused. What is wrong with how
/// acts were confirmed or refused; `claim` is filled in any case.
QString work(const QString& ledger, Claim& claim);
/// Opens the file anew, as the next morning does: it verifies and folds, and shows everything that was claimed and at
/// most the one act more of which it could not be known.
QString look(const QString& ledger, const Claim& claim);
/// The next morning's work: the changeover is finished and verifies.
QString carryOn(const QString& ledger);

} // namespace interlude::tests
