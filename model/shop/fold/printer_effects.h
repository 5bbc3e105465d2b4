#pragma once
// What heat, purging, prints and taking a nozzle off make of a printer, told of the printer alone: the fold uses it when it
// has happened, planning beforehand.

#include "model/changeover/changeover.h"

#include <functional>

namespace interlude {

/// Null for a material that is not known.
using MaterialOf = std::function<const Material*(const MaterialId&)>;

/// A step that heats the chamber or a head: what lies there has seen its target.
void heat(PrinterNow& p, const PlannedStep& step);
/// The feedstock loaded in a position has driven out what was in its melt zone; both lie in wiper and bin. `nozzleSet`:
/// empty for the one that the material asks for. Nothing loaded, nothing purged.
void purgeThrough(PrinterNow& p, Role role, std::optional<Temperature> nozzleSet, const MaterialOf& materialOf);
/// Takes the nozzle of a position off, of that type; null where the type is not known.
void takeNozzleOff(PositionNow& here, const NozzleType* type);
/// A print with that setup (null: not known which): cover, label, temperatures, melt zones, deposits. What is loaded is what
/// is printed.
void printWith(PrinterNow& p, const Setup* setup, const MaterialOf& materialOf);

} // namespace interlude
