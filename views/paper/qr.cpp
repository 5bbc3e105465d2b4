#include "views/paper/sheet.h"

#include <QPainter>

#include <qrencode.h>

#include <memory>

namespace interlude::paper {

void drawQr(QPainter& painter, const QRectF& square, const QString& text) {
    const std::unique_ptr<QRcode, decltype(&QRcode_free)> code(
        QRcode_encodeString8bit(text.toUtf8().constData(), 0, QR_ECLEVEL_M), QRcode_free);
    if (!code) return; // text too long for any QR code: the printed text beside it still says all
    const int quiet = 4;
    const double module = square.width() / (code->width + 2 * quiet);
    painter.fillRect(square, Qt::white);
    for (int y = 0; y < code->width; ++y) {
        for (int x = 0; x < code->width;) {
            // Neighbouring dark modules are one rectangle: no hairlines between them on paper.
            int run = 0;
            while (x + run < code->width && (code->data[y * code->width + x + run] & 1)) ++run;
            if (run > 0)
                painter.fillRect(QRectF(square.x() + (quiet + x) * module, square.y() + (quiet + y) * module, run * module, module), Qt::black);
            x += run > 0 ? run : 1;
        }
    }
}

} // namespace interlude::paper
