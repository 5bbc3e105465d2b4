#include "views/paper/sheet.h"

#include <QFontMetricsF>
#include <QPageLayout>
#include <QPainter>

namespace interlude::paper {

namespace {
constexpr double margin = 36, runningHeight = 18;
} // namespace

QPageSize pageSize(Size size) {
    return QPageSize(size == Size::A4 ? QPageSize::A4 : QPageSize::Letter);
}

Sheet::Sheet(Size size) : m_page(pageSize(size).sizePoints()) {
    m_inside = QRectF(margin, margin + runningHeight, m_page.width() - 2 * margin, m_page.height() - 2 * margin - 2 * runningHeight);
}

void Sheet::gap(double height) {
    add({height, [](QPainter&, const QRectF&) {}});
}

void Sheet::heading(const QString& text) {
    const double height = textHeight(text, Face::Heading, width()) + 6;
    add({height,
         [text](QPainter& p, const QRectF& r) {
             drawText(p, r.x(), r.y() + 3, r.width(), text, Face::Heading);
             p.setPen(QPen(ink::line(), 0.5));
             p.drawLine(QPointF(r.left(), r.bottom() - 1.5), QPointF(r.right(), r.bottom() - 1.5));
         },
         true});
}

void Sheet::paragraph(const QString& text, Face f) {
    for (const QString& part : portions(text))
        add({textHeight(part, f, width()) + 2, [part, f](QPainter& p, const QRectF& r) { drawText(p, r.x(), r.y(), r.width(), part, f); }});
}

void Sheet::paragraph(const Rich& text) {
    add({richHeight(text, Face::Body, width()) + 2, [text](QPainter& p, const QRectF& r) { drawRich(p, r.x(), r.y(), r.width(), text, Face::Body); }});
}

void Sheet::framed(const QString& text) {
    constexpr double inset = 5;
    for (const QString& part : portions(text))
        add({textHeight(part, Face::Heading, width() - 2 * inset) + 2 * inset + 4, [part](QPainter& p, const QRectF& r) {
                 p.setPen(QPen(ink::text(), 1.2));
                 p.drawRect(r.adjusted(0.6, 2, -0.6, -2));
                 drawText(p, r.x() + inset, r.y() + inset + 2, r.width() - 2 * inset, part, Face::Heading);
             }});
}

namespace {
constexpr double between = 16; ///< two columns

struct LineColumn {
    double label, width; ///< of the label, of the whole
    double height(const RecordLine& l) const {
        return std::max(textHeight(l.label, Face::Body, label - 6), textHeight(l.value, Face::Body, width - label)) + 1;
    }
    void draw(QPainter& p, double x, double y, const RecordLine& l) const {
        drawText(p, x, y, label - 6, l.label, Face::Body, Qt::AlignLeft, ink::soft());
        drawText(p, x + label, y, width - label, l.value, Face::Body);
    }
};

/// A value too long for one block goes on in lines without a label.
QList<RecordLine> portioned(const QList<RecordLine>& lines) {
    QList<RecordLine> out;
    for (const RecordLine& l : lines) {
        QString label = l.label;
        for (const QString& part : portions(l.value)) {
            out.append({label, part});
            label.clear();
        }
    }
    return out;
}
} // namespace

void Sheet::lines(const QList<RecordLine>& left) {
    const LineColumn column{110, width()};
    for (const RecordLine& l : portioned(left))
        add({column.height(l), [=](QPainter& p, const QRectF& r) { column.draw(p, r.x(), r.y(), l); }});
}

void Sheet::lines(const QList<RecordLine>& left, const QList<RecordLine>& right) {
    const LineColumn column{84, (width() - between) / 2};
    const auto heightOf = [&](const QList<RecordLine>& lines) {
        double height = 0;
        for (const RecordLine& l : lines) height += column.height(l);
        return height;
    };
    const double height = std::max(heightOf(left), heightOf(right));
    if (height > tallest) { // too much for one block: one below the other
        lines(left);
        lines(right);
        return;
    }
    // Two independent columns in one block: a row of one has nothing to do with its neighbour.
    add({height, [=](QPainter& p, const QRectF& r) {
             double x = r.x();
             for (const QList<RecordLine>* lines : {&left, &right}) {
                 double y = r.y();
                 for (const RecordLine& l : *lines) {
                     column.draw(p, x, y, l);
                     y += column.height(l);
                 }
                 x += column.width + between;
             }
         }});
}

void Sheet::bullets(const QList<Rich>& items) {
    for (const Rich& item : items)
        add({richHeight(item, Face::Body, width() - 10) + 2, [item](QPainter& p, const QRectF& r) {
                 drawText(p, r.x(), r.y(), 10, QStringLiteral("–"), Face::Body, Qt::AlignLeft, ink::soft());
                 drawRich(p, r.x() + 10, r.y(), r.width() - 10, item, Face::Body);
             }});
}

void Sheet::bullets(const QStringList& items) {
    QList<Rich> plain;
    for (const QString& item : items)
        for (const QString& part : portions(item)) plain.append({{part}});
    bullets(plain);
}

void Sheet::setRunning(const QString& left, const QString& right, const QString& foot) {
    m_left = left;
    m_right = right;
    m_foot = foot;
}

std::vector<Sheet::Page> Sheet::pages() const {
    std::vector<Page> out(1);
    double y = 0;
    const Block* head = nullptr;
    for (std::size_t i = 0; i < m_blocks.size(); ++i) {
        const Block& block = m_blocks[i];
        if (block.tableHead) head = &block;
        // A heading, and the head of a table, must not stand alone at the foot of a page.
        double needed = block.height;
        for (std::size_t next = i; next < m_blocks.size() && (m_blocks[next].keepWithNext || m_blocks[next].tableHead); ++next)
            if (next + 1 < m_blocks.size()) needed += m_blocks[next + 1].height;
        if (y > 0 && y + needed > m_inside.height()) {
            out.emplace_back();
            y = 0;
            if (block.inTable && head && !block.tableHead) {
                out.back().push_back(head);
                y += head->height;
            }
        }
        out.back().push_back(&block);
        y += block.height;
    }
    return out;
}

void Sheet::paintRunning(QPainter& painter, int page, int of) const {
    const double x = m_inside.x(), w = m_inside.width();
    // What the page is of stands whole; the shop's name gives way.
    const double right = std::min(w * 0.6, QFontMetricsF(face(Face::Bold)).horizontalAdvance(m_right) + 12);
    drawText(painter, x, margin, w - right, elided(m_left, Face::Body, w - right), Face::Body, Qt::AlignLeft, ink::soft());
    drawText(painter, x + w * 0.4, margin, w * 0.6, m_right, Face::Bold, Qt::AlignRight);
    painter.setPen(QPen(ink::line(), 0.5));
    painter.drawLine(QPointF(x, margin + 12), QPointF(x + w, margin + 12));
    const double foot = m_page.height() - margin - 9;
    painter.drawLine(QPointF(x, foot - 3), QPointF(x + w, foot - 3));
    drawText(painter, x, foot, w - 70, m_foot, Face::Small, Qt::AlignLeft, ink::soft());
    drawText(painter, x + w - 70, foot, 70, Words::tr("page %1 of %2").arg(page).arg(of), Face::Small, Qt::AlignRight, ink::soft());
}

int Sheet::paint(QPagedPaintDevice& device) const {
    const auto all = pages();
    // The sheet is upright whatever the printer's dialog was left at, and whole on a smaller page.
    device.setPageOrientation(QPageLayout::Portrait);
    const QSizeF room = device.pageLayout().fullRect(QPageLayout::Point).size();
    QPainter painter;
    if (!painter.begin(&device)) return 0;
    const double fits = std::min({1.0, room.width() / m_page.width(), room.height() / m_page.height()});
    const double scale = fits * static_cast<double>(device.logicalDpiX()) / 72.0;
    for (std::size_t i = 0; i < all.size(); ++i) {
        if (i > 0 && !device.newPage()) return 0;
        painter.save();
        painter.scale(scale, scale);
        paintRunning(painter, static_cast<int>(i) + 1, static_cast<int>(all.size()));
        double y = m_inside.y();
        for (const Block* block : all[i]) {
            block->paint(painter, QRectF(m_inside.x(), y, m_inside.width(), block->height));
            y += block->height;
        }
        painter.restore();
    }
    return static_cast<int>(all.size());
}

} // namespace interlude::paper
