#pragma once
// The list itself, in the order in which it is shown.

#include "views/bench/keys.h"

namespace interlude {

QList<Keys::Use> allKeys();

} // namespace interlude
