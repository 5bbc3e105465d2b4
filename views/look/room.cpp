#include "views/look/room.h"

#include "views/look/look.h"

#include <QEvent>
#include <QLayout>
#include <QScrollBar>

namespace interlude::look {

Room::Room(QWidget* inside, Across across, QWidget* parent) : QScrollArea(parent), m_across(across) {
    setFocusPolicy(Qt::NoFocus);
    setFrameShape(QFrame::NoFrame);
    setWidget(inside);
    if (across == Across::Scrolls) return;
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    QSizePolicy policy(QSizePolicy::Preferred, QSizePolicy::Preferred);
    policy.setHeightForWidth(true);
    setSizePolicy(policy);
}

QSize Room::sizeHint() const {
    if (m_across == Across::Scrolls) return QScrollArea::sizeHint();
    const int width = widget()->sizeHint().width();
    return {width, heightForWidth(width)};
}

QSize Room::minimumSizeHint() const {
    if (m_across == Across::Scrolls) return QScrollArea::minimumSizeHint();
    const QSize least = widget()->minimumSizeHint();
    return {least.width() + verticalScrollBar()->sizeHint().width(), std::min(least.height(), 8 * unit)};
}

int Room::heightForWidth(int width) const {
    const QLayout* layout = widget()->layout();
    return layout && layout->hasHeightForWidth() ? layout->totalHeightForWidth(width) : widget()->sizeHint().height();
}

bool Room::eventFilter(QObject* watched, QEvent* event) {
    if (watched == widget() && event->type() == QEvent::LayoutRequest) fit();
    return QScrollArea::eventFilter(watched, event);
}

bool Room::viewportEvent(QEvent* event) {
    if (event->type() == QEvent::LayoutRequest || event->type() == QEvent::Resize) fit();
    return QScrollArea::viewportEvent(event);
}

/// Not `widgetResizable`: that takes the height which a page would like for the one that it needs.
void Room::fit() {
    QSize room = maximumViewportSize();
    const QSize least = widget()->minimumSizeHint();
    const QLayout* layout = widget()->layout();
    const auto needed = [&](int width) {
        // A whole page has scroll areas of its own for its texts; by width it would ask for all the height that they would like.
        return m_across == Across::Fits && layout && layout->hasHeightForWidth() ? std::max(least.height(), layout->totalMinimumHeightForWidth(width)) : least.height();
    };
    const int bar = verticalScrollBar()->sizeHint().width();
    bool down = needed(std::max(room.width(), least.width())) > room.height();
    if (down) room.rwidth() -= bar;
    if (least.width() > room.width()) {
        if (m_across == Across::Scrolls) room.rheight() -= horizontalScrollBar()->sizeHint().height();
        if (!down && needed(least.width()) > room.height()) room.rwidth() -= bar;
    }
    const int width = std::max(room.width(), least.width());
    widget()->resize(width, std::max(room.height(), needed(width)));
}

} // namespace interlude::look
