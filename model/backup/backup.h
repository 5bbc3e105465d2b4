#pragma once
// A backup is a plain folder that any tool can read, copy and check:
//
//   backup.json     whose it is, when it was made, where the ledger stands, SHA-256 of every other file
//   ledger.sqlite   the ledger, one file, closed
//   fleet/…         the files of the fleet folder as they were last read
//   photos/…        the photos that the ledger speaks of, where there are any
//
// It is made under a hidden name beside its own, verified, and only then given its name: a folder of that name is whole.

#include "model/clock/instant.h"
#include "model/ledger/ledger_copy.h"

#include <QMap>
#include <QString>

#include <optional>

namespace interlude {

/// What goes into a backup.
struct BackupSource {
    QString fleetId;
    QString ledger;                ///< its file; may be in use
    QMap<QString, QString> files;  ///< of the fleet folder, name → text
    QString photos;                ///< a folder of files; empty or not there: none
    Instant madeAt;                ///< by the machine's clock
};

/// What backup.json says.
struct BackupNote {
    QString fleetId, program;
    Instant madeAt;
    LedgerPosition position;
    QMap<QString, QString> sums; ///< path in the backup → SHA-256, hex
    QString folder;              ///< where it was made; not to be relied on
};

/// Makes the backup in `folder`, which must not be there yet; its parents are made. Refused with nothing left behind.
Outcome<BackupNote> makeBackup(const BackupSource& source, const QString& folder);
/// The note of a backup; refused (`backup-foreign`) when the folder is none or of a later version.
Outcome<BackupNote> readBackup(const QString& folder);
/// Compares every file with its sum and verifies the ledger's whole chain against the note.
Outcome<BackupNote> verifyBackup(const QString& folder);
/// The fleet folder's files in a verified backup, name → content.
Outcome<QMap<QString, QByteArray>> fleetFilesIn(const QString& folder, const BackupNote& note);

/// Puts the photos of a verified backup beside the ledger; those that are there already stay as they are.
Outcome<qint64> restorePhotos(const QString& folder, const BackupNote& note, const QString& photos);

/// The ledger's file in a backup.
QString ledgerIn(const QString& backupFolder);
/// Where the photos that a ledger speaks of lie.
inline QString photosBeside(const QString& ledger) { return ledger + QStringLiteral(".photos"); }

/// Remembers the last backup of a ledger beside it, wherever that backup lies.
Outcome<qint64> rememberBackup(const QString& ledger, const BackupNote& note);
/// What was remembered; empty when nothing (readable) was.
std::optional<BackupNote> lastBackup(const QString& ledger);

} // namespace interlude
