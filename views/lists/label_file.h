#pragma once
// Labels of what is chosen in a list, as a PDF for the label sheet.

#include "views/bench/bench.h"

class QWidget;

namespace interlude::lists {

/// `kind`: nozzles or spools; `ids` in the order wanted. Returns the pages. Refused when nothing is to be printed.
Outcome<int> writeLabels(const Bench& bench, const QString& kind, const QStringList& ids, const QString& file);
/// Asks where to save; `then` is called with the file.
void chooseLabelFile(QWidget* parent, const QString& proposal, std::function<void(const QString&)> then);

} // namespace interlude::lists
