#pragma once
// Public instances with known answers, read into one plain form: jobs by label, changeovers by table. The formats and
// where they come from are described in the README of the benchmark folder.

#include "model/planning/timetable/timetable.h"

#include <filesystem>

namespace interlude::bench {

enum class Family { OnePrinterTardiness, SmallMakespan, LargeMakespan, Changeovers };

struct Instance {
    std::string name;
    Family family = Family::Changeovers;
    planning::Goal goal = planning::Goal::Changeover;
    int printers = 1;
    /// Labels 0 … n − 1 belong to the jobs in order; label n is what a printer wears at the start.
    int jobs = 0;
    std::vector<std::vector<planning::Minute>> print;              ///< by job and printer
    std::vector<planning::Minute> due;                             ///< empty: none
    std::vector<int> weight;                                       ///< late cost; empty: none
    std::vector<std::vector<std::vector<planning::Minute>>> setup; ///< printer, from label, to label; -1: impossible
    planning::Minute best = 0;
    bool bestIsOptimal = false;

    planning::Problem problem() const;
};

/// All instances of the folders wtsds, upmsp-vallada-ruiz and tsplib-atsp that best_known.csv names, in that order. A
/// file that cannot be read is told on standard error and left out.
std::vector<Instance> publicInstances(const std::filesystem::path& folder);

} // namespace interlude::bench
