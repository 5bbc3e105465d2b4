#include "app/verbs/opened_shop.h"

#include "model/backup/restore.h"
#include "model/shop/snapshot/snapshot.h"

#include <QDir>
#include <QFile>
#include <QFileInfo>
#include <QSysInfo>

namespace interlude::app {

namespace {

int refused(const Finding& f) {
    complain(sentence(f));
    return 1;
}

/// A fleet folder that was lost comes out of the backup, too; one that is there is left alone.
Outcome<qint64> wantFleetFolder(const RestoreOptions& o, const BackupNote& note) {
    if (QFileInfo::exists(o.fleet.folder) && !QDir(o.fleet.folder).isEmpty()) return 0;
    const auto made = restoreFleetFolder(o.backup, note, o.fleet.folder);
    if (made) say(QStringLiteral("%1: the fleet folder, from the backup").arg(o.fleet.folder));
    return made;
}

void tellDifferences(const RestoreOptions& o, const BackupNote& note, const Catalogue& catalogue) {
    const auto files = fleetFilesIn(o.backup, note);
    if (!files) return;
    QStringList others;
    for (auto it = files->cbegin(); it != files->cend(); ++it)
        if (catalogue.files.value(it.key()).toUtf8() != it.value()) others.append(it.key());
    if (others.isEmpty()) return;
    say(QStringLiteral("The fleet folder was left as it is. It differs from the backup's in %1; those are in %2/fleet")
            .arg(others.join(QStringLiteral(", ")), o.backup));
}

} // namespace

int restore(const RestoreOptions& o) {
    const auto note = verifyBackup(o.backup);
    if (!note) return refused(note.error());
    if (const auto folder = wantFleetFolder(o, *note); !folder) return refused(folder.error());
    const CataloguePtr catalogue = readFleet(o.fleet.folder);
    if (!catalogue) return 1;
    const QString ledger = ledgerPath(o.fleet, *catalogue);
    if (ledger.isEmpty()) return 1;
    const auto done = restoreLedger({o.backup, ledger, catalogue->fleet.id, QSysInfo::machineHostName(), SystemClock().now(), o.replaceNewer});
    if (!done) return refused(done.error());
    QFile::remove(Snapshot::fileBeside(ledger)); // it belongs to the other ledger; it would not count, and is made anew
    if (!done->aside.isEmpty()) say(QStringLiteral("%1: the ledger that was there, kept aside").arg(done->aside));
    if (done->lacking > 0)
        say(QStringLiteral("%1 events that were in it are not in the backup; records printed since then are not of this ledger").arg(done->lacking));
    tellDifferences(o, *note, *catalogue);
    say(QStringLiteral("%1: %2 events, all fit; the last hash is %3")
            .arg(ledger).arg(note->position.events).arg(QString::fromLatin1(note->position.hash.toHex())));
    return 0;
}

} // namespace interlude::app
