#pragma once
// Files that are on the disk when a function returns. A name is durable only when its folder has been synced, too.

#include "model/findings/finding.h"

#include <QByteArray>

namespace interlude {

/// Writes (or overwrites) the file and syncs it. Refused as `file-full` or `file-folder`, with the system's reason.
Outcome<qint64> writeDurably(const QString& file, const QByteArray& bytes);
/// The same with the bytes of another file. Returns how many there were.
Outcome<qint64> copyDurably(const QString& from, const QString& to);
Outcome<qint64> syncFile(const QString& file);
Outcome<qint64> syncFolder(const QString& folder);
/// Gives a file or folder another name in one step, replacing a file of that name, and syncs the folder of the new name.
Outcome<qint64> renameDurably(const QString& from, const QString& to);

} // namespace interlude
