#pragma once
// Suggestions for mistyped words: keys, ids, enumerated words.

#include <QStringList>

#include <optional>

namespace interlude {

/// Damerau–Levenshtein distance (insertion, deletion, exchange, swap of neighbours; each 1, optimal string alignment), or
/// `limit + 1` as soon as it is certain to be greater than `limit`.
int editDistance(const QString& a, const QString& b, int limit);

/// The candidate nearest to `word`: the only one that goes on after it with a dash (`price-per-kg` for `price`), equal but for case, or at most a third of its letters away (at least one). Ties go to
/// the earlier candidate. Empty when nothing is near.
std::optional<QString> didYouMean(const QString& word, const QStringList& candidates);

} // namespace interlude
