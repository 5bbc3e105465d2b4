// SIGKILL of the shipped program at random instants, verb by verb and with its window open: what it had said is in the
// ledger, a backup is whole or not there, a restore leaves the old ledger or the new.
#include "model/backup/backup.h"
#include "model/catalogue/reader.h"
#include "tests/harness/run_tests.h"
#include "tests/kills/confirmed.h"

#include <QDir>
#include <QElapsedTimer>
#include <QJsonDocument>
#include <QProcess>
#include <QRegularExpression>
#include <QTemporaryDir>
#include <QTest>

#include <random>

using namespace interlude;
using namespace interlude::tests;

namespace {

const QString sample = QStringLiteral(INTERLUDE_SOURCE_DIR "/sample-fleet");

struct Ended {
    QByteArray out, err;
    bool killed = false;
    int code = -1;
    qint64 took = 0; ///< µs
};

/// Runs the program; kills it after so many µs unless it was faster (negative: never).
Ended runFor(const QStringList& words, qint64 microseconds) {
    QProcess p;
    p.start(QStringLiteral(INTERLUDE_PROGRAM), words);
    p.waitForStarted();
    QElapsedTimer timer;
    timer.start();
    while (p.state() == QProcess::Running && (microseconds < 0 || timer.nsecsElapsed() / 1000 < microseconds)) p.waitForFinished(1);
    Ended e;
    e.took = timer.nsecsElapsed() / 1000;
    p.kill();
    p.waitForFinished();
    e.killed = p.exitStatus() == QProcess::CrashExit;
    e.code = e.killed ? -1 : p.exitCode();
    e.out = p.readAllStandardOutput();
    e.err = p.readAllStandardError();
    return e;
}

} // namespace

class CommandKillTest final : public QObject {
    Q_OBJECT
private:
    QString in(const QString& name) const { return m_dir->filePath(name); }
    QString ledger() const { return in(QStringLiteral("l.sqlite")); }
    QStringList call(const QString& verb, const QStringList& more) const {
        return QStringList{verb, sample} + more + QStringList{QStringLiteral("--ledger"), ledger()};
    }
    /// Another spool at each call, in a file of its own.
    QStringList import(int n) const {
        QFile csv(in(QStringLiteral("s.csv")));
        if (!csv.open(QIODevice::WriteOnly)) qFatal("no room for the test");
        csv.write(QStringLiteral("id,material,lot,grams,place,received\nK-%1,abs-ivory,L-%1,900,shelf-1,2026-02-02\nK-%1b,abs-ivory,L-%1,900,shelf-1,2026-02-02\n")
                      .arg(n).toUtf8());
        return call(QStringLiteral("import"), {QStringLiteral("spools"), csv.fileName()});
    }
    QString everyBackupIsWhole(const QString& folder) const {
        for (const QFileInfo& f : QDir(folder).entryInfoList(QDir::Dirs | QDir::NoDotAndDotDot)) {
            const auto good = verifyBackup(f.filePath());
            if (!good) return f.filePath() + QStringLiteral(": ") + sentence(good.error());
        }
        return {};
    }
    /// The events of both halves of an import are one event: the shop knows both spools or none.
    QString halves(int upTo) const {
        const auto store = openSqliteStore(ledger(), m_fleetId, {}, true);
        if (!store) return sentence(store.error());
        QByteArray all;
        if (!(*store)->read(0, [&](const Event& e) {
                if (e.kind == QStringLiteral("imported")) all += QJsonDocument(e.payload).toJson(QJsonDocument::Compact);
                return true;
            }))
            return QStringLiteral("the ledger cannot be read");
        for (int n = 0; n <= upTo; ++n)
            if (all.contains(QStringLiteral("\"K-%1\"").arg(n).toUtf8()) != all.contains(QStringLiteral("\"K-%1b\"").arg(n).toUtf8()))
                return QStringLiteral("import %1 came in half").arg(n);
        for (const int n : m_imported)
            if (!all.contains(QStringLiteral("\"K-%1\"").arg(n).toUtf8())) return QStringLiteral("import %1 was confirmed and is not there").arg(n);
        return {};
    }

    std::unique_ptr<QTemporaryDir> m_dir;
    QString m_fleetId;
    QList<int> m_imported;

private Q_SLOTS:
    void init() {
        m_dir = std::make_unique<QTemporaryDir>();
        m_fleetId = readFleetFolder(sample).catalogue->fleet.id;
        m_imported.clear();
    }

    void everyVerbMayBeKilled() {
        const int kills = longRun() ? 300 : 20;
        std::mt19937 random(18);
        const Ended first = runFor(import(0), -1);
        QVERIFY2(first.code == 0, first.err);
        m_imported.append(0);
        const Ended backup = runFor(call(QStringLiteral("backup"), {QStringLiteral("--out"), in(QStringLiteral("good"))}), -1);
        QVERIFY2(backup.code == 0, backup.err);
        QVERIFY(QDir().mkpath(in(QStringLiteral("kept"))));
        QMap<QString, qint64> took{{QStringLiteral("import"), first.took}, {QStringLiteral("backup"), backup.took}};
        QMap<QString, int> killed;
        qint64 kept = 0;
        const QStringList turns{QStringLiteral("import"), QStringLiteral("backup"), QStringLiteral("import"), QStringLiteral("restore"),
                                QStringLiteral("verify"), QStringLiteral("import"), QStringLiteral("backup"), QStringLiteral("export")};
        int done = 0, calls = 0;
        for (; done < kills && calls < 3 * kills; ++calls) {
            const QString verb = turns[calls % turns.size()];
            QStringList words;
            if (verb == QStringLiteral("import")) words = import(calls + 1);
            if (verb == QStringLiteral("backup")) words = call(verb, {QStringLiteral("--out"), in(QStringLiteral("kept"))});
            if (verb == QStringLiteral("verify")) words = call(verb, {});
            if (verb == QStringLiteral("export")) words = call(verb, {QStringLiteral("--out"), in(QStringLiteral("e%1").arg(calls))});
            if (verb == QStringLiteral("restore")) words = call(verb, {in(QStringLiteral("good")), QStringLiteral("--replace-newer")});
            // Most of a call is its start; what matters happens in its last part.
            const qint64 whole = took.value(verb, first.took);
            const Ended e = runFor(words, std::uniform_int_distribution<qint64>(whole / 4, whole * 21 / 20)(random));
            const QString what = QStringLiteral("call %1, %2: ").arg(calls).arg(verb);
            if (e.killed) ++done, ++killed[verb];
            else QVERIFY2(e.code == 0, qPrintable(what + QString::fromUtf8(e.err)));
            if (!e.killed) took[verb] = e.took;
            if (verb == QStringLiteral("import") && e.out.contains("all in event")) m_imported.append(calls + 1);
            const qint64 before = kept;
            QString wrong = stands(ledger(), m_fleetId, {}, kept);
            QVERIFY2(wrong.isEmpty(), qPrintable(what + wrong));
            if (verb == QStringLiteral("restore")) {
                // All or nothing: either the backup's events, or none was taken away.
                const qint64 inBackup = readBackup(in(QStringLiteral("good")))->position.events;
                QVERIFY2(kept == inBackup || kept == before, qPrintable(what + QString::number(kept)));
                if (kept == inBackup) m_imported = {0};
            } else {
                QVERIFY2(kept >= before, qPrintable(what + QStringLiteral("events are gone")));
            }
            QVERIFY2((wrong = halves(calls + 1)).isEmpty(), qPrintable(what + wrong));
            if (verb == QStringLiteral("backup")) {
                QVERIFY2((wrong = everyBackupIsWhole(in(QStringLiteral("kept")))).isEmpty(), qPrintable(what + wrong));
                QDir(in(QStringLiteral("kept"))).removeRecursively();
                QVERIFY(QDir().mkpath(in(QStringLiteral("kept"))));
            }
        }
        QCOMPARE(done, kills);
        QStringList each;
        for (auto it = killed.cbegin(); it != killed.cend(); ++it) each.append(QStringLiteral("%1 %2").arg(it.key()).arg(it.value()));
        qInfo("%d of %d calls killed (%s); %lld imports said and found again", done, calls, qPrintable(each.join(QStringLiteral(", "))),
              static_cast<long long>(m_imported.size()));
    }

    /// The shipped program with its window open: no person in it, but opening entries, a daily backup, a clock that ticks.
    void theWholeProgramMayBeKilled() {
        const int kills = longRun() ? 30 : 4;
        std::mt19937 random(19);
        qint64 kept = 0, grown = 0;
        for (int n = 0; n < kills; ++n) {
            const Ended e = runFor({sample, QStringLiteral("--ledger"), ledger()}, std::uniform_int_distribution<qint64>(50000, 1800000)(random));
            QVERIFY2(e.killed, e.err);
            const qint64 before = kept;
            QString wrong = stands(ledger(), m_fleetId, {}, kept);
            QVERIFY2(wrong.isEmpty(), qPrintable(wrong));
            QVERIFY(kept >= before);
            grown += kept > before;
            QVERIFY2((wrong = everyBackupIsWhole(ledger() + QStringLiteral(".backups"))).isEmpty(), qPrintable(wrong));
        }
        qInfo("%d open programs killed, the ledger had grown in %lld of them, %lld events in the end", kills, static_cast<long long>(grown),
              static_cast<long long>(kept));
    }
};
INTERLUDE_TEST(CommandKillTest)
#include "command_kill_test.moc"
