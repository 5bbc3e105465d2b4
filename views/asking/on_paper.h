#pragma once
// Where a sheet goes: to a printer or into a PDF file. The dialogs do not block; the countdowns go on beside them.

#include "model/findings/finding.h"

#include <QPageLayout>

#include <functional>

class QPrinter;
class QWidget;

namespace interlude {

/// What can be put on paper. One of the functions is called once the person has chosen, or none; it gives the number of pages.
struct Document {
    QString title;      ///< of the dialogs
    QString fileName;   ///< proposed for the PDF
    QPageLayout layout; ///< that the printer's dialog begins with
    std::function<Outcome<int>(const QString& file)> write;
    std::function<Outcome<int>(QPrinter& printer)> print; ///< 0 pages: the printer took none
};

/// Hears what came of it, in words: "Printed: 2 pages", or the refusal. Not called when the person leaves it.
using Told = std::function<void(const Outcome<QString>& said)>;

/// A whole sheet, upright, of the size usual here.
QPageLayout uprightLayout();

/// `parent` is borrowed; what `document` and `told` refer to outlives it.
void saveAsPdf(QWidget* parent, const Document& document, const Told& told);
void sendToPrinter(QWidget* parent, const Document& document, const Told& told);
/// Asks which of the two, with what was chosen last on this PC.
void putOnPaper(QWidget* parent, const Document& document, const Told& told);

} // namespace interlude
