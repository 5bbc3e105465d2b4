#pragma once
// The words of a call as options. Reading them needs no Qt beyond strings and does nothing yet.

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace interlude::app {

/// What the options write into.
struct Call {
    std::string verb; ///< one of the verbs; `open` where the word was left out
    std::string folder, ledger, printer, to, variant, json, pdf, out, hash;
    std::string job, goal = "cost", now, ics, csv;
    std::string what, file, who, backup, id;
    std::optional<std::int64_t> session, iterations;
    std::optional<double> seconds;
    std::uint64_t seed = 1;
    bool letter = false, progress = false, dryRun = false, replaceNewer = false;
};

struct ReadCall {
    std::optional<Call> call; ///< empty: help or version was asked for, or the call is at fault
    int exitCode = 0;         ///< then: 0, or 2
    std::string out, err;     ///< what is to be said
};

/// `words` without the program's own name. With a screen no fleet need be named: the window asks.
ReadCall readCall(std::vector<std::string> words, bool hasDisplay);

} // namespace interlude::app
