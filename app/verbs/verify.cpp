#include "app/verbs/opened_shop.h"

#include "model/backup/backup.h"
#include "model/records/bundle_check.h"
#include "model/records/verification.h"

#include <QDir>
#include <QFileInfo>

namespace interlude::app {

namespace {

int verifyRecord(const EventStore& store, const QString& fleetId, const QString& printed) {
    const auto compared = comparePrinted(store, fleetId, printed);
    if (!compared) {
        complain(sentence(compared.error()));
        return compared.error().rule == QStringLiteral("record-hash") ? 2 : 1;
    }
    say(compared->said);
    return compared->fits ? 0 : 1;
}

int verifyBundle(const QString& path) {
    const auto check = checkBundle(path);
    if (!check) {
        complain(sentence(check.error()));
        return 1;
    }
    for (const QString& line : check->about) say(line);
    for (const CheckedFile& file : check->files) say(sentence(file));
    say(sentence(*check));
    if (!check->ledgerHash.isEmpty())
        say(QStringLiteral("Whether it comes from the shop's ledger: interlude verify FLEET --record \"%1\"").arg(check->ledgerHash));
    return check->fits() ? 0 : 1;
}

/// A backup has its fleet folder below it, never fleet.yaml itself.
bool isBackup(const QString& path) {
    const QDir dir(path);
    return dir.exists(QStringLiteral("backup.json")) && !dir.exists(QStringLiteral("fleet.yaml"));
}

int verifyCopy(const QString& path) {
    const auto note = verifyBackup(path);
    if (!note) {
        complain(sentence(note.error()));
        return 1;
    }
    say(QStringLiteral("%1: a backup of %2, made on %3").arg(path, note->fleetId, toUtc(note->madeAt).toString(QStringLiteral("yyyy-MM-dd HH:mm 'UTC'"))));
    say(QStringLiteral("All %1 files are as they were when it was made.").arg(note->sums.size()));
    say(QStringLiteral("%1: %2 events, all fit; the last hash is %3")
            .arg(ledgerIn(path)).arg(note->position.events).arg(QString::fromLatin1(note->position.hash.toHex())));
    return 0;
}

} // namespace

int verify(const FleetOptions& options, const QString& recordHash) {
    if (isBundle(options.folder)) {
        if (recordHash.isEmpty()) return verifyBundle(options.folder);
        complain(QStringLiteral("%1 is an export, not a fleet; --record needs the fleet whose ledger is asked").arg(options.folder));
        return 2;
    }
    if (isBackup(options.folder)) {
        if (recordHash.isEmpty()) return verifyCopy(options.folder);
        complain(QStringLiteral("%1 is a backup, not a fleet; --record needs the fleet whose ledger is asked").arg(options.folder));
        return 2;
    }
    const CataloguePtr catalogue = readFleet(options.folder);
    if (!catalogue) return 1;
    const QString file = ledgerPath(options, *catalogue);
    if (file.isEmpty()) return 1;
    if (!QFileInfo::exists(file)) {
        complain(QStringLiteral("There is no ledger at %1 yet; it is made when the workbench is first opened").arg(file));
        return 1;
    }
    const auto store = openSqliteStore(file, catalogue->fleet.id, {}, true);
    if (!store) {
        complain(sentence(store.error()));
        return 1;
    }
    if (const auto misfit = (*store)->verify()) {
        say(QStringLiteral("Event %1 does not fit: %2").arg(misfit->sequence).arg(misfit->reason));
        return 1;
    }
    say(QStringLiteral("%1: %2 events, all fit; the last hash is %3")
            .arg((*store)->location())
            .arg((*store)->lastSequence())
            .arg(QString::fromLatin1((*store)->lastHash().toHex())));
    return recordHash.isEmpty() ? 0 : verifyRecord(**store, catalogue->fleet.id, recordHash);
}

} // namespace interlude::app
