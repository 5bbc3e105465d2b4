#include "views/paper/photo_blocks.h"

#include "views/photos/photo.h"

#include <QPainter>

namespace interlude::paper {

namespace {

constexpr double gap = 16, inset = 5;
constexpr double tallestPicture = 190;
/// Pixels per point that print well (200 per inch); more would only make the file heavy.
constexpr double density = 200.0 / 72.0;

struct Shown {
    QImage image;  ///< null: see `fault`
    QString fault, caption;
    double height = 0; ///< of image or fault
};

Shown shownOf(const Record& r, qsizetype i, double width) {
    Shown s;
    // In two lines: a hash that was broken anywhere could not be compared.
    const QString sum = r.photos.at(i).sha256;
    s.caption = Words::tr("Photo %1, of problem %2. SHA-256:\n%3\n%4").arg(i + 1).arg(r.photos.at(i).problem).arg(sum.left(32), sum.mid(32));
    const auto kept = keptPhoto(r.photoFolder, sum);
    const QImage image = kept ? QImage::fromData(*kept, "jpeg") : QImage();
    if (image.isNull()) {
        s.fault = kept ? Words::tr("The photo cannot be read.") : kept.error().reason;
        s.height = textHeight(s.fault, Face::Body, width - 2 * inset) + 2 * inset;
        return s;
    }
    const QSizeF size = QSizeF(image.size()).scaled(width, tallestPicture, Qt::KeepAspectRatio);
    const QSize pixels = (size * density).toSize().expandedTo({1, 1});
    s.image = pixels.width() < image.width() ? image.scaled(pixels, Qt::IgnoreAspectRatio, Qt::SmoothTransformation) : image;
    s.height = size.height();
    return s;
}

void paintShown(QPainter& p, const QRectF& place, const Shown& s) {
    if (s.image.isNull()) {
        p.setPen(QPen(ink::text(), 0.8));
        p.drawRect(QRectF(place.topLeft(), QSizeF(place.width(), s.height)));
        drawText(p, place.x() + inset, place.y() + inset, place.width() - 2 * inset, s.fault, Face::Body);
    } else {
        p.drawImage(QRectF(place.topLeft(), QSizeF(s.image.size()).scaled(place.width(), s.height, Qt::KeepAspectRatio)), s.image);
    }
    drawText(p, place.x(), place.y() + s.height + 2, place.width(), s.caption, Face::Small);
}

} // namespace

void addPhotos(Sheet& sheet, const Record& r) {
    if (r.photos.isEmpty()) return;
    sheet.heading(Words::tr("Photos"));
    const double width = (sheet.width() - gap) / 2;
    for (qsizetype i = 0; i < r.photos.size(); i += 2) {
        std::vector<Shown> row{shownOf(r, i, width)};
        if (i + 1 < r.photos.size()) row.push_back(shownOf(r, i + 1, width));
        double height = 0;
        for (const Shown& s : row) height = std::max(height, s.height + 2 + textHeight(s.caption, Face::Small, width));
        sheet.add({height + 6, [row, width](QPainter& p, const QRectF& rect) {
                       for (std::size_t k = 0; k < row.size(); ++k)
                           paintShown(p, QRectF(rect.x() + static_cast<double>(k) * (width + gap), rect.y(), width, rect.height()), row[k]);
                   }});
    }
}

} // namespace interlude::paper
