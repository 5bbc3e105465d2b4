#include "model/backup/backup_note.h"

#include <QJsonDocument>
#include <QJsonObject>

namespace interlude {

namespace {
constexpr int noteFormat = 1;
}

QByteArray noteBytes(const BackupNote& note) {
    QJsonObject sums;
    for (auto it = note.sums.cbegin(); it != note.sums.cend(); ++it) sums.insert(it.key(), it.value());
    return QJsonDocument(QJsonObject{
                             {QStringLiteral("backup"), noteFormat},
                             {QStringLiteral("fleet"), note.fleetId},
                             {QStringLiteral("program"), note.program},
                             {QStringLiteral("made-at"), iso(note.madeAt)},
                             {QStringLiteral("events"), note.position.events},
                             {QStringLiteral("last-hash"), QString::fromLatin1(note.position.hash.toHex())},
                             {QStringLiteral("folder"), note.folder},
                             {QStringLiteral("sha256"), sums},
                         })
        .toJson();
}

Outcome<BackupNote> noteFrom(const QByteArray& bytes, const QString& place) {
    const QJsonObject o = QJsonDocument::fromJson(bytes).object();
    const int format = o.value(QStringLiteral("backup")).toInt();
    const auto foreign = [&](const QString& why) {
        return refusal(QStringLiteral("backup-foreign"), why, QStringLiteral("name the folder of a backup, with backup.json in it"), place);
    };
    if (format > noteFormat)
        return refusal(QStringLiteral("backup-foreign"), QStringLiteral("the backup is of a newer version of Interlude"),
                       QStringLiteral("use that version"), place);
    if (format != noteFormat) return foreign(QStringLiteral("%1 is no note of a backup").arg(place));
    BackupNote note;
    note.fleetId = o.value(QStringLiteral("fleet")).toString();
    note.program = o.value(QStringLiteral("program")).toString();
    const QDateTime made = QDateTime::fromString(o.value(QStringLiteral("made-at")).toString(), Qt::ISODate);
    note.madeAt = instantOf(made);
    note.position.events = o.value(QStringLiteral("events")).toInteger(-1);
    note.position.hash = QByteArray::fromHex(o.value(QStringLiteral("last-hash")).toString().toLatin1());
    note.folder = o.value(QStringLiteral("folder")).toString();
    const QJsonObject sums = o.value(QStringLiteral("sha256")).toObject();
    for (auto it = sums.begin(); it != sums.end(); ++it) note.sums.insert(it.key(), it.value().toString());
    if (note.fleetId.isEmpty() || !made.isValid() || note.position.events < 0 || note.position.hash.size() != 32)
        return foreign(QStringLiteral("%1 does not say whose backup it is, or of when").arg(place));
    return note;
}

} // namespace interlude
