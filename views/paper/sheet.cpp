#include "views/paper/sheet.h"

#include <QFile>
#include <QPageLayout>
#include <QPainter>
#include <QPdfWriter>
#include <QTextLayout>

#include <cmath>

namespace interlude::paper {

namespace {
constexpr double margin = 40, runningHeight = 26;

int pixels(Face f) {
    switch (f) {
    case Face::Small: return 7;
    case Face::Body:
    case Face::Bold: return 9;
    case Face::Heading: return 10;
    case Face::Title: return 18;
    }
    return 9;
}
} // namespace

namespace ink {
QColor text() { return QColor::fromRgb(0x1B, 0x21, 0x24); }
QColor soft() { return QColor::fromRgb(0x4A, 0x54, 0x59); }
QColor line() { return QColor::fromRgb(0x9A, 0xA2, 0xA7); }
QColor fill() { return QColor::fromRgb(0xEC, 0xEE, 0xEF); }
} // namespace ink

QFont face(Face f) {
    QFont font(QStringLiteral("Inter"));
    font.setFamilies({QStringLiteral("Inter"), QStringLiteral("DejaVu Sans")});
    font.setPixelSize(pixels(f));
    // Unhinted, so that a text measured at one point a pixel has the same width on a printer.
    font.setHintingPreference(QFont::PreferNoHinting);
    font.setBold(f == Face::Bold || f == Face::Heading || f == Face::Title);
    return font;
}

namespace {
/// Breaks between words, and inside one only where it is longer than the width; calls `use` and returns the height.
double laidOut(const QString& text, Face f, double width, const std::function<void(const QTextLayout&)>& use,
               Qt::Alignment align = Qt::AlignLeft) {
    if (text.isEmpty()) return 0;
    QTextOption option(align);
    option.setWrapMode(QTextOption::WrapAtWordBoundaryOrAnywhere);
    QTextLayout layout(QString(text).replace(QLatin1Char('\n'), QChar(QChar::LineSeparator)), face(f));
    layout.setTextOption(option);
    double y = 0;
    layout.beginLayout();
    for (QTextLine line = layout.createLine(); line.isValid(); line = layout.createLine()) {
        line.setLineWidth(width);
        line.setPosition(QPointF(0, y));
        y += line.height();
    }
    layout.endLayout();
    use(layout);
    return y;
}
} // namespace

double textHeight(const QString& text, Face f, double width) {
    return laidOut(text, f, width, [](const QTextLayout&) {});
}

double drawText(QPainter& painter, double x, double y, double width, const QString& text, Face f, Qt::Alignment align,
                const QColor& colour) {
    painter.setPen(colour);
    return laidOut(text, f, width, [&](const QTextLayout& layout) { layout.draw(&painter, QPointF(x, y)); }, align);
}

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
    const double height = textHeight(text, Face::Heading, width()) + 9;
    add({height,
         [text](QPainter& p, const QRectF& r) {
             drawText(p, r.x(), r.y() + 5, r.width(), text, Face::Heading);
             p.setPen(QPen(ink::line(), 0.5));
             p.drawLine(QPointF(r.left(), r.bottom() - 1.5), QPointF(r.right(), r.bottom() - 1.5));
         },
         true});
}

void Sheet::paragraph(const QString& text, Face f) {
    add({textHeight(text, f, width()) + 2, [text, f](QPainter& p, const QRectF& r) { drawText(p, r.x(), r.y(), r.width(), text, f); }});
}

void Sheet::lines(const QList<RecordLine>& left, const QList<RecordLine>& right) {
    const bool two = !right.isEmpty();
    const double column = two ? (width() - 16) / 2 : width();
    const double label = two ? 84 : 110;
    const auto height = [=](const RecordLine& l) {
        return std::max(textHeight(l.label, Face::Body, label - 6), textHeight(l.value, Face::Body, column - label)) + 2;
    };
    const auto draw = [=](QPainter& p, double x, double y, const RecordLine& l) {
        drawText(p, x, y, label - 6, l.label, Face::Body, Qt::AlignLeft, ink::soft());
        drawText(p, x + label, y, column - label, l.value, Face::Body);
    };
    if (!two) {
        for (const RecordLine& l : left) add({height(l), [=](QPainter& p, const QRectF& r) { draw(p, r.x(), r.y(), l); }});
        return;
    }
    // Two independent columns stand in one block: they are short, and a row of one has nothing to do with its neighbour.
    double leftHeight = 0, rightHeight = 0;
    for (const RecordLine& l : left) leftHeight += height(l);
    for (const RecordLine& l : right) rightHeight += height(l);
    add({std::max(leftHeight, rightHeight), [=](QPainter& p, const QRectF& r) {
             double y = r.y();
             for (const RecordLine& l : left) {
                 draw(p, r.x(), y, l);
                 y += height(l);
             }
             y = r.y();
             for (const RecordLine& l : right) {
                 draw(p, r.x() + column + 16, y, l);
                 y += height(l);
             }
         }});
}

void Sheet::bullets(const QStringList& items) {
    for (const QString& item : items)
        add({textHeight(item, Face::Body, width() - 10) + 2, [item](QPainter& p, const QRectF& r) {
                 drawText(p, r.x(), r.y(), 10, QStringLiteral("–"), Face::Body, Qt::AlignLeft, ink::soft());
                 drawText(p, r.x() + 10, r.y(), r.width() - 10, item, Face::Body);
             }});
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
    drawText(painter, x, margin, w * 0.7, m_left, Face::Body, Qt::AlignLeft, ink::soft());
    drawText(painter, x + w * 0.4, margin, w * 0.6, m_right, Face::Bold, Qt::AlignRight);
    painter.setPen(QPen(ink::line(), 0.5));
    painter.drawLine(QPointF(x, margin + 16), QPointF(x + w, margin + 16));
    const double foot = m_page.height() - margin - 14;
    painter.drawLine(QPointF(x, foot - 4), QPointF(x + w, foot - 4));
    drawText(painter, x, foot, w - 70, m_foot, Face::Small, Qt::AlignLeft, ink::soft());
    drawText(painter, x + w - 70, foot, 70, QStringLiteral("page %1 of %2").arg(page).arg(of), Face::Small, Qt::AlignRight, ink::soft());
}

int Sheet::paint(QPagedPaintDevice& device) const {
    const auto all = pages();
    QPainter painter(&device);
    const double scale = static_cast<double>(device.logicalDpiX()) / 72.0;
    for (std::size_t i = 0; i < all.size(); ++i) {
        if (i > 0) device.newPage();
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

Outcome<int> writePdf(const Sheet& sheet, const QString& title, const QString& file, Size size) {
    QFile out(file);
    if (!out.open(QIODevice::WriteOnly))
        return refusal(QStringLiteral("paper"), QStringLiteral("%1 cannot be written: %2").arg(file, out.errorString()),
                       QStringLiteral("choose a folder where you may write"), file);
    QPdfWriter pdf(&out);
    pdf.setPdfVersion(QPagedPaintDevice::PdfVersion_A1b);
    pdf.setResolution(600);
    pdf.setTitle(title);
    pdf.setCreator(QStringLiteral("Interlude " INTERLUDE_VERSION));
    pdf.setPageLayout(QPageLayout(pageSize(size), QPageLayout::Portrait, QMarginsF(0, 0, 0, 0), QPageLayout::Point));
    const int pages = sheet.paint(pdf);
    if (!out.flush() || out.error() != QFileDevice::NoError)
        return refusal(QStringLiteral("paper"), QStringLiteral("%1 was not written whole: %2").arg(file, out.errorString()),
                       QStringLiteral("make room on the disk and print again"), file);
    return pages;
}

} // namespace interlude::paper
