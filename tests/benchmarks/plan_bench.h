#pragma once
// How good plans are on public instances, by the shipped program run on each as a fleet folder.

namespace interlude::bench {

/// `plan FOLDER [--scale F] [--seed N] [--only NAME] [--cpu-time]`; `plan --help` explains them.
int planBench(int argc, char** argv);

} // namespace interlude::bench
