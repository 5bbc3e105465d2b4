// The shipped program, called as a script would call it: words, files, exit codes.

#include "model/catalogue/reader.h"
#include "model/ledger/store.h"
#include "model/shop/workbench.h"
#include "tests/harness/program.h"
#include "tests/harness/run_tests.h"

#include <QDir>
#include <QFile>
#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <QProcess>
#include <QTemporaryDir>
#include <QTest>

using namespace interlude::tests;

class CommandLineTest final : public QObject {
    Q_OBJECT

private Q_SLOTS:
    void init();
    void helpAndVersionAreNotErrors();
    void aWrongCallExitsWithTwo_data();
    void aWrongCallExitsWithTwo();
    void numbersAreAskedForInWords_data();
    void numbersAreAskedForInWords();
    void whatGoesToStandardOutputGoesThereAlone();
    void checkPassesTheSampleFleet();
    void checkReportsEveryProblemAndExitsWithOne();
    void checkSaysWhatTheFirstOpeningWouldNotImport();
    void aFolderThatIsNotThereIsAProblem();
    void newWritesAFolderThatPassesCheck();
    void newOverwritesNothing();
    void changeoverAsTextAndAsJson();
    void changeoverNamesWhatThereIs();
    void changeoverToAJobThatIsOverIsRefused();
    void planIsTheSameEachTimeAndBeatsTheYardsticks();
    void worthListsEveryVariantAndPrinter();
    void anExportHoldsListsAndVerifiesAlsoByARelativePath();
    void rehearseLeavesPicturesRecordAndAVerifiableLedger();

private:
    QString path(const QString& name) const { return m_dir->filePath(name); }
    QStringList ledger() const { return {QStringLiteral("--ledger"), path(QStringLiteral("l.sqlite"))}; }

    const QString m_sample = QStringLiteral(INTERLUDE_SOURCE_DIR "/sample-fleet");
    std::unique_ptr<QTemporaryDir> m_dir;
};

void CommandLineTest::init() {
    m_dir = std::make_unique<QTemporaryDir>();
    QVERIFY(m_dir->isValid());
}

void CommandLineTest::helpAndVersionAreNotErrors() {
    const Ran help = call({QStringLiteral("--help")});
    QCOMPARE(help.code, 0);
    for (const char* verb : {"new", "check", "changeover", "worth", "plan", "record", "verify", "export", "rehearse"})
        QVERIFY2(help.out.contains(QLatin1String(verb)), verb);
    QCOMPARE(call({QStringLiteral("--version")}).code, 0);
}

void CommandLineTest::aWrongCallExitsWithTwo_data() {
    QTest::addColumn<QStringList>("words");
    QTest::newRow("nothing") << QStringList{};
    QTest::newRow("neither a command nor a folder") << QStringList{QStringLiteral("chekc")};
    QTest::newRow("check without a folder") << QStringList{QStringLiteral("check")};
    QTest::newRow("unknown option") << QStringList{QStringLiteral("check"), m_sample, QStringLiteral("--frobnicate")};
    QTest::newRow("changeover without a printer") << QStringList{QStringLiteral("changeover"), m_sample};
    QTest::newRow("plan with another goal")
        << QStringList{QStringLiteral("plan"), m_sample, QStringLiteral("--goal"), QStringLiteral("fame")};
    QTest::newRow("plan with seconds and iterations")
        << QStringList{QStringLiteral("plan"), m_sample, QStringLiteral("--seconds"), QStringLiteral("1"),
                       QStringLiteral("--iterations"), QStringLiteral("1")};
    QTest::newRow("plan at no time") << QStringList{QStringLiteral("plan"), m_sample, QStringLiteral("--now"),
                                                    QStringLiteral("yesterday")};
    QTest::newRow("worth of no job") << QStringList{QStringLiteral("worth"), m_sample, QStringLiteral("--job"),
                                                    QStringLiteral("nothing")};
    QTest::newRow("changeover on no printer")
        << QStringList{QStringLiteral("changeover"), m_sample, QStringLiteral("--printer"), QStringLiteral("bay-99"),
                       QStringLiteral("--to"), QStringLiteral("7401")};
    QTest::newRow("changeover to no job")
        << QStringList{QStringLiteral("changeover"), m_sample, QStringLiteral("--printer"), QStringLiteral("bay-1"),
                       QStringLiteral("--to"), QStringLiteral("nothing")};
    QTest::newRow("changeover to no variant")
        << QStringList{QStringLiteral("changeover"), m_sample, QStringLiteral("--printer"), QStringLiteral("bay-1"),
                       QStringLiteral("--to"), QStringLiteral("7401"), QStringLiteral("--variant"), QStringLiteral("nothing")};
    QTest::newRow("two files on standard output")
        << QStringList{QStringLiteral("plan"), m_sample, QStringLiteral("--iterations"), QStringLiteral("1"),
                       QStringLiteral("--json"), QStringLiteral("-"), QStringLiteral("--csv"), QStringLiteral("-")};
    QTest::newRow("record without a file") << QStringList{QStringLiteral("record"), m_sample};
}

void CommandLineTest::aWrongCallExitsWithTwo() {
    QFETCH(const QStringList, words);
    const Ran ran = call(words);
    QCOMPARE(ran.code, 2);
    QVERIFY(!ran.err.isEmpty());
}

void CommandLineTest::numbersAreAskedForInWords_data() {
    QTest::addColumn<QStringList>("words");
    QTest::addColumn<QString>("said");
    const auto row = [&](const char* verb, const char* option, const char* value, const char* said) {
        QTest::addRow("%s %s", option, value)
            << QStringList{QLatin1String(verb), m_sample, QLatin1String(option), QLatin1String(value)} << QString::fromLatin1(said);
    };
    for (const char* value : {"abc", "0", "-1", "nan", "inf", "1s"}) row("plan", "--seconds", value, "--seconds: a number above 0 is wanted, not ");
    for (const char* value : {"abc", "-1", "1.5"}) row("plan", "--iterations", value, "--iterations: a whole number, 0 or more, is wanted, not ");
    for (const char* value : {"abc", "0"}) row("record", "--session", value, "--session: a whole number, 1 or more, is wanted, not ");
}

void CommandLineTest::numbersAreAskedForInWords() {
    QFETCH(const QStringList, words);
    QFETCH(const QString, said);
    const Ran ran = call(words);
    QCOMPARE(ran.code, 2);
    QVERIFY2(ran.err.contains(said + words.last() + QLatin1Char('\n')), qPrintable(ran.err));
}

void CommandLineTest::whatGoesToStandardOutputGoesThereAlone() {
    const auto plan = [&](const QStringList& more) {
        return call(QStringList{QStringLiteral("plan"), m_sample, QStringLiteral("--iterations"), QStringLiteral("1")} + more + ledger());
    };
    const QString json = QStringLiteral("--json"), csv = QStringLiteral("--csv"), ics = QStringLiteral("--ics"), out = QStringLiteral("-");
    const Ran both = plan({json, out, csv, out});
    QVERIFY(both.out.isEmpty());
    QVERIFY2(both.err.contains(QStringLiteral("--json and --csv would both go to standard output")), qPrintable(both.err));
    const Ran table = plan({csv, out});
    QCOMPARE(table.code, 0);
    const QStringList lines = table.out.trimmed().split(QLatin1Char('\n'));
    QVERIFY(lines.size() > 10);
    for (const QString& line : lines) QVERIFY2(line.count(QLatin1Char(',')) >= lines.first().count(QLatin1Char(',')), qPrintable(line));
    const Ran calendar = plan({ics, out});
    QVERIFY2(calendar.out.startsWith(QStringLiteral("BEGIN:VCALENDAR")) && calendar.out.trimmed().endsWith(QStringLiteral("END:VCALENDAR")),
             qPrintable(calendar.out.right(200)));
}

void CommandLineTest::checkPassesTheSampleFleet() {
    const Ran ran = call(QStringList{QStringLiteral("check"), m_sample} + ledger());
    QVERIFY2(ran.code == 0, qPrintable(ran.out));
    QVERIFY(ran.out.contains(QStringLiteral("6 printers")));
}

void CommandLineTest::checkReportsEveryProblemAndExitsWithOne() {
    const QString folder = path(QStringLiteral("mine"));
    QCOMPARE(call({QStringLiteral("new"), folder}).code, 0);
    QFile fleet(QDir(folder).filePath(QStringLiteral("fleet.yaml")));
    QVERIFY(fleet.open(QIODevice::ReadOnly));
    QByteArray text = fleet.readAll();
    fleet.close();
    text.replace("format: 1", "format: 7");
    text += "\nchamber-colour: red\n";
    QVERIFY(fleet.open(QIODevice::WriteOnly));
    fleet.write(text);
    fleet.close();
    const Ran ran = call({QStringLiteral("check"), folder});
    QCOMPARE(ran.code, 1);
    QVERIFY2(ran.out.contains(QStringLiteral("format")), qPrintable(ran.out));
    QVERIFY2(ran.out.contains(QStringLiteral("chamber-colour")), qPrintable(ran.out));
    QVERIFY2(ran.out.contains(QRegularExpression(QStringLiteral("^fleet\\.yaml:\\d+:\\d+: "),
                                                 QRegularExpression::MultilineOption)), qPrintable(ran.out));
}

void CommandLineTest::checkSaysWhatTheFirstOpeningWouldNotImport() {
    const QString folder = path(QStringLiteral("mine"));
    QCOMPARE(call({QStringLiteral("new"), folder}).code, 0);
    QFile spools(QDir(folder).filePath(QStringLiteral("spools.yaml")));
    QVERIFY(spools.open(QIODevice::ReadOnly));
    QByteArray text = spools.readAll();
    spools.close();
    QVERIFY(text.contains("dried: 2026-03-01T18:00, expires"));
    text.replace("dried: 2026-03-01T18:00, expires", "dried: 2199-03-01T18:00, expires");
    QVERIFY(spools.open(QIODevice::WriteOnly));
    spools.write(text);
    spools.close();
    const Ran ran = call(QStringList{QStringLiteral("check"), folder} + ledger());
    QVERIFY2(ran.out.contains(QRegularExpression(QStringLiteral("^spools\\.yaml:7:\\d+: warning: Spool S-001 is not imported: The drying lies in the future: 2199-03-01 18:00"),
                                                 QRegularExpression::MultilineOption)), qPrintable(ran.out));
    QVERIFY(!QFileInfo::exists(path(QStringLiteral("l.sqlite"))));
}

void CommandLineTest::aFolderThatIsNotThereIsAProblem() {
    const Ran ran = call({QStringLiteral("check"), path(QStringLiteral("nowhere"))});
    QCOMPARE(ran.code, 1);
    QVERIFY(ran.out.contains(QStringLiteral("nowhere")) || ran.out.contains(QStringLiteral("fleet.yaml")));
}

void CommandLineTest::newWritesAFolderThatPassesCheck() {
    const QString folder = path(QStringLiteral("mine"));
    QCOMPARE(call({QStringLiteral("new"), folder}).code, 0);
    const Ran ran = call(QStringList{QStringLiteral("check"), folder} + ledger());
    QVERIFY2(ran.code == 0, qPrintable(ran.out));
}

void CommandLineTest::newOverwritesNothing() {
    const QString folder = path(QStringLiteral("mine"));
    QDir().mkpath(folder);
    QFile own(QDir(folder).filePath(QStringLiteral("fleet.yaml")));
    QVERIFY(own.open(QIODevice::WriteOnly));
    own.write("mine");
    own.close();
    QCOMPARE(call({QStringLiteral("new"), folder}).code, 1);
    QVERIFY(own.open(QIODevice::ReadOnly));
    QCOMPARE(own.readAll(), QByteArray("mine"));
}

void CommandLineTest::changeoverAsTextAndAsJson() {
    // Whatever the sample fleet holds: the first printer and job for which the program says that it can be done.
    const Ran list = call(QStringList{QStringLiteral("changeover"), m_sample, QStringLiteral("--printer"),
                                      QStringLiteral("bay-1"), QStringLiteral("--to"), QStringLiteral("no-such-job")} +
                          ledger());
    QCOMPARE(list.code, 2);
    QVERIFY(list.err.contains(QStringLiteral("no-such-job")));
    QString json;
    for (int job = 7401; job < 7480 && json.isEmpty(); ++job) {
        const Ran ran = call(QStringList{QStringLiteral("changeover"), m_sample, QStringLiteral("--printer"),
                                         QStringLiteral("bay-1"), QStringLiteral("--to"), QString::number(job),
                                         QStringLiteral("--json"), path(QStringLiteral("c.json"))} + ledger());
        if (ran.code != 0) continue;
        QVERIFY(ran.out.contains(QStringLiteral("Pick list")));
        QVERIFY(ran.out.contains(QStringLiteral("Facts: ")));
        json = path(QStringLiteral("c.json"));
    }
    QVERIFY2(!json.isEmpty(), "no job of the sample fleet can go to bay-1");
    QFile file(json);
    QVERIFY(file.open(QIODevice::ReadOnly));
    const QJsonObject object = QJsonDocument::fromJson(file.readAll()).object();
    QVERIFY(object.value(QStringLiteral("steps")).toArray().size() >= 3);
    QVERIFY(object.value(QStringLiteral("segments")).isArray());
}

void CommandLineTest::changeoverNamesWhatThereIs() {
    const Ran ran = call(QStringList{QStringLiteral("changeover"), m_sample, QStringLiteral("--printer"),
                                     QStringLiteral("bay-99"), QStringLiteral("--to"), QStringLiteral("7401")} + ledger());
    QCOMPARE(ran.code, 2);
    QVERIFY(ran.err.contains(QStringLiteral("bay-1")));
}

void CommandLineTest::changeoverToAJobThatIsOverIsRefused() {
    using namespace interlude;
    {
        const CataloguePtr fleet = readFleetFolder(m_sample).catalogue;
        const SystemClock clock;
        auto store = openSqliteStore(path(QStringLiteral("l.sqlite")), fleet->fleet.id, QStringLiteral("bench"));
        QVERIFY(store);
        auto bench = Workbench::open(fleet, std::move(*store), clock, QStringLiteral("bench"));
        QVERIFY(bench);
        QVERIFY((*bench)->perform(act::JobWithdrawn{QStringLiteral("7402"), QStringLiteral("cancelled")}, QStringLiteral("AV")));
    }
    const Ran ran = call(QStringList{QStringLiteral("changeover"), m_sample, QStringLiteral("--printer"), QStringLiteral("bay-1"),
                                     QStringLiteral("--to"), QStringLiteral("7402")} + ledger());
    QCOMPARE(ran.code, 2);
    QVERIFY2(ran.out.isEmpty() && ran.err.contains(QStringLiteral("job 7402 is withdrawn")), qPrintable(ran.out + ran.err));
    QCOMPARE(call(QStringList{QStringLiteral("worth"), m_sample, QStringLiteral("--job"), QStringLiteral("7402")} + ledger()).code, 2);
}

void CommandLineTest::planIsTheSameEachTimeAndBeatsTheYardsticks() {
    const auto plan = [&](const QString& json) {
        return call(QStringList{QStringLiteral("plan"), m_sample, QStringLiteral("--iterations"), QStringLiteral("400"),
                                QStringLiteral("--seed"), QStringLiteral("7"), QStringLiteral("--now"),
                                QStringLiteral("2026-03-02T06:30"), QStringLiteral("--json"), path(json),
                                QStringLiteral("--ics"), path(QStringLiteral("plan.ics"))} + ledger());
    };
    const Ran first = plan(QStringLiteral("a.json"));
    QVERIFY2(first.code == 0, qPrintable(first.err));
    QCOMPARE(plan(QStringLiteral("b.json")).code, 0);
    const auto bytes = [&](const QString& name) {
        QFile f(path(name));
        return f.open(QIODevice::ReadOnly) ? f.readAll() : QByteArray();
    };
    QVERIFY(bytes(QStringLiteral("a.json")).size() > 10000);
    QCOMPARE(bytes(QStringLiteral("a.json")), bytes(QStringLiteral("b.json")));
    const QJsonObject o = QJsonDocument::fromJson(bytes(QStringLiteral("a.json"))).object();
    QCOMPARE(o[QStringLiteral("now")].toString(), QStringLiteral("2026-03-02T05:30:00Z")); // Vienna in winter
    const double cost = o[QStringLiteral("totals")].toObject()[QStringLiteral("cost")].toDouble();
    QCOMPARE(o[QStringLiteral("value")].toDouble(), cost);
    for (const char* yardstick : {"first_in_first_out", "same_setup_first"})
        QVERIFY(cost < o[QStringLiteral("yardsticks")].toObject()[QLatin1String(yardstick)].toObject()[QStringLiteral("cost")].toDouble());
    QVERIFY(bytes(QStringLiteral("plan.ics")).startsWith("BEGIN:VCALENDAR"));
    QVERIFY(!QFileInfo::exists(path(QStringLiteral("l.sqlite")))); // planning publishes nothing
}

void CommandLineTest::worthListsEveryVariantAndPrinter() {
    const Ran ran = call(QStringList{QStringLiteral("worth"), m_sample, QStringLiteral("--job"), QStringLiteral("7402")} + ledger());
    QVERIFY2(ran.code == 0, qPrintable(ran.err));
    for (const char* word : {"bay-1", "bay-6", "fine", "coarse", "break-even", "not possible"})
        QVERIFY2(ran.out.contains(QLatin1String(word)), word);
}

void CommandLineTest::anExportHoldsListsAndVerifiesAlsoByARelativePath() {
    QCOMPARE(call(QStringList{QStringLiteral("export"), m_sample, QStringLiteral("--out"), path(QStringLiteral("x"))} + ledger()).code, 0);
    QCOMPARE(QDir(path(QStringLiteral("x"))).entryList(QDir::Files, QDir::Name),
             (QStringList{QStringLiteral("jobs.csv"), QStringLiteral("ledger.jsonl"), QStringLiteral("nozzles.csv"), QStringLiteral("sha256sums.txt"), QStringLiteral("spools.csv")}));
    const QString relative = QDir::current().relativeFilePath(path(QStringLiteral("x")));
    QVERIFY(QDir::isRelativePath(relative));
    const Ran whole = call({QStringLiteral("verify"), relative});
    QCOMPARE(whole.code, 0);
    QVERIFY2(whole.out.contains(QStringLiteral("spools.csv: unchanged")) && !whole.out.contains(QStringLiteral("not in the list")), qPrintable(whole.out));
}

void CommandLineTest::rehearseLeavesPicturesRecordAndAVerifiableLedger() {
    const QString out = path(QStringLiteral("rehearsal"));
    const Ran ran = call(QStringList{QStringLiteral("rehearse"), m_sample, QStringLiteral("--out"), out} + ledger());
    QVERIFY2(ran.code == 0, qPrintable(ran.err + ran.out));
    const QDir dir(out);
    // 3 moments × 2 themes × 2 sizes × (6 tabs and the wall)
    QCOMPARE(dir.entryList({QStringLiteral("*.png")}).size(), 84);
    for (const char* name : {"plan-week.pdf", "plan.json", "plan.csv", "plan.ics", "record.pdf", "summary.pdf", "checklist.pdf", "labels-nozzles.pdf", "labels-spools.pdf"})
        QVERIFY2(QFileInfo(dir.filePath(QLatin1String(name))).size() > 1000, name);
    QVERIFY(!QFileInfo::exists(path(QStringLiteral("l.sqlite")))); // the fleet's own ledger is untouched

    const QString text = pdfText(dir.filePath(QStringLiteral("record.pdf")));
    QVERIFY(text.contains(QStringLiteral("1 of ")));
    const QStringList copy{QStringLiteral("--ledger"), dir.filePath(QStringLiteral("rehearsal.sqlite"))};
    const Ran verified = call(QStringList{QStringLiteral("verify"), m_sample} + copy);
    QVERIFY2(verified.code == 0, qPrintable(verified.out + verified.err));
    const QString pdf = path(QStringLiteral("again.pdf"));
    QCOMPARE(call(QStringList{QStringLiteral("record"), m_sample, QStringLiteral("--pdf"), pdf} + copy).code, 0);
    QVERIFY(QFileInfo(pdf).size() > 1000);
    const QString exported = path(QStringLiteral("exported"));
    QCOMPARE(call(QStringList{QStringLiteral("export"), m_sample, QStringLiteral("--out"), exported} + copy).code, 0);
    QVERIFY(QFileInfo(exported + QStringLiteral("/ledger.jsonl")).size() > 1000);
    QProcess sums;
    sums.setWorkingDirectory(exported);
    sums.start(QStringLiteral("sha256sum"), {QStringLiteral("-c"), QStringLiteral("sha256sums.txt")});
    QVERIFY(sums.waitForFinished());
    QCOMPARE(sums.exitCode(), 0);
    QCOMPARE(call({QStringLiteral("verify"), exported}).code, 0);
    const QString bundle = exported + QStringLiteral("/session-0001");
    const Ran whole = call({QStringLiteral("verify"), bundle});
    QVERIFY2(whole.code == 0 && whole.out.startsWith(QStringLiteral("Changeover record 1\n")), qPrintable(whole.out + whole.err));
    const QString code = whole.out.section(QLatin1Char('"'), 1, 1);
    QCOMPARE(call(QStringList{QStringLiteral("verify"), m_sample, QStringLiteral("--record"), code} + copy).code, 0);
    QVERIFY(QFile::remove(bundle + QStringLiteral("/record.pdf")));
    const Ran torn = call({QStringLiteral("verify"), bundle});
    QVERIFY(torn.code == 1 && torn.out.contains(QStringLiteral("record.pdf: MISSING")));
    QCOMPARE(call({QStringLiteral("verify"), bundle, QStringLiteral("--record"), code}).code, 2);
    const Ran wrong = call(QStringList{QStringLiteral("verify"), m_sample, QStringLiteral("--record"),
                                       QString(64, QLatin1Char('a'))} + copy);
    QCOMPARE(wrong.code, 1);
}

INTERLUDE_TEST(CommandLineTest)
#include "command_line_test.moc"
