#include "model/ledger/durable_file.h"

#include <QFile>
#include <QFileInfo>

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <fcntl.h>
#include <unistd.h>

namespace interlude {

namespace {

tl::unexpected<Finding> refused(int error, const QString& what, const QString& path) {
    const QString reason = QStringLiteral("%1 (%2)").arg(what, QString::fromLocal8Bit(std::strerror(error)));
    if (error == ENOSPC || error == EDQUOT)
        return refusal(QStringLiteral("file-full"), reason, QStringLiteral("make room on that disk and do it again"), path);
    return refusal(QStringLiteral("file-folder"), reason,
                   QStringLiteral("check the folder, your right to write there, and the health of the disk"), path);
}

Outcome<qint64> sync(const QString& path, int flags) {
    const int descriptor = ::open(QFile::encodeName(path).constData(), flags | O_CLOEXEC);
    if (descriptor < 0) return refused(errno, QStringLiteral("%1 cannot be opened").arg(path), path);
    const bool done = ::fsync(descriptor) == 0;
    const int error = errno;
    ::close(descriptor);
    if (!done) return refused(error, QStringLiteral("%1 is not known to be on the disk").arg(path), path);
    return 0;
}

/// Writes all that `next` gives, piece by piece until an empty one.
template <typename Next> Outcome<qint64> put(const QString& file, Next next) {
    const int out = ::open(QFile::encodeName(file).constData(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0666);
    if (out < 0) return refused(errno, QStringLiteral("%1 cannot be made").arg(file), file);
    qint64 all = 0;
    int error = 0;
    for (QByteArray piece = next(); !error && !piece.isEmpty(); piece = next())
        for (qsizetype at = 0; !error && at < piece.size();) {
            const ssize_t count = ::write(out, piece.constData() + at, static_cast<size_t>(piece.size() - at));
            if (count > 0) {
                at += count;
                all += count;
            } else if (errno != EINTR) {
                error = count == 0 ? ENOSPC : errno;
            }
        }
    if (!error && ::fsync(out) != 0) error = errno;
    if (::close(out) != 0 && !error) error = errno;
    if (error) return refused(error, QStringLiteral("%1 cannot be written").arg(file), file);
    return all;
}

} // namespace

Outcome<qint64> writeDurably(const QString& file, const QByteArray& bytes) {
    bool given = false;
    return put(file, [&] { return std::exchange(given, true) ? QByteArray() : bytes; });
}

Outcome<qint64> copyDurably(const QString& from, const QString& to) {
    QFile in(from);
    if (!in.open(QIODevice::ReadOnly))
        return refusal(QStringLiteral("file-folder"), QStringLiteral("%1 cannot be read (%2)").arg(from, in.errorString()),
                       QStringLiteral("give yourself the right to read it"), from);
    const auto written = put(to, [&] { return in.read(1 << 20); });
    if (!written || *written == in.size()) return written;
    return refusal(QStringLiteral("file-folder"), QStringLiteral("%1 could not be read to its end (%2)").arg(from, in.errorString()),
                   QStringLiteral("check the health of that disk"), from);
}

Outcome<qint64> syncFile(const QString& file) { return sync(file, O_RDONLY); }

Outcome<qint64> syncFolder(const QString& folder) { return sync(folder, O_RDONLY | O_DIRECTORY); }

Outcome<qint64> renameDurably(const QString& from, const QString& to) {
    if (std::rename(QFile::encodeName(from).constData(), QFile::encodeName(to).constData()) != 0)
        return refused(errno, QStringLiteral("%1 cannot be given its name").arg(to), to);
    return syncFolder(QFileInfo(to).absolutePath());
}

} // namespace interlude
