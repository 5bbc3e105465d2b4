#include "views/paper/sheet.h"

#include "model/records/wording.h"

#include <QPainter>

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
    return out;
}

Outcome<int> writeLabelsPdf(const QList<Label>& labels, const QString& file, Size size) {
    if (labels.isEmpty())
        return refusal(QStringLiteral("labels"), Words::tr("there is nothing to print labels for"), Words::tr("choose at least one"));
    Sheet sheet(size);
    sheet.setRunning(Words::tr("Labels"), QString(), Words::tr("Cut along the lines. The code holds the id only."));
    constexpr int across = 3;
    constexpr double height = 92;
    for (qsizetype first = 0; first < labels.size(); first += across) {
        const QList<Label> row = labels.mid(first, across);
        sheet.add({height, [row](QPainter& p, const QRectF& r) {
                       const double w = r.width() / across;
                       for (qsizetype i = 0; i < row.size(); ++i) {
                           const QRectF cell(r.x() + static_cast<double>(i) * w, r.y(), w, r.height());
                           p.setPen(QPen(ink::line(), 0.25));
                           p.drawRect(cell);
                           drawQr(p, QRectF(cell.x() + 4, cell.y() + 8, 76, 76), row[i].id);
                           const double x = cell.x() + 84, tw = w - 90;
                           double y = cell.y() + 14;
                           y += drawText(p, x, y, tw, row[i].id, row[i].id.size() > 8 ? Face::Heading : Face::Title) + 4;
                           y += drawText(p, x, y, tw, row[i].line1, Face::Body) + 2;
                           drawText(p, x, y, tw, row[i].line2, Face::Small, Qt::AlignLeft, ink::soft());
                       }
                   }});
    }
    return writePdf(sheet, Words::tr("Labels"), file, size);
}

} // namespace interlude::paper
