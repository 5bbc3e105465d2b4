#pragma once
// Pages are composed before they are painted: blocks of known height are laid down the page, never split, and only when
// all pages are known is "page x of y" painted. Measures are points (1/72 inch); colours are opaque greys, so that the
// paper reads in black and white and PDF/A holds.

#include "views/paper/paper.h"

#include <QColor>
#include <QCoreApplication>
#include <QFont>
#include <QPagedPaintDevice>
#include <QRectF>

#include <functional>
#include <vector>

class QPainter;

namespace interlude::paper {

/// The words of the paper, for the translator.
struct Words { Q_DECLARE_TR_FUNCTIONS(Paper) };

namespace ink {
QColor text();
QColor soft();
QColor line();
QColor fill(); ///< behind headings of a table
} // namespace ink

enum class Face { Small, Body, Bold, Heading, Title };
QFont face(Face f);

/// A text cut between words into parts of which each fits on a page.
QStringList portions(const QString& text);

/// Height of a text set in a width, with word wrap.
double textHeight(const QString& text, Face f, double width);
/// Draws it there, returns its height.
double drawText(QPainter& painter, double x, double y, double width, const QString& text, Face f,
                Qt::Alignment align = Qt::AlignLeft, const QColor& colour = ink::text());

/// Text with emphasis within it: what was corrected is struck through and stays readable.
struct Piece {
    QString text;
    enum Emphasis { Plain, Strong, Struck, Soft } emphasis = Plain;
};
using Rich = QList<Piece>;
double richHeight(const Rich& text, Face f, double width);
double drawRich(QPainter& painter, double x, double y, double width, const Rich& text, Face f, const QColor& colour = ink::text());
/// The text, or its beginning and an ellipsis when it is wider.
QString elided(const QString& text, Face f, double width);

/// One unbreakable piece of a page; never higher than `tallest`, so that no page cuts it off.
inline constexpr double tallest = 300;
struct Block {
    double height = 0;
    std::function<void(QPainter&, const QRectF&)> paint; ///< the rectangle that it got
    bool keepWithNext = false;                           ///< a heading
    bool tableHead = false; ///< repeated on top of the next page while `inTable` blocks follow
    bool inTable = false;
};

class Sheet {
public:
    /// Size of the page's inside, margins and the two lines of header and footer taken off.
    explicit Sheet(Size size);
    double width() const { return m_inside.width(); }
    void add(Block block) { m_blocks.push_back(std::move(block)); }
    void gap(double height);
    void heading(const QString& text);
    /// Text over the whole width.
    void paragraph(const QString& text, Face f = Face::Body);
    void paragraph(const Rich& text);
    /// What must not be overlooked, in a black frame.
    void framed(const QString& text);
    /// label: value, in one column or in two.
    void lines(const QList<RecordLine>& left);
    void lines(const QList<RecordLine>& left, const QList<RecordLine>& right);
    void bullets(const QStringList& items);
    void bullets(const QList<Rich>& items);

    /// Header and footer of every page.
    void setRunning(const QString& left, const QString& right, const QString& foot);
    /// Paints all on an open device; the number of pages, 0 when the device refuses. `device` must have the page size
    /// already.
    int paint(QPagedPaintDevice& device) const;

private:
    using Page = std::vector<const Block*>;
    std::vector<Page> pages() const;
    void paintRunning(QPainter& painter, int page, int of) const;

    QSizeF m_page;
    QRectF m_inside;
    QString m_left, m_right, m_foot;
    std::vector<Block> m_blocks;
};

/// Writes the sheet as PDF/A-1b, whole or not at all; the number of pages. Refused when the file cannot be written.
Outcome<int> writePdf(const Sheet& sheet, const QString& title, const QString& file, Size size);
/// The same for pages that `paint` draws on an open device of that layout; it answers with their number, 0 for failure.
Outcome<int> writePdf(const QPageLayout& layout, const QString& title, const QString& file,
                      const std::function<int(QPagedPaintDevice&)>& paint);

/// Draws a QR code of the text into a square; modules as filled rectangles, never an image.
void drawQr(QPainter& painter, const QRectF& square, const QString& text);

} // namespace interlude::paper
