#include "model/backup/backup_note.h"

#include "model/ledger/durable_file.h"

#include <QCryptographicHash>
#include <QDir>
#include <QDirIterator>
#include <QFile>

namespace interlude {

namespace {

const QString noteName = QStringLiteral("backup.json");
const QString ledgerName = QStringLiteral("ledger.sqlite");
const QString fleetFolder = QStringLiteral("fleet/");
const QString photoFolder = QStringLiteral("photos/");

tl::unexpected<Finding> doesNotVerify(const QString& why, const QString& place) {
    return refusal(QStringLiteral("backup-damaged"), why, QStringLiteral("use another backup; keep this one to be looked at"), place);
}

Outcome<QString> sumOf(const QString& file) {
    QFile in(file);
    QCryptographicHash sha(QCryptographicHash::Sha256);
    if (!in.open(QIODevice::ReadOnly) || !sha.addData(&in))
        return refusal(QStringLiteral("backup-damaged"), QStringLiteral("%1 cannot be read (%2)").arg(file, in.errorString()),
                       QStringLiteral("use another backup, or give yourself the right to read it"), file);
    return QString::fromLatin1(sha.result().toHex());
}

/// A name in a backup stays below its folder.
bool isInside(const QString& name) {
    return !name.isEmpty() && !name.startsWith(QLatin1Char('/')) && QDir::cleanPath(name) == name && !name.startsWith(QStringLiteral(".."));
}

/// Builds a backup in a folder of its own; what was begun goes away again with it.
class Draft {
public:
    explicit Draft(const QString& folder)
        : m_folder(folder), m_draft(QFileInfo(folder).absoluteDir().filePath(QStringLiteral(".%1.unfinished").arg(QFileInfo(folder).fileName()))) {}
    ~Draft() {
        if (!m_named) QDir(m_draft).removeRecursively();
    }
    Q_DISABLE_COPY_MOVE(Draft)

    Outcome<BackupNote> make(const BackupSource& source);

private:
    QString in(const QString& name) const { return m_draft + QLatin1Char('/') + name; }
    Outcome<qint64> begin();
    Outcome<qint64> putLedger(const BackupSource& source);
    Outcome<qint64> putFiles(const BackupSource& source);
    Outcome<qint64> putPhotos(const QString& photos);
    Outcome<qint64> put(const QString& name, const QByteArray& bytes);
    Outcome<qint64> finish();

    QString m_folder, m_draft;
    QStringList m_parents; ///< that get a new entry, innermost first
    BackupNote m_note;
    bool m_named = false;
};

Outcome<qint64> Draft::begin() {
    if (QFileInfo::exists(m_folder))
        return refusal(QStringLiteral("backup-there"), QStringLiteral("%1 is there already").arg(m_folder),
                       QStringLiteral("name a new folder; nothing is overwritten"), m_folder);
    QDir(m_draft).removeRecursively(); // of a program that was killed
    for (QString parent = QFileInfo(m_folder).absolutePath();; parent = QFileInfo(parent).absolutePath()) {
        m_parents.append(parent);
        if (QFileInfo::exists(parent) || parent == QFileInfo(parent).absolutePath()) break;
    }
    if (QDir().mkpath(m_draft)) return 0;
    return refusal(QStringLiteral("file-folder"), QStringLiteral("the folder %1 cannot be made").arg(m_folder),
                   QStringLiteral("choose a place where you may write"), m_folder);
}

Outcome<qint64> Draft::put(const QString& name, const QByteArray& bytes) {
    const QString file = in(name);
    if (!isInside(name) || !QDir().mkpath(QFileInfo(file).absolutePath()))
        return refusal(QStringLiteral("file-folder"), QStringLiteral("the folder of %1 cannot be made").arg(file),
                       QStringLiteral("choose a place where you may write"), file);
    m_note.sums.insert(name, QString::fromLatin1(QCryptographicHash::hash(bytes, QCryptographicHash::Sha256).toHex()));
    return writeDurably(file, bytes);
}

Outcome<qint64> Draft::putLedger(const BackupSource& source) {
    const auto position = copyLedger(source.ledger, source.fleetId, in(ledgerName));
    if (!position) return tl::unexpected<Finding>(position.error());
    m_note.position = *position;
    const auto sum = sumOf(in(ledgerName));
    if (!sum) return tl::unexpected<Finding>(sum.error());
    m_note.sums.insert(ledgerName, *sum);
    return 0;
}

Outcome<qint64> Draft::putFiles(const BackupSource& source) {
    for (auto it = source.files.cbegin(); it != source.files.cend(); ++it)
        if (const auto done = put(fleetFolder + it.key(), it.value().toUtf8()); !done) return done;
    return putPhotos(source.photos);
}

Outcome<qint64> Draft::putPhotos(const QString& photos) {
    if (photos.isEmpty() || !QFileInfo(photos).isDir()) return 0;
    for (const QString& name : QDir(photos).entryList(QDir::Files, QDir::Name)) {
        QFile photo(QDir(photos).filePath(name));
        if (!photo.open(QIODevice::ReadOnly))
            return refusal(QStringLiteral("file-folder"), QStringLiteral("%1 cannot be read (%2)").arg(photo.fileName(), photo.errorString()),
                           QStringLiteral("give yourself the right to read it"), photo.fileName());
        if (const auto done = put(photoFolder + name, photo.readAll()); !done) return done;
    }
    return 0;
}

Outcome<qint64> Draft::finish() {
    if (const auto written = writeDurably(in(noteName), noteBytes(m_note)); !written) return written;
    QStringList folders{m_draft};
    QDirIterator below(m_draft, QDir::Dirs | QDir::NoDotAndDotDot, QDirIterator::Subdirectories);
    while (below.hasNext()) folders.append(below.next());
    for (const QString& folder : std::as_const(folders))
        if (const auto synced = syncFolder(folder); !synced) return synced;
    // As it lies on the disk now, before it may bear its name.
    if (const auto good = verifyBackup(m_draft); !good) return tl::unexpected<Finding>(good.error());
    auto named = renameDurably(m_draft, m_folder);
    for (const QString& parent : std::as_const(m_parents))
        if (named) named = syncFolder(parent);
    // It may bear its name already while that is not known to be on the disk: then it is taken away again.
    if (!named && !QFileInfo::exists(m_draft)) QDir(m_folder).removeRecursively();
    m_named = named.has_value();
    return named;
}

Outcome<BackupNote> Draft::make(const BackupSource& source) {
    if (const auto begun = begin(); !begun) return tl::unexpected<Finding>(begun.error());
    m_note.fleetId = source.fleetId;
    m_note.program = QStringLiteral(INTERLUDE_VERSION);
    m_note.madeAt = source.madeAt;
    m_note.folder = QFileInfo(m_folder).absoluteFilePath();
    if (const auto done = putLedger(source); !done) return tl::unexpected<Finding>(done.error());
    if (const auto done = putFiles(source); !done) return tl::unexpected<Finding>(done.error());
    if (const auto done = finish(); !done) return tl::unexpected<Finding>(done.error());
    return m_note;
}

QString remembered(const QString& ledger) { return ledger + QStringLiteral(".last-backup"); }

} // namespace

QString ledgerIn(const QString& backupFolder) { return backupFolder + QLatin1Char('/') + ledgerName; }

Outcome<BackupNote> makeBackup(const BackupSource& source, const QString& folder) {
    return Draft(QDir::cleanPath(QFileInfo(folder).absoluteFilePath())).make(source);
}

Outcome<BackupNote> readBackup(const QString& folder) {
    QFile file(folder + QLatin1Char('/') + noteName);
    if (!file.open(QIODevice::ReadOnly))
        return refusal(QStringLiteral("backup-foreign"), QStringLiteral("%1 is no backup: it has no readable %2").arg(folder, noteName),
                       QStringLiteral("name the folder of a backup, with backup.json in it"), folder);
    return noteFrom(file.readAll(), file.fileName());
}

Outcome<BackupNote> verifyBackup(const QString& folder) {
    const auto note = readBackup(folder);
    if (!note) return note;
    if (!note->sums.contains(ledgerName)) return doesNotVerify(QStringLiteral("the backup's note names no ledger"), folder);
    for (auto it = note->sums.cbegin(); it != note->sums.cend(); ++it) {
        const QString file = folder + QLatin1Char('/') + it.key();
        if (!isInside(it.key())) return doesNotVerify(QStringLiteral("the backup's note names a file outside it: %1").arg(it.key()), folder);
        const auto sum = sumOf(file);
        if (!sum) return tl::unexpected<Finding>(sum.error());
        if (*sum != it.value()) return doesNotVerify(QStringLiteral("%1 is not as it was when the backup was made").arg(file), file);
    }
    const auto position = verifiedPosition(ledgerIn(folder), note->fleetId);
    if (!position) return tl::unexpected<Finding>(position.error());
    if (*position != note->position)
        return doesNotVerify(QStringLiteral("the backup's ledger has %1 events, its note says %2, or they end differently")
                                 .arg(position->events).arg(note->position.events), folder);
    return note;
}

Outcome<QMap<QString, QByteArray>> fleetFilesIn(const QString& folder, const BackupNote& note) {
    QMap<QString, QByteArray> files;
    for (auto it = note.sums.cbegin(); it != note.sums.cend(); ++it) {
        if (!it.key().startsWith(fleetFolder)) continue;
        QFile file(folder + QLatin1Char('/') + it.key());
        if (!file.open(QIODevice::ReadOnly)) return doesNotVerify(QStringLiteral("%1 cannot be read").arg(file.fileName()), file.fileName());
        files.insert(it.key().mid(fleetFolder.size()), file.readAll());
    }
    return files;
}

Outcome<qint64> restorePhotos(const QString& folder, const BackupNote& note, const QString& photos) {
    qint64 put = 0;
    for (const QString& path : note.sums.keys()) {
        if (!path.startsWith(photoFolder)) continue;
        const QString target = photos + QLatin1Char('/') + path.mid(photoFolder.size());
        if (QFileInfo::exists(target)) continue; // its name is its sum
        if (!QDir().mkpath(QFileInfo(target).absolutePath()))
            return refusal(QStringLiteral("file-folder"), QStringLiteral("the folder of %1 cannot be made").arg(target),
                           QStringLiteral("give yourself the right to write there"), target);
        const QString draft = target + QStringLiteral(".new");
        if (const auto copied = copyDurably(folder + QLatin1Char('/') + path, draft); !copied) return copied;
        if (const auto named = renameDurably(draft, target); !named) return named;
        ++put;
    }
    return put;
}

Outcome<qint64> rememberBackup(const QString& ledger, const BackupNote& note) {
    const QString draft = remembered(ledger) + QStringLiteral(".new");
    if (const auto written = writeDurably(draft, noteBytes(note)); !written) return written;
    return renameDurably(draft, remembered(ledger));
}

std::optional<BackupNote> lastBackup(const QString& ledger) {
    QFile file(remembered(ledger));
    if (!file.open(QIODevice::ReadOnly)) return {};
    const auto note = noteFrom(file.readAll(), file.fileName());
    return note ? std::optional(*note) : std::nullopt;
}

} // namespace interlude
