#include "model/backup/daily.h"

#include <QDir>
#include <QFileInfo>
#include <QSet>

#include <algorithm>

namespace interlude {

namespace {

constexpr int daysAllowed = 2;
const QString advice = QStringLiteral("make one with `interlude backup FLEET --out DIR`, best onto another disk");

QString nameOf(const QString& fleetId, const QDate& day) { return QStringLiteral("%1-%2").arg(fleetId, day.toString(Qt::ISODate)); }

/// Whole daily backups of this fleet, oldest first: a date sorts as it passes.
QStringList dailies(const DailyRule& rule, const QString& fleetId) {
    QStringList found;
    for (const QString& name : QDir(rule.folder).entryList(QDir::Dirs | QDir::NoDotAndDotDot, QDir::Name)) {
        const QDate day = QDate::fromString(name.right(10), Qt::ISODate);
        if (!day.isValid() || name != nameOf(fleetId, day)) continue;
        const auto note = readBackup(QDir(rule.folder).filePath(name));
        if (note && note->fleetId == fleetId) found.append(QDir(rule.folder).filePath(name));
    }
    return found;
}

/// True when the chain that the backup holds is the beginning of this one.
bool isOf(const EventStore& store, const BackupNote& note) {
    const qint64 at = note.position.events;
    if (at > store.lastSequence()) return false;
    if (at == store.lastSequence()) return store.lastHash() == note.position.hash;
    if (at == 0) return true;
    bool same = false;
    const auto read = store.read(at - 1, [&](const Event& e) {
        same = e.hash == note.position.hash;
        return false;
    });
    return read && same;
}

} // namespace

DailyRule dailyRule(const Fleet& fleet, const QString& fleetFolder, const QString& ledger) {
    QString folder = fleet.backupFolder;
    if (folder.isEmpty()) return {ledger + QStringLiteral(".backups"), fleet.backupKeep};
    if (folder.startsWith(QLatin1String("~/"))) folder = QDir::homePath() + folder.mid(1);
    return {QDir::cleanPath(QDir(QDir(fleetFolder).absolutePath()).absoluteFilePath(folder)), fleet.backupKeep};
}

QString dueDaily(const DailyRule& rule, const QString& fleetId, const QDate& day) {
    if (rule.keep <= 0) return {};
    const QString folder = QDir(rule.folder).filePath(nameOf(fleetId, day));
    return QFileInfo::exists(folder) ? QString() : folder;
}

Outcome<BackupNote> makeDaily(const DailyRule& rule, const BackupSource& source, const QString& folder) {
    const auto note = makeBackup(source, folder);
    if (!note) return note;
    if (const auto kept = rememberBackup(source.ledger, *note); !kept) return tl::unexpected<Finding>(kept.error());
    QStringList all = dailies(rule, source.fleetId);
    // Where the machine's clock was set back its date may be the earliest of all; it is the newest none the less.
    all.removeOne(QDir(rule.folder).filePath(QFileInfo(folder).fileName()));
    while (all.size() >= std::max(rule.keep, 1)) {
        // The note goes first: a backup that is half deleted is none.
        const QString oldest = all.takeFirst();
        QFile::remove(QDir(oldest).filePath(QStringLiteral("backup.json")));
        QDir(oldest).removeRecursively();
    }
    return note;
}

int daysOfUseSince(const EventStore& store, qint64 event, const QTimeZone& zone, int most) {
    QSet<QDate> days;
    (void)store.read(event, [&](const Event& e) {
        days.insert(toZone(e.recordedAt, zone).date());
        return days.size() < most;
    });
    return static_cast<int>(days.size());
}

std::optional<Problem> oldBackup(const EventStore& store, const std::optional<BackupNote>& last, const QTimeZone& zone) {
    if (store.lastSequence() == 0) return {};
    Problem p;
    p.file = QStringLiteral("backup");
    p.warning = true;
    p.right = advice;
    if (!last || !isOf(store, *last)) {
        p.what = QStringLiteral("there is no backup of this ledger yet");
        return p;
    }
    if (daysOfUseSince(store, last->position.events, zone, daysAllowed + 1) <= daysAllowed) return {};
    p.what = QStringLiteral("the last backup is of %1; the shop has worked on more than %2 days since")
                 .arg(toZone(last->madeAt, zone).date().toString(Qt::ISODate)).arg(daysAllowed);
    return p;
}

} // namespace interlude
