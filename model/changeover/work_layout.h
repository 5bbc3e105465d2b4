#pragma once
// Lays steps out in time as if one sufficient team were always there: hands-on steps one at a time in the given order
// once what they come after is done, waiting steps at once. Plain data, so that it is tested alone (private to
// model/changeover).

#include <QList>

#include <optional>

namespace interlude {

struct WorkStep {
    int minutes = 0;
    bool handsOn = true;
    QList<int> after; ///< indices; what is not in this list is done
};

struct WorkLayout {
    QList<int> start, end; ///< by step, in minutes
    QList<int> order;      ///< steps in the order in which they begin
    int length = 0;
};

/// Empty when the order has a cycle.
std::optional<WorkLayout> layOut(const QList<WorkStep>& steps);

/// One longest chain, from the start to the end, through what comes after what and the one pair of hands.
QList<int> criticalChain(const QList<WorkStep>& steps, const WorkLayout& layout);

} // namespace interlude
