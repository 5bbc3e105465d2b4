// The words of a call, one a line: either they are understood or there is something to say and an exit code.

#include "app/call.h"
#include "tests/fuzz/target.h"

using namespace interlude;
using namespace interlude::tests;

INTERLUDE_FUZZ_TARGET(command_line) {
    std::vector<std::string> words;
    for (const QByteArray& line : input.split('\n')) words.push_back(line.toStdString());
    for (const bool display : {false, true}) {
        const app::ReadCall read = app::readCall(words, display);
        if (read.call) {
            promise(!read.call->verb.empty(), "an understood call has a verb");
            promise(!read.call->session || *read.call->session > 0, "sessions are counted from one");
            promise(!read.call->seconds || *read.call->seconds > 0, "a search lasts");
            promise(!(read.call->seconds && read.call->iterations), "one limit a search");
            continue;
        }
        promise(read.exitCode == 0 || read.exitCode == 2, "the call is at fault");
        promise(!read.out.empty() || !read.err.empty(), "something is said");
        promise(read.exitCode != 2 || !read.err.empty(), "what is at fault is said as an error");
    }
}
