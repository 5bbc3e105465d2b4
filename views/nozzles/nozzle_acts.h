#pragma once
// The acts on nozzles, each as a dialog whose first field is the serial (scanned or typed).

#include "views/asking/act_dialog.h"

namespace interlude::nozzle_acts {

/// Each returns the dialog, already opened; it deletes itself. `serial` fills the first field and may be empty.
ActDialog* receive(Bench& bench, QWidget* parent);
ActDialog* stateUse(Bench& bench, const NozzleSerial& serial, QWidget* parent);
ActDialog* measure(Bench& bench, const NozzleSerial& serial, QWidget* parent);
ActDialog* retire(Bench& bench, const NozzleSerial& serial, QWidget* parent);

} // namespace interlude::nozzle_acts
