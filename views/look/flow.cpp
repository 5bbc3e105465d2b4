#include "views/look/flow.h"

#include "views/look/look.h"

#include <QWidget>

#include <algorithm>

namespace interlude::look {

Flow::Flow(QWidget* parent) : QLayout(parent) {
    setContentsMargins(0, 0, 0, 0);
    setSpacing(unit);
    QSizePolicy policy = parent ? parent->sizePolicy() : QSizePolicy();
    policy.setHeightForWidth(true);
    if (parent) parent->setSizePolicy(policy);
}

Flow::~Flow() {
    for (const Entry& e : m_entries) delete e.item;
}

void Flow::add(QWidget* widget, bool grows) {
    addWidget(widget);
    m_entries.back().grows = grows;
}

void Flow::addGap() {
    addItem(new QSpacerItem(0, 0, QSizePolicy::Expanding, QSizePolicy::Minimum));
    m_entries.back().grows = true;
}

void Flow::addSpacing(int width) {
    addItem(new QSpacerItem(width, 0, QSizePolicy::Fixed, QSizePolicy::Minimum));
}

void Flow::addItem(QLayoutItem* item) {
    m_entries.push_back({item, false});
    invalidate();
}

int Flow::count() const {
    return static_cast<int>(m_entries.size());
}

QLayoutItem* Flow::itemAt(int index) const {
    return index >= 0 && index < count() ? m_entries[static_cast<std::size_t>(index)].item : nullptr;
}

QLayoutItem* Flow::takeAt(int index) {
    QLayoutItem* item = itemAt(index);
    if (item) m_entries.erase(m_entries.begin() + index);
    invalidate();
    return item;
}

QSize Flow::askedBy(const Entry& e) {
    return e.item->sizeHint().expandedTo(e.item->minimumSize());
}

std::vector<Flow::Line> Flow::lines(int width) const {
    std::vector<Line> out(1);
    for (const Entry& e : m_entries) {
        if (e.item->isEmpty() && !isGap(e)) continue; // hidden
        Line* line = &out.back();
        const QSize asked = askedBy(e);
        const int space = line->width > 0 && !isGap(e) ? spacing() : 0;
        if (line->width > 0 && !isGap(e) && line->width + space + asked.width() > width) {
            out.emplace_back();
            line = &out.back();
            line->width = asked.width();
        } else {
            line->width += space + asked.width();
        }
        line->height = std::max(line->height, asked.height());
        line->entries.push_back({e.item, e.grows});
    }
    return out;
}

QSize Flow::sizeHint() const {
    const Line one = lines(QLAYOUTSIZE_MAX).front();
    const QMargins m = contentsMargins();
    return {one.width + m.left() + m.right(), one.height + m.top() + m.bottom()};
}

QSize Flow::minimumSize() const {
    QSize least;
    for (const Entry& e : m_entries)
        if (!e.item->isEmpty()) least = least.expandedTo(askedBy(e));
    const QMargins m = contentsMargins();
    return {least.width() + m.left() + m.right(), least.height() + m.top() + m.bottom()};
}

int Flow::heightForWidth(int width) const {
    const QMargins m = contentsMargins();
    int height = m.top() + m.bottom() - spacing();
    for (const Line& line : lines(width - m.left() - m.right())) height += line.height + spacing();
    return height;
}

void Flow::setGeometry(const QRect& rect) {
    QLayout::setGeometry(rect);
    const QRect room = contentsRect();
    int top = room.top();
    for (const Line& line : lines(room.width())) {
        const auto growing = std::count_if(line.entries.begin(), line.entries.end(), [](const Entry& e) { return e.grows; });
        const int over = std::max(0, room.width() - line.width);
        const int share = growing > 0 ? over / static_cast<int>(growing) : 0;
        int left = room.left();
        for (const Entry& e : line.entries) {
            const int width = std::min(room.width(), askedBy(e).width() + (e.grows ? share : 0));
            e.item->setGeometry(QRect(left, top, width, line.height));
            left += width + (isGap(e) ? 0 : spacing());
        }
        top += line.height + spacing();
    }
}

} // namespace interlude::look
