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

/// The title, and with it what would be a line of its own otherwise: "waiting".
Rich titleOf(const RecordStep& s) {
    Rich title{{s.title, Piece::Strong}};
    if (s.cautions.isEmpty() && !s.before.isEmpty()) title.append({QStringLiteral("  ") + s.before, Piece::Soft});
    return title;
}

/// What must be minded at the step: cautions, protection, power.
QList<Rich> mindsOf(const RecordStep& s) {
    QList<Rich> out;
    for (const QString& caution : s.cautions)
        out.append({{caution.section(QLatin1Char(':'), 0, 0) + QStringLiteral(": "), Piece::Strong},
                    {caution.section(QLatin1Char(':'), 1).trimmed()}});
    if (!s.cautions.isEmpty() && !s.before.isEmpty()) out.append({{s.before, Piece::Soft}});
    return out;
}

/// What is written in by hand, two beside each other: under the step's first line the row is free over its whole width.
struct FieldPair {
    QString left, right;
    double height = 0;
};
constexpr double writing = 46, between = 12; ///< 16 mm to write in

double fieldTextWidth(double width, bool alone) {
    return (alone ? width : (width - between) / 2) - writing - 4;
}

QList<FieldPair> pairsOf(const QStringList& fields, double width) {
    QList<FieldPair> out;
    for (qsizetype i = 0; i < fields.size(); i += 2) {
        FieldPair pair{fields.at(i), fields.value(i + 1)};
        for (const QString& f : {pair.left, pair.right})
            pair.height = std::max({pair.height, 16.0, textHeight(f, Face::Body, fieldTextWidth(width, pair.right.isEmpty())) + 5});
        out.append(pair);
    }
    return out;
}

void paintPair(QPainter& p, double x, double y, double width, const FieldPair& pair) {
    const double text = fieldTextWidth(width, pair.right.isEmpty());
    for (const QString& f : {pair.left, pair.right}) {
        if (f.isEmpty()) continue;
        drawText(p, x, y + 4, text, f, Face::Body);
        drawBlank(p, x + text + 4, x + text + 4 + writing, y + pair.height - 2);
        x += text + 4 + writing + between;
    }
}

} // namespace

Block checklistRow(const RecordStep& s, double width) {
    const StepColumns c;
    const double titleWidth = c.step(width) - 16, whole = width - c.number - 16;
    const QList<Rich> minds = mindsOf(s);
    const QList<FieldPair> fields = pairsOf(s.toFill, whole);
    const double titleHeight = std::max(16.0, richHeight(titleOf(s), Face::Body, titleWidth) + 4); // clear of the blanks beside it
    double height = titleHeight + 3;
    for (const Rich& m : minds) height += richHeight(m, Face::Body, whole);
    for (const FieldPair& f : fields) height += f.height;
    return {std::max(20.0, height), [=](QPainter& p, const QRectF& r) {
                double x = r.x();
                drawText(p, x, r.y() + 3, c.number - 4, QString::number(s.number), Face::Body, Qt::AlignRight);
                x += c.number;
                drawBox(p, x + 2, r.y() + 4);
                drawRich(p, x + 14, r.y() + 3, titleWidth, titleOf(s), Face::Body);
                double y = r.y() + titleHeight;
                for (const Rich& m : minds) y += drawRich(p, x + 14, y, whole, m, Face::Body);
                for (const FieldPair& f : fields) {
                    paintPair(p, x + 14, y, whole, f);
                    y += f.height;
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
