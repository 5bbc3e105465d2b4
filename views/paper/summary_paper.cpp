#include "views/paper/sheet.h"

#include "model/clock/length.h"
#include "model/records/wording.h"

#include <QPainter>
#include <QPrinter>

namespace interlude::paper {

namespace {

/// A line of the pick list with a box to tick.
Block pickRow(const PickItem& item, const QString& place, double width) {
    const double what = width - 14 - 150;
    QString text = QStringLiteral("%1 × %2 %3").arg(item.count).arg(item.kind, item.id);
    if (!item.name.isEmpty() && item.name != item.id) text += QStringLiteral(" · %1").arg(item.name);
    if (!item.note.isEmpty()) text += QStringLiteral(" · %1").arg(item.note);
    if (item.missing) text += Words::tr(" · MISSING");
    return {std::max(textHeight(text, Face::Body, what), 11.0) + 3, [=](QPainter& p, const QRectF& r) {
                p.setPen(QPen(ink::text(), 0.7));
                p.drawRect(QRectF(r.x() + 1, r.y() + 2, 7, 7));
                drawText(p, r.x() + 14, r.y(), what, text, Face::Body);
                drawText(p, r.x() + 14 + what, r.y(), 150, place, Face::Body, Qt::AlignLeft, ink::soft());
            }};
}

Sheet summarySheet(const Shop& shop, const Changeover& changeover, Instant printedAt, Size size) {
    const Record r = checklistOf(shop, changeover, printedAt);
    const Catalogue& c = shop.catalogue();
    Sheet sheet(size);
    sheet.setRunning(r.example ? Words::tr("%1 · example").arg(r.shopName) : r.shopName, Words::tr("Before the changeover"),
                     Words::tr("printed %1; the printer's manual, the shop's rules and local codes come first")
                         .arg(wording::localTime(printedAt, c.fleet.zone)));
    sheet.paragraph(Words::tr("Changeover summary · %1").arg(r.printer), Face::Title);
    if (r.example) sheet.paragraph(Words::tr("EXAMPLE: an invented shop"), Face::Bold);
    sheet.heading(Words::tr("What changes"));
    sheet.lines(r.head, r.nozzles + r.materials);
    sheet.heading(Words::tr("Minutes"));
    sheet.paragraph(QStringLiteral("%1 from the printer standing to the print's start (%2 hands-on, %3 waiting); %4 preparation before it stops; "
                                   "%5 part removal")
                        .arg(lengthText(changeover.internal), lengthText(changeover.handsOn), lengthText(changeover.waiting),
                             lengthText(changeover.preparation), lengthText(changeover.partRemoval)));
    if (const QString two = wording::twoPeople(changeover, c); !two.isEmpty()) sheet.paragraph(two);
    sheet.heading(Words::tr("Verdicts"));
    QStringList verdicts;
    for (const Finding& f : changeover.transition.verdicts)
        verdicts.append(QStringLiteral("%1, %2: %3").arg(wording::severity(f.severity).toUpper(), f.rule, sentence(f)));
    if (verdicts.isEmpty()) verdicts.append(Words::tr("nothing stands against it and nothing is mandatory"));
    sheet.bullets(verdicts);
    sheet.heading(Words::tr("Pick list: fetch before the printer stops"));
    for (const PickItem& item : changeover.pickList)
        sheet.add(pickRow(item, c.placeName(item.place), sheet.width()));
    sheet.heading(Words::tr("Steps"));
    int number = 0;
    for (const PlannedStep& s : changeover.steps)
        sheet.lines({{QStringLiteral("%1 · %2").arg(++number).arg(s.predictable ? lengthText(s.planned) : Words::tr("measure")),
                      QStringLiteral("%1%2").arg(s.step.title, s.step.external ? Words::tr(" (before the printer stops)")
                                                               : s.step.handsOn() ? QString() : Words::tr(" (waiting)"))}});
    return sheet;
}

} // namespace

Outcome<int> writeSummaryPdf(const Shop& shop, const Changeover& changeover, Instant printedAt, const QString& file, Size size) {
    return writePdf(summarySheet(shop, changeover, printedAt, size), Words::tr("Changeover summary"), file, size);
}

int paintSummary(const Shop& shop, const Changeover& changeover, Instant printedAt, QPrinter& printer) {
    printer.setFullPage(true);
    return summarySheet(shop, changeover, printedAt, sizeOf(printer)).paint(printer);
}

} // namespace interlude::paper
