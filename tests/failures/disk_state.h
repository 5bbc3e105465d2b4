#pragma once
// What the failing disk knows: which folder, which files with what content synced and not, which call is to fail.

#include "tests/failures/disk.h"

#include <QByteArray>
#include <QMap>

#include <mutex>
#include <optional>
#include <utility>
#include <vector>

#include <sys/types.h>

namespace interlude::tests::disk {

/// One change to a file that is not known to be on the disk yet.
struct Change {
    qint64 at = 0;
    QByteArray bytes;
    bool cut = false; ///< the file ends at `at`
};

struct File {
    QByteArray synced;
    std::vector<Change> changes;
    QByteArray whole() const;
};

class State {
public:
    static State& the();

    /// Absolute path of the file behind a descriptor when it is watched, else empty.
    QString watched(int descriptor) const;
    QString watched(const char* path) const;

    /// Counts one call; what it meets, if anything.
    std::optional<Trouble> meets(Call call, const QString& path);
    /// The half-written file of a full disk: its next write fails.
    bool isFull(const QString& path) const { return m_full == path; }
    void fill(const QString& path) { m_full = path; }
    /// True once, for the very call at which the power went.
    bool takeDying() { return std::exchange(m_dying, false); }

    // What happened, told after (writes, cuts) or before (names) the call was done.
    void opened(const QString& path, bool made);
    void wrote(const QString& path, qint64 at, const void* bytes, qint64 length);
    void cutAt(const QString& path, qint64 length);
    void synced(const QString& path);
    void renamed(const QString& from, const QString& to);
    void linked(const QString& from, const QString& to);
    void removed(const QString& path);

    std::recursive_mutex mutex;

private:
    friend void interlude::tests::disk::watch(const QString&);
    friend void interlude::tests::disk::release();
    friend void interlude::tests::disk::strike(int, Trouble, bool, unsigned);
    friend void interlude::tests::disk::heal();
    friend int interlude::tests::disk::count(unsigned);
    friend QString interlude::tests::disk::struck();
    friend void interlude::tests::disk::leave(const QString&, Loss, std::mt19937&);

    File& fileAt(const QString& path);

    QString m_folder; ///< with a slash at its end; empty: nothing is watched
    QMap<QString, int> m_names, m_syncedNames;
    std::vector<std::pair<QString, QString>> m_movedFolders; ///< whose new name is not synced yet
    std::vector<File> m_files;
    QMap<unsigned, int> m_counts;
    int m_nth = 0, m_seen = 0;
    unsigned m_calls = 0;
    Trouble m_trouble = Trouble::Error;
    bool m_onwards = false, m_off = false, m_dying = false;
    QString m_struck, m_full;
};

} // namespace interlude::tests::disk
