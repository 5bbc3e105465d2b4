#pragma once
// Painting on paper: PDF/A-1b (fonts embedded, no transparency) and printers, A4 and Letter. Always in the light
// colours, readable in black and white.

#include "model/records/record.h"

#include <QPageSize>

class QPrinter;

namespace interlude::paper {

enum class Size { A4, Letter };
/// The size that this person has chosen on this PC, else what is usual where the system says we are (CLDR, paper sizes).
Size usualSize();
void keepUsualSize(Size size);
QPageSize pageSize(Size size);
/// Of an opened printer: what its dialog was left at.
Size sizeOf(const QPrinter& printer);

/// Pages of a record (or of an empty checklist), page x of y, text and QR for verification. Returns the page count.
Outcome<int> writeRecordPdf(const Record& record, const QString& file, Size size = usualSize());
/// The same on an already opened printer (preview and real).
int paintRecord(const Record& record, QPrinter& printer);
/// Transition summary before the start: facts, verdicts with reasons, minutes, pick list with places.
Outcome<int> writeSummaryPdf(const Shop& shop, const Changeover& changeover, Instant printedAt, const QString& file,
                             Size size = usualSize());
int paintSummary(const Shop& shop, const Changeover& changeover, Instant printedAt, QPrinter& printer);

/// One label: large id, a line or two of words, QR of the id.
struct Label {
    QString id, line1, line2;
    bool example = false; ///< of an example fleet: the page says so
};
QList<Label> labelsOf(const Shop& shop, const QString& kind); ///< kind: nozzles, spools, printers, places
/// Refused when there are none.
Outcome<int> writeLabelsPdf(const QList<Label>& labels, const QString& file, Size size = usualSize());
int paintLabels(const QList<Label>& labels, QPrinter& printer);

/// Export bundle: the record as PDF and JSON, the photos that are there and unchanged (photo-1.jpg …), the list of sums, in a
/// new folder (refused if it exists). `checkBundle` reads it.
Outcome<QStringList> writeBundle(const Record& record, const QString& folder, Size size = usualSize());

} // namespace interlude::paper
