#pragma once
// The plan of a rehearsal: made, published, and left as files beside the pictures.

#include "model/shop/workbench.h"

#include <QDir>

namespace interlude::app {

/// Plans with that job locked as the next one on that printer, publishes the plan and writes plan.json, plan.csv, plan.ics and
/// plan-week.pdf.
Outcome<int> publishPlan(Workbench& bench, const QString& who, const PrinterId& printer, const JobId& job,
                         const QString& variant, const QDir& dir);

} // namespace interlude::app
