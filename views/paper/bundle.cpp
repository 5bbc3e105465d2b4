#include "views/paper/sheet.h"
#include "views/paper/unfinished_folder.h"

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
    const QStringList names{QStringLiteral("record.pdf"), QStringLiteral("record.json"), QStringLiteral("sha256sums.txt")};
    const QDir dir = made.dir();
    if (const auto done = writeRecordPdf(record, dir.filePath(names[0]), size); !done) return tl::unexpected(done.error());
    if (const auto done = write(dir.filePath(names[1]), QJsonDocument(toJson(record)).toJson()); !done) return tl::unexpected(done.error());
    QByteArray sums;
    for (const QString& name : names.first(2)) {
        const auto sum = sumOf(dir.filePath(name));
        if (!sum) return tl::unexpected(sum.error());
        sums += *sum + "  " + name.toUtf8() + "\n";
    }
    if (const auto done = write(dir.filePath(names[2]), sums); !done) return tl::unexpected(done.error());
    if (!made.keep())
        return refusal(QStringLiteral("bundle"), Words::tr("%1 cannot be made").arg(folder), Words::tr("choose a folder where you may write"));
    QStringList out;
    for (const QString& name : names) out.append(QDir(folder).filePath(name));
    return out;
}

} // namespace interlude::paper
