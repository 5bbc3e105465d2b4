#include "views/today/digits.h"

#include <QPainter>

namespace interlude {

Digits::Digits(QWidget* parent) : QWidget(parent) {
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    setFixedHeight(7 * look::unit);
}

void Digits::setText(const QString& text) {
    if (m_text == text) return;
    m_text = text;
    setAccessibleName(text);
    update();
}

void Digits::paintEvent(QPaintEvent*) {
    QPainter p(this);
    const int smallest = look::font(look::Text::PanelTitle).pixelSize();
    QFont f = look::font(look::Text::Countdown);
    f.setPixelSize(f.pixelSize() * 3 / 4); // enough on a card
    const int advance = QFontMetrics(f).horizontalAdvance(m_text);
    if (advance > width()) f.setPixelSize(std::max(smallest, f.pixelSize() * width() / std::max(1, advance)));
    p.setFont(f);
    p.setPen(look::colours().text);
    p.drawText(rect(), Qt::AlignLeft | Qt::AlignVCenter, m_text);
}

} // namespace interlude
