#include "views/today/wall_text.h"

#include <QPainter>

#include <algorithm>

namespace interlude {

namespace {

bool holdsDigit(const QString& word) {
    return std::any_of(word.begin(), word.end(), [](QChar c) { return c.isDigit(); });
}

} // namespace

QString firstFitting(const QStringList& texts, const QFont& font, double width) {
    const QFontMetricsF metrics(font);
    for (const QString& text : texts)
        if (metrics.horizontalAdvance(text) <= width) return text;
    return texts.isEmpty() ? QString() : metrics.elidedText(texts.last(), Qt::ElideRight, width);
}

void paintFigure(QPainter& p, const QString& text, QPointF baseline, double width, double digit, double capital) {
    const QFont large = look::fontOfHeight(digit, true), small = look::fontOfHeight(capital, true);
    if (!holdsDigit(text)) {
        const bool fits = QFontMetricsF(large).horizontalAdvance(text) <= width;
        p.setFont(fits ? large : small);
        p.drawText(baseline, fits ? text : firstFitting({text}, small, width));
        return;
    }
    const double gap = 0.35 * capital;
    double x = baseline.x();
    for (const QString& word : text.split(QLatin1Char(' '), Qt::SkipEmptyParts)) {
        const QFont& font = holdsDigit(word) ? large : small;
        const double advance = QFontMetricsF(font).horizontalAdvance(word);
        if (!holdsDigit(word) && x + advance > baseline.x() + width) break; // the digits say it; half a word would not
        p.setFont(font);
        p.drawText(QPointF(x, baseline.y()), word);
        x += advance + gap;
    }
}

} // namespace interlude
