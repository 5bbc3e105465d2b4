#pragma once
// What a printer wears as bytes: two printers of one kind with the same bytes have the same changeovers before them.

#include "model/changeover/printer_now.h"

namespace interlude::planning {

QByteArray printerText(const PrinterNow& printer);

} // namespace interlude::planning
