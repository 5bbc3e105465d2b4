#include "tests/planning/random_changes.h"

#include <algorithm>

namespace interlude::tests {

using namespace planning;

namespace {
std::uint64_t mixed(std::uint64_t seed, std::initializer_list<int> key) {
    for (const int k : key)
        seed = Dice(seed * 31 + static_cast<std::uint64_t>(k + 7)).next();
    return seed;
}
} // namespace

int RandomChanges::wanted(int job, int variant) const {
    return Dice(mixed(m_seed, {1, job, variant})).below(static_cast<int>(m_limits.states.size()));
}

Work RandomChanges::work(Dice& dice, Kind kind, int printer, int longest) const {
    Work work;
    work.kind = kind;
    work.minutes = dice.from(1, longest);
    if (kind == Kind::Waiting)
        return work;
    const int people = m_limits.strong && dice.oneIn(12) ? 3 : dice.oneIn(3) ? 2 : 1;
    work.people = kind == Kind::Preparation ? 1 : kind == Kind::PartRemoval && dice.oneIn(6) ? 0 : people;
    if (m_limits.unattended[static_cast<size_t>(printer)])
        work.people = 0;
    for (int tool = 0; tool < static_cast<int>(m_limits.toolPieces.size()); ++tool)
        if (dice.oneIn(3)) {
            const int pieces = dice.oneIn(3) ? m_limits.toolPieces[static_cast<size_t>(tool)] : 1;
            work.tools.insert(work.tools.end(), static_cast<size_t>(pieces), tool);
        }
    return work;
}

const std::vector<Work>& RandomChanges::removal(int printer, int state) {
    const auto [at, isNew] = m_removals.try_emplace({printer, state});
    if (isNew) {
        Dice dice(mixed(m_seed, {2, printer, state}));
        for (int n = dice.oneIn(4) ? 0 : dice.from(1, 2); n > 0; --n)
            at->second.push_back(work(dice, Kind::PartRemoval, printer, 8));
    }
    return at->second;
}

const Change& RandomChanges::from(int printer, int state, int job, int variant, std::array<bool, 2> worn) {
    const int both = (worn[0] ? 1 : 0) + (worn[1] ? 2 : 0);
    const auto [at, isNew] = m_changes.try_emplace({printer, state, job, variant, both});
    if (isNew) {
        Dice dice(mixed(m_seed, {3, printer, state, job, variant, both}));
        at->second = make(dice, printer, state, wanted(job, variant), worn);
    }
    return at->second;
}

Change RandomChanges::make(Dice& dice, int printer, int state, int next, std::array<bool, 2> worn) const {
    Change change;
    if (dice.oneIn(m_limits.impossibleOneIn)) {
        change.reason = "out of the hat";
        return change;
    }
    change.possible = true;
    change.next = next;
    const Dress& old = m_limits.states[static_cast<size_t>(state)];
    const Dress& now = m_limits.states[static_cast<size_t>(next)];
    for (size_t i = 0; i < 2; ++i) {
        change.nozzle[i].type = now.type[i];
        change.nozzle[i].family = now.family[i];
        change.nozzle[i].exchange = m_limits.nozzles && now.type[i] >= 0 &&
                                    (worn[i] || now.type[i] != old.type[i] || now.family[i] != old.family[i]);
    }
    if (dice.oneIn(2))
        change.preparation = work(dice, Kind::Preparation, printer, 20);
    const bool same = state == next;
    for (int n = same ? dice.below(2) : dice.from(0, 3); n > 0; --n)
        change.work.push_back(work(dice, dice.oneIn(3) ? Kind::Waiting : Kind::HandsOn, printer, 15));
    exchange(dice, change, printer);
    for (const Work& w : change.work) {
        change.minutes += w.minutes;
        change.handsOn += w.people * w.minutes;
    }
    change.cleanOut = dice.oneIn(4);
    change.material = dice.below(3) * 150;
    return change;
}

// Old nozzles out, new ones in: all out before any in, or one position after the other.
void RandomChanges::exchange(Dice& dice, Change& change, int printer) const {
    std::vector<Work> out, in;
    const bool together = dice.oneIn(3);
    for (size_t i = 0; i < 2; ++i) {
        if (!change.nozzle[i].exchange)
            continue;
        Work removing = work(dice, Kind::HandsOn, printer, 8);
        removing.removes[i] = true;
        Work mounting = work(dice, Kind::HandsOn, printer, 8);
        mounting.mounts = true;
        if (together && !out.empty())
            out.back().removes[i] = true;
        else
            (together ? out : in).push_back(removing);
        in.push_back(mounting);
    }
    if (!out.empty() && dice.oneIn(3))
        out.push_back(work(dice, Kind::Waiting, printer, 15));
    out.insert(out.end(), in.begin(), in.end());
    const auto at = static_cast<std::ptrdiff_t>(dice.below(static_cast<int>(change.work.size()) + 1));
    change.work.insert(change.work.begin() + at, out.begin(), out.end());
}

} // namespace interlude::tests
