#pragma once
// How fast the board draws: scrolling and dragging on an invented shop of labels, 60 printers and 1,000 jobs.

namespace interlude::bench {

/// Prints the frame times; needs no display. Pictures go to the folder that argv[2] names, if it does.
int boardFrames(int argc, char** argv);

} // namespace interlude::bench
