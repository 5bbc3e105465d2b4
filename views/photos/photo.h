#pragma once
// Photos of problems. A file is taken for a photo by what it holds, never by its name; it is drawn anew, upright and scaled
// down, so that nothing else that it carried (place, camera, owner, comments) is kept, and is known by the SHA-256 of what
// is kept. The files lie beside the ledger; the ledger holds their SHA-256 only.

#include "model/records/record.h"
#include "model/shop/workbench.h"

#include <QImage>

namespace interlude {

/// A photo ready to be kept: JPEG without metadata.
struct Photo {
    QString name; ///< of the file that it came from, for people
    QByteArray jpeg;
    QString sha256; ///< lower-case hex, of `jpeg`
    QImage image;
};

inline constexpr qint64 largestPhotoFile = qint64(40) << 20; ///< bytes
inline constexpr int longestPhotoSide = 2048;                ///< pixels, of what is kept
inline constexpr int mostPhotos = 8;                         ///< of one problem

/// JPEG and PNG. Refused (`photo`), with the reason: cannot be read, too large, neither of both, damaged.
Outcome<Photo> preparePhoto(const QString& file);

/// Where the photos of this ledger lie: `<ledger file>.photos`, or the user's data folder for a ledger that is no file here.
QString photoFolder(const EventStore& ledger, const QString& fleetId);
/// Durable when it returns; a photo that is there already is left alone. Refused when it cannot be written.
Outcome<QString> keepPhoto(const QString& folder, const Photo& photo);
/// Refused when the file is missing or is no longer what was kept: the reason is for people and for print.
Outcome<QByteArray> keptPhoto(const QString& folder, const QString& sha256);
/// The record as it is now, knowing where its photos lie.
Record recordWithPhotos(const Workbench& bench, const SessionState& session);
/// What is wrong with the photos of a record now, one sentence each.
QStringList photoFaults(const Record& record);

} // namespace interlude
