// A record that leaves the program: what it froze, how its revisions count, how it is compared with the ledger.

#include "model/records/verification.h"
#include "tests/harness/run_tests.h"
#include "tests/records/told.h"

using namespace interlude;
using namespace interlude::tests;

class IssueTest final : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void theJobIsThatOfTheStart();
    void aChecklistSpeaksOfTheJobAsItIs();
    void revisionsCountIssuesAfterChanges();
    void whatCanBeCorrectedIsWhatThePaperSays();
    void aPrintedHashIsFoundInTheLedger();
    void whatIsNoHashIsRefused_data();
    void whatIsNoHashIsRefused();
    void asText();

private:
    static QString headOf(const Record& r) {
        QString out;
        for (const RecordLine& l : r.head)
            out += l.label + QStringLiteral(": ") + l.value + QLatin1Char('\n');
        return out;
    }
    static act::RecordIssued issue(const Record& r) { return {1, r.revision, QString(64, QLatin1Char('a'))}; }
};

namespace {

Job changed(const Job& job) {
    Job other = job;
    other.title = QStringLiteral("another title");
    other.partNumber = QStringLiteral("PN-999");
    other.revision = QStringLiteral("Z");
    other.order = QStringLiteral("O-000");
    other.quantity = 77;
    other.buildFile = QStringLiteral("other.build");
    other.buildSha256 = QString(64, QLatin1Char('f'));
    return other;
}

void printFails(Told& told) {
    act::PrintEnded ended;
    ended.printer = told.session().printer;
    ended.outcome = PrintOutcome::Failed;
    ended.partOnPlatform = false;
    told.wait(30);
    told.tell(ended);
}

} // namespace

void IssueTest::theJobIsThatOfTheStart() {
    Told told;
    Job job = *told.shop().job(told.usual().transition.request.job);
    job.order = QStringLiteral("O-881");
    job.partNumber = QStringLiteral("PN-204");
    job.revision = QStringLiteral("B");
    job.buildFile = QStringLiteral("hinge.build");
    job.buildSha256 = QString(64, QLatin1Char('1'));
    told.tell(act::JobChanged{job});
    told.wholeStory();
    const QString before = headOf(told.record());
    for (const char* said : {"O-881", "PN-204, revision B", "hinge.build, SHA-256 1111"}) QVERIFY2(before.contains(QLatin1String(said)), qPrintable(before));
    printFails(told); // a job is changed before it is printed again
    told.tell(act::JobChanged{changed(job)});
    QCOMPARE(told.shop().job(job.id)->order, QStringLiteral("O-000"));
    QCOMPARE(headOf(told.record()), before);
    // The same after a restart: the ledger replayed.
    Shop again(told.shop().cataloguePtr());
    QVERIFY(told.bench().store().read(0, [&](const Event& e) { return again.apply(e).has_value(); }));
    QCOMPARE(again.lastSequence(), told.shop().lastSequence());
    QCOMPARE(headOf(recordOf(again, *again.session(1), told.bench().now())), before);
}

void IssueTest::aChecklistSpeaksOfTheJobAsItIs() {
    Told told;
    const Changeover work = told.usual();
    told.tell(act::JobChanged{changed(*told.shop().job(work.transition.request.job))});
    QVERIFY(headOf(checklistOf(told.shop(), work, told.bench().now())).contains(QStringLiteral("O-000, quantity 77")));
}

void IssueTest::revisionsCountIssuesAfterChanges() {
    Told told;
    told.wholeStory();
    // Looking issues nothing.
    for (int i = 0; i < 3; ++i) QCOMPARE(told.record().revision, 1);
    QVERIFY(told.record().draft);
    told.tell(issue(told.record()));
    QVERIFY(!told.record().draft);
    // The same content printed again is the same revision, however often.
    QCOMPARE(told.record().revision, 1);
    told.tell(issue(told.record()));
    QCOMPARE(told.record().revision, 1);
    const QList<Correctable> all = correctablesOf(told.record());
    told.tell(act::Corrected{1, all[0].event, all[0].field, all[0].value, QStringLiteral("other"), QStringLiteral("misread")});
    QCOMPARE(told.record().revision, 2);
    QVERIFY(told.record().draft);
    // Two corrections before the next issue are one revision.
    told.tell(act::Corrected{1, all[1].event, all[1].field, all[1].value, QStringLiteral("other"), QStringLiteral("misread")});
    QCOMPARE(told.record().revision, 2);
    told.tell(issue(told.record()));
    QCOMPARE(told.record().revision, 2);
    // What happens elsewhere in the shop is no change of this record.
    printFails(told);
    told.tell(act::JobChanged{changed(*told.shop().job(told.session().changeover.transition.request.job))});
    QCOMPARE(told.record().revision, 2);
    // A number once passed is not given again.
    QVERIFY(!told.bench().perform(act::RecordIssued{1, 1, QString(64, QLatin1Char('a'))}, QStringLiteral("ML")));
}

void IssueTest::whatCanBeCorrectedIsWhatThePaperSays() {
    Told told;
    told.wholeStory();
    const QList<Correctable> all = correctablesOf(told.record());
    QVERIFY(all.size() > told.steps() * 4);
    QSet<QString> kinds;
    for (const Correctable& c : all) {
        kinds += c.field;
        QVERIFY(c.event > 0 && !c.step.isEmpty() && !c.label.isEmpty());
    }
    for (const char* field : {"begun", "ended", "who", "note", "printer", "chamber measured"}) QVERIFY2(kinds.contains(QLatin1String(field)), field);
    // Every one of them, corrected, stands beside its original in its own step and nowhere else.
    for (const Correctable& c : {all.first(), all[all.size() / 2], all.last()}) {
        told.tell(act::Corrected{1, c.event, c.field, c.value, QStringLiteral("corrected value"), QStringLiteral("misread")});
        const Record r = told.record();
        int found = 0;
        for (const RecordStep& s : r.steps)
            for (const RecordEntry& e : s.entries)
                if (e.event == c.event && e.field == c.field) {
                    ++found;
                    QCOMPARE(s.title, c.step);
                    QCOMPARE(e.value, c.value);
                    QCOMPARE(e.corrections.last().corrected, QStringLiteral("corrected value"));
                }
        QCOMPARE(found, 1);
        QVERIFY(r.corrections.isEmpty());
        for (const Correctable& later : correctablesOf(r))
            if (later.event == c.event && later.field == c.field) QCOMPARE(later.value, QStringLiteral("corrected value"));
    }
}

void IssueTest::aPrintedHashIsFoundInTheLedger() {
    Told told;
    told.wholeStory();
    const EventStore& store = told.bench().store();
    const QString fleet = told.shop().catalogue().fleet.id, hash = QString::fromLatin1(told.shop().lastHash().toHex());
    const qint64 position = told.shop().lastSequence();
    const Record r = told.record();
    told.tell(issue(r)); // the ledger has grown since
    const auto compare = [&](const QString& text) { return comparePrinted(store, fleet, text); };
    for (const QString& text : {hash, hash.toUpper(), hash.left(16), hash.left(32) + QLatin1Char(' ') + hash.mid(32), r.verificationText, QStringLiteral("  %1\n").arg(r.verificationText)}) {
        const auto compared = compare(text);
        QVERIFY2(compared && compared->fits, qPrintable(text));
        QVERIFY(compared->said.contains(QStringLiteral("event %1 ").arg(position)));
    }
    for (const QString& text : {QString(64, QLatin1Char('a')), QString(r.verificationText).replace(fleet, QStringLiteral("other-yard")),
                                QString(r.verificationText).replace(QStringLiteral(" %1 ").arg(position), QStringLiteral(" %1 ").arg(position + 1))}) {
        const auto compared = compare(text);
        QVERIFY2(compared && !compared->fits && !compared->said.isEmpty(), qPrintable(text));
    }
}

void IssueTest::whatIsNoHashIsRefused_data() {
    QTest::addColumn<QString>("text");
    for (const char* text : {"", "abc", "0123456789abcde", "0123456789abcdeg", "interlude ledger northern-yard 12"}) QTest::newRow(text) << QString::fromLatin1(text);
    QTest::newRow("too long") << QString(65, QLatin1Char('a'));
}

void IssueTest::whatIsNoHashIsRefused() {
    QFETCH(const QString, text);
    Told told;
    const auto compared = comparePrinted(told.bench().store(), QStringLiteral("northern-yard"), text);
    QVERIFY(!compared);
    QVERIFY(sentence(compared.error()).contains(QStringLiteral("16 digits")));
}

void IssueTest::asText() {
    Told told;
    told.wholeStory(true);
    const Record r = told.record();
    const QString text = toText(r);
    for (const RecordStep& s : r.steps) QVERIFY2(text.contains(QStringLiteral("%1\t%2\t").arg(s.number).arg(s.title)), qPrintable(s.title));
    for (const char* said : {"EXAMPLE", "misread the scale", "approved by Jon Kestrow", "wrong row ticked", "end of shift", "Ledger hash\t", "calibrated 20"})
        QVERIFY2(text.contains(QLatin1String(said)), said);
}

INTERLUDE_TEST(IssueTest)
#include "issue_test.moc"
