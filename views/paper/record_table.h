#pragma once
// The rows of steps: filled in on a record, empty on a checklist. They share the columns.

#include "views/paper/sheet.h"

namespace interlude::paper {

/// Columns of the step table in points, from the left edge; the step itself takes what remains.
struct StepColumns {
    double number = 17, minutes = 38, times = 60, who = 40;
    double step(double width) const { return width - number - minutes - times - who; }
};

Block stepTableHead(double width);
Block stepGroupRow(const QString& group);
/// One block, or several when a step has more to say than fits on one.
QList<Block> stepRows(const RecordStep& step, double width);
/// A row of the empty checklist: a box, what to mind, ruled lines for what is written in by hand.
Block checklistRow(const RecordStep& step, double width);
/// "X offset: 0.05 mm (limits …)", the original struck through where it was corrected.
/// Where limits and instrument of a reading are said: with it, with a later one that shares them, or here for each before it too.
enum class Remark { Own, Later, OfEach };
Rich entryText(const RecordEntry& entry, Remark remark = Remark::Own);
/// The thin line under a row.
void drawRule(QPainter& painter, const QRectF& row);

} // namespace interlude::paper
