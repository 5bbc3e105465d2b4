#pragma once
// backup.json, written and read.

#include "model/backup/backup.h"

namespace interlude {

QByteArray noteBytes(const BackupNote& note);
/// Refused (`backup-foreign`) when these bytes are no note of a backup, or of a later version; `place` is its file.
Outcome<BackupNote> noteFrom(const QByteArray& bytes, const QString& place);

} // namespace interlude
