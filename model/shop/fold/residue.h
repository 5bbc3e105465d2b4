#pragma once
// Residue in the chamber and in wiper and bin: what a deposit and what heat do to it. Design section 5.

#include "model/changeover/printer_now.h"

namespace interlude {

/// Everything lying there has now seen at least these temperatures; an empty one says nothing.
void raiseSeen(QList<ResidueItem>& residue, std::optional<Temperature> chamber, std::optional<Temperature> nozzle);
/// Adds a deposit that has seen these temperatures. Items of one material are merged and keep the LOWEST of what they
/// have seen; never warm (empty) is lower than any. No material, no deposit.
void deposit(QList<ResidueItem>& residue, const MaterialId& material, std::optional<Temperature> chamber,
             std::optional<Temperature> nozzle);

} // namespace interlude
