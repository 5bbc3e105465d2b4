#include "views/photos/photo.h"

#include "model/backup/backup.h"

#include <QBuffer>
#include <QColorSpace>
#include <QCoreApplication>
#include <QCryptographicHash>
#include <QDir>
#include <QFile>
#include <QImageReader>
#include <QImageWriter>
#include <QPainter>
#include <QRegularExpression>
#include <QSaveFile>
#include <QStandardPaths>

namespace interlude {

namespace {

constexpr int quality = 85;
constexpr qint64 mostPixels = 120'000'000;

QString tr(const char* text) {
    return QCoreApplication::translate("Photo", text);
}

tl::unexpected<Finding> refused(const QString& why, const QString& right = {}) {
    return tl::unexpected(Finding{Severity::Refusal, QStringLiteral("photo"), why, right, {}, false});
}

QString sumOf(const QByteArray& bytes) {
    return QString::fromLatin1(QCryptographicHash::hash(bytes, QCryptographicHash::Sha256).toHex());
}

QString fileOf(const QString& folder, const QString& sha256) {
    return QDir(folder).filePath(sha256 + QStringLiteral(".jpg"));
}

/// The picture alone: pixels in the usual colours on white, nothing that the file said beside them.
QImage bare(QImage image) {
    if (image.colorSpace().isValid()) image.convertToColorSpace(QColorSpace::SRgb);
    QImage out(image.size(), QImage::Format_RGB32);
    out.fill(Qt::white);
    QPainter p(&out);
    p.drawImage(0, 0, image);
    return out;
}

Outcome<QImage> readImage(QFile& file, const QString& name) {
    QImageReader reader(&file);
    reader.setDecideFormatFromContent(true);
    reader.setAutoTransform(true); // upright as the camera was held: that is lost with the metadata
    const QByteArray format = reader.format();
    if (format != "jpeg" && format != "png")
        return refused(tr("%1 is neither a JPEG nor a PNG picture").arg(name), tr("its content counts, not its name"));
    const QSize size = reader.size();
    if (!size.isValid() || qint64(size.width()) * size.height() > mostPixels)
        return refused(tr("%1 has %2 × %3 points, more than a photo has").arg(name).arg(size.width()).arg(size.height()),
                       tr("choose a smaller one"));
    if (std::max(size.width(), size.height()) > longestPhotoSide)
        reader.setScaledSize(size.scaled(longestPhotoSide, longestPhotoSide, Qt::KeepAspectRatio).expandedTo({1, 1}));
    const QImage image = reader.read();
    if (image.isNull()) return refused(tr("%1 is damaged: %2").arg(name, reader.errorString()), tr("take the photo again"));
    return bare(image);
}

} // namespace

Outcome<Photo> preparePhoto(const QString& path) {
    Photo photo;
    photo.name = QFileInfo(path).fileName();
    QFile file(path);
    if (!QFileInfo(path).isFile() || !file.open(QIODevice::ReadOnly))
        return refused(tr("%1 cannot be read").arg(photo.name), tr("choose a file that you may read"));
    if (file.size() > largestPhotoFile)
        return refused(tr("%1 has %2 MB, more than %3").arg(photo.name).arg(file.size() >> 20).arg(largestPhotoFile >> 20), tr("choose a smaller one"));
    auto image = readImage(file, photo.name);
    if (!image) return tl::unexpected(image.error());
    photo.image = std::move(*image);
    QBuffer buffer(&photo.jpeg);
    QImageWriter writer(&buffer, "jpeg");
    writer.setQuality(quality);
    if (!writer.write(photo.image)) return refused(tr("%1 cannot be kept: %2").arg(photo.name, writer.errorString()));
    photo.sha256 = sumOf(photo.jpeg);
    return photo;
}

QString photoFolder(const EventStore& ledger, const QString& fleetId) {
    const QString file = ledger.location().section(QStringLiteral(" ("), 0, 0); // "(read only)" is no part of its name
    if (QFileInfo(file).isFile()) return photosBeside(file);
    return QStringLiteral("%1/interlude/%2/photos").arg(QStandardPaths::writableLocation(QStandardPaths::GenericDataLocation), fleetId);
}

Outcome<QString> keepPhoto(const QString& folder, const Photo& photo) {
    if (keptPhoto(folder, photo.sha256)) return photo.sha256;
    QSaveFile file(fileOf(folder, photo.sha256));
    if (!QDir().mkpath(folder) || !file.open(QIODevice::WriteOnly) || file.write(photo.jpeg) != photo.jpeg.size() || !file.commit())
        return refused(tr("%1 cannot be kept in %2: %3").arg(photo.name, folder, file.errorString()),
                       tr("make room or ask for the right to write there; without the photo the problem can be noted now"));
    return photo.sha256;
}

Outcome<QByteArray> keptPhoto(const QString& folder, const QString& sha256) {
    static const QRegularExpression sum(QStringLiteral("^[0-9a-f]{64}$"));
    if (!sum.match(sha256).hasMatch()) return refused(tr("“%1” names no photo").arg(sha256));
    QFile file(fileOf(folder, sha256));
    if (!file.open(QIODevice::ReadOnly))
        return refused(tr("The photo is missing: %1").arg(file.fileName()), tr("put it back from a backup"));
    const QByteArray bytes = file.size() <= largestPhotoFile ? file.readAll() : QByteArray();
    if (sumOf(bytes) != sha256)
        return refused(tr("The photo was changed after it was kept: %1").arg(file.fileName()), tr("put it back from a backup"));
    return bytes;
}

Record recordWithPhotos(const Workbench& bench, const SessionState& session) {
    Record record = recordOf(bench.shop(), session, bench.now());
    record.photoFolder = photoFolder(bench.store(), bench.catalogue().fleet.id);
    return record;
}

QStringList photoFaults(const Record& record) {
    QStringList out;
    for (qsizetype i = 0; i < record.photos.size(); ++i)
        if (const auto kept = keptPhoto(record.photoFolder, record.photos.at(i).sha256); !kept)
            out << tr("Photo %1: %2").arg(i + 1).arg(kept.error().reason);
    return out;
}

} // namespace interlude
