#pragma once
// The command line: which verb, which options; exit codes 0 done, 1 the input is at fault, 2 the call is, 3 the program.

namespace interlude::app {

/// Parses the call and runs its verb.
int run(int argc, char** argv);

} // namespace interlude::app
