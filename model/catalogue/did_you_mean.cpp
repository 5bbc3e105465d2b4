#include "model/catalogue/did_you_mean.h"

#include <QRegularExpression>

#include <vector>

namespace interlude {

int editDistance(const QString& a, const QString& b, int limit) {
    const auto rows = static_cast<int>(a.size());
    const auto columns = static_cast<int>(b.size());
    if (std::abs(rows - columns) > limit) return limit + 1;
    // Three rows are enough: a swap looks back two.
    const auto width = static_cast<std::size_t>(columns) + 1;
    std::vector<int> before(width), last(width), row(width);
    for (std::size_t j = 0; j < width; ++j) last[j] = static_cast<int>(j);
    for (int i = 1; i <= rows; ++i) {
        row[0] = i;
        int best = i;
        for (int j = 1; j <= columns; ++j) {
            const auto k = static_cast<std::size_t>(j);
            const int change = a[i - 1] == b[j - 1] ? 0 : 1;
            row[k] = std::min({last[k] + 1, row[k - 1] + 1, last[k - 1] + change});
            if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
                row[k] = std::min(row[k], before[k - 2] + 1);
            best = std::min(best, row[k]);
        }
        if (best > limit) return limit + 1;
        std::swap(before, last);
        std::swap(last, row);
    }
    return std::min(last[width - 1], limit + 1);
}

std::optional<QString> didYouMean(const QString& word, const QStringList& candidates) {
    // Nobody mistypes a text of this length; a hostile file shall not cost time here.
    if (word.isEmpty() || word.size() > 80) return {};
    // A unit left out: `price` for `price-per-kg`.
    const QStringList longer = candidates.filter(QRegularExpression(QLatin1Char('^') + QRegularExpression::escape(word) + QLatin1Char('-')));
    if (longer.size() == 1) return longer.front();
    if (longer.size() > 1) return {};
    std::optional<QString> best;
    int limit = std::max(1, static_cast<int>(word.size()) / 3);
    for (const QString& candidate : candidates) {
        if (candidate == word) continue;
        if (candidate.compare(word, Qt::CaseInsensitive) == 0) return candidate;
        // A word of two letters is near to everything; a suggestion must share something with it.
        const int distance = editDistance(word, candidate, limit);
        if (distance > limit || distance >= candidate.size() || distance >= word.size()) continue;
        best = candidate;
        limit = distance - 1;
        if (limit < 1) break;
    }
    return best;
}

} // namespace interlude
