#pragma once
// A disk that fails on command. The test program defines the system calls that change files (write, sync, open, truncate,
// delete, rename) itself, so SQLite, Qt and our own code all come through here; outside the watched folder, and while
// nothing is asked for, they go straight on to the C library. Every change below the folder is also written down, so that
// the folder can be shown as it would be after a loss of power: what was synced is kept, the rest is kept, lost or torn.
//
// Syncs outside the watched folder do nothing at all: they would only take time.
//
// One disk for the whole program; any thread may come through it.

#include <QString>

#include <random>

namespace interlude::tests::disk {

/// Kinds of calls, to be combined.
enum Call : unsigned {
    Write = 1,
    Sync = 2,
    Open = 4,
    Truncate = 8,
    Name = 16, ///< delete, rename, link
    Read = 32,
    Changes = Write | Sync | Open | Truncate | Name
};

enum class Trouble {
    Error,    ///< the call fails with EIO and changes nothing
    Full,     ///< a write puts half of its bytes down, the next one fails with ENOSPC; a sync fails with EIO
    Forbidden,///< opening fails with EACCES, everything else with EIO
    Power     ///< nothing is changed from this call on, and every call fails: the computer is off
};

/// Begins to watch everything below this folder, as it is now. All of it counts as synced.
void watch(const QString& folder);
/// Ends it; all calls go straight on.
void release();

/// The `nth` of these calls from now on (counted from 1) meets the trouble: it alone, or all that follow as well.
void strike(int nth, Trouble trouble, bool onwards, unsigned calls = Changes);
/// Nothing fails any more. The count goes on.
void heal();
/// How many of these calls there have been since `watch` or the last `strike`.
int count(unsigned calls = Changes);
/// The call that met the trouble, as "write ledger.sqlite-wal"; empty when none did.
QString struck();

enum class Loss {
    All,  ///< only what was synced, names included
    None, ///< everything that was written, as after a kill of the process
    Torn  ///< each sector of what was not synced is kept or not, at random; names as last given
};
/// Writes the watched folder into another (which must be there and empty) as the power loss leaves it.
void leave(const QString& into, Loss loss, std::mt19937& random);

} // namespace interlude::tests::disk
