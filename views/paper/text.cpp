#include "views/look/look.h"
#include "views/paper/sheet.h"

#include <QFontMetricsF>
#include <QPainter>
#include <QTextLayout>

namespace interlude::paper {

namespace {
int pixels(Face f) {
    switch (f) {
    case Face::Small: return 7;
    case Face::Body:
    case Face::Bold: return 8;
    case Face::Heading: return 9;
    case Face::Title: return 16;
    }
    return 8;
}
} // namespace

namespace ink {
QColor text() { return look::coloursOf(look::Theme::Light).text; }
QColor soft() { return look::coloursOf(look::Theme::Light).soft; }
QColor line() { return look::coloursOf(look::Theme::Light).muted; }
QColor fill() { return look::coloursOf(look::Theme::Light).line; }
} // namespace ink

QFont face(Face f) {
    QFont font(QStringLiteral("Inter"));
    font.setFamilies({QStringLiteral("Inter"), QStringLiteral("DejaVu Sans")});
    font.setPixelSize(pixels(f));
    // Unhinted, so that a text measured at one point a pixel has the same width on a printer.
    font.setHintingPreference(QFont::PreferNoHinting);
    // Without shaping the face keeps to the plain glyphs. Its contextual ones (a raised hyphen between figures, a raised
    // colon after capitals) have no character of their own, and would be missing when the PDF is searched or copied.
    font.setStyleStrategy(QFont::PreferNoShaping);
    font.setBold(f == Face::Bold || f == Face::Heading || f == Face::Title);
    return font;
}

QStringList portions(const QString& text) {
    constexpr qsizetype most = 1800;
    constexpr int mostLines = 20;
    QStringList out;
    QString rest = text;
    const auto tooMuch = [&] { return rest.size() > most || rest.count(QLatin1Char('\n')) > mostLines; };
    while (tooMuch()) {
        qsizetype cut = std::min(most, rest.size());
        qsizetype newline = -1;
        for (int i = 0; i < mostLines && (newline = rest.indexOf(QLatin1Char('\n'), newline + 1)) >= 0; ++i) {}
        if (newline > 0) cut = std::min(cut, newline);
        if (cut == most) {
            const qsizetype blank = rest.lastIndexOf(QLatin1Char(' '), cut);
            if (blank > most / 2) cut = blank;
            if (rest.at(cut - 1).isHighSurrogate()) --cut;
        }
        out.append(rest.left(cut));
        rest = rest.mid(cut).trimmed();
    }
    out.append(rest);
    return out;
}

namespace {
/// Broken between words, and inside one only where it is longer than the width; `height` gets the height of all lines.
std::unique_ptr<QTextLayout> laidOut(const Rich& text, Face f, double width, double& height, Qt::Alignment align = Qt::AlignLeft) {
    QString all;
    QList<QTextLayout::FormatRange> formats;
    for (const Piece& piece : text) {
        QTextLayout::FormatRange range;
        range.start = static_cast<int>(all.size());
        range.length = static_cast<int>(piece.text.size());
        if (piece.emphasis == Piece::Strong) range.format.setFontWeight(QFont::Bold);
        range.format.setFontStrikeOut(piece.emphasis == Piece::Struck);
        if (piece.emphasis == Piece::Soft) range.format.setForeground(ink::soft());
        if (piece.emphasis != Piece::Plain) formats.append(range);
        all += piece.text;
    }
    all.replace(QLatin1Char('\n'), QChar(QChar::LineSeparator));
    auto layout = std::make_unique<QTextLayout>(all, face(f));
    QTextOption option(align);
    option.setWrapMode(QTextOption::WrapAtWordBoundaryOrAnywhere);
    layout->setTextOption(option);
    layout->setFormats(formats);
    height = 0;
    if (all.isEmpty()) return layout;
    layout->beginLayout();
    for (QTextLine line = layout->createLine(); line.isValid(); line = layout->createLine()) {
        line.setLineWidth(width);
        line.setPosition(QPointF(0, height));
        height += line.height();
    }
    layout->endLayout();
    return layout;
}
} // namespace

double textHeight(const QString& text, Face f, double width) {
    return richHeight({{text}}, f, width);
}

double drawText(QPainter& painter, double x, double y, double width, const QString& text, Face f, Qt::Alignment align,
                const QColor& colour) {
    double height = 0;
    const auto layout = laidOut({{text}}, f, width, height, align);
    painter.setPen(colour);
    layout->draw(&painter, QPointF(x, y));
    return height;
}

double richHeight(const Rich& text, Face f, double width) {
    double height = 0;
    laidOut(text, f, width, height);
    return height;
}

double drawRich(QPainter& painter, double x, double y, double width, const Rich& text, Face f, const QColor& colour) {
    double height = 0;
    const auto layout = laidOut(text, f, width, height);
    painter.setPen(colour);
    layout->draw(&painter, QPointF(x, y));
    return height;
}

QString elided(const QString& text, Face f, double width) {
    return QFontMetricsF(face(f)).elidedText(text, Qt::ElideRight, width);
}

} // namespace interlude::paper
