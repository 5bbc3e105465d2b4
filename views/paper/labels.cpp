#include "views/paper/sheet.h"

#include "model/records/wording.h"

#include <QFontMetricsF>
#include <QPainter>
#include <QPrinter>

namespace interlude::paper {

QList<Label> labelsOf(const Shop& shop, const QString& kind) {
    QList<Label> out;
    const Catalogue& c = shop.catalogue();
    if (kind == QStringLiteral("nozzles")) {
        for (const Nozzle& n : shop.stock().nozzles) {
            const NozzleType* t = c.nozzleType(n.type);
            if (n.where != NozzleWhere::Retired) out.append({n.serial, t ? t->name : n.type, n.meltFamily.isEmpty() ? Words::tr("new") : n.meltFamily});
        }
    } else if (kind == QStringLiteral("spools")) {
        for (const Spool& s : shop.stock().spools)
            if (s.where != SpoolWhere::Retired) out.append({s.id, wording::material(c, s.material), Words::tr("lot %1").arg(s.lot)});
    } else if (kind == QStringLiteral("printers")) {
        for (const Printer& p : c.fleet.printers) out.append({p.id, p.name, c.typeOf(p.id) ? c.typeOf(p.id)->name : p.type});
    } else if (kind == QStringLiteral("places")) {
        for (const Place& p : c.fleet.places) out.append({p.id, p.name, Words::tr("place")});
    }
    for (Label& label : out) label.example = c.fleet.exampleClock.has_value();
    return out;
}

namespace {

constexpr int across = 3;
constexpr double code = 76, usual = 92;

/// One label's texts, set as large as its cell allows. What is too long even in the smallest face makes the row higher:
/// a label that was cut could be taken for another one.
class LabelText {
public:
    LabelText(const Label& label, double width) : m_label(label), m_width(width) {
        const Face faces[][3] = {{Face::Title, Face::Body, Face::Small}, {Face::Heading, Face::Body, Face::Small}, {Face::Heading, Face::Small, Face::Small}};
        for (const auto& trio : faces) {
            std::copy(std::begin(trio), std::end(trio), m_faces);
            // A word that must be broken is harder to read than a smaller one.
            const bool idWhole = QFontMetricsF(face(m_faces[0])).horizontalAdvance(label.id) <= width;
            if (idWhole && height() <= usual - 16) break;
        }
    }
    double height() const {
        return textHeight(m_label.id, m_faces[0], m_width) + 3 + textHeight(m_label.line1, m_faces[1], m_width) + 2 +
               textHeight(m_label.line2, m_faces[2], m_width);
    }
    void paint(QPainter& p, double x, double y) const {
        y += drawText(p, x, y, m_width, m_label.id, m_faces[0]) + 3;
        y += drawText(p, x, y, m_width, m_label.line1, m_faces[1]) + 2;
        drawText(p, x, y, m_width, m_label.line2, m_faces[2]);
    }

private:
    Label m_label;
    double m_width;
    Face m_faces[3] = {};
};

Block labelRow(const QList<Label>& row, double width) {
    const double cellWidth = width / across;
    QList<LabelText> texts;
    double height = usual;
    for (const Label& label : row) {
        texts.append(LabelText(label, cellWidth - code - 14));
        height = std::max(height, texts.last().height() + 16);
    }
    return {height, [=](QPainter& p, const QRectF& r) {
                for (qsizetype i = 0; i < row.size(); ++i) {
                    const QRectF cell(r.x() + static_cast<double>(i) * cellWidth, r.y(), cellWidth, r.height());
                    p.setPen(QPen(ink::line(), 0.25));
                    p.drawRect(cell);
                    drawQr(p, QRectF(cell.x() + 4, cell.y() + 8, code, code), row[i].id);
                    texts[i].paint(p, cell.x() + code + 8, cell.y() + 8);
                }
            }};
}

Sheet labelSheet(const QList<Label>& labels, Size size) {
    Sheet sheet(size);
    const bool example = std::any_of(labels.begin(), labels.end(), [](const Label& l) { return l.example; });
    sheet.setRunning(example ? Words::tr("Labels · example") : Words::tr("Labels"), QString(), Words::tr("Cut along the lines. The code holds the id only."));
    for (qsizetype first = 0; first < labels.size(); first += across) sheet.add(labelRow(labels.mid(first, across), sheet.width()));
    return sheet;
}

} // namespace

Outcome<int> writeLabelsPdf(const QList<Label>& labels, const QString& file, Size size) {
    if (labels.isEmpty())
        return refusal(QStringLiteral("labels"), Words::tr("there is nothing to print labels for"), Words::tr("choose at least one"));
    return writePdf(labelSheet(labels, size), Words::tr("Labels"), file, size);
}

int paintLabels(const QList<Label>& labels, QPrinter& printer) {
    printer.setFullPage(true);
    return labelSheet(labels, sizeOf(printer)).paint(printer);
}

} // namespace interlude::paper
