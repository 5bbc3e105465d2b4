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
    /// The wheel over a choice or a number scrolls what it stands in and never changes it unseen.
    void polish(QWidget* widget) override;
    bool eventFilter(QObject* watched, QEvent* event) override;
    using QProxyStyle::polish;
};

} // namespace interlude::look
