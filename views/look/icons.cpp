#include "views/look/look.h"

#include <QFile>
#include <QIconEngine>
#include <QPainter>
#include <QSvgRenderer>

namespace interlude::look {

namespace {

const QString folder = QStringLiteral(":/icons/");

/// Draws at paint time in the colours of the theme then in force, so that a change of theme needs no new icons. The
/// drawings say `currentColor` (or plain black) where the theme's colour belongs.
class ThemedEngine final : public QIconEngine {
public:
    explicit ThemedEngine(QByteArray drawing) : m_drawing(std::move(drawing)) {}

    void paint(QPainter* painter, const QRect& rect, QIcon::Mode mode, QIcon::State) override {
        const QColor ink = mode == QIcon::Disabled ? colours().muted : colours().text;
        QByteArray coloured = m_drawing;
        for (const QByteArrayView word : {"currentColor", "#000000", "#000\"", "\"black\""}) {
            QByteArray with = ink.name().toLatin1();
            if (word.endsWith('"')) with += '"';
            if (word.startsWith('"')) with.prepend('"');
            coloured.replace(word, with);
        }
        QSvgRenderer renderer(coloured);
        QSizeF size = renderer.defaultSize();
        size.scale(rect.size(), Qt::KeepAspectRatio);
        QRectF place(QPointF(0, 0), size);
        place.moveCenter(QRectF(rect).center());
        renderer.render(painter, place);
    }

    QPixmap pixmap(const QSize& size, QIcon::Mode mode, QIcon::State state) override {
        QPixmap out(size);
        out.fill(Qt::transparent);
        QPainter painter(&out);
        paint(&painter, QRect(QPoint(0, 0), size), mode, state);
        return out;
    }

    QIconEngine* clone() const override { return new ThemedEngine(m_drawing); }

private:
    QByteArray m_drawing;
};

} // namespace

QIcon icon(const QString& name) {
    QFile file(folder + name + QStringLiteral(".svg"));
    if (name.isEmpty() || !file.open(QIODevice::ReadOnly)) return {};
    return QIcon(new ThemedEngine(file.readAll()));
}

QIcon programIcon() {
    return QIcon(QStringLiteral(":/marks/interlude.svg"));
}

QIcon cautionIcon(const QString& subject) {
    const QIcon own = icon(subject);
    return own.isNull() ? icon(QStringLiteral("general")) : own;
}

} // namespace interlude::look
