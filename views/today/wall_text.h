#pragma once
// Text on the wall: never smaller than it must be, so words give way instead of letters.

#include "views/look/look.h"

#include <QRectF>
#include <QStringList>

class QPainter;

namespace interlude {

/// The first of the texts that is not wider; else the last, cut with an ellipsis.
QString firstFitting(const QStringList& texts, const QFont& font, double width);

/// A figure with its small words: what holds a digit is as high as `digit`, words beside digits as `capital`; a word alone is
/// large where it fits. Painted on the baseline from `left`.
void paintFigure(QPainter& p, const QString& text, QPointF baseline, double width, double digit, double capital);

} // namespace interlude
