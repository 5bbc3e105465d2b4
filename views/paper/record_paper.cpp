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
                cell(c.step(width), Words::tr("step, and what was confirmed"), Qt::AlignLeft);
                cell(c.planned, Words::tr("planned"), Qt::AlignRight);
                cell(c.actual, Words::tr("actual"), Qt::AlignRight);
                cell(c.begun, Words::tr("begun"), Qt::AlignRight);
                cell(c.ended, Words::tr("ended"), Qt::AlignRight);
                cell(c.who, Words::tr("who"), Qt::AlignLeft);
            },
            true, true, true};
}

/// "X offset: 0.05 mm (limits …)", the original struck through where it was corrected.
Rich entryText(const RecordEntry& e) {
    const bool corrected = !e.corrections.isEmpty();
    Rich out{{e.label + QStringLiteral(": ")}, {e.value, corrected ? Piece::Struck : Piece::Plain}};
    for (qsizetype i = 0; i < e.corrections.size(); ++i) {
        const RecordCorrection& c = e.corrections[i];
        const bool last = i + 1 == e.corrections.size();
        out.append({QStringLiteral(" ")});
        out.append({c.corrected, last ? Piece::Strong : Piece::Struck});
        out.append({Words::tr(" (corrected %1 by %2: %3)").arg(c.at, c.who, c.reason)});
    }
    if (!e.remark.isEmpty()) out.append({QStringLiteral(" (%1)").arg(e.remark)});
    return out;
}

qsizetype lengthOf(const Rich& text) {
    qsizetype n = 0;
    for (const Piece& piece : text) n += piece.text.size();
    return n;
}

/// What stands under a step's title: short entries run on in one paragraph, all else has its own.
QList<Rich> detailsOf(const RecordStep& s) {
    QList<Rich> out;
    Rich running;
    const auto end = [&] {
        if (!running.isEmpty()) out.append(running);
        running.clear();
    };
    for (const RecordEntry& e : s.entries) {
        const Rich text = entryText(e);
        if (lengthOf(text) > 600) { // a long note
            end();
            for (const QString& part : portions(QStringLiteral("%1: %2").arg(e.label, e.value))) out.append({{part}});
            for (const Piece& piece : text.mid(2))
                for (const QString& part : portions(piece.text)) out.append({{part, piece.emphasis}});
            continue;
        }
        if (!running.isEmpty()) running.append({QStringLiteral("  ·  ")});
        running += text;
        if (lengthOf(running) > 900) end();
    }
    end();
    const auto marked = [&](const QString& mark, const QStringList& items) {
        for (const QString& item : items)
            for (const QString& part : portions(item)) out.append({{mark, Piece::Strong}, {part}});
    };
    marked(Words::tr("OVERRIDE  "), s.overrides);
    marked(Words::tr("TAKEN BACK  "), s.takenBack);
    return out;
}

Block groupRow(const QString& group) {
    return {14, [group](QPainter& p, const QRectF& r) { drawText(p, r.x() + 20, r.y() + 3, r.width() - 20, group, Face::Bold); },
            true, false, true};
}

/// The columns beside the step's text.
void paintColumns(QPainter& p, const QRectF& r, const RecordStep& s, double width) {
    const Columns c;
    double x = r.x();
    drawText(p, x + 2, r.y() + 2, c.number - 4, QString::number(s.number), Face::Body, Qt::AlignRight, ink::soft());
    x += c.number + c.step(width);
    for (const auto& [w, text] : {std::pair(c.planned, s.planned), std::pair(c.actual, s.actual), std::pair(c.begun, s.begun),
                                  std::pair(c.ended, s.ended)}) {
        drawText(p, x + 2, r.y() + 2, w - 4, text, text.size() > 5 ? Face::Small : Face::Body, Qt::AlignRight);
        x += w;
    }
    drawRich(p, x + 4, r.y() + 2, c.who - 4, s.late ? Rich{{s.who + QLatin1Char(' ')}, {Words::tr("late"), Piece::Strong}} : Rich{{s.who}}, Face::Body);
}

void rule(QPainter& p, const QRectF& r) {
    p.setPen(QPen(ink::line(), 0.25));
    p.drawLine(QPointF(r.left(), r.bottom()), QPointF(r.right(), r.bottom()));
}

/// One block, or several when a step has more to say than fits: then the columns stand in the first.
QList<Block> stepRows(const RecordStep& s, double width) {
    const Columns c;
    const double textWidth = c.step(width) - 4;
    Rich title{{s.title}};
    if (!s.state.isEmpty()) title.append({QStringLiteral("  %1").arg(s.state.toUpper()), Piece::Strong});
    QList<Block> out;
    bool first = true;
    QList<Rich> held;
    double height = richHeight(title, Face::Body, textWidth) + 4;
    const auto close = [&] {
        out.append({height,
                    [=](QPainter& p, const QRectF& r) {
                        double y = r.y() + 2;
                        if (first) {
                            paintColumns(p, r, s, width);
                            y += drawRich(p, r.x() + c.number + 2, y, textWidth, title, Face::Body);
                        }
                        for (const Rich& d : held) y += drawRich(p, r.x() + c.number + 2, y, textWidth, d, Face::Small, ink::soft()) + 0.5;
                        rule(p, r);
                    },
                    false, false, true});
        first = false;
        held.clear();
        height = 4;
    };
    for (const Rich& d : detailsOf(s)) {
        const double more = richHeight(d, Face::Small, textWidth) + 0.5;
        if (height + more > tallest && (first || !held.isEmpty())) close();
        held.append(d);
        height += more;
    }
    close();
    return out;
}

/// A row of the empty checklist: a box, what to mind, ruled lines for what is written in by hand.
Block blankRow(const RecordStep& s, double width) {
    const Columns c;
    const double textWidth = c.step(width) - 16, writing = 70;
    const auto lineHeight = [=](const QString& f) { return std::max(16.0, textHeight(f, Face::Small, textWidth - writing - 6) + 5); };
    QList<Rich> minds;
    for (const QString& caution : s.cautions)
        minds.append({{caution.section(QLatin1Char(':'), 0, 0) + QStringLiteral(": "), Piece::Strong}, {caution.section(QLatin1Char(':'), 1).trimmed()}});
    if (!s.before.isEmpty()) minds.append({{s.before}});
    const double titleHeight = textHeight(s.title, Face::Body, textWidth) + 6;
    double height = titleHeight + 3;
    for (const Rich& m : minds) height += richHeight(m, Face::Small, textWidth) + 0.5;
    for (const QString& f : s.toFill) height += lineHeight(f);
    return {std::max(20.0, height), [=](QPainter& p, const QRectF& r) {
                double x = r.x();
                drawText(p, x + 2, r.y() + 4, c.number - 4, QString::number(s.number), Face::Body, Qt::AlignRight, ink::soft());
                x += c.number;
                box(p, x + 2, r.y() + 5);
                drawText(p, x + 14, r.y() + 4, textWidth, s.title, Face::Body);
                double y = r.y() + titleHeight;
                for (const Rich& m : minds) y += drawRich(p, x + 14, y, textWidth, m, Face::Small, ink::soft()) + 0.5;
                for (const QString& f : s.toFill) {
                    const double h = lineHeight(f);
                    drawText(p, x + 14, y + 4, textWidth - writing - 6, f, Face::Small);
                    p.setPen(QPen(ink::line(), 0.5));
                    p.drawLine(QPointF(x + 14 + textWidth - writing, y + h - 2), QPointF(x + 14 + textWidth - 6, y + h - 2));
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
                rule(p, r);
            },
            false, false, true};
}

void addTitle(Sheet& sheet, const Record& r) {
    const double qr = 76;
    sheet.add({qr, [r, qr](QPainter& p, const QRectF& rect) {
                   const double width = rect.width() - qr - 12;
                   double y = rect.y() + drawText(p, rect.x(), rect.y(), width, QStringLiteral("%1 · %2").arg(r.title, r.printer), Face::Title) + 4;
                   y += drawText(p, rect.x(), y, width, r.blank ? r.state : Words::tr("Revision %1 · %2").arg(r.revision).arg(r.state), Face::Bold) + 3;
                   y += drawText(p, rect.x(), y, width, r.shopName, Face::Body) + 3;
                   if (r.example)
                       drawText(p, rect.x(), y, width, Words::tr("EXAMPLE: an invented shop; no such work was done"), Face::Bold);
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
        if (r.blank) sheet.add(blankRow(s, sheet.width()));
        else
            for (const Block& row : stepRows(s, sheet.width())) sheet.add(row);
    }
    if (r.blank) return;
    sheet.paragraph(QStringLiteral("Minutes planned and actual, rounded up; times are the shop's local time. “typed”: entered by hand instead "
                                   "of scanned; “late”: entered after the fact."), Face::Small);
}

void addLists(Sheet& sheet, const Record& r) {
    const std::pair<QString, QStringList> lists[] = {{Words::tr("Overrides"), r.overrides},
                                                     {Words::tr("Interruptions"), r.interruptions},
                                                     {Words::tr("Problems"), r.problems},
                                                     {Words::tr("Temperatures read beside the steps"), r.readings}};
    for (const auto& [title, items] : lists) {
        if (items.isEmpty()) continue;
        sheet.heading(title);
        sheet.bullets(items);
    }
    if (!r.corrections.isEmpty()) {
        sheet.heading(Words::tr("Other corrections"));
        QList<Rich> items;
        for (const RecordEntry& e : r.corrections) items.append(entryText(e));
        sheet.bullets(items);
    }
    if (!r.calibration.isEmpty()) {
        sheet.heading(Words::tr("Calibration results"));
        sheet.lines(r.calibration);
    }
    if (!r.blank) { // the checklist has them at their steps
        sheet.heading(Words::tr("Cautions that applied"));
        sheet.paragraph(r.cautions.isEmpty() ? Words::tr("none listed") : r.cautions.join(QStringLiteral("  ")), Face::Small);
    }
    sheet.paragraph(Words::tr("The printer's manual, the feedstock's safety data sheet, the shop's rules and local codes come first."), Face::Small);
}

void addEnd(Sheet& sheet, const Record& r) {
    sheet.heading(r.blank ? Words::tr("Carried out") : Words::tr("Disposition"));
    if (!r.blank) sheet.paragraph(r.disposition, Face::Bold);
    sheet.add({30, [](QPainter& p, const QRectF& rect) {
                   const double w = (rect.width() - 24) / 2;
                   p.setPen(QPen(ink::line(), 0.5));
                   for (int i = 0; i < 2; ++i) {
                       const double x = rect.x() + i * (w + 24);
                       p.drawLine(QPointF(x, rect.y() + 20), QPointF(x + w, rect.y() + 20));
                       drawText(p, x, rect.y() + 21, w, i == 0 ? Words::tr("technician, date") : Words::tr("checked by, date"), Face::Small, Qt::AlignLeft, ink::soft());
                       p.setPen(QPen(ink::line(), 0.5));
                   }
               }});
    if (!r.people.isEmpty()) sheet.paragraph(Words::tr("People: %1").arg(r.people.join(QStringLiteral(", "))), Face::Small);
    sheet.heading(Words::tr("Where this comes from"));
    sheet.lines(r.foot);
    sheet.paragraph(Words::tr("To compare with the ledger: interlude verify FLEET --record HASH. The code above says the same."), Face::Small);
}

Sheet composed(const Record& r, Size size) {
    Sheet sheet(size);
    sheet.setRunning(r.example ? Words::tr("%1 · example").arg(r.shopName) : r.shopName,
                     r.blank ? r.title : Words::tr("%1 · revision %2").arg(r.title).arg(r.revision),
                     r.verificationText);
    addTitle(sheet, r);
    sheet.heading(Words::tr("What was changed over"));
    sheet.lines(r.head, r.nozzles + r.materials);
    sheet.heading(Words::tr("Residue and clean-out"));
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
