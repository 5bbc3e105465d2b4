// The system calls themselves. A definition in the program comes before that of the C library for every library that the
// program loads, SQLite's and Qt's included; the library's own is found behind it.

#include "tests/failures/disk_state.h"

#include <cerrno>
#include <cstdarg>
#include <dlfcn.h>
#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

using interlude::tests::disk::Call;
using interlude::tests::disk::State;
using interlude::tests::disk::Trouble;
namespace disk = interlude::tests::disk;

namespace {

/// Set while the disk itself works on files: its own calls are not watched.
thread_local int within = 0;
struct Within {
    Within() { ++within; }
    ~Within() { --within; }
};

template <typename F> F real(const char* name) { return reinterpret_cast<F>(::dlsym(RTLD_NEXT, name)); }

int errorFor(Trouble trouble, Call call) {
    if (trouble == Trouble::Full && call != disk::Sync && call != disk::Read) return ENOSPC;
    if (trouble == Trouble::Forbidden && call == disk::Open) return EACCES;
    return EIO;
}

/// One call on a watched file: counted, refused or done, and written down. `done` is told the path.
template <typename Named, typename Do, typename Done>
auto through(Named named, Call call, Do act, Done done) -> decltype(act()) {
    if (within) return act();
    const Within own;
    State& s = State::the();
    const std::scoped_lock lock(s.mutex);
    const int before = errno;
    const QString path = s.watched(named);
    errno = before;
    if (path.isEmpty()) return act();
    if (const auto trouble = s.meets(call, path)) {
        errno = errorFor(*trouble, call);
        return -1;
    }
    const auto result = act();
    const int after = errno;
    if (result >= 0) done(s, path);
    errno = after;
    return result;
}

ssize_t writeAt(int fd, const void* bytes, size_t length, off64_t at, bool moves) {
    static const auto write = real<ssize_t (*)(int, const void*, size_t)>("write");
    static const auto pwrite = real<ssize_t (*)(int, const void*, size_t, off64_t)>("pwrite64");
    const auto act = [&](size_t count) { return moves ? write(fd, bytes, count) : pwrite(fd, bytes, count, at); };
    if (within) return act(length);
    const Within own;
    State& s = State::the();
    const std::scoped_lock lock(s.mutex);
    const int before = errno;
    const QString path = s.watched(fd);
    errno = before;
    if (path.isEmpty()) return act(length);
    if (s.isFull(path)) {
        s.fill({});
        errno = ENOSPC;
        return -1;
    }
    if (moves) at = (::fcntl(fd, F_GETFL) & O_APPEND) ? ::lseek64(fd, 0, SEEK_END) : ::lseek64(fd, 0, SEEK_CUR);
    const auto trouble = s.meets(disk::Write, path);
    // What is half written when the power goes may or may not be on the disk.
    if (trouble == Trouble::Power && s.takeDying()) s.wrote(path, at, bytes, static_cast<qint64>(length));
    if (trouble == Trouble::Full && length > 1) {
        const ssize_t half = act(length / 2);
        if (half > 0) s.wrote(path, at, bytes, half);
        s.fill(path);
        return half;
    }
    if (trouble) {
        errno = errorFor(*trouble, disk::Write);
        return -1;
    }
    const ssize_t count = act(length);
    const int after = errno;
    if (count > 0) s.wrote(path, at, bytes, count);
    errno = after;
    return count;
}

int openAt(const char* name, const char* path, int flags, mode_t mode) {
    const auto open = real<int (*)(const char*, int, ...)>(name);
    if (within) return open(path, flags, mode);
    bool made = false;
    if (flags & O_CREAT) {
        struct stat64 there {};
        made = ::stat64(path, &there) != 0;
    }
    const bool empties = flags & O_TRUNC;
    return through(path, disk::Open, [&] { return open(path, flags, mode); },
                   [&](State& s, const QString& whole) {
                       if (made) s.opened(whole, true);
                       else if (empties) s.cutAt(whole, 0);
                   });
}

mode_t modeIn(int flags, va_list& more) { return flags & (O_CREAT | O_TMPFILE) ? va_arg(more, mode_t) : 0; }

/// Nothing in this program lies on a disk that anybody would switch off: only the order counts, and the loops stay short.
int syncThrough(int fd) {
    return through(fd, disk::Sync, [] { return 0; }, [](State& s, const QString& path) { s.synced(path); });
}

int cut(int fd, off64_t length) {
    static const auto ftruncate = real<int (*)(int, off64_t)>("ftruncate64");
    return through(fd, disk::Truncate, [&] { return ftruncate(fd, length); },
                   [&](State& s, const QString& path) { s.cutAt(path, length); });
}

} // namespace

extern "C" {

int open(const char* path, int flags, ...) {
    va_list more;
    va_start(more, flags);
    const mode_t mode = modeIn(flags, more);
    va_end(more);
    return openAt("open", path, flags, mode);
}
int open64(const char* path, int flags, ...) {
    va_list more;
    va_start(more, flags);
    const mode_t mode = modeIn(flags, more);
    va_end(more);
    return openAt("open64", path, flags, mode);
}
ssize_t write(int fd, const void* bytes, size_t length) { return writeAt(fd, bytes, length, 0, true); }
ssize_t pwrite(int fd, const void* bytes, size_t length, off_t at) { return writeAt(fd, bytes, length, at, false); }
ssize_t pwrite64(int fd, const void* bytes, size_t length, off64_t at) { return writeAt(fd, bytes, length, at, false); }
ssize_t pread64(int fd, void* bytes, size_t length, off64_t at) {
    static const auto pread = real<ssize_t (*)(int, void*, size_t, off64_t)>("pread64");
    return through(fd, disk::Read, [&] { return pread(fd, bytes, length, at); }, [](State&, const QString&) {});
}
int fsync(int fd) { return syncThrough(fd); }
int fdatasync(int fd) { return syncThrough(fd); }
int ftruncate(int fd, off_t length) noexcept { return cut(fd, length); }
int ftruncate64(int fd, off64_t length) noexcept { return cut(fd, length); }
int unlink(const char* path) noexcept {
    static const auto unlink = real<int (*)(const char*)>("unlink");
    return through(path, disk::Name, [&] { return unlink(path); }, [](State& s, const QString& p) { s.removed(p); });
}
int rename(const char* from, const char* to) noexcept {
    static const auto rename = real<int (*)(const char*, const char*)>("rename");
    return through(from, disk::Name, [&] { return rename(from, to); },
                   [&](State& s, const QString& p) { s.renamed(p, s.watched(to)); });
}
int renameat2(int fromFolder, const char* from, int toFolder, const char* to, unsigned flags) noexcept {
    static const auto renameat2 = real<int (*)(int, const char*, int, const char*, unsigned)>("renameat2");
    return through(from, disk::Name, [&] { return renameat2(fromFolder, from, toFolder, to, flags); },
                   [&](State& s, const QString& p) { s.renamed(p, s.watched(to)); });
}
int link(const char* from, const char* to) noexcept {
    static const auto link = real<int (*)(const char*, const char*)>("link");
    return through(from, disk::Name, [&] { return link(from, to); },
                   [&](State& s, const QString& p) { s.linked(p, s.watched(to)); });
}

} // extern "C"
