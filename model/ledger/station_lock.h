#pragma once
// One station at a time holds a SQLite ledger. The lock is an advisory lock of the operating system (flock) on
// `<ledger>.lock`, so that it ends with the process, however that ends; the file's content names the holder. The file
// is never deleted: deleting it would let two stations lock two different files of one name.

#include "model/findings/finding.h"

#include <memory>

namespace interlude {

class StationLock {
public:
    /// Takes the lock beside `ledger`. Refused at once (`ledger-held`, naming the holder) when it is taken, and
    /// (`ledger-folder`) when its file cannot be made.
    static Outcome<std::unique_ptr<StationLock>> take(const QString& ledger, const QString& station);
    ~StationLock();
    StationLock(const StationLock&) = delete;
    StationLock& operator=(const StationLock&) = delete;

private:
    explicit StationLock(int descriptor) : m_descriptor(descriptor) {}
    int m_descriptor;
};

} // namespace interlude
