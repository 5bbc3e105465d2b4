#pragma once
// The moves of the search, one small class each: it proposes a change of the orders, or nothing where the dice fell
// badly. What is locked stays (private to model/planning).

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

/// A job goes somewhere else, on its own printer or another, perhaps in another variant.
class Shift : public Move {
public:
    bool propose(LinePlan& plan, Random& random, Edits& edits) override;
};

/// Two jobs change places.
class Swap : public Move {
public:
    bool propose(LinePlan& plan, Random& random, Edits& edits) override;
};

/// Some consecutive jobs go somewhere else together.
class BlockShift : public Move {
public:
    bool propose(LinePlan& plan, Random& random, Edits& edits) override;
};

/// A whole run of jobs without a changeover in between goes somewhere else.
class RunShift : public Move {
public:
    bool propose(LinePlan& plan, Random& random, Edits& edits) override;
};

/// Two printers exchange everything behind a position each.
class TailSwap : public Move {
public:
    bool propose(LinePlan& plan, Random& random, Edits& edits) override;
};

/// A job is printed in another variant.
class Revary : public Move {
public:
    bool propose(LinePlan& plan, Random& random, Edits& edits) override;
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
