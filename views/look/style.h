#pragma once
// The style under the style sheet: Fusion, with marks whose border can be seen in both themes (WCAG 2.2, 1.4.11).

#include <QProxyStyle>

namespace interlude::look {

class Style final : public QProxyStyle {
    Q_OBJECT
public:
    Style();
    void drawPrimitive(PrimitiveElement element, const QStyleOption* option, QPainter* painter,
                       const QWidget* widget) const override;
    int pixelMetric(PixelMetric metric, const QStyleOption* option, const QWidget* widget) const override;
};

} // namespace interlude::look
