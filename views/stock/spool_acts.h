#pragma once
// The acts on spools, each as a dialog whose first field is the spool's id (scanned or typed).

#include "views/forms/act_dialog.h"

namespace interlude::spool_acts {

/// Each returns the dialog, already opened; it deletes itself. `id` fills the first field and may be empty.
forms::ActDialog* receive(Bench& bench, QWidget* parent);
forms::ActDialog* weigh(Bench& bench, const SpoolId& id, QWidget* parent);
forms::ActDialog* dry(Bench& bench, const SpoolId& id, QWidget* parent);
forms::ActDialog* move(Bench& bench, const SpoolId& id, QWidget* parent);
forms::ActDialog* load(Bench& bench, const SpoolId& id, QWidget* parent);
forms::ActDialog* unload(Bench& bench, const SpoolId& id, QWidget* parent);
forms::ActDialog* retire(Bench& bench, const SpoolId& id, QWidget* parent);

} // namespace interlude::spool_acts
