#pragma once
// Whether the last confirmation may be taken back: one rule for the button that offers it and for the act itself.

#include "model/shop/shop.h"

namespace interlude {

/// Which step it is; the finding says why not. An open session's last confirmation (or skipping) can be taken back while
/// nothing depends on it: no later step is done, and nothing that it touched was changed since (design section 7). So a
/// start that was confirmed by mistake can be taken back until something else happens to that print.
Outcome<StepId> takeBackable(const Shop& shop, const SessionState& session);

} // namespace interlude
