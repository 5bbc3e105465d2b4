#pragma once
// A public instance as a fleet folder (labels, tables of measured changeovers, nobody needed), and the shipped program run
// on it: what a shop would see.

#include "tests/benchmarks/public_instances.h"

#include <QString>

namespace interlude::bench {

/// Writes fleet.yaml, setups.yaml, jobs.yaml and a CSV a printer; false, with a word on standard error, when it cannot.
bool writeFleetFolder(const Instance& instance, const QString& folder);

struct Shipped {
    bool ran = false;
    planning::Minute value = 0; ///< in the unit of the instance
    int notPlaced = 0;
    double seconds = 0;         ///< as the program says
    long long iterations = 0;
};
/// `program plan FOLDER --goal … --seconds … --seed … --now … --json -`.
Shipped runShipped(const QString& program, const Instance& instance, const QString& folder, double seconds,
                   unsigned long long seed);

} // namespace interlude::bench
