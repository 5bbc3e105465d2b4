#pragma once
// The catalogue's fingerprint: over what the catalogue owns, not over opening entries, comments or layout.

#include "model/catalogue/reading.h"

namespace interlude {

/// SHA-256, hex, over a canonical rendering of fleet.yaml, materials.yaml, the list `nozzle-types` of nozzles.yaml and
/// procedures.yaml, and over the names and texts of the measured changeovers (line ends as LF). The rendering: for each
/// value its kind and its length in bytes before its text; keys of a map in order, items of a list as they stand.
QString catalogueHash(const Reading& reading);

} // namespace interlude
