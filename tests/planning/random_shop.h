#pragma once
// Small random shops to plan with, each the child of one seed: the same seed gives the same shop on every machine.

#include "model/planning/problem/problem.h"

#include <cstddef>

namespace interlude::tests {

/// Splitmix64: the same numbers with every standard library.
class Dice {
public:
    explicit Dice(std::uint64_t seed) : m_state(seed) {}
    std::uint64_t next();
    /// 0 … n-1
    int below(int n) { return static_cast<int>(next() % static_cast<std::uint64_t>(n)); }
    /// low … high
    int from(int low, int high) { return low + below(high - low + 1); }
    bool oneIn(int n) { return below(n) == 0; }

private:
    std::uint64_t m_state;
};

/// What a state of a printer says about its nozzles.
struct Dress {
    std::array<int, 2> type{-1, -1}, family{-1, -1};
};

struct RandomShop {
    planning::Problem problem;
    planning::Orders orders, otherOrders;
};

RandomShop randomShop(std::uint64_t seed);

} // namespace interlude::tests
