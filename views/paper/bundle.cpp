#include "model/records/bundle_check.h"
#include "views/paper/sheet.h"
#include "views/paper/unfinished_folder.h"
#include "views/photos/photo.h"

#include <QCryptographicHash>
#include <QDir>
#include <QFile>
#include <QJsonDocument>

namespace interlude::paper {

namespace {

Outcome<QByteArray> sumOf(const QString& path) {
    QFile file(path);
    if (!file.open(QIODevice::ReadOnly))
        return refusal(QStringLiteral("bundle"), Words::tr("%1 cannot be read back: %2").arg(path, file.errorString()));
    QCryptographicHash hash(QCryptographicHash::Sha256);
    if (!hash.addData(&file)) return refusal(QStringLiteral("bundle"), Words::tr("%1 cannot be read back").arg(path));
    return hash.result().toHex();
}

Outcome<bool> write(const QString& path, const QByteArray& content) {
    QFile file(path);
    if (file.open(QIODevice::WriteOnly) && file.write(content) == content.size() && file.flush()) return true;
    return refusal(QStringLiteral("bundle"), Words::tr("%1 cannot be written: %2").arg(path, file.errorString()),
                   Words::tr("choose a folder where you may write"));
}

} // namespace

Outcome<QStringList> writeBundle(const Record& record, const QString& folder, Size size) {
    if (QFileInfo::exists(folder))
        return refusal(QStringLiteral("bundle"), Words::tr("%1 is there already").arg(folder),
                       Words::tr("name a new folder; nothing is overwritten"));
    UnfinishedFolder made(folder);
    if (!made.isThere())
        return refusal(QStringLiteral("bundle"), Words::tr("%1 cannot be made").arg(folder), Words::tr("choose a folder where you may write"));
    QStringList names{bundle::recordPdf, bundle::recordJson};
    const QDir dir = made.dir();
    if (const auto done = writeRecordPdf(record, dir.filePath(names[0]), size); !done) return tl::unexpected(done.error());
    if (const auto done = write(dir.filePath(names[1]), QJsonDocument(toJson(record)).toJson()); !done) return tl::unexpected(done.error());
    // A photo that is missing or was changed is told in the record itself; a wrong file would only look right.
    for (qsizetype i = 0; i < record.photos.size(); ++i) {
        const auto photo = keptPhoto(record.photoFolder, record.photos.at(i).sha256);
        if (!photo) continue;
        names += QStringLiteral("photo-%1.jpg").arg(i + 1);
        if (const auto done = write(dir.filePath(names.last()), *photo); !done) return tl::unexpected(done.error());
    }
    QByteArray sums;
    for (const QString& name : std::as_const(names)) {
        const auto sum = sumOf(dir.filePath(name));
        if (!sum) return tl::unexpected(sum.error());
        sums += *sum + "  " + name.toUtf8() + "\n";
    }
    names += bundle::sums;
    if (const auto done = write(dir.filePath(names.last()), sums); !done) return tl::unexpected(done.error());
    if (!made.keep())
        return refusal(QStringLiteral("bundle"), Words::tr("%1 cannot be made").arg(folder), Words::tr("choose a folder where you may write"));
    QStringList out;
    for (const QString& name : names) out.append(QDir(folder).filePath(name));
    return out;
}

} // namespace interlude::paper
