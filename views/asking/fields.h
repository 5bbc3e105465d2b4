#pragma once
// What stands in a field, read and judged: a finding names the field when there is nothing in it or it cannot be read.

#include "views/asking/ask_dialog.h"

namespace interlude::fields {

Outcome<QString> wantText(const QLineEdit* field, const QString& name);
/// At least `least`; written as people write numbers, see words::readNumber.
Outcome<double> wantNumber(const QLineEdit* field, const QString& name, double least = 0.0);
/// Empty field = empty value.
Outcome<std::optional<double>> maybeNumber(const QLineEdit* field, const QString& name, double least = 0.0);

/// A number as it stands in a field to be changed: all of it, with a plain minus; read back it is the same.
QString plainNumber(double value);

/// The shop's places as choices, and its printers.
QList<Choice> placeChoices(const Catalogue& catalogue);
QList<Choice> printerChoices(const Catalogue& catalogue);

} // namespace interlude::fields
