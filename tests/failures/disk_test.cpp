// The failing disk itself: that it strikes the call it should, and what it leaves after a loss of power.
#include "tests/failures/disk.h"
#include "tests/harness/run_tests.h"

#include <QFile>
#include <QTemporaryDir>
#include <QTest>

#include <cerrno>
#include <fcntl.h>
#include <unistd.h>

using namespace interlude::tests;

namespace {
QByteArray bytesOf(const QString& file) {
    QFile f(file);
    return f.open(QIODevice::ReadOnly) ? f.readAll() : QByteArray("(none)");
}
struct Opened {
    explicit Opened(const QString& path) : fd(::open(QFile::encodeName(path).constData(), O_RDWR | O_CREAT, 0666)) {}
    ~Opened() { ::close(fd); }
    ssize_t put(qint64 at, const QByteArray& bytes) const { return ::pwrite(fd, bytes.constData(), static_cast<size_t>(bytes.size()), at); }
    int fd;
};
} // namespace

class DiskTest final : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void init() { m_dir = std::make_unique<QTemporaryDir>(); }
    void cleanup() { disk::release(); }

    void strikesTheNthCallOnceOrFromThenOn() {
        disk::watch(m_dir->path());
        const Opened file(m_dir->filePath(QStringLiteral("a")));
        disk::strike(2, disk::Trouble::Error, false, disk::Write);
        QCOMPARE(file.put(0, "one"), 3);
        QCOMPARE(file.put(0, "two"), -1);
        QCOMPARE(errno, EIO);
        QCOMPARE(file.put(0, "six"), 3);
        QCOMPARE(disk::struck(), QStringLiteral("write a"));
        QCOMPARE(disk::count(disk::Write), 3);
        disk::strike(1, disk::Trouble::Error, true, disk::Sync);
        QCOMPARE(file.put(0, "ten"), 3);
        QCOMPARE(::fsync(file.fd), -1);
        QCOMPARE(::fdatasync(file.fd), -1);
        disk::heal();
        QCOMPARE(::fsync(file.fd), 0);
    }
    void aFullDiskTakesHalf() {
        disk::watch(m_dir->path());
        const Opened file(m_dir->filePath(QStringLiteral("a")));
        disk::strike(1, disk::Trouble::Full, false);
        QCOMPARE(file.put(0, "123456"), 3);
        QCOMPARE(file.put(3, "456"), -1);
        QCOMPARE(errno, ENOSPC);
        QCOMPARE(file.put(3, "456"), 3);
    }
    void otherFoldersAreLeftAlone() {
        const QTemporaryDir other;
        disk::watch(m_dir->path());
        disk::strike(1, disk::Trouble::Power, true);
        const Opened file(other.filePath(QStringLiteral("b")));
        QCOMPARE(file.put(0, "one"), 3);
        QVERIFY(disk::struck().isEmpty());
    }
    void qtComesThroughItToo() {
        disk::watch(m_dir->path());
        disk::strike(1, disk::Trouble::Error, true, disk::Write | disk::Name);
        QFile file(m_dir->filePath(QStringLiteral("q")));
        QVERIFY(file.open(QIODevice::WriteOnly | QIODevice::Unbuffered));
        QCOMPARE(file.write("x"), -1);
        file.close();
        QVERIFY(!QFile::remove(file.fileName()));
        QVERIFY(!QFile::rename(file.fileName(), m_dir->filePath(QStringLiteral("r"))));
        QVERIFY(QFile::exists(file.fileName()));
    }
    void aLossOfPowerKeepsWhatWasSynced() {
        std::mt19937 random(1);
        { // there before: name and content are on the disk
            const Opened before(m_dir->filePath(QStringLiteral("old")));
            QCOMPARE(before.put(0, "1111"), 4);
        }
        disk::watch(m_dir->path());
        const Opened old(m_dir->filePath(QStringLiteral("old"))), young(m_dir->filePath(QStringLiteral("young")));
        QCOMPARE(old.put(0, "22"), 2);
        QCOMPARE(::fsync(old.fd), 0);
        QCOMPARE(old.put(2, "33"), 2);
        QCOMPARE(young.put(0, "new"), 3);
        QCOMPARE(::fsync(young.fd), 0); // its content, not its name
        disk::strike(1, disk::Trouble::Power, true);
        QCOMPARE(old.put(0, "44"), -1);
        const QTemporaryDir all, none, torn;
        disk::leave(all.path(), disk::Loss::All, random);
        QCOMPARE(bytesOf(all.filePath(QStringLiteral("old"))), QByteArray("2211"));
        QCOMPARE(bytesOf(all.filePath(QStringLiteral("young"))), QByteArray("(none)"));
        disk::leave(none.path(), disk::Loss::None, random);
        QCOMPARE(bytesOf(none.filePath(QStringLiteral("old"))), QByteArray("4433"));
        QCOMPARE(bytesOf(none.filePath(QStringLiteral("young"))), QByteArray("new"));
        QSet<QByteArray> seen;
        for (int i = 0; i < 40; ++i) {
            disk::leave(torn.path(), disk::Loss::Torn, random);
            seen.insert(bytesOf(torn.filePath(QStringLiteral("old"))));
        }
        QCOMPARE(seen, QSet<QByteArray>({"2211", "2233", "4411", "4433"}));
    }
    void aSyncedFolderKeepsItsNames() {
        std::mt19937 random(1);
        disk::watch(m_dir->path());
        const Opened file(m_dir->filePath(QStringLiteral("a")));
        const Opened other(m_dir->filePath(QStringLiteral("b")));
        QCOMPARE(std::rename(qPrintable(m_dir->filePath(QStringLiteral("a"))), qPrintable(m_dir->filePath(QStringLiteral("c")))), 0);
        const int folder = ::open(qPrintable(m_dir->path()), O_RDONLY | O_DIRECTORY);
        QCOMPARE(::fsync(folder), 0);
        ::close(folder);
        QCOMPARE(::unlink(qPrintable(m_dir->filePath(QStringLiteral("b")))), 0);
        const QTemporaryDir all;
        disk::leave(all.path(), disk::Loss::All, random);
        QCOMPARE(QDir(all.path()).entryList(QDir::Files), QStringList({QStringLiteral("b"), QStringLiteral("c")}));
    }

private:
    std::unique_ptr<QTemporaryDir> m_dir;
};
INTERLUDE_TEST(DiskTest)
#include "disk_test.moc"
