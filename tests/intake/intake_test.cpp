// Rows of a CSV → what would come in: the same columns, the same readers and the same messages as for the fleet folder.

#include "model/intake/intake.h"
#include "tests/harness/run_tests.h"
#include "tests/window/opened_shop.h"

using namespace interlude;
using namespace interlude::tests;

namespace {

const QByteArray spools = "id,material,lot,grams,grams-se,tare-grams,place,received,opened,dried,expires\r\n"
                          "S-901,abs-ivory,B20-0500,1000,5,255,shelf-1,2026-03-01,,,2028-03-01\r\n"
                          "S-902,pc-clear,\"H60,2300\",,,260,shelf-1,2026-02-20,2026-03-01T08:00,,\r\n"
                          "S-903,asa-grey,B31-1200,640,10,255,cabinet-1,2026-02-20,2026-02-26T08:00,2026-03-01T18:00,\r\n";
const QByteArray nozzles = "serial,type,state,melt-family,run-cm3,run-abrasive-cm3,place\r\n"
                           "N-901,h04,,,,,rack-a\r\n"
                           "N-902,h04,used,styrenics,412.5,80,rack-a\r\n"
                           "N-903,b04,to-be-cleaned,styrenics,no-history,,bench\r\n"
                           "N-904,b04,retired,,0,,rack-a\r\n";
const QByteArray jobs = "id,title,quantity,due,late-cost-per-hour,printers,name,part,support,part-nozzle,support-nozzle,print-minutes,part-cm3,support-cm3\r\n"
                        "7801,\"hinge, left\",12,2026-03-04T14:00,12,,fine,abs-ivory,acr-clear,b04,s04,240,50,11\r\n"
                        "7801,,,,,,coarse,abs-ivory,acr-clear,b06,s06,120,52,12\r\n"
                        "7802,cover,1,,,bay-1; bay-2,fine,abs-ivory,,b04,,bay-1: 60; bay-2: 70,20,\r\n";

QByteArray bytesOf(EntryKind kind) {
    return kind == EntryKind::Jobs ? jobs : kind == EntryKind::Spools ? spools : nozzles;
}

QString texts(const Problems& problems) {
    QStringList out;
    for (const Problem& p : problems) out << p.text();
    return out.join(QLatin1Char('\n'));
}

QByteArray many(int rows) {
    QByteArray out = "id,material,lot,grams\n";
    for (int i = 0; i < rows; ++i) out += "M-" + QByteArray::number(i) + ",abs-ivory,L1,500\n";
    return out;
}

} // namespace

class IntakeTest final : public QObject {
    Q_OBJECT
private:
    std::unique_ptr<OpenedShop> o;

    const Shop& shop() const { return o->workbench->shop(); }
    Intake read(EntryKind kind, const QByteArray& bytes, const std::function<bool(double)>& goOn = {}) {
        return readIntake(shop(), o->workbench->now(), kind, wordOf(kind) + ".csv", bytes, goOn);
    }
    Outcome<Event> import(const Intake& in) { return o->workbench->perform(actOf(in), o->somebody()); }

private Q_SLOTS:
    void init() {
        o = openedShop();
    }

    void spoolsComeInAsTheFileSays() {
        const Intake in = read(EntryKind::Spools, spools);
        QVERIFY2(in.isGood(), qPrintable(texts(in.problems)));
        QCOMPARE(in.count(), 3);
        QCOMPARE(in.rows, 3);
        const qint64 before = shop().lastSequence();
        const auto done = import(in);
        QVERIFY2(done, qPrintable(done ? QString() : sentence(done.error())));
        QCOMPARE(shop().lastSequence(), before + 1); // all of it is one event
        const Spool sealed = shop().stock().spools.value("S-901");
        QCOMPARE(sealed.left->milligrams(), 1'000'000);
        QCOMPARE(sealed.leftSe.milligrams(), 5'000);
        QVERIFY(!sealed.opened && !sealed.exposedFrom);
        QCOMPARE(iso(*sealed.received), QString("2026-02-28T23:00:00Z")); // midnight in Vienna
        const Spool open = shop().stock().spools.value("S-902");
        QVERIFY(!open.left); // an empty cell is unknown, never zero
        QCOMPARE(open.lot, QString("H60,2300"));
        QCOMPARE(open.exposedFrom, open.opened); // lies in the open
        QVERIFY(!shop().stock().spools.value("S-903").exposedFrom); // lies in a drying cabinet
    }

    void nozzlesComeInAsTheFileSays() {
        const Intake in = read(EntryKind::Nozzles, nozzles);
        QVERIFY2(in.isGood(), qPrintable(texts(in.problems)));
        QVERIFY(import(in));
        const auto& all = shop().stock().nozzles;
        QVERIFY(all.value("N-901").run.known && all.value("N-901").meltFamily.isEmpty());
        QCOMPARE(all.value("N-902").run.plain.mm3(), 412'500);
        QCOMPARE(all.value("N-902").run.abrasive.mm3(), 80'000);
        QVERIFY(!all.value("N-903").run.known && all.value("N-903").toBeCleaned);
        QCOMPARE(all.value("N-904").where, NozzleWhere::Retired);
    }

    void jobsComeInWithTheirVariants() {
        const Intake in = read(EntryKind::Jobs, jobs);
        QVERIFY2(in.isGood(), qPrintable(texts(in.problems)));
        QVERIFY(import(in));
        const Job* job = shop().job("7801");
        QCOMPARE(job->title, QString("hinge, left"));
        QCOMPARE(job->variants.size(), 2);
        QCOMPARE(job->variants[1].setup.partNozzle, QString("b06"));
        QCOMPARE(iso(*job->due), QString("2026-03-04T13:00:00Z")); // Vienna
        QCOMPARE(shop().job("7802")->printers, QStringList({"bay-1", "bay-2"}));
        QCOMPARE(shop().job("7802")->variants[0].printMinutes("bay-2"), Minutes(70));
    }

    void theSameFileAgainBringsNothing_data() {
        QTest::addColumn<int>("kind");
        for (const EntryKind k : {EntryKind::Jobs, EntryKind::Spools, EntryKind::Nozzles}) QTest::newRow(qPrintable(wordOf(k))) << static_cast<int>(k);
    }
    void theSameFileAgainBringsNothing() {
        QFETCH(int, kind);
        const auto k = static_cast<EntryKind>(kind);
        const Intake first = read(k, bytesOf(k));
        QVERIFY(import(first));
        const Intake again = read(k, bytesOf(k));
        QVERIFY2(again.isGood() && again.problems.isEmpty(), qPrintable(texts(again.problems)));
        QCOMPARE(again.count(), 0);
        QCOMPARE(again.known.size(), first.count());
        QCOMPARE(again.differing(), 0);
        QVERIFY(!import(again)); // nothing to do is no event
    }

    void whatUseChangesIsNoDifference() {
        QVERIFY(import(read(EntryKind::Spools, spools)));
        QVERIFY(o->workbench->perform(act::SpoolWeighed{"S-901", Mass::fromGrams(900), {}, Mass::fromGrams(1)}, o->somebody()));
        QVERIFY(o->workbench->perform(act::SpoolMoved{"S-901", "cabinet-1", true}, o->somebody()));
        QCOMPARE(read(EntryKind::Spools, spools).differing(), 0);
    }

    void aDifferenceIsToldAndNeverApplied_data() {
        QTest::addColumn<int>("kind");
        QTest::addColumn<QByteArray>("was");
        QTest::addColumn<QByteArray>("is");
        QTest::addColumn<QString>("said");
        const int j = static_cast<int>(EntryKind::Jobs), s = static_cast<int>(EntryKind::Spools), n = static_cast<int>(EntryKind::Nozzles);
        QTest::newRow("lot") << s << QByteArray("B20-0500") << QByteArray("B20-0501") << "lot: B20-0501 in the file, B20-0500 in the shop";
        QTest::newRow("grams") << s << QByteArray("B20-0500,1000") << QByteArray("B20-0500,900") << "grams: 900 in the file, 1000 in the shop";
        QTest::newRow("date") << s << QByteArray("2028-03-01") << QByteArray("2028-04-01") << "expires: 2028-04-01T00:00 in the file, 2028-03-01T00:00 in the shop";
        QTest::newRow("type") << n << QByteArray("N-901,h04") << QByteArray("N-901,h06") << "type: h06 in the file, h04 in the shop";
        QTest::newRow("use") << n << QByteArray("412.5") << QByteArray("500") << "run-cm3: 500 in the file, 412.5 in the shop";
        QTest::newRow("due") << j << QByteArray("2026-03-04T14:00") << QByteArray("2026-03-05T14:00") << "due: 2026-03-05T14:00 in the file, 2026-03-04T14:00 in the shop";
        QTest::newRow("variant") << j << QByteArray(",240,") << QByteArray(",250,") << "the variants are others";
    }
    void aDifferenceIsToldAndNeverApplied() {
        QFETCH(int, kind);
        QFETCH(QByteArray, was);
        QFETCH(QByteArray, is);
        QFETCH(QString, said);
        const auto k = static_cast<EntryKind>(kind);
        QVERIFY(import(read(k, bytesOf(k))));
        const QJsonObject before = stateJson(shop());
        QByteArray other = bytesOf(k);
        QVERIFY(other.contains(was));
        other.replace(was, is);
        const Intake in = read(k, other);
        QVERIFY(in.isGood());
        QCOMPARE(in.differing(), 1);
        QVERIFY2(texts(in.problems).contains(said), qPrintable(texts(in.problems)));
        QVERIFY2(texts(in.problems).startsWith(wordOf(k) + ".csv:"), qPrintable(texts(in.problems)));
        QVERIFY(!import(in));
        QCOMPARE(stateJson(shop()), before);
    }

    void everythingWrongIsSaidAtOnceAndNothingComesIn_data() {
        QTest::addColumn<int>("kind");
        QTest::addColumn<QByteArray>("bytes");
        QTest::addColumn<QStringList>("said");
        const int j = static_cast<int>(EntryKind::Jobs), s = static_cast<int>(EntryKind::Spools), n = static_cast<int>(EntryKind::Nozzles);
        const auto row = [](const char* name, int kind, const QByteArray& bytes, const QStringList& said) { QTest::newRow(name) << kind << bytes << said; };
        row("empty", s, {}, {"there is no spool in it", "id,material,lot"});
        row("header only", n, nozzles.left(nozzles.indexOf('\n') + 1), {"there is no nozzle in it"});
        row("no id", s, "material,lot\nabs-ivory,L\n", {"spools.csv:1:1: there is no column `id`"});
        row("misspelt column", s, "id,materiel\n1,2\n", {"spools.csv:1:4: there is no column `materiel`; did you mean `material`?"});
        row("column twice", n, "serial,type,type\n1,2,3\n", {"nozzles.csv:1:13: the column `type` is there twice"});
        row("semicolons", s, "id;material;lot\nS-1;abs-ivory;L\n", {"separated by semicolons", "CSV with commas"});
        row("tabs", n, "serial\ttype\nN-1\th04\n", {"separated by tabs"});
        row("open quote", s, "id,lot\nS-1,\"never ends\n", {"spools.csv:2:5: this quote is never closed"});
        row("not text", s, QByteArray("id\xff\xfe\x00,x", 7), {"spools.csv:1:3: byte 0xFF is not UTF-8"});
        row("too few", s, "id,material,lot\nS-1,abs-ivory\n", {"spools.csv:2:1: this record has 2 fields; the header names 3"});
        row("unknown material", s, "id,material,lot\nS-1,abs-ivroy,L\n", {"spools.csv:2:5: there is no material `abs-ivroy`; did you mean `abs-ivory`?"});
        row("unknown place", s, "id,material,lot,place\nS-1,abs-ivory,L,shelf-9\n", {"spools.csv:2:17: there is no place `shelf-9`"});
        row("no lot", s, "id,material\nS-1,abs-ivory\n", {"spools.csv:2:1: `lot` is missing"});
        row("negative", s, "id,material,lot,grams\nS-1,abs-ivory,L,-4\n", {"spools.csv:2:17: `grams` is `-4`; give 0 to 100000 g"});
        row("comma for the decimals", s, "id,material,lot,grams\nS-1,abs-ivory,L,\"4,5\"\n", {"use a point for the decimals"});
        row("in the future", s, "id,material,lot,received\nS-1,abs-ivory,L,2027-01-01\n", {"spools.csv:2:17: The date of receipt"});
        row("twice in the file", s, "id,material,lot\nS-1,abs-ivory,L\nS-1,abs-ivory,L\n", {"spools.csv:3:1: the spool `S-1` is there twice; the first is on line 2"});
        row("bad id", n, "serial,type\nN 1,h04\n", {"nozzles.csv:2:1: `serial` is `N 1`, which a scanner cannot carry"});
        row("used without use", n, "serial,type,state,melt-family\nN-1,h04,used,styrenics\n", {"nozzles.csv:2:1: the use so far of this used nozzle is missing", "no-history"});
        row("used without family", n, "serial,type,run-cm3\nN-1,h04,400\n", {"nozzles.csv:2:1: the melt family of this used nozzle is missing"});
        row("unknown family", n, "serial,type,run-cm3,melt-family\nN-1,h04,400,styrenes\n", {"nozzles.csv:2:13: there is no melt family `styrenes`; did you mean `styrenics`?"});
        row("three at once", n, "serial,type,run-cm3,place\nN-1,h4,-1,rack-z\n", {"nozzles.csv:2:5: ", "nozzles.csv:2:8: ", "nozzles.csv:2:11: "});
        row("one bad row of many", s, spools + "S-904,abs-ivory,,1,,,,,,,\n", {"spools.csv:5:1: `lot` is missing"});
        row("no variant", j, "id,title\n7900,nothing\n", {"print-minutes"});
        row("contradiction", j, jobs + "7801,other,,,,,third,abs-ivory,,b04,,60,20,\n", {"jobs.csv:5:6: `title` is another one than in the job's first row"});
        row("printer twice", j, QByteArray(jobs).replace("bay-2: 70", "bay-1: 70"), {"`print-minutes` names `bay-1` twice"});
        row("huge minutes", j, QByteArray(jobs).replace("240", "9999999999"), {"print-minutes"});
    }
    void everythingWrongIsSaidAtOnceAndNothingComesIn() {
        QFETCH(int, kind);
        QFETCH(QByteArray, bytes);
        QFETCH(QStringList, said);
        const Intake in = read(static_cast<EntryKind>(kind), bytes);
        QVERIFY(!in.isGood());
        QCOMPARE(in.count(), 0);
        for (const QString& wanted : said) QVERIFY2(texts(in.problems).contains(wanted), qPrintable(wanted + "\n" + texts(in.problems)));
        const qint64 before = shop().lastSequence();
        QVERIFY(!import(in));
        QCOMPARE(shop().lastSequence(), before);
    }

    void oneMistakeIsOneProblem_data() {
        QTest::addColumn<int>("kind");
        QTest::addColumn<QByteArray>("bytes");
        QTest::addColumn<QString>("said");
        const int j = static_cast<int>(EntryKind::Jobs), s = static_cast<int>(EntryKind::Spools), n = static_cast<int>(EntryKind::Nozzles);
        const auto row = [](const char* name, int kind, const QByteArray& bytes, const char* said) { QTest::newRow(name) << kind << bytes << QString::fromUtf8(said); };
        const QByteArray head = "id,printers,part,part-nozzle,print-minutes,part-cm3\n7901,";
        row("hours and minutes", j, head + ",abs-ivory,b04,5:00,20\n", "jobs.csv:2:21: `print-minutes` is `5:00`; give minutes, 300 for hours and minutes");
        row("hours, minutes, seconds", j, head + ",abs-ivory,b04,1:30:00,20\n", "jobs.csv:2:21: `print-minutes` is `1:30:00`; give minutes, 90 for hours and minutes");
        row("printers with commas", j, head + "\"bay-2,bay-1\",abs-ivory,b04,60,20\n", "jobs.csv:2:6: `printers` is `bay-2,bay-1`; separate the printers by semicolons: bay-1; bay-2");
        row("minutes with commas", j, head + ",abs-ivory,b04,\"bay-1: 60, bay-2: 70\",20\n", "jobs.csv:2:21: `print-minutes` is `bay-1: 60, bay-2: 70`; separate the printers by semicolons: bay-1: 54; bay-2: 61.5");
        row("a variant twice", j, jobs + "7801,,,,,,coarse,abs-ivory,acr-clear,b06,s06,120,52,12\n", "jobs.csv:5:11: two variants are named `coarse`; give each its own name");
        row("no header", s, "S-1,abs-ivory,L1,500\nS-2,abs-ivory,L1,500\n",
            "spools.csv:1:1: the first line names no column of a spool; name the columns there; they are id, material, lot, grams, grams-se, "
            "tare-grams, place, received, opened, dried, expires");
        row("spools as jobs", j, spools, "jobs.csv:1:1: these are the columns of spools, not of jobs; import the file as spools, or take another file");
        row("jobs as nozzles", n, jobs, "nozzles.csv:1:1: these are the columns of jobs, not of nozzles; import the file as jobs, or take another file");
    }
    void oneMistakeIsOneProblem() {
        QFETCH(int, kind);
        QFETCH(QByteArray, bytes);
        QFETCH(QString, said);
        const Intake in = read(static_cast<EntryKind>(kind), bytes);
        QVERIFY(!in.isGood());
        QCOMPARE(texts(in.problems), said);
    }

    void theListOfColumnsIsSaidOnce() {
        const Intake in = read(EntryKind::Spools, "id,material,lot,colour,weather\nS-1,abs-ivory,L,red,fair\n");
        QCOMPARE(in.problems.size(), 2);
        QCOMPARE(texts(in.problems).count("grams-se"), 1);
        QVERIFY2(texts(in.problems).endsWith("spools.csv:1:24: there is no column `weather`; remove it"), qPrintable(texts(in.problems)));
    }

    void aDueDateThatIsPastIsWarnedOf() {
        const Intake in = read(EntryKind::Jobs, QByteArray(jobs).replace("2026-03-04T14:00", "2025-03-04T14:00"));
        QVERIFY2(in.isGood(), qPrintable(texts(in.problems)));
        QCOMPARE(in.count(), 2);
        QCOMPARE(texts(in.problems), QString("jobs.csv:2:23: warning: job `7801` was due on 2025-03-04 14:00 already; check the date; it counts as late"));
    }

    void newRowsComeInBesideKnownOnes() {
        const Intake in = read(EntryKind::Spools, spools + "S-101,abs-ivory,B20-0418,,,,,,,,\n");
        QVERIFY2(in.isGood(), qPrintable(texts(in.problems)));
        QCOMPARE(in.count(), 3);
        QCOMPARE(in.known.size(), 1);
        QCOMPARE(in.known.first().id, QString("S-101"));
        QVERIFY(in.known.first().differences.isEmpty()); // empty cells say nothing
        QVERIFY(import(in));
    }

    void tooManyRowsAreRefusedAtOnce() {
        const Intake in = read(EntryKind::Spools, many(100'000));
        QVERIFY(!in.isGood());
        QVERIFY2(texts(in.problems).contains("100000 rows are more than can be imported at once; split it into files of at most 10000 rows"),
                 qPrintable(texts(in.problems)));
    }

    void asManyAsAllowedComeInAsOneEvent() {
        QList<double> shares;
        const Intake in = read(EntryKind::Spools, many(static_cast<int>(mostRowsAtOnce)), [&](double share) {
            shares.append(share);
            return true;
        });
        QVERIFY2(in.isGood(), qPrintable(texts(in.problems)));
        QCOMPARE(in.count(), mostRowsAtOnce);
        QVERIFY(shares.size() >= 10 && std::is_sorted(shares.begin(), shares.end()) && shares.last() <= 1);
        const qint64 before = shop().lastSequence();
        QVERIFY(import(in));
        QCOMPARE(shop().lastSequence(), before + 1);
    }

    void readingCanBeStoppedAnywhere() {
        int asked = 0;
        const Intake whole = read(EntryKind::Spools, many(5000), [&](double) { return ++asked > 0; });
        QVERIFY(whole.isGood());
        for (int stopAt = 1; stopAt <= asked; ++stopAt) {
            int n = 0;
            const Intake in = read(EntryKind::Spools, many(5000), [&](double) { return ++n < stopAt; });
            QVERIFY(in.stopped && !in.isGood());
            QCOMPARE(in.count(), 0);
            QVERIFY(in.problems.isEmpty() && in.known.isEmpty());
        }
    }

    void replayGivesTheSameShop() {
        for (const EntryKind k : {EntryKind::Jobs, EntryKind::Spools, EntryKind::Nozzles}) QVERIFY(import(read(k, bytesOf(k))));
        Shop again(shop().cataloguePtr());
        QVERIFY(o->workbench->store().read(0, [&](const Event& e) { return again.apply(e).has_value(); }));
        QCOMPARE(stateJson(again), stateJson(shop()));
    }

    void aStrangerSignsNothing() {
        const Intake in = read(EntryKind::Spools, spools);
        const qint64 before = shop().lastSequence();
        QVERIFY(!o->workbench->perform(actOf(in), "??"));
        QCOMPARE(shop().lastSequence(), before);
        QVERIFY(o->workbench->perform(actOf(in), {})); // a script
    }

    void whatCameInMeanwhileIsRefusedWhole() {
        const Intake in = read(EntryKind::Spools, spools);
        QVERIFY(o->workbench->perform(act::SpoolReceived{in.spools[1]}, o->somebody()));
        const auto done = import(in);
        QVERIFY(!done);
        QVERIFY(done.error().reason.contains("S-902"));
        QVERIFY(!shop().stock().spools.contains("S-901"));
    }

    void anEntryThatCameInByCsvCountsAsImportedWhenTheFolderListsItLater() {
        QVERIFY(import(read(EntryKind::Spools, spools)));
        auto files = shop().catalogue().files;
        const QString entry = QStringLiteral("\n  - {id: S-901, material: abs-ivory, lot: %1, grams: 1000, grams-se: 5, tare-grams: 255, "
                                             "place: shelf-1, received: 2026-03-01, expires: 2028-03-01}\n");
        const QString before = files["spools.yaml"];
        const auto differences = [&](const QString& lot) {
            files["spools.yaml"] = before + entry.arg(lot);
            const CatalogueReading reading = readFleetTexts(files);
            if (!reading.catalogue) qFatal("%s", qPrintable(texts(reading.problems)));
            (void)o->workbench->reload(reading.catalogue);
            return texts(o->workbench->openingDifferences());
        };
        QVERIFY2(!differences("B20-0500").contains("S-901"), "the same entry is no difference");
        const QString other = differences("B20-0777");
        QVERIFY2(other.contains("Spool S-901 differs from what was imported: lot was B20-0500, is B20-0777"), qPrintable(other));
    }

    void filesThatCannotBeReadAreProblems() {
        QTemporaryDir dir;
        QVERIFY(texts(readIntakeFile(shop(), {}, EntryKind::Jobs, dir.filePath("none.csv")).problems).contains("none.csv: there is no such file"));
        QVERIFY(texts(readIntakeFile(shop(), {}, EntryKind::Jobs, dir.path()).problems).contains("this is not a file"));
        QFile big(dir.filePath("big.csv"));
        QVERIFY(big.open(QIODevice::WriteOnly) && big.resize(9 * 1024 * 1024));
        QVERIFY(texts(readIntakeFile(shop(), {}, EntryKind::Jobs, big.fileName()).problems).contains("larger than 8 MiB"));
    }
};

INTERLUDE_TEST(IntakeTest)
#include "intake_test.moc"
