#include "views/paper/paper.h"

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
    if (!QDir().mkpath(folder))
        return refusal(QStringLiteral("bundle"), Words::tr("%1 cannot be made").arg(folder), Words::tr("choose a folder where you may write"));
    const QDir dir(folder);
    const QString pdf = dir.filePath(QStringLiteral("record.pdf")), json = dir.filePath(QStringLiteral("record.json"));
    if (const auto done = writeRecordPdf(record, pdf, size); !done) return tl::unexpected(done.error());
    if (const auto done = write(json, QJsonDocument(toJson(record)).toJson()); !done) return tl::unexpected(done.error());
    QByteArray sums;
    for (const QString& path : {pdf, json}) {
        const auto sum = sumOf(path);
        if (!sum) return tl::unexpected(sum.error());
        sums += *sum + "  " + QFileInfo(path).fileName().toUtf8() + "\n";
    }
    const QString list = dir.filePath(QStringLiteral("sha256sums.txt"));
    if (const auto done = write(list, sums); !done) return tl::unexpected(done.error());
    return QStringList{pdf, json, list};
}

} // namespace interlude::paper
