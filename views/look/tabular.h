#pragma once
// Digits of one width, so that a running time does not jump.

#include <QStringList>

namespace interlude::look {

/// The families of all text, first choice first: Inter with tabular digits, Inter, DejaVu Sans (whose digits are tabular).
QStringList textFamilies();

} // namespace interlude::look
