#include "views/paper/sheet.h"

#include <QPainter>
#include <QPrinter>

namespace interlude::paper {

namespace {

/// Columns of the step table, from the left edge; the step itself takes what remains.
struct Columns {
    double number = 18, planned = 38, actual = 38, begun = 38, ended = 38, who = 56;
    double step(double width) const { return width - number - planned - actual - begun - ended - who; }
};

void box(QPainter& p, double x, double y) {
    p.setPen(QPen(ink::text(), 0.7));
    p.drawRect(QRectF(x, y, 7, 7));
}

Block tableHead(double width) {
    return {15, [width](QPainter& p, const QRectF& r) {
                const Columns c;
                p.fillRect(r, ink::fill());
                double x = r.x();
                const auto cell = [&](double w, const QString& text, Qt::Alignment align) {
                    drawText(p, x + 2, r.y() + 3, w - 4, text, Face::Small, align, ink::soft());
                    x += w;
                };
                cell(c.number, QStringLiteral("#"), Qt::AlignRight);
                cell(c.step(width), QStringLiteral("step, and what was confirmed"), Qt::AlignLeft);
                cell(c.planned, QStringLiteral("planned"), Qt::AlignRight);
                cell(c.actual, QStringLiteral("actual"), Qt::AlignRight);
                cell(c.begun, QStringLiteral("begun"), Qt::AlignRight);
                cell(c.ended, QStringLiteral("ended"), Qt::AlignRight);
                cell(c.who, QStringLiteral("who"), Qt::AlignLeft);
            },
            true, true, true};
}

/// Everything under the step's title, with the mark that stands before it.
QList<std::pair<QString, QString>> detailsOf(const RecordStep& s) {
    QList<std::pair<QString, QString>> out;
    for (const QString& e : s.entries) out.append({QString(), e});
    for (const QString& o : s.overrides) out.append({QStringLiteral("override"), o});
    for (const QString& c : s.corrections) out.append({QStringLiteral("correction"), c});
    return out;
}

Block groupRow(const QString& group) {
    return {14, [group](QPainter& p, const QRectF& r) { drawText(p, r.x() + 20, r.y() + 3, r.width() - 20, group, Face::Bold); },
            true, false, true};
}

Block stepRow(const RecordStep& s, double width) {
    const Columns c;
    const double textWidth = c.step(width) - 4;
    const QString title = s.skipped ? QStringLiteral("%1 (skipped)").arg(s.title) : s.title;
    double height = textHeight(title, Face::Body, textWidth) + 4;
    const auto details = detailsOf(s);
    const auto shown = [](const std::pair<QString, QString>& d) {
        return d.first.isEmpty() ? d.second : QStringLiteral("%1: %2").arg(d.first.toUpper(), d.second);
    };
    for (const auto& d : details) height += textHeight(shown(d), Face::Small, textWidth) + 0.5;
    return {height, [=](QPainter& p, const QRectF& r) {
                double x = r.x();
                drawText(p, x + 2, r.y() + 2, c.number - 4, QString::number(s.number), Face::Body, Qt::AlignRight, ink::soft());
                x += c.number;
                double y = r.y() + 2 + drawText(p, x + 2, r.y() + 2, textWidth, title, Face::Body);
                for (const auto& d : details) y += drawText(p, x + 2, y, textWidth, shown(d), Face::Small, Qt::AlignLeft, ink::soft()) + 0.5;
                x += c.step(width);
                for (const auto& [w, text] : {std::pair(c.planned, s.planned), std::pair(c.actual, s.actual),
                                              std::pair(c.begun, s.begun), std::pair(c.ended, s.ended)}) {
                    drawText(p, x + 2, r.y() + 2, w - 4, text, text.size() > 5 ? Face::Small : Face::Body, Qt::AlignRight);
                    x += w;
                }
                drawText(p, x + 4, r.y() + 2, c.who - 4, s.late ? QStringLiteral("%1 · late").arg(s.who) : s.who, Face::Body);
                p.setPen(QPen(ink::line(), 0.25));
                p.drawLine(QPointF(r.left(), r.bottom()), QPointF(r.right(), r.bottom()));
            },
            false, false, true};
}

/// A row of the empty checklist: a box, ruled lines for what is written in by hand.
Block blankRow(const RecordStep& s, double width) {
    const Columns c;
    const double textWidth = c.step(width) - 16;
    const double titleHeight = textHeight(s.title, Face::Body, textWidth);
    double height = std::max(20.0, titleHeight + 6);
    for (const QString& f : s.toFill) height += std::max(16.0, textHeight(f, Face::Small, textWidth - 70) + 4);
    return {height, [=](QPainter& p, const QRectF& r) {
                double x = r.x();
                drawText(p, x + 2, r.y() + 4, c.number - 4, QString::number(s.number), Face::Body, Qt::AlignRight, ink::soft());
                x += c.number;
                box(p, x + 2, r.y() + 5);
                drawText(p, x + 14, r.y() + 4, textWidth, s.title, Face::Body);
                double y = r.y() + titleHeight + 6;
                for (const QString& f : s.toFill) {
                    const double h = std::max(16.0, textHeight(f, Face::Small, textWidth - 70) + 4);
                    drawText(p, x + 14, y + 3, textWidth - 70, f, Face::Small, Qt::AlignLeft, ink::soft());
                    p.setPen(QPen(ink::line(), 0.5));
                    p.drawLine(QPointF(x + textWidth - 50, y + h - 3), QPointF(x + textWidth + 10, y + h - 3));
                    y += h;
                }
                x += c.step(width);
                drawText(p, x + 2, r.y() + 4, c.planned - 4, s.planned, s.planned.size() > 5 ? Face::Small : Face::Body, Qt::AlignRight);
                x += c.planned;
                p.setPen(QPen(ink::line(), 0.5));
                for (const double w : {c.actual, c.begun, c.ended, c.who}) {
                    p.drawLine(QPointF(x + 5, r.y() + 15), QPointF(x + w - 2, r.y() + 15));
                    x += w;
                }
                p.setPen(QPen(ink::line(), 0.25));
                p.drawLine(QPointF(r.left(), r.bottom()), QPointF(r.right(), r.bottom()));
            },
            false, false, true};
}

void addTitle(Sheet& sheet, const Record& r) {
    const double qr = 76;
    sheet.add({qr, [r, qr](QPainter& p, const QRectF& rect) {
                   const double width = rect.width() - qr - 12;
                   double y = rect.y() + drawText(p, rect.x(), rect.y(), width, QStringLiteral("%1 · %2").arg(r.title, r.printer), Face::Title) + 4;
                   y += drawText(p, rect.x(), y, width, r.blank ? r.state : QStringLiteral("Revision %1 · %2").arg(r.revision).arg(r.state), Face::Bold) + 3;
                   y += drawText(p, rect.x(), y, width, r.shopName, Face::Body) + 3;
                   if (r.example)
                       drawText(p, rect.x(), y, width, QStringLiteral("EXAMPLE: an invented shop; no such work was done"), Face::Bold);
                   drawQr(p, QRectF(rect.right() - qr, rect.y(), qr, qr), r.verificationText);
               }});
}

void addSteps(Sheet& sheet, const Record& r) {
    sheet.gap(4);
    sheet.add(tableHead(sheet.width()));
    QString group;
    for (const RecordStep& s : r.steps) {
        if (s.group != group) {
            group = s.group;
            sheet.add(groupRow(group));
        }
        sheet.add(r.blank ? blankRow(s, sheet.width()) : stepRow(s, sheet.width()));
    }
    if (r.blank) return;
    sheet.paragraph(QStringLiteral("Minutes planned and actual, rounded up; times are the shop's local time. “typed”: entered by hand instead "
                                   "of scanned; “late”: entered after the fact."), Face::Small);
}

void addLists(Sheet& sheet, const Record& r) {
    const std::pair<QString, QStringList> lists[] = {{QStringLiteral("Overrides"), r.overrides},
                                                     {QStringLiteral("Corrections"), r.corrections},
                                                     {QStringLiteral("Interruptions"), r.interruptions},
                                                     {QStringLiteral("Problems"), r.problems}};
    for (const auto& [title, items] : lists) {
        if (items.isEmpty()) continue;
        sheet.heading(title);
        sheet.bullets(items);
    }
    if (!r.calibration.isEmpty()) {
        sheet.heading(QStringLiteral("Alignment and other readings"));
        sheet.lines(r.calibration);
    }
    sheet.heading(QStringLiteral("Cautions that applied"));
    sheet.paragraph(r.cautions.isEmpty() ? QStringLiteral("none listed") : r.cautions.join(QStringLiteral("  ")), Face::Small);
    sheet.paragraph(QStringLiteral("The printer's manual, the feedstock's safety data sheet, the shop's rules and local codes come first."), Face::Small);
}

void addEnd(Sheet& sheet, const Record& r) {
    sheet.heading(r.blank ? QStringLiteral("Carried out") : QStringLiteral("Disposition"));
    if (!r.blank) sheet.paragraph(r.disposition, Face::Bold);
    sheet.add({30, [](QPainter& p, const QRectF& rect) {
                   const double w = (rect.width() - 24) / 2;
                   p.setPen(QPen(ink::line(), 0.5));
                   for (int i = 0; i < 2; ++i) {
                       const double x = rect.x() + i * (w + 24);
                       p.drawLine(QPointF(x, rect.y() + 20), QPointF(x + w, rect.y() + 20));
                       drawText(p, x, rect.y() + 21, w, i == 0 ? QStringLiteral("technician, date") : QStringLiteral("checked by, date"), Face::Small, Qt::AlignLeft, ink::soft());
                       p.setPen(QPen(ink::line(), 0.5));
                   }
               }});
    sheet.heading(QStringLiteral("Where this comes from"));
    sheet.lines(r.foot);
    sheet.paragraph(QStringLiteral("To compare with the ledger: interlude verify FLEET --record HASH. The code above says the same."), Face::Small);
}

Sheet composed(const Record& r, Size size) {
    Sheet sheet(size);
    sheet.setRunning(r.example ? QStringLiteral("%1 · example").arg(r.shopName) : r.shopName,
                     r.blank ? r.title : QStringLiteral("%1 · revision %2").arg(r.title).arg(r.revision),
                     r.verificationText);
    addTitle(sheet, r);
    sheet.heading(QStringLiteral("What was changed over"));
    sheet.lines(r.head, r.nozzles + r.materials);
    sheet.heading(QStringLiteral("Residue and clean-out"));
    sheet.lines(r.cleanOut);
    addSteps(sheet, r);
    addLists(sheet, r);
    addEnd(sheet, r);
    return sheet;
}

} // namespace

Outcome<int> writeRecordPdf(const Record& record, const QString& file, Size size) {
    return writePdf(composed(record, size), QStringLiteral("%1 · %2").arg(record.title, record.printer), file, size);
}

int paintRecord(const Record& record, QPrinter& printer) {
    const bool letter = printer.pageLayout().pageSize().id() == QPageSize::Letter;
    printer.setFullPage(true);
    return composed(record, letter ? Size::Letter : Size::A4).paint(printer);
}

} // namespace interlude::paper
