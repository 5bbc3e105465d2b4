#include "views/paper/record_table.h"

#include <QPainter>

namespace interlude::paper {

namespace {

void drawBox(QPainter& p, double x, double y) {
    p.setPen(QPen(ink::text(), 0.7));
    p.drawRect(QRectF(x, y, 7, 7));
}

void drawBlank(QPainter& p, double from, double to, double y) {
    p.setPen(QPen(ink::line(), 0.5));
    p.drawLine(QPointF(from, y), QPointF(to, y));
}

/// What must be minded at the step: cautions, protection, power.
QList<Rich> mindsOf(const RecordStep& s) {
    QList<Rich> out;
    for (const QString& caution : s.cautions)
        out.append({{caution.section(QLatin1Char(':'), 0, 0) + QStringLiteral(": "), Piece::Strong},
                    {caution.section(QLatin1Char(':'), 1).trimmed()}});
    if (!s.before.isEmpty()) out.append({{s.before, Piece::Soft}});
    return out;
}

} // namespace

Block checklistRow(const RecordStep& s, double width) {
    const StepColumns c;
    const double textWidth = c.step(width) - 16, writing = 70, fieldWidth = textWidth - writing - 6;
    const auto lineHeight = [=](const QString& f) { return std::max(16.0, textHeight(f, Face::Body, fieldWidth) + 5); };
    const QList<Rich> minds = mindsOf(s);
    const double titleHeight = textHeight(s.title, Face::Bold, textWidth) + 5;
    double height = titleHeight + 3;
    for (const Rich& m : minds) height += richHeight(m, Face::Body, textWidth);
    for (const QString& f : s.toFill) height += lineHeight(f);
    return {std::max(20.0, height), [=](QPainter& p, const QRectF& r) {
                double x = r.x();
                drawText(p, x, r.y() + 3, c.number - 4, QString::number(s.number), Face::Body, Qt::AlignRight);
                x += c.number;
                drawBox(p, x + 2, r.y() + 4);
                drawText(p, x + 14, r.y() + 3, textWidth, s.title, Face::Bold);
                double y = r.y() + titleHeight;
                for (const Rich& m : minds) y += drawRich(p, x + 14, y, textWidth, m, Face::Body);
                for (const QString& f : s.toFill) {
                    const double h = lineHeight(f);
                    drawText(p, x + 14, y + 4, fieldWidth, f, Face::Body);
                    drawBlank(p, x + 14 + textWidth - writing, x + 14 + textWidth - 6, y + h - 2);
                    y += h;
                }
                x += c.step(width);
                drawText(p, x + 2, r.y() + 3, c.minutes / 2 - 4, s.planned, Face::Body, Qt::AlignRight);
                drawBlank(p, x + c.minutes / 2 + 2, x + c.minutes - 2, r.y() + 14);
                x += c.minutes;
                drawBlank(p, x + 4, x + c.times / 2 - 2, r.y() + 14);
                drawBlank(p, x + c.times / 2 + 2, x + c.times - 2, r.y() + 14);
                x += c.times;
                drawBlank(p, x + 6, x + c.who, r.y() + 14);
                drawRule(p, r);
            },
            false, false, true};
}

} // namespace interlude::paper
