#include "model/ledger/station_lock.h"

#include <QDateTime>
#include <QFile>
#include <QFileInfo>
#include <QRegularExpression>
#include <QSysInfo>

#include <cerrno>
#include <cstring>
#include <fcntl.h>
#include <sys/file.h>
#include <unistd.h>

namespace interlude {

namespace {

/// "station bench-1, computer pc-7, process 812, since 2026-03-02T06:30:00Z", as the holder wrote it.
QString holderIn(int descriptor) {
    char text[512];
    const ssize_t length = ::pread(descriptor, text, sizeof text, 0);
    QString line = length > 0 ? QString::fromUtf8(text, static_cast<qsizetype>(length)) : QString();
    static const QRegularExpression control(QStringLiteral("[\\x00-\\x1f]+"));
    line = line.replace(control, QStringLiteral(" ")).trimmed();
    // Between taking the lock and writing its name a holder is nameless for a moment.
    return line.isEmpty() ? QStringLiteral("another station that has just started") : line;
}

bool signIn(int descriptor, const QString& station) {
    const QByteArray line = QStringLiteral("station %1, computer %2, process %3, since %4\n")
                                .arg(station, QSysInfo::machineHostName())
                                .arg(::getpid())
                                .arg(QDateTime::currentDateTimeUtc().toString(Qt::ISODate))
                                .toUtf8();
    return ::ftruncate(descriptor, 0) == 0 && ::pwrite(descriptor, line.constData(), static_cast<size_t>(line.size()), 0) == line.size();
}

} // namespace

Outcome<std::unique_ptr<StationLock>> StationLock::take(const QString& ledger, const QString& station) {
    // A link to a ledger is that ledger.
    const QString itself = QFileInfo(ledger).canonicalFilePath();
    const QString file = (itself.isEmpty() ? ledger : itself) + QStringLiteral(".lock");
    const int descriptor = ::open(QFile::encodeName(file).constData(), O_RDWR | O_CREAT | O_CLOEXEC, 0666);
    if (descriptor < 0)
        return refusal(QStringLiteral("ledger-folder"),
                       QStringLiteral("the lock file cannot be written (%1)").arg(QString::fromLocal8Bit(std::strerror(errno))),
                       QStringLiteral("give yourself the right to write in that folder, or choose another place for the ledger"), file);
    std::unique_ptr<StationLock> lock(new StationLock(descriptor));
    if (::flock(descriptor, LOCK_EX | LOCK_NB) != 0) {
        if (errno != EWOULDBLOCK)
            return refusal(QStringLiteral("ledger-folder"),
                           QStringLiteral("this file system cannot lock files (%1)").arg(QString::fromLocal8Bit(std::strerror(errno))),
                           QStringLiteral("keep the ledger on a local disk"), file);
        return refusal(QStringLiteral("ledger-held"),
                       QStringLiteral("the ledger is held by %1").arg(holderIn(descriptor)),
                       QStringLiteral("close Interlude there first; reading, verifying and printing are possible meanwhile"), ledger);
    }
    if (!signIn(descriptor, station))
        return refusal(QStringLiteral("ledger-full"),
                       QStringLiteral("the lock file cannot be written (%1)").arg(QString::fromLocal8Bit(std::strerror(errno))),
                       QStringLiteral("make room on that disk"), file);
    return lock;
}

StationLock::~StationLock() {
    // Only a holder has signed; a refused opener must not wipe the holder's name. An unheld lock's text is never read.
    ::close(m_descriptor);
}

} // namespace interlude
