#pragma once
// The acts on spools, each as a dialog whose first field is the spool's id (scanned or typed).

#include "views/asking/act_dialog.h"

namespace interlude::spool_acts {

/// Each returns the dialog, already opened; it deletes itself. `id` fills the first field and may be empty.
ActDialog* receive(Bench& bench, QWidget* parent);
ActDialog* weigh(Bench& bench, const SpoolId& id, QWidget* parent);
ActDialog* dry(Bench& bench, const SpoolId& id, QWidget* parent);
ActDialog* move(Bench& bench, const SpoolId& id, QWidget* parent);
ActDialog* load(Bench& bench, const SpoolId& id, QWidget* parent);
ActDialog* unload(Bench& bench, const SpoolId& id, QWidget* parent);
ActDialog* retire(Bench& bench, const SpoolId& id, QWidget* parent);

} // namespace interlude::spool_acts
