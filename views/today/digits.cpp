#include "views/today/digits.h"

#include <QPainter>

namespace interlude {

Digits::Digits(QWidget* parent) : QWidget(parent) {
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    setWall(false);
}

void Digits::setText(const QString& text) {
    if (m_text == text) return;
    m_text = text;
    setAccessibleName(text);
    update();
}

void Digits::setWall(bool wall) {
    m_wall = wall;
    const QFontMetrics metrics(look::font(wall ? look::Text::WallCountdown : look::Text::Countdown));
    setFixedHeight(wall ? metrics.capHeight() + 3 * look::unit : 7 * look::unit);
    update();
}

void Digits::paintEvent(QPaintEvent*) {
    QPainter p(this);
    const int largest = look::font(m_wall ? look::Text::WallCountdown : look::Text::Countdown).pixelSize();
    const int smallest = look::font(look::Text::PanelTitle).pixelSize();
    QFont f = look::font(m_wall ? look::Text::WallCountdown : look::Text::Countdown);
    // On a card three quarters of a countdown are enough; on the wall nothing is.
    f.setPixelSize(m_wall ? largest : largest * 3 / 4);
    const int advance = QFontMetrics(f).horizontalAdvance(m_text);
    if (advance > width()) f.setPixelSize(std::max(smallest, f.pixelSize() * width() / std::max(1, advance)));
    p.setFont(f);
    p.setPen(look::colours().text);
    p.drawText(rect(), Qt::AlignLeft | Qt::AlignVCenter, m_text);
}

} // namespace interlude
