#pragma once
// Quantities in the sentences of findings: short, with unit, always a point as decimal sign.

#include "model/quantities/quantities.h"

#include <QString>

namespace interlude {

/// At most `decimals` places, without trailing zeros.
QString plainNumber(double value, int decimals);
QString plainWords(Temperature t); ///< "125 °C"
QString plainWords(Volume v);      ///< "12.5 cm³"
QString plainWords(Mass m);        ///< "355 g"
QString plainWords(Length l);      ///< "0.4 mm"
/// "a", "a and b", "a, b and c".
QString plainList(const QStringList& items);

} // namespace interlude
