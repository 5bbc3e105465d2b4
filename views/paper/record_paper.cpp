#include "views/paper/photo_blocks.h"
#include "views/paper/record_table.h"

#include <QPainter>
#include <QPrinter>

namespace interlude::paper {

namespace {

QString revisionText(const Record& r) {
    return r.draft ? Words::tr("Revision %1 (draft, not issued)").arg(r.revision) : Words::tr("Revision %1").arg(r.revision);
}

/// On top of each page, so that a page alone says what it is.
QString headerText(const Record& r) {
    QStringList out{r.title, r.draft ? Words::tr("revision %1 (draft)").arg(r.revision) : Words::tr("revision %1").arg(r.revision)};
    if (!r.standing.isEmpty()) out += r.state;
    return out.join(QStringLiteral(" · "));
}

void addTitle(Sheet& sheet, const Record& r) {
    const double qr = 62;
    sheet.add({qr, [r, qr](QPainter& p, const QRectF& rect) {
                   const double width = rect.width() - qr - 12;
                   double y = rect.y() + drawText(p, rect.x(), rect.y(), width, QStringLiteral("%1 · %2").arg(r.title, r.printer), Face::Title) + 2;
                   y += drawText(p, rect.x(), y, width, r.blank ? r.state : QStringLiteral("%1 · %2").arg(revisionText(r), r.state), Face::Bold) + 2;
                   y += drawText(p, rect.x(), y, width, r.shopName, Face::Body) + 2;
                   if (r.example)
                       drawText(p, rect.x(), y, width, Words::tr("EXAMPLE: an invented shop; no such work was done"), Face::Bold);
                   drawQr(p, QRectF(rect.right() - qr, rect.y(), qr, qr), r.verificationText);
               }});
    if (!r.standing.isEmpty()) sheet.framed(r.standing);
}

void addSteps(Sheet& sheet, const Record& r) {
    sheet.gap(4);
    sheet.add(stepTableHead(sheet.width()));
    QString group;
    for (const RecordStep& s : r.steps) {
        if (s.group != group) {
            group = s.group;
            sheet.add(stepGroupRow(group));
        }
        if (r.blank) sheet.add(checklistRow(s, sheet.width()));
        else
            for (const Block& row : stepRows(s, sheet.width())) sheet.add(row);
    }
    if (r.blank) return;
    sheet.gap(2);
    sheet.paragraph(Words::tr("Minutes planned / actual, rounded up; times are the shop's local time. “checked”: the step's question was "
                              "answered as the procedure requires (how many, if more than one). “typed”: entered by hand instead of "
                              "scanned. “late”: entered after the fact."), Face::Small);
}

void addCautions(Sheet& sheet, const Record& r) {
    sheet.heading(Words::tr("Cautions that applied, with the numbers of their steps"));
    Rich all;
    for (const RecordCaution& c : r.cautionsByStep) {
        if (!all.isEmpty()) all.append({QStringLiteral("   ")});
        // Word and subject stay on one line.
        all.append({QStringLiteral("%1 %2").arg(c.word, c.subject).replace(QLatin1Char(' '), QChar(QChar::Nbsp)), Piece::Strong});
        all.append({QStringLiteral(": ") + c.steps});
    }
    if (all.isEmpty()) all.append({Words::tr("none listed")});
    sheet.paragraph(all);
    sheet.paragraph(Words::tr("Their texts: procedure version below, export bundle. The printer's manual, the safety data sheet, the shop's "
                              "rules and local codes come first."), Face::Small);
}

void addLists(Sheet& sheet, const Record& r) {
    const std::pair<QString, QStringList> lists[] = {{Words::tr("Warnings when it began"), r.warnings},
                                                     {Words::tr("Overrides before the start"), r.overrides},
                                                     {Words::tr("Interruptions"), r.interruptions},
                                                     {Words::tr("Problems"), r.problems},
                                                     {Words::tr("Temperatures read beside the steps"), r.readings}};
    for (const auto& [title, items] : lists) {
        if (items.isEmpty()) continue;
        sheet.heading(title);
        sheet.bullets(items);
        if (&items == &lists[3].second) addPhotos(sheet, r);
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
    if (!r.instruments.isEmpty()) {
        sheet.heading(Words::tr("Instruments"));
        sheet.lines(r.instruments);
    }
    if (!r.blank) return addCautions(sheet, r); // the checklist has them at their steps
    sheet.paragraph(Words::tr("The printer's manual, the feedstock's safety data sheet, the shop's rules and local codes come first."), Face::Small);
}

/// A line for each person on record, and one for whoever checks it; two beside each other.
void addSignatures(Sheet& sheet, const Record& r) {
    QStringList lines;
    for (const QString& person : r.people) lines.append(Words::tr("%1, date").arg(person));
    if (lines.isEmpty()) lines.append(Words::tr("technician, date"));
    lines.append(Words::tr("checked by, date"));
    for (qsizetype i = 0; i < lines.size(); i += 2)
        sheet.add({25, [pair = lines.mid(i, 2)](QPainter& p, const QRectF& rect) {
                       const double w = (rect.width() - 24) / 2;
                       for (int side = 0; side < pair.size(); ++side) {
                           const double x = rect.x() + side * (w + 24);
                           p.setPen(QPen(ink::line(), 0.5));
                           p.drawLine(QPointF(x, rect.y() + 15), QPointF(x + w, rect.y() + 15));
                           drawText(p, x, rect.y() + 16, w, pair[side], Face::Small);
                       }
                   }});
}

void addEnd(Sheet& sheet, const Record& r) {
    sheet.heading(r.blank ? Words::tr("Carried out") : Words::tr("Disposition"));
    if (!r.blank) sheet.paragraph(r.disposition, Face::Bold);
    if (!r.people.isEmpty()) sheet.paragraph(Words::tr("People: %1").arg(r.people.join(QStringLiteral(", "))));
    addSignatures(sheet, r);
    sheet.heading(Words::tr("Where this comes from; to compare: interlude verify FLEET --record HASH, or scan the code"));
    // Short values in two columns, the hashes over the whole width: a hash that was broken could not be typed.
    QList<RecordLine> shorter[2], longer;
    for (const RecordLine& l : r.foot) {
        if (l.value.size() > 40) longer.append(l);
        else shorter[shorter[0].size() > shorter[1].size() ? 1 : 0].append(l);
    }
    sheet.lines(shorter[0], shorter[1]);
    sheet.lines(longer);
}

Sheet composed(const Record& r, Size size) {
    Sheet sheet(size);
    // A long name gives way, the word "example" and the number of the record do not.
    const QString shop = elided(r.shopName, Face::Body, 150);
    sheet.setRunning(r.example ? Words::tr("%1 · example").arg(shop) : shop,
                     r.blank ? r.title : headerText(r),
                     r.verificationText);
    addTitle(sheet, r);
    sheet.heading(r.blank      ? Words::tr("What is to be changed over")
                  : r.finished ? Words::tr("What was changed over")
                               : Words::tr("What was to be changed over"));
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
    printer.setFullPage(true);
    return composed(record, sizeOf(printer)).paint(printer);
}

} // namespace interlude::paper
