// Lot → parts, nozzle → parts, part and job → everything.

#include "model/records/trace.h"
#include "tests/harness/run_tests.h"
#include "tests/records/told.h"

using namespace interlude;
using namespace interlude::tests;

class TraceTest : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void init() {
        m_told = std::make_unique<Told>();
        m_told->wholeStory();
        m_printer = m_told->session().printer;
        m_job = *m_told->shop().job(m_told->session().changeover.transition.request.job);
        m_told->wait(30);
    }
    void cleanup() { m_told.reset(); }

    void aJobTellsItsLotsNozzlesAndSession() {
        const auto running = trace(m_told->shop(), TraceBy::Job, m_job.id);
        QVERIFY2(running, running ? "" : qPrintable(sentence(running.error())));
        QCOMPARE(running->prints.size(), 1);
        QCOMPARE(outcomeWord(running->prints[0].run), QStringLiteral("running"));
        m_told->tell(act::PrintEnded{m_printer, PrintOutcome::Failed, false, {}, {}, QStringLiteral("came off")});
        const auto told = trace(m_told->shop(), TraceBy::Job, m_job.id);
        const TracedPrint& p = told->prints.at(0);
        QCOMPARE(outcomeWord(p.run), QStringLiteral("failed"));
        QCOMPARE(p.run.session, 1);
        QCOMPARE(p.run.printer, m_printer);
        const PrinterNow& now = *m_told->shop().printer(m_printer);
        QVERIFY(p.run.nozzles.contains(now.part.nozzle));
        QVERIFY(p.run.spools.contains(now.part.spool));
        const Spool spool = *m_told->shop().spool(now.part.spool);
        QVERIFY2(p.lots().contains(QStringLiteral("%1 (%2").arg(spool.lot, spool.id)), qPrintable(p.lots()));
        const QString text = traceText(*told, m_told->shop().catalogue());
        for (const QString& wanted : {m_job.id, m_job.title, spool.lot, now.part.nozzle, QStringLiteral("record of session 1"), QStringLiteral("failed")})
            QVERIFY2(text.contains(wanted), qPrintable(wanted));
    }

    void aLotAndANozzleTellTheirParts() {
        const PrinterNow& now = *m_told->shop().printer(m_printer);
        const Spool spool = *m_told->shop().spool(now.part.spool);
        const auto byLot = trace(m_told->shop(), TraceBy::Lot, spool.lot.toLower() + QLatin1Char(' ')); // as a scanner or a hand gives it
        QVERIFY(byLot);
        QVERIFY(byLot->about.join(QLatin1Char('\n')).contains(spool.id));
        QCOMPARE(jobsOf(*byLot).count(m_job.id), 1);
        const auto byNozzle = trace(m_told->shop(), TraceBy::Nozzle, now.part.nozzle);
        QVERIFY(byNozzle);
        QCOMPARE(jobsOf(*byNozzle).count(m_job.id), 1);
        // A lot that never was in this printer does not tell this job.
        for (const Spool& other : m_told->shop().allSpools())
            if (other.lot != spool.lot && other.lot != m_told->shop().spool(now.support.spool)->lot)
                QVERIFY(!jobsOf(*trace(m_told->shop(), TraceBy::Lot, other.lot)).contains(m_job.id));
    }

    void aPartTellsAllItsJobs() {
        Job again = m_job;
        again.id = QStringLiteral("again");
        again.partNumber = QStringLiteral("PN-77");
        again.title = QStringLiteral("bracket");
        m_told->tell(act::JobAdded{again});
        const auto told = trace(m_told->shop(), TraceBy::Part, QStringLiteral("pn-77"));
        QVERIFY(told);
        QCOMPARE(told->about.size(), 1);
        QVERIFY(told->prints.isEmpty());
        QVERIFY(traceText(*told, m_told->shop().catalogue()).contains(QStringLiteral("no print since the ledger began")));
    }

    void whatIsNotKnownIsRefused() {
        for (const TraceBy by : {TraceBy::Lot, TraceBy::Nozzle, TraceBy::Part, TraceBy::Job})
            for (const QString& id : {QStringLiteral("nothing of this name"), QString()}) {
                // A lot left empty in some spool is no lot of that name.
                const auto told = trace(m_told->shop(), by, id);
                QVERIFY(!told);
                QCOMPARE(told.error().rule, QStringLiteral("trace-unknown"));
            }
        QVERIFY(!traceBy(QStringLiteral("spool")));
        QCOMPARE(traceBy(QStringLiteral("nozzle")), TraceBy::Nozzle);
    }

private:
    static QStringList jobsOf(const Trace& t) {
        QStringList out;
        for (const TracedPrint& p : t.prints) out.append(p.run.job);
        return out;
    }

    std::unique_ptr<Told> m_told;
    PrinterId m_printer;
    Job m_job;
};

INTERLUDE_TEST(TraceTest)
#include "trace_test.moc"
