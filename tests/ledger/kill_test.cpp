// Whatever was confirmed survives a kill at any instant. The child is this same program, run with one class only.
#include "tests/harness/run_tests.h"
#include "tests/ledger/fixture.h"

#include <QCoreApplication>
#include <QElapsedTimer>
#include <QProcess>
#include <QRandomGenerator>

#include <unistd.h>

using namespace interlude;
using namespace interlude::tests;

/// Appends without end and says each confirmed number on standard output, in one write each.
class KillChild final : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void appendUntilKilled() {
        const QString file = qEnvironmentVariable("INTERLUDE_KILL_LEDGER");
        if (file.isEmpty()) return; // only meaningful as a child
        auto store = opened(file);
        QVERIFY2(store, qPrintable(store ? QString() : sentence(store.error())));
        for (;;) {
            const auto done = (*store)->append(numbered((*store)->lastSequence() + 1));
            QVERIFY(done);
            const QByteArray line = "confirmed " + QByteArray::number(done->sequence) + '\n';
            QCOMPARE(::write(STDOUT_FILENO, line.constData(), static_cast<size_t>(line.size())), line.size());
        }
    }
};

class KillTest final : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void nothingConfirmedIsLost();
    void aLedgerKilledAtBirthOpens();
};

namespace {
qint64 lastConfirmed(const QByteArray& output) {
    qint64 last = 0;
    for (const QByteArray& line : output.split('\n'))
        if (line.startsWith("confirmed ")) last = line.mid(10).toLongLong();
    return last;
}
} // namespace

void KillTest::nothingConfirmedIsLost() {
    const Folder folder;
    QProcessEnvironment environment = QProcessEnvironment::systemEnvironment();
    environment.insert("INTERLUDE_KILL_LEDGER", folder.file());
    QRandomGenerator random(9);
    qint64 confirmedEver = 0, extras = 0;
    const int kills = longRun() ? 60 : 10;
    for (int kill = 0; kill < kills; ++kill) {
        QProcess child;
        child.setProcessEnvironment(environment);
        child.start(QCoreApplication::applicationFilePath(), {"--class", "KillChild"});
        QByteArray output;
        // The instant is drawn from after the first confirmation on, so that each kill falls into the work.
        while (lastConfirmed(output) == 0 && child.waitForReadyRead(20000)) output += child.readAllStandardOutput();
        QVERIFY2(lastConfirmed(output) > 0, output);
        QElapsedTimer timer;
        timer.start();
        const qint64 instant = random.bounded(150000); // microseconds
        while (timer.nsecsElapsed() / 1000 < instant) child.waitForReadyRead(1);
        QVERIFY2(child.state() == QProcess::Running, output + child.readAllStandardError());
        child.kill(); // SIGKILL; through QProcess, which never signals a process that has gone
        child.waitForFinished();
        output += child.readAllStandardOutput();
        const qint64 confirmed = lastConfirmed(output);
        QVERIFY(confirmed > confirmedEver);

        // Neither the dead holder's lock nor its half-written log stands in the way.
        auto store = opened(folder.file());
        QVERIFY2(store, qPrintable(store ? QString() : sentence(store.error())));
        const qint64 kept = (*store)->lastSequence();
        QVERIFY2(kept == confirmed || kept == confirmed + 1, qPrintable(QStringLiteral("kept %1, confirmed %2").arg(kept).arg(confirmed)));
        extras += kept - confirmed;
        QVERIFY(!(*store)->verify());
        qint64 n = 0;
        QCOMPARE(*(*store)->read(0, [&](const Event& e) { return e.payload == numbered(++n).payload; }), kept);
        confirmedEver = kept;
    }
    qInfo("%d kills, %lld events, %lld written but not yet said", kills, static_cast<long long>(confirmedEver), static_cast<long long>(extras));
}

void KillTest::aLedgerKilledAtBirthOpens() {
    QRandomGenerator random(10);
    int born = 0;
    const int kills = longRun() ? 60 : 10;
    for (int kill = 0; kill < kills; ++kill) {
        const Folder folder;
        QProcessEnvironment environment = QProcessEnvironment::systemEnvironment();
        environment.insert("INTERLUDE_KILL_LEDGER", folder.file());
        QProcess child;
        child.setProcessEnvironment(environment);
        child.start(QCoreApplication::applicationFilePath(), {"--class", "KillChild"});
        QVERIFY(child.waitForStarted());
        // The lock file is the first thing made; the instant is drawn from the moments after it.
        QElapsedTimer timer;
        timer.start();
        while (!QFile::exists(folder.file("ledger.sqlite.lock")) && timer.elapsed() < 20000) child.waitForReadyRead(0);
        timer.start();
        const qint64 instant = random.bounded(12000); // microseconds; making a ledger takes about as long
        while (timer.nsecsElapsed() / 1000 < instant) {}
        child.kill();
        child.waitForFinished();
        const qint64 confirmed = lastConfirmed(child.readAllStandardOutput());
        born += QFile::exists(folder.file());
        auto store = opened(folder.file());
        QVERIFY2(store, qPrintable(store ? QString() : sentence(store.error())));
        QVERIFY((*store)->lastSequence() >= confirmed && (*store)->lastSequence() <= confirmed + 1);
        QVERIFY(!(*store)->verify());
        QVERIFY((*store)->append(numbered(1)));
    }
    qInfo("%d kills at birth, %d left a ledger", kills, born);
}

INTERLUDE_TEST(KillChild)
INTERLUDE_TEST(KillTest)
#include "kill_test.moc"
