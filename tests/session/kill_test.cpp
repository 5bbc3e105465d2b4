// Kills a working program at random instants (SIGKILL) and looks at what is left: nothing confirmed is missing, the chain
// verifies, the session stands where it stood, countdowns have the same end, and readings are owed again.

#include "tests/harness/run_tests.h"
#include "tests/session/script.h"

#include <QElapsedTimer>
#include <QProcess>
#include <QTemporaryDir>
#include <QTest>

#include <cstdlib>
#include <random>

using namespace interlude;
using namespace interlude::tests;

namespace {

constexpr auto ledgerVariable = "INTERLUDE_SCRIPT_LEDGER";
constexpr auto clockVariable = "INTERLUDE_SCRIPT_CLOCK";

/// One act that the script saw confirmed.
struct Confirmed {
    qint64 sequence = 0;
    QByteArray hash;
    Instant at;       ///< machine clock
    QString picture;
};

struct Run {
    QList<Confirmed> acts;
    QString staleReading, pictureAtOpen;
    bool done = false;
    int exitCode = -1;
};

} // namespace

class KillTest : public QObject {
    Q_OBJECT
public:
    KillTest() {
        // The same program, started again by this test, is the one that works and is killed.
        if (!qEnvironmentVariableIsSet(ledgerVariable)) return;
        const qint64 now = qEnvironmentVariable(clockVariable).toLongLong();
        std::_Exit(runScript(qEnvironmentVariable(ledgerVariable), instantFromMs(now)));
    }

private:
    static void openedWith(const QString& text, Run& run) {
        run.staleReading = text.section(' ', 1, 1);
        run.pictureAtOpen = withoutDebts(text.section(' ', 2));
    }
    /// The picture without the readings that are owed: those come with time.
    static QString withoutDebts(const QString& picture) {
        QStringList parts = picture.split(QLatin1Char(' '));
        parts.removeIf([](const QString& part) { return part.startsWith(QStringLiteral("owes=")); });
        return parts.join(QLatin1Char(' '));
    }
    static void parse(const QByteArray& line, Run& run) {
        const QString text = QString::fromUtf8(line).trimmed();
        if (text == QStringLiteral("done")) run.done = true;
        else if (text.startsWith(QStringLiteral("open "))) openedWith(text, run);
        else if (text.count(QLatin1Char(' ')) >= 3)
            run.acts.append({text.section(' ', 0, 0).toLongLong(), QByteArray::fromHex(text.section(' ', 1, 1).toLatin1()),
                             instantFromMs(text.section(' ', 2, 2).toLongLong()), text.section(' ', 3)});
    }
    static void kill(QProcess& child, std::chrono::microseconds after) {
        child.waitForStarted();
        QElapsedTimer timer;
        timer.start();
        while (timer.nsecsElapsed() < after.count() * 1000) {} // finer than any sleep
        child.kill();
    }
    /// Starts the script; kills it `lateBy` after it has confirmed `acts` acts (never, if negative).
    static Run runUntil(const QString& ledger, Instant machineNow, int acts, std::chrono::microseconds lateBy) {
        QProcess child;
        QProcessEnvironment environment = QProcessEnvironment::systemEnvironment();
        environment.insert(ledgerVariable, ledger);
        environment.insert(clockVariable, QString::number(toMs(machineNow)));
        child.setProcessEnvironment(environment);
        child.setProcessChannelMode(QProcess::ForwardedErrorChannel);
        child.start(QCoreApplication::applicationFilePath(), {QStringLiteral("--class"), QStringLiteral("KillTest")});
        Run run;
        int lines = 0;
        // Without a word heard: somewhere while it opens the ledger, which takes longest.
        const bool whileOpening = acts == 0;
        if (whileOpening) kill(child, lateBy * 80);
        while (!whileOpening && (child.waitForReadyRead(60000) || child.canReadLine())) {
            while (child.canReadLine()) {
                parse(child.readLine(), run);
                ++lines;
            }
            if (acts < 0 || lines < acts) continue;
            kill(child, lateBy);
            break;
        }
        child.waitForFinished(60000);
        for (const QByteArray& line : child.readAll().split('\n')) parse(line, run); // said before it died
        run.exitCode = child.exitStatus() == QProcess::NormalExit ? child.exitCode() : -1;
        return run;
    }

    /// Looks at the ledger as another program would, and compares it with everything that was seen confirmed.
    void inspect(const QString& ledger, const QList<Confirmed>& seen) {
        const CataloguePtr catalogue = sampleFleet();
        auto store = openSqliteStore(ledger, catalogue->fleet.id, QStringLiteral("second-pc"), true);
        QVERIFY2(store, store ? "" : qPrintable(sentence(store.error())));
        const std::optional<Misfit> misfit = (*store)->verify();
        QVERIFY2(!misfit, misfit ? qPrintable(misfit->reason) : "");
        QMap<qint64, QByteArray> hashes;
        QVERIFY((*store)->read(0, [&](const Event& e) { return hashes.insert(e.sequence, e.hash), true; }));
        for (const Confirmed& c : seen) QCOMPARE(hashes.value(c.sequence), c.hash);
        ManualClock clock(instantFromMs(0));
        auto bench = Workbench::look(catalogue, std::move(*store), clock);
        QVERIFY2(bench, bench ? "" : qPrintable(sentence(bench.error())));
        const Shop& shop = (*bench)->shop();
        m_offset = shop.exampleOffset().value_or(Milliseconds(0));
        m_lastRecorded = shop.lastRecorded().value_or(instantFromMs(0));
        m_stands.clear();
        if (shop.sessions().isEmpty()) return;
        const SessionState& session = shop.sessions().last();
        m_stands = withoutDebts(picture(shop, session, m_lastRecorded));
        for (const Countdown& c : countdowns(shop, session, m_lastRecorded))
            if (session.changeover.step(c.step)->step.onlyBelow)
                QVERIFY(needsFreshReading(session, c.step, m_lastRecorded + Seconds(61)));
        if (!seen.isEmpty()) asItWasSeen((*bench)->store(), seen.last());
    }
    /// Folded up to the last act that was seen, the session looks exactly as it did to the technician.
    void asItWasSeen(const EventStore& store, const Confirmed& last) {
        Shop then(sampleFleet());
        QVERIFY(store.read(0, [&](const Event& e) { return then.apply(e).has_value() && e.sequence < last.sequence; }));
        QCOMPARE(then.lastSequence(), last.sequence);
        QCOMPARE(picture(then, then.sessions().last(), last.at + m_offset), last.picture);
        ++m_pictures;
    }

    /// One changeover from beginning to end with kills in between.
    void oneChangeover(std::mt19937& random, int& killsLeft) {
        QTemporaryDir folder;
        const QString ledger = folder.filePath(QStringLiteral("ledger.sqlite"));
        const auto upTo = [&](int most) { return std::uniform_int_distribution<int>(0, most)(random); };
        Instant machineNow = instantFromMs(1780000000000);
        m_stands.clear();
        QList<Confirmed> seen;
        for (bool done = false; !done;) {
            const bool kill = killsLeft > 0;
            const bool longBreak = upTo(2) > 0;
            const int after = kill ? upTo(7) : -1;
            const Run run = runUntil(ledger, machineNow, after, std::chrono::microseconds(upTo(6000)));
            killsLeft -= run.exitCode == -1 ? 1 : 0;
            m_kills += run.exitCode == -1 ? 1 : 0;
            QVERIFY2(run.exitCode <= 0, "the script was refused an act; see above");
            seen += run.acts;
            done = run.done;
            QVERIFY(run.staleReading != QStringLiteral("accepted"));
            m_staleRefused += run.staleReading == QStringLiteral("refused") ? 1 : 0;
            if (!run.pictureAtOpen.isEmpty() && !m_stands.isEmpty()) QCOMPARE(run.pictureAtOpen, m_stands);
            if (QFile::exists(ledger)) inspect(ledger, seen);
            if (QTest::currentTestFailed()) return;
            machineNow = std::max(machineNow, m_lastRecorded - m_offset) + (longBreak ? Seconds(150) : Seconds(70));
        }
        complete(ledger);
    }
    /// Every step settled once, the record in order, the printer printing.
    void complete(const QString& ledger) {
        const CataloguePtr catalogue = sampleFleet();
        auto store = openSqliteStore(ledger, catalogue->fleet.id, QStringLiteral("second-pc"), true);
        QVERIFY(store);
        QMap<QString, int> confirmed;
        QVERIFY((*store)->read(0, [&](const Event& e) {
            if (e.kind == QLatin1String(act::StepConfirmed::kind)) ++confirmed[e.payload.value(QStringLiteral("step")).toString()];
            return true;
        }));
        ManualClock clock(instantFromMs(0));
        auto bench = Workbench::look(catalogue, std::move(*store), clock);
        QVERIFY(bench);
        const SessionState& s = (*bench)->shop().sessions().last();
        QCOMPARE((*bench)->shop().sessions().size(), 1);
        QCOMPARE(s.phase, SessionPhase::Finished);
        QVERIFY(s.changeover.steps.size() >= 20);
        for (const PlannedStep& step : s.changeover.steps) QCOMPARE(confirmed.value(step.step.id), 1);
        QCOMPARE(confirmed.size(), s.changeover.steps.size());
        QCOMPARE((*bench)->shop().printer(s.printer)->activity, Activity::Printing);
    }

    int m_kills = 0, m_pictures = 0, m_staleRefused = 0;
    Milliseconds m_offset{0};
    Instant m_lastRecorded;
    QString m_stands; ///< step and countdowns at the last event in the ledger

private Q_SLOTS:
    void survivesKillsAtAnyInstant() {
        QVERIFY(sampleFleet());
        std::mt19937 random(20260302);
        int killsLeft = longRun() ? 60 : 10;
        const int wanted = killsLeft;
        while (killsLeft > 0 && !QTest::currentTestFailed()) oneChangeover(random, killsLeft);
        if (QTest::currentTestFailed()) return;
        QCOMPARE(m_kills, wanted);
        QVERIFY(m_pictures > 0);
        QVERIFY(m_staleRefused > 0);
        qInfo("%d kills, %d pictures compared, %d stale readings refused", m_kills, m_pictures, m_staleRefused);
    }
};

INTERLUDE_TEST(KillTest)
#include "kill_test.moc"
