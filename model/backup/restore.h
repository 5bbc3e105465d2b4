#pragma once
// Putting the ledger of a backup in the place of a lost or damaged one. What was there is kept aside, never overwritten.

#include "model/backup/backup.h"

namespace interlude {

struct RestoreRequest {
    QString backup;  ///< a backup's folder
    QString ledger;  ///< the file to be put there
    QString fleetId; ///< whose ledger that is
    QString station; ///< who holds the lock meanwhile
    Instant now;     ///< for the name of what is kept aside
    bool replaceNewer = false; ///< also when the ledger there has events that the backup lacks, or cannot be read
};

struct Restored {
    BackupNote note;
    QString aside;       ///< the file that was there; empty when there was none
    qint64 lacking = 0;  ///< events that were there and are not in the backup
};

/// Verifies the backup, takes the station's lock, compares, then exchanges the files in one step; a kill at any instant
/// leaves the old ledger, the new one, or (where the old one was damaged) a place at which nothing opens until the restore
/// is run again. Refused: `backup-…` when the backup does not verify or is another fleet's, `ledger-held`, `ledger-foreign`,
/// `restore-newer`.
Outcome<Restored> restoreLedger(const RestoreRequest& request);

/// Writes the fleet folder's files of a verified backup into a folder that is not there or empty.
Outcome<qint64> restoreFleetFolder(const QString& backup, const BackupNote& note, const QString& folder);

} // namespace interlude
