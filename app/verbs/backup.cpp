#include "app/verbs/opened_shop.h"

#include "model/backup/daily.h"

#include <QDir>
#include <QFileInfo>

namespace interlude::app {

namespace {

/// A folder that is there takes the backup in, under a name with its moment; else it is the backup's own name.
QString backupFolder(const QString& out, const QString& fleetId, Instant now) {
    if (!QFileInfo(out).isDir()) return out;
    return QDir(out).filePath(QStringLiteral("%1-%2").arg(fleetId, toUtc(now).toString(QStringLiteral("yyyy-MM-dd'T'HHmmss'Z'"))));
}

} // namespace

int backup(const FleetOptions& options, const QString& out) {
    const CataloguePtr catalogue = readFleet(options.folder);
    if (!catalogue) return 1;
    const QString ledger = ledgerPath(options, *catalogue);
    if (ledger.isEmpty()) return 1;
    const Instant now = SystemClock().now();
    const BackupSource source{catalogue->fleet.id, ledger, catalogue->files, photosBeside(ledger), now};
    const QString folder = backupFolder(out, catalogue->fleet.id, now);
    const auto note = makeBackup(source, folder);
    if (!note) {
        complain(sentence(note.error()));
        return 1;
    }
    // The backup is good whether or not this can be written; the window would only warn once too often.
    if (const auto kept = rememberBackup(ledger, *note); !kept) complain(sentence(kept.error()));
    say(QStringLiteral("%1: the ledger (%2 events, verified) and %3 files of the fleet folder")
            .arg(folder).arg(note->position.events).arg(catalogue->files.size()));
    return 0;
}

} // namespace interlude::app
