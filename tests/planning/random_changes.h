#pragma once
// Changeovers out of a hat: a table that fills itself, each entry the child of the shop's seed and its own key.

#include "tests/planning/random_shop.h"

#include <map>
#include <tuple>

namespace interlude::tests {

/// What the hat may hold.
struct HatLimits {
    std::vector<Dress> states;
    std::vector<char> unattended; ///< by printer
    std::vector<int> toolPieces;
    int impossibleOneIn = 15;
    bool nozzles = false;
    bool strong = false; ///< now and then a segment needs three people
};

class RandomChanges : public planning::Changes {
public:
    RandomChanges(std::uint64_t seed, HatLimits limits) : m_seed(seed), m_limits(std::move(limits)) {}
    const planning::Change& from(int printer, int state, int job, int variant, std::array<bool, 2> worn) override;
    const std::vector<planning::Work>& removal(int printer, int state) override;
    bool pairwise() const override { return false; }
    std::unique_ptr<planning::Changes> clone() const override { return std::make_unique<RandomChanges>(*this); }

    /// The state after that variant.
    int wanted(int job, int variant) const;
    planning::Work work(Dice& dice, planning::Kind kind, int printer, int longest) const;

private:
    planning::Change make(Dice& dice, int printer, int state, int next, std::array<bool, 2> worn) const;
    void exchange(Dice& dice, planning::Change& change, int printer) const;

    std::uint64_t m_seed;
    HatLimits m_limits;
    std::map<std::tuple<int, int, int, int, int>, planning::Change> m_changes;
    std::map<std::tuple<int, int>, std::vector<planning::Work>> m_removals;
};

} // namespace interlude::tests
