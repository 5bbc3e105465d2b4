#include "views/look/style.h"

#include "views/look/look.h"

#include <QAbstractSpinBox>
#include <QComboBox>
#include <QEvent>
#include <QPainter>
#include <QStyleFactory>
#include <QStyleOption>

namespace interlude::look {

namespace {

constexpr int markSize = 18;

void drawTick(QPainter& painter, const QRectF& box) {
    const auto at = [&box](double x, double y) { return box.topLeft() + QPointF(x * box.width(), y * box.height()); };
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(colours().onAccent, 2.2, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
    painter.drawPolyline(QPolygonF{at(0.24, 0.52), at(0.43, 0.71), at(0.77, 0.31)});
}

/// Off: a border in the colour of all fields; on: filled with the accent, and a mark in it.
void drawMark(QPainter& painter, const QStyleOption& option, bool round) {
    const bool on = option.state.testFlag(QStyle::State_On), between = option.state.testFlag(QStyle::State_NoChange);
    const bool enabled = option.state.testFlag(QStyle::State_Enabled);
    const QColor edge = enabled ? colours().muted : colours().line;
    const QColor full = enabled ? colours().accent : colours().muted;
    const QRectF box = QRectF(option.rect).adjusted(0.5, 0.5, -0.5, -0.5); // the pen lies on whole pixels
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen(on || between ? full : edge, 1));
    painter.setBrush(on || between ? full : colours().panel);
    const double corner = round ? box.width() / 2 : radius;
    painter.drawRoundedRect(box, corner, corner);
    painter.setPen(Qt::NoPen);
    painter.setBrush(colours().onAccent);
    if (between) painter.drawRect(QRectF(box.left() + 4, box.center().y() - 1, box.width() - 8, 2));
    else if (on && round) painter.drawEllipse(box.center(), box.width() / 5, box.width() / 5);
    else if (on) drawTick(painter, box);
}

} // namespace

Style::Style() : QProxyStyle(QStyleFactory::create(QStringLiteral("Fusion"))) {}

void Style::drawPrimitive(PrimitiveElement element, const QStyleOption* option, QPainter* painter,
                          const QWidget* widget) const {
    if (element != PE_IndicatorCheckBox && element != PE_IndicatorRadioButton) {
        QProxyStyle::drawPrimitive(element, option, painter, widget);
        return;
    }
    painter->save();
    drawMark(*painter, *option, element == PE_IndicatorRadioButton);
    painter->restore();
}

void Style::polish(QWidget* widget) {
    QProxyStyle::polish(widget);
    if (qobject_cast<QComboBox*>(widget) || qobject_cast<QAbstractSpinBox*>(widget)) widget->installEventFilter(this);
}

bool Style::eventFilter(QObject* watched, QEvent* event) {
    if (event->type() != QEvent::Wheel) return QProxyStyle::eventFilter(watched, event);
    event->ignore(); // goes on to what the field stands in
    return true;
}

int Style::pixelMetric(PixelMetric metric, const QStyleOption* option, const QWidget* widget) const {
    switch (metric) {
    case PM_IndicatorWidth:
    case PM_IndicatorHeight:
    case PM_ExclusiveIndicatorWidth:
    case PM_ExclusiveIndicatorHeight: return markSize;
    default: return QProxyStyle::pixelMetric(metric, option, widget);
    }
}

} // namespace interlude::look
