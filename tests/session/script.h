#pragma once
// A technician who never errs: carries one changeover of the sample fleet out on a SQLite ledger, act by act, telling
// standard output of every act that was confirmed. It runs in a process of its own, which may be killed at any moment and
// started again; it goes on from whatever the ledger says.

#include "model/session/guide.h"
#include "tests/harness/technician.h"

namespace interlude::tests {

/// What a session looks like to its technician, in one line: step before them, waits with their ends, readings owed.
QString picture(const Shop& shop, const SessionState& session, Instant now);

/// Lines on standard output: `open STALE PICTURE` (STALE: what became of a reading from before: refused, accepted, none),
/// then for every act `SEQUENCE HASH NOW PICTURE`, at the end `done`. Returns the exit code.
int runScript(const QString& ledger, Instant machineNow);

} // namespace interlude::tests
