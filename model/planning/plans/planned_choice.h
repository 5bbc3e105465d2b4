#pragma once
// Which nozzles and spools the published plan has in mind for a changeover, so that what is fetched, what is kept and what the
// changeover takes are the same pieces.

#include "model/planning/problem/shop_problem.h"

namespace interlude::planning {

/// The nozzles that the published plan, timed on the shop as it is now, mounts for that variant of the job on that printer, by
/// position; empty where the plan has it elsewhere, otherwise, or mounts none.
std::array<NozzleSerial, 2> nozzlesPlanned(const Shop& shop, const PrinterId& printer, const JobId& job, const QString& variant,
                                           Instant now);

/// The request with the published plan's nozzles and spools wherever nobody has chosen and where they may be used: a piece that
/// brings a refusal which the rule's choice does not bring is left to the rule. What the rule leaves mounted or loaded stays.
TransitionRequest asPlanned(const Shop& shop, TransitionRequest request, Instant now);

} // namespace interlude::planning
