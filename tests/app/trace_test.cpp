// `interlude trace` as a script would call it.

#include "tests/harness/program.h"
#include "tests/harness/run_tests.h"

#include <QTemporaryDir>
#include <QTest>

using namespace interlude::tests;

class TraceVerbTest final : public QObject {
    Q_OBJECT

private Q_SLOTS:
    void tellsWhatTheFolderSaysBeforeAnythingHasHappened() {
        const Ran job = trace({QStringLiteral("job"), QStringLiteral("7401")});
        QCOMPARE(job.code, 0);
        QVERIFY2(job.out.startsWith(QStringLiteral("job 7401: ")), qPrintable(job.out));
        QVERIFY(job.out.contains(QStringLiteral("no print since the ledger began")));
        QVERIFY(!job.out.endsWith(QStringLiteral("\n\n")));
    }
    void whatIsNotKnownIsSaid() {
        const Ran lot = trace({QStringLiteral("lot"), QStringLiteral("no such lot")});
        QCOMPARE(lot.code, 2);
        QVERIFY(lot.out.isEmpty());
        QVERIFY2(lot.err.contains(QStringLiteral("no such lot")), qPrintable(lot.err));
    }
    void aWrongCallExitsWithTwo() {
        QCOMPARE(trace({QStringLiteral("colour"), QStringLiteral("red")}).code, 2);
        QCOMPARE(trace({QStringLiteral("job")}).code, 2);
    }

private:
    Ran trace(const QStringList& words) const {
        return call(QStringList{QStringLiteral("trace"), QStringLiteral(INTERLUDE_SOURCE_DIR "/sample-fleet")} + words +
                    QStringList{QStringLiteral("--ledger"), m_dir.filePath(QStringLiteral("l.sqlite"))});
    }
    QTemporaryDir m_dir;
};

INTERLUDE_TEST(TraceVerbTest)
#include "trace_test.moc"
