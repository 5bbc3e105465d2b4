#pragma once
// The one style sheet of the program, written from the named colours.

#include "views/look/look.h"

namespace interlude::look {

QString styleSheet(const Colours& c);

/// Border of fields and buttons: contrast >= 3 against panel and ground (WCAG 2.2, 1.4.11).
QColor edgeColour(const Colours& c);

} // namespace interlude::look
