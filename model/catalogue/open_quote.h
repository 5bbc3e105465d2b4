#pragma once
// A quote that somebody forgot to close. The parser reads on to the next one, many entries later, and then blames whatever
// follows there; people look for the line in which it began.

#include <QByteArray>
#include <QList>

#include <optional>

namespace interlude {

struct OpenQuote {
    int line = 0, byte = 0; ///< where it begins, from 0, as yaml-cpp counts
};

/// The first quoted text of a YAML file that swallows at least `entries` lines which look like entries (`key: …`, `- {…`) or,
/// with `broken`, ends where something else follows. `lines` are UTF-8 without their ends. Empty when there is none.
/// A heuristic: without `broken` the file is good YAML and may hold such a text on purpose; ask for two entries then.
std::optional<OpenQuote> openQuote(const QList<QByteArray>& lines, int entries, bool broken);

} // namespace interlude
