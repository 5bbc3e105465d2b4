#pragma once
// Generated shops in which people, shifts and nozzles bind: how good are the plans there?

namespace interlude::bench {

/// Plans of small shops against proved optima; plans of 60 jobs on 8 printers against the two yardsticks; how long the
/// timetable and the yardsticks take. `crew --help` explains its words.
int crewShops(int argc, char** argv);

} // namespace interlude::bench
