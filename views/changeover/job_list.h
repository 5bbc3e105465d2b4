#pragma once
// The list of jobs that can still be printed: what each column says and by what it sorts.

#include "views/bench/bench.h"
#include "views/lists/list_model.h"

namespace interlude {

/// The model; `bench` outlives it. Rows are set by the caller.
lists::ListModel<Job>* makeJobList(Bench& bench, QObject* parent);
/// Open jobs, and failed ones that are to be printed again; in the shop's order.
QList<Job> printableJobs(const Shop& shop);

} // namespace interlude
