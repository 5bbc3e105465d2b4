#include "model/planning/moves.h"

#include <algorithm>

namespace interlude::planning {

namespace {

/// A variant of that option's job for that printer: the same where it can be, else (or now and then) any; -1: none.
int variantFor(LinePlan& plan, int option, int printer, Random& random, bool anew) {
    const ChangeoverTable& table = plan.table();
    if (!anew && table.printable(printer, option))
        return option;
    const int job = table.jobOf(option);
    const auto count = static_cast<int>(table.problem().jobs[static_cast<std::size_t>(job)].variants.size());
    const int first = table.optionOf({job, 0});
    const int begin = random.below(count);
    for (int k = 0; k < count; ++k)
        if (const int o = first + (begin + k) % count; table.printable(printer, o))
            return o;
    return -1;
}

struct Spot {
    int printer = 0, position = 0;
};

/// Behind a random job, or at the beginning of a printer.
Spot anySpot(LinePlan& plan, Random& random) {
    const int n = static_cast<int>(plan.movable().size());
    const int k = random.below(n + plan.printers());
    if (k >= n)
        return {k - n, plan.frozen(k - n)};
    const int job = plan.movable()[static_cast<std::size_t>(k)];
    const int p = plan.printerOf(job);
    return {p, std::max(plan.frozen(p), plan.positionOf(job) + 1)};
}

/// [from, to) of a printer goes to a spot.
bool shiftBlock(LinePlan& plan, Random& random, int p, int from, int to, Spot spot, bool anew, Edits& edits) {
    const auto& order = plan.order(p);
    const int n = static_cast<int>(order.size());
    if (from < plan.frozen(p))
        return false;
    edits.second.printer = -1;
    Edit& here = edits.first;
    here.printer = p;
    here.part.clear();
    if (spot.printer == p) {
        if (spot.position >= from && spot.position <= to)
            return false;
        const auto at = [&](int i) { return order.begin() + i; };
        here.from = std::min(from, spot.position);
        here.tail = n - std::max(to, spot.position);
        if (spot.position < from) {
            here.part.insert(here.part.end(), at(from), at(to));
            here.part.insert(here.part.end(), at(spot.position), at(from));
        } else {
            here.part.insert(here.part.end(), at(to), at(spot.position));
            here.part.insert(here.part.end(), at(from), at(to));
        }
        return true;
    }
    here.from = from;
    here.tail = n - to;
    Edit& there = edits.second;
    there.printer = spot.printer;
    there.from = spot.position;
    there.tail = static_cast<int>(plan.order(spot.printer).size()) - spot.position;
    there.part.clear();
    for (int i = from; i < to; ++i) {
        const int option = variantFor(plan, order[static_cast<std::size_t>(i)], spot.printer, random, anew);
        if (option < 0)
            return false;
        there.part.push_back(option);
    }
    return true;
}

/// A job goes somewhere else, on its own printer or another, perhaps in another variant.
class Shift final : public Move {
public:
    bool propose(LinePlan& plan, Random& random, Edits& edits) override {
        const int job = plan.anyJob(random);
        const int p = plan.printerOf(job), i = plan.positionOf(job);
        return shiftBlock(plan, random, p, i, i + 1, anySpot(plan, random), random.below(4) == 0, edits);
    }
};

/// Some consecutive jobs go somewhere else together.
class BlockShift final : public Move {
public:
    bool propose(LinePlan& plan, Random& random, Edits& edits) override {
        const int job = plan.anyJob(random);
        const int p = plan.printerOf(job), i = plan.positionOf(job);
        const int most = static_cast<int>(plan.order(p).size()) - i;
        if (most < 2)
            return false;
        const int length = 2 + random.below(std::min(most - 1, 8));
        return shiftBlock(plan, random, p, i, i + length, anySpot(plan, random), false, edits);
    }
};

/// A whole run of jobs without a changeover in between goes somewhere else.
class RunShift final : public Move {
public:
    bool propose(LinePlan& plan, Random& random, Edits& edits) override {
        const int job = plan.anyJob(random);
        const int p = plan.printerOf(job);
        int from = plan.positionOf(job), to = from + 1;
        while (from > plan.frozen(p) && plan.changeoverAt(p, from) == 0)
            --from;
        while (to < static_cast<int>(plan.order(p).size()) && plan.changeoverAt(p, to) == 0)
            ++to;
        if (to - from < 2)
            return false;
        return shiftBlock(plan, random, p, from, to, anySpot(plan, random), false, edits);
    }
};

/// Two jobs change places.
class Swap final : public Move {
public:
    bool propose(LinePlan& plan, Random& random, Edits& edits) override {
        const int a = plan.anyJob(random), b = plan.anyJob(random);
        if (a == b)
            return false;
        int p = plan.printerOf(a), q = plan.printerOf(b), i = plan.positionOf(a), j = plan.positionOf(b);
        edits.second.printer = -1;
        if (p == q) {
            if (i > j)
                std::swap(i, j);
            const auto& order = plan.order(p);
            edits.first.printer = p;
            edits.first.from = i;
            edits.first.tail = static_cast<int>(order.size()) - j - 1;
            edits.first.part.assign(order.begin() + i, order.begin() + j + 1);
            std::swap(edits.first.part.front(), edits.first.part.back());
            return true;
        }
        const auto put = [&](Edit& e, int printer, int position, int option) {
            e.printer = printer;
            e.from = position;
            e.tail = static_cast<int>(plan.order(printer).size()) - position - 1;
            e.part.assign(1, variantFor(plan, option, printer, random, false));
            return e.part[0] >= 0;
        };
        return put(edits.first, p, i, plan.order(q)[static_cast<std::size_t>(j)]) &&
               put(edits.second, q, j, plan.order(p)[static_cast<std::size_t>(i)]);
    }
};

/// Two printers exchange everything behind a position each.
class TailSwap final : public Move {
public:
    bool propose(LinePlan& plan, Random& random, Edits& edits) override {
        const Spot a = anySpot(plan, random), b = anySpot(plan, random);
        if (a.printer == b.printer)
            return false;
        const auto put = [&](Edit& e, const Spot& to, const Spot& of) {
            e.printer = to.printer;
            e.from = to.position;
            e.tail = 0;
            e.part.clear();
            const auto& order = plan.order(of.printer);
            for (auto i = static_cast<std::size_t>(of.position); i < order.size(); ++i) {
                e.part.push_back(variantFor(plan, order[i], to.printer, random, false));
                if (e.part.back() < 0)
                    return false;
            }
            return true;
        };
        return put(edits.first, a, b) && put(edits.second, b, a) &&
               !(edits.first.part.empty() && edits.second.part.empty());
    }
};

/// A job is printed in another variant.
class Revary final : public Move {
public:
    bool propose(LinePlan& plan, Random& random, Edits& edits) override {
        const int job = plan.anyJob(random);
        const int p = plan.printerOf(job), i = plan.positionOf(job);
        const int old = plan.order(p)[static_cast<std::size_t>(i)];
        const int option = variantFor(plan, old, p, random, true);
        if (option < 0 || option == old)
            return false;
        edits.second.printer = -1;
        edits.first.printer = p;
        edits.first.from = i;
        edits.first.tail = static_cast<int>(plan.order(p).size()) - i - 1;
        edits.first.part.assign(1, option);
        return true;
    }
};

} // namespace

MoveDraw::MoveDraw(const Problem& problem) {
    const bool several = problem.printers.size() > 1;
    const bool variants = std::any_of(problem.jobs.begin(), problem.jobs.end(),
                                      [](const JobNumbers& j) { return j.variants.size() > 1; });
    int upTo = 0;
    const auto add = [&](std::unique_ptr<Move> move, int share) {
        if (share > 0)
            m_moves.push_back({std::move(move), upTo += share});
    };
    add(std::make_unique<Shift>(), 40);
    add(std::make_unique<Swap>(), 25);
    add(std::make_unique<BlockShift>(), 20);
    add(std::make_unique<RunShift>(), 8);
    add(std::make_unique<TailSwap>(), several ? 7 : 0);
    add(std::make_unique<Revary>(), variants ? 10 : 0);
}

Move& MoveDraw::draw(Random& random) const {
    const int k = random.below(m_moves.back().upTo);
    for (const Share& s : m_moves)
        if (k < s.upTo)
            return *s.move;
    return *m_moves.back().move;
}

} // namespace interlude::planning
