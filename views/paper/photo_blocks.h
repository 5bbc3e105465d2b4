#pragma once
// The photos of a record's problems, two beside each other, each with its number and SHA-256. One that is missing or was
// changed has a frame with the reason in its place.

#include "views/paper/sheet.h"

namespace interlude::paper {

/// Nothing where the record has no photos.
void addPhotos(Sheet& sheet, const Record& record);

} // namespace interlude::paper
