#pragma once
// An import in events: the entries as the events of single entries have them.

#include "model/shop/payload/job_fields.h"
#include "model/shop/payload/stock_fields.h"

namespace interlude::payload {

template <class A> void fields(A& a, Ref<A, act::Imported> x) {
    a("file", x.file);
    a("spools", x.spools);
    a("nozzles", x.nozzles);
    a("jobs", x.jobs);
}

} // namespace interlude::payload
