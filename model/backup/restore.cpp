#include "model/backup/restore.h"

#include "model/ledger/durable_file.h"
#include "model/ledger/sqlite_connection.h"
#include "model/ledger/sqlite_tables.h"
#include "model/ledger/store.h"

#include <QDir>
#include <QFile>
#include <QFileInfo>

#include <unistd.h>

namespace interlude {

namespace {

QString logOf(const QString& ledger) { return ledger + QStringLiteral("-wal"); }
QString indexOf(const QString& ledger) { return ledger + QStringLiteral("-shm"); }

/// Hash of the n-th event; empty when it cannot be read.
QByteArray hashAt(const EventStore& store, qint64 n) {
    if (n == store.lastSequence()) return store.lastHash();
    QByteArray hash;
    (void)store.read(n - 1, [&](const Event& e) {
        hash = e.hash;
        return false;
    });
    return hash;
}

/// How many events both chains begin with. A hash stands for everything before it, so halving finds the place.
qint64 commonEvents(const EventStore& one, const EventStore& other) {
    qint64 same = 0, differs = std::min(one.lastSequence(), other.lastSequence()) + 1;
    while (differs - same > 1) {
        const qint64 middle = same + (differs - same) / 2;
        const QByteArray hash = hashAt(one, middle);
        (!hash.isEmpty() && hash == hashAt(other, middle) ? same : differs) = middle;
    }
    return same;
}

class Restoring {
public:
    explicit Restoring(const RestoreRequest& request) : m_r(request), m_draft(sqlite::draftOfRestore(request.ledger)) {}
    Outcome<Restored> run();

private:
    Outcome<qint64> compare();
    Outcome<qint64> exchange();
    Outcome<qint64> keepAside();
    bool isThere() const { return QFileInfo::exists(m_r.ledger) || QFileInfo(logOf(m_r.ledger)).size() > 0; }
    bool settleLog() const;

    const RestoreRequest& m_r;
    QString m_draft;
    bool m_opens = false; ///< the ledger that is there can be read
    Restored m_done;
};

/// What would be lost with the ledger that is there.
Outcome<qint64> Restoring::compare() {
    if (!isThere()) return 0;
    const auto there = openSqliteStore(m_r.ledger, m_r.fleetId, {}, true);
    const QString tellMe = QStringLiteral("say --replace-newer if it is to be replaced all the same; it is kept aside");
    if (!there) {
        const bool foreign = there.error().rule == QStringLiteral("ledger-fleet") || there.error().rule == QStringLiteral("ledger-newer");
        if (foreign) return tl::unexpected<Finding>(there.error());
        if (m_r.replaceNewer) return 0;
        return refusal(QStringLiteral("restore-newer"),
                       QStringLiteral("it is not known what the ledger has that the backup lacks, because it does not open: %1").arg(there.error().reason),
                       tellMe, m_r.ledger);
    }
    m_opens = true;
    const auto backup = openSqliteStore(ledgerIn(m_r.backup), m_r.fleetId, {}, true);
    if (!backup) return tl::unexpected<Finding>(backup.error());
    m_done.lacking = (*there)->lastSequence() - commonEvents(**there, **backup);
    if (m_done.lacking == 0 || m_r.replaceNewer) return 0;
    return refusal(QStringLiteral("restore-newer"),
                   QStringLiteral("the ledger has %1 events that the backup lacks (it ends with event %2, the backup with %3)")
                       .arg(m_done.lacking).arg((*there)->lastSequence()).arg((*backup)->lastSequence()),
                   tellMe, m_r.ledger);
}

/// Brings what is still in the log into the file; false when the ledger is too damaged for that.
bool Restoring::settleLog() const {
    // SQLite would write into a wreck, or throw its log away; that is to be looked at as it is.
    if (!m_opens) return false;
    {
        sqlite::Connection connection(m_r.ledger, false);
        if (!connection.database.open()) return false;
        QSqlQuery query(connection.database);
        if (!query.exec(QStringLiteral("PRAGMA wal_checkpoint(TRUNCATE)")) || !query.next() || query.value(0).toInt() != 0) return false;
    }
    return QFileInfo(logOf(m_r.ledger)).size() == 0 && syncFile(m_r.ledger).has_value();
}

Outcome<qint64> Restoring::keepAside() {
    const QString stem = m_r.ledger + QStringLiteral(".before-restore-") + toUtc(m_r.now).toString(QStringLiteral("yyyyMMdd'T'HHmmss'Z'"));
    m_done.aside = stem;
    for (int n = 2; QFileInfo::exists(m_done.aside) || QFileInfo::exists(logOf(m_done.aside)); ++n) m_done.aside = QStringLiteral("%1-%2").arg(stem).arg(n);
    if (settleLog()) {
        QFile::remove(logOf(m_r.ledger));
        QFile::remove(indexOf(m_r.ledger));
        // A second name for the same file, so that there is a ledger at every instant; where a disk knows no second names, a copy.
        if (::link(QFile::encodeName(m_r.ledger).constData(), QFile::encodeName(m_done.aside).constData()) != 0)
            if (const auto copied = copyDurably(m_r.ledger, m_done.aside); !copied) return copied;
        return syncFolder(QFileInfo(m_r.ledger).absolutePath());
    }
    // A log that cannot be brought in belongs to the damaged file and must not meet the restored one. The ledger goes first:
    // until the new one has its name, the draft beside it keeps anything from being made in its place.
    if (QFileInfo::exists(m_r.ledger))
        if (const auto moved = renameDurably(m_r.ledger, m_done.aside); !moved) return moved;
    if (QFileInfo::exists(logOf(m_r.ledger)))
        if (const auto moved = renameDurably(logOf(m_r.ledger), logOf(m_done.aside)); !moved) return moved;
    QFile::remove(indexOf(m_r.ledger));
    return 0;
}

Outcome<qint64> Restoring::exchange() {
    const bool there = isThere();
    if (const auto copied = copyDurably(ledgerIn(m_r.backup), m_draft); !copied) {
        QFile::remove(m_draft);
        return copied;
    }
    const auto whole = verifiedPosition(m_draft, m_r.fleetId);
    if (!whole) return tl::unexpected<Finding>(whole.error());
    if (*whole != m_done.note.position)
        return refusal(QStringLiteral("backup-damaged"), QStringLiteral("the backup changed while it was copied"),
                       QStringLiteral("see what else writes there, and restore again"), m_r.backup);
    if (const auto synced = syncFolder(QFileInfo(m_draft).absolutePath()); !synced) return synced;
    if (there)
        if (const auto kept = keepAside(); !kept) return kept;
    return renameDurably(m_draft, m_r.ledger);
}

Outcome<Restored> Restoring::run() {
    const auto note = verifyBackup(m_r.backup);
    if (!note) return tl::unexpected<Finding>(note.error());
    m_done.note = *note;
    if (note->fleetId != m_r.fleetId)
        return refusal(QStringLiteral("backup-fleet"),
                       QStringLiteral("this is a backup of the fleet \"%1\", not of \"%2\"").arg(note->fleetId, m_r.fleetId),
                       QStringLiteral("name its own fleet folder"), m_r.backup);
    if (!QDir().mkpath(QFileInfo(m_r.ledger).absolutePath()))
        return refusal(QStringLiteral("ledger-folder"), QStringLiteral("the ledger's folder cannot be made"),
                       QStringLiteral("choose another place for the ledger, or give yourself the right to write there"), m_r.ledger);
    const auto lock = StationLock::take(m_r.ledger, m_r.station);
    if (!lock) return tl::unexpected<Finding>(lock.error());
    if (const auto compared = compare(); !compared) return tl::unexpected<Finding>(compared.error());
    // Before the ledger that speaks of them.
    if (const auto put = restorePhotos(m_r.backup, *note, photosBeside(m_r.ledger)); !put) return tl::unexpected<Finding>(put.error());
    if (const auto done = exchange(); !done) return tl::unexpected<Finding>(done.error());
    return m_done;
}

} // namespace

Outcome<Restored> restoreLedger(const RestoreRequest& request) {
    const auto done = Restoring(request).run();
    if (!done) return done;
    // Of another backup it would be said that it is none of this ledger. Failing that, the window only warns once too often.
    BackupNote last = done->note;
    last.folder = QFileInfo(request.backup).absoluteFilePath();
    (void)rememberBackup(request.ledger, last);
    return done;
}

Outcome<qint64> restoreFleetFolder(const QString& backup, const BackupNote& note, const QString& folder) {
    if (QFileInfo::exists(folder) && !QDir(folder).isEmpty())
        return refusal(QStringLiteral("file-folder"), QStringLiteral("%1 is there and not empty").arg(folder),
                       QStringLiteral("name a new folder; nothing is overwritten"), folder);
    const auto files = fleetFilesIn(backup, note);
    if (!files) return tl::unexpected<Finding>(files.error());
    const QString whole = QDir::cleanPath(QFileInfo(folder).absoluteFilePath());
    const QString draft = QFileInfo(whole).absoluteDir().filePath(QStringLiteral(".%1.unfinished").arg(QFileInfo(whole).fileName()));
    QDir(draft).removeRecursively();
    for (auto it = files->cbegin(); it != files->cend(); ++it) {
        const QString file = draft + QLatin1Char('/') + it.key();
        if (!QDir().mkpath(QFileInfo(file).absolutePath()))
            return refusal(QStringLiteral("file-folder"), QStringLiteral("the folder of %1 cannot be made").arg(file),
                           QStringLiteral("choose a place where you may write"), file);
        if (const auto written = writeDurably(file, it.value()); !written) return written;
    }
    if (const auto synced = syncFolder(draft); !synced) return synced;
    return renameDurably(draft, whole);
}

} // namespace interlude
