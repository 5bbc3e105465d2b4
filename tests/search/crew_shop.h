#pragma once
// Made-up shops where people, shifts and nozzles bind, for the tests of the search and the bench. Materials and nozzle
// types are numbers; a changeover is unloading, perhaps a clean-out with a wait, mounting, heating and starting.

#include "model/planning/problem/problem.h"
#include "model/planning/random.h"

#include <map>
#include <tuple>

namespace interlude::planning {

struct CrewShopShape {
    int printers = 8, jobs = 60, crew = 2; ///< crew 0: unlimited
    bool shifts = true, nozzles = true, variants = true, preparation = true;
    int materials = 6, types = 3;
    std::uint64_t seed = 1;
};

/// State = material × types + type + 1; 0 = bare.
class CrewChanges : public Changes {
public:
    CrewChanges(const CrewShopShape& shape, std::vector<std::vector<int>> setup)
        : m_shape(shape), m_setup(std::move(setup)) {
        m_removal.push_back({Kind::PartRemoval, shape.crew > 0 ? 1 : 0, 10, {}, false, {}, {}});
    }
    const Change& from(int printer, int state, int job, int variant, std::array<bool, 2> worn) override {
        const int to = m_setup[static_cast<std::size_t>(job)][static_cast<std::size_t>(variant)];
        const auto [at, isNew] = m_kept.try_emplace({printer, state, to, worn[0]});
        if (isNew)
            at->second = made(state, to, worn[0]);
        return at->second;
    }
    const std::vector<Work>& removal(int, int state) override { return state == 0 ? m_nothing : m_removal; }
    bool pairwise() const override { return true; }
    std::unique_ptr<Changes> clone() const override { return std::make_unique<CrewChanges>(m_shape, m_setup); }

private:
    Change made(int from, int to, bool worn) const {
        const int types = m_shape.types;
        Change c;
        c.possible = true;
        c.next = to + 1;
        const bool material = from == 0 || (from - 1) / types != to / types;
        const bool nozzle = from == 0 || (from - 1) % types != to % types || worn;
        const int distance =
            from == 0 ? 1 : ((from - 1) / types - to / types + 2 * m_shape.materials) % m_shape.materials;
        c.cleanOut = from != 0 && material && distance % 2 == 1;
        c.nozzle[0] = {nozzle, to % types, to / types / 2};
        const auto add = [&](Kind kind, int people, Minute minutes) {
            c.work.push_back({kind, m_shape.crew > 0 ? people : 0, minutes, {}, false, {}, {}});
        };
        if (material && m_shape.preparation)
            c.preparation = Work{Kind::Preparation, m_shape.crew > 0 ? 1 : 0, 15, {}, false, {}, {}};
        if (c.cleanOut) {
            add(Kind::Waiting, 0, 40);
            add(Kind::HandsOn, std::min(2, std::max(1, m_shape.crew)), 25);
        }
        if (material)
            add(Kind::HandsOn, 1, 10 + 2 * distance);
        if (nozzle) {
            add(Kind::HandsOn, 1, 12);
            c.work.back().mounts = true;
        }
        if (material || nozzle)
            add(Kind::Waiting, 0, 20 + 5 * distance);
        add(Kind::HandsOn, 1, 5);
        for (const Work& w : c.work) {
            c.minutes += w.minutes;
            c.handsOn += w.people * w.minutes;
        }
        c.material = material ? 300 : 0;
        return c;
    }

    CrewShopShape m_shape;
    std::vector<std::vector<int>> m_setup;
    std::map<std::tuple<int, int, int, bool>, Change> m_kept;
    std::vector<Work> m_removal, m_nothing;
};

inline void addShifts(Problem& problem, const CrewShopShape& shape) {
    problem.crew.clear();
    if (shape.crew <= 0) {
        problem.crew.push_back({0, unlimitedCrew});
        return;
    }
    if (!shape.shifts) {
        problem.crew.push_back({0, shape.crew});
        return;
    }
    problem.crew.push_back({0, shape.crew}); // now is 6:00 on a Monday; two shifts, at the weekend a short one
    for (int day = 0; day < 120; ++day) {
        const Minute six = day * 1440;
        if (day > 0)
            problem.crew.push_back({six, shape.crew});
        problem.crew.push_back({six + (day % 7 < 5 ? 960 : 360), 0});
    }
}

inline Problem crewShop(const CrewShopShape& shape) {
    Random random(shape.seed);
    Problem out;
    std::vector<std::vector<int>> setups;
    const int setupCount = shape.materials * shape.types;
    for (int j = 0; j < shape.jobs; ++j) {
        JobNumbers job;
        job.id = std::to_string(7001 + j);
        const int material = random.below(shape.materials);
        const int count = shape.variants ? 1 + random.below(2) : 1;
        const Minute base = 60 + random.below(600);
        std::vector<int> setup;
        const int firstType = random.below(shape.types);
        for (int v = 0; v < count; ++v) {
            setup.push_back(material * shape.types + (firstType + v) % shape.types);
            VariantNumbers variant;
            for (int p = 0; p < shape.printers; ++p)
                variant.print.push_back(random.below(12) == 0 && p > 0 ? -1
                                                                       : base * (10 - 3 * v) / 10 + random.below(40));
            variant.whyNot.assign(static_cast<std::size_t>(shape.printers), "too small");
            variant.life[0] = base * 1'000'000;
            variant.family = material / 2;
            job.variants.push_back(variant);
        }
        if (random.below(4) == 0)
            job.release = random.below(2000);
        const Minute span = base * shape.jobs / shape.printers;
        if (random.below(5) > 0)
            job.due = job.release.value_or(0) + base + random.below(static_cast<int>(span * 2));
        job.lateCostPerHour = 100 * (1 + random.below(20));
        out.jobs.push_back(job);
        setups.push_back(setup);
    }
    for (int p = 0; p < shape.printers; ++p) {
        PrinterNumbers printer;
        printer.id = "bay-" + std::to_string(p + 1);
        printer.hourlyRate = 1200;
        printer.nozzleRemoval = 10;
        printer.state = 1 + random.below(setupCount);
        if (shape.nozzles) {
            printer.mounted[0] = static_cast<int>(out.nozzles.size());
            const int type = (printer.state - 1) % shape.types;
            out.nozzles.push_back({"N" + std::to_string(out.nozzles.size()), type,
                                   (printer.state - 1) / shape.types / 2, 1'000'000'000, p, 0});
        }
        out.printers.push_back(printer);
    }
    out.scarceNozzles = shape.nozzles;
    for (int k = 0; shape.nozzles && k < shape.printers + shape.jobs / 6; ++k)
        out.nozzles.push_back({"N" + std::to_string(out.nozzles.size()), random.below(shape.types), -1,
                               std::int64_t{3'000'000'000}, -1, 0});
    addShifts(out, shape);
    out.changes = std::make_shared<CrewChanges>(shape, std::move(setups));
    return out;
}

} // namespace interlude::planning
