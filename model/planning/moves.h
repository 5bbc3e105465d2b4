#pragma once
// The moves of the search, one small class each (in moves.cpp): it proposes a change of the orders, or nothing where the
// dice fell badly. What is locked stays (private to model/planning).

#include "model/planning/line_plan.h"
#include "model/planning/random.h"

#include <memory>

namespace interlude::planning {

class Move {
public:
    virtual ~Move() = default;
    /// False: nothing proposed.
    virtual bool propose(LinePlan& plan, Random& random, Edits& edits) = 0;
};

/// All of them, each with how often it is drawn.
class MoveDraw {
public:
    explicit MoveDraw(const Problem& problem);
    Move& draw(Random& random) const;

private:
    struct Share {
        std::unique_ptr<Move> move;
        int upTo = 0;
    };
    std::vector<Share> m_moves;
};

} // namespace interlude::planning
