// Slips that the corpus does not hold: a word or two replaced in the base folder, and every line that must be said of it.
#include "tests/catalogue/folders.h"
#include "tests/harness/run_tests.h"

#include <QTest>

using namespace interlude;
using namespace interlude::tests;

namespace {
/// The end of the first entry of setups.yaml, and the whole second one.
constexpr const char* lastPrint = "last-print: 2026-02-27T14:00}";
constexpr const char* bay2 = "{printer: bay-2, label: start}";
} // namespace

class SlipsTest : public QObject {
    Q_OBJECT

    using Texts = QMap<QString, QString>;
    static void row(const char* name, const QList<Edit>& edits, const char* said, bool readable) {
        QTest::newRow(name) << baseWith(edits) << QString::fromUtf8(said) << readable;
    }
    static void slip(const char* name, const QList<Edit>& edits, const char* said) { row(name, edits, said, false); }
    static void warned(const char* name, const QList<Edit>& edits, const char* said) { row(name, edits, said, true); }

private Q_SLOTS:
    void says_data() {
        QTest::addColumn<Texts>("texts");
        QTest::addColumn<QString>("said");
        QTest::addColumn<bool>("readable");
        slip("a day of a shift twice", {{"fleet.yaml", "[mon, tue, wed, thu, fri]", "[mon, tue, wed, mon, fri]"}},
             "fleet.yaml:12:41: `mon` is there twice; name it once\n");
        steps();
        stepDurations();
        jobs();
        materialsAndSpools();
        setups();
        runningPrints();
    }
    void says() {
        QFETCH(Texts, texts);
        QFETCH(QString, said);
        QFETCH(bool, readable);
        const CatalogueReading reading = readFleetTexts(texts);
        QCOMPARE(linesOf(reading.problems), said);
        QCOMPARE(reading.catalogue != nullptr, readable);
    }

    void aZoneIsSuggestedByItsTown_data() {
        QTest::addColumn<QString>("zone");
        QTest::addColumn<QString>("right");
        const auto row = [](const char* zone, const char* near) {
            QTest::newRow(zone) << QString::fromLatin1(zone)
                                << (*near ? QStringLiteral("did you mean `%1`?").arg(QLatin1String(near)) : QStringLiteral("write for instance Europe/Vienna or UTC"));
        };
        row("Europe/Wien", "");
        row("Europe/Roma", "Europe/Rome");
        row("Europe/Viena", "Europe/Vienna");
        row("europe/vienna", "Europe/Vienna");
        row("Vienna", "Europe/Vienna");
        row("Eurpe/Vienna", "Europe/Vienna");
        row("America/New York", "America/New_York");
        row("utc", "UTC");
        row("Middle-earth/Shire", "");
    }
    void aZoneIsSuggestedByItsTown() {
        QFETCH(QString, zone);
        QFETCH(QString, right);
        const CatalogueReading reading = readFleetTexts(baseWith({{"fleet.yaml", "time-zone: Europe/Vienna", qPrintable(QStringLiteral("time-zone: ") + zone)}}));
        QCOMPARE(linesOf(reading.problems), QStringLiteral("fleet.yaml:4:12: `%1` is not a time zone of the IANA list; %2\n").arg(zone, right));
    }

    void aFileBeyondEightMegabytes() {
        Texts texts = baseTexts();
        const QString comment = QLatin1Char('#') + QString(1022, QLatin1Char('x')) + QLatin1Char('\n'); // 1 KiB
        texts[QStringLiteral("spools.yaml")] += comment.repeated(8 * 1024);
        const QString said = QStringLiteral("spools.yaml: the file is larger than 8 MiB; shorten it; jobs, spools and nozzles can be imported from CSV as well\n");
        QVERIFY(linesOf(readFleetTexts(texts).problems).contains(said));
        QTemporaryDir folder;
        for (auto it = texts.cbegin(); it != texts.cend(); ++it) QVERIFY(write(folder.filePath(it.key()), it.value().toUtf8()));
        QVERIFY(linesOf(readFleetFolder(folder.path()).problems).contains(said));
    }
    void aLibraryOfTooManySteps() {
        Texts texts = baseTexts();
        QString& procedures = texts[QStringLiteral("procedures.yaml")];
        const auto base = procedures.count(QStringLiteral("title:")); // one a step
        for (auto i = base; i < 2001; ++i)
            procedures += QStringLiteral("  - {id: more-%1, title: More, when: hotter, minutes: 1}\n").arg(i);
        const CatalogueReading reading = readFleetTexts(texts);
        QVERIFY(!reading.catalogue);
        QCOMPARE(linesOf(reading.problems), QStringLiteral("procedures.yaml: 2001 steps; a library has at most 2000\n"));
    }

private:
    static void steps() {
        slip("two readings of one name",
             {{"procedures.yaml", "instrument: vernier}]", "instrument: vernier}, {reading: X offset, unit: mm}]"}},
             "procedures.yaml:28:99: two readings of this step are named `X offset`; give each its own name, or use `times`\n");
        slip("conditions without one", {{"procedures.yaml", "when: {all: [hotter]}", "when: {all: []}"}},
             "procedures.yaml:22:61: `when` names nothing; name facts, or write `when: always`\n");
        slip("consumables as a list", {{"procedures.yaml", "consumables: {wipe: 2}", "consumables: [wipe]"}},
             "procedures.yaml:21:19: `consumables` is not a map; write {wipe: 2}\n");
        slip("measured for nothing", {{"procedures.yaml", "external: true, minutes: 4", "external: true, measured-at: head, minutes: 4"}},
             "procedures.yaml:3:86: `measured-at` without `only-below-c`; say below which temperature the step closes, or remove it\n");
    }
    static void stepDurations() {
        slip("a heating while it prints", {{"procedures.yaml", "external: true, minutes: 4", "external: true, people: 0, heat: platform"}},
             "procedures.yaml:3:67: an external step heats, cools or purges the printer; write `external: false`, or give `minutes`\n");
        slip("settling without a heating", {{"procedures.yaml", "minutes: 4, tools", "minutes: 4, settle-minutes: 2, tools"}},
             "procedures.yaml:3:101: `settle-minutes` without `heat`; add it to `minutes` instead\n");
        slip("a heating to a temperature of its own", {{"procedures.yaml", "heat: chamber, settle-minutes: 8", "heat: chamber, to-c: 80"}},
             "procedures.yaml:23:27: `to-c` without `cool`; a heating ends at the set-point of the job\n");
    }
    static void jobs() {
        slip("a label and a nozzle",
             {{"jobs.yaml", "setup: A, print-minutes: {bay-2: 61}", "variants: [{setup: A, part-nozzle: h04, print-minutes: {bay-2: 61}}]"}},
             "jobs.yaml:14:51: a job known by its setup's label has no `part-nozzle`; remove `setup`, or describe nothing else\n");
        warned("a nozzle type that stands too little",
               {{"nozzles.yaml", "rated-life-abrasive-cm3: 2500, max-c: 450", "rated-life-abrasive-cm3: 2500, max-c: 260"}},
               "jobs.yaml:12:9: warning: variant `fine` of job `7412` cannot be printed: nozzle type `h04` goes up to 260 °C, `abs-grey` "
               "wants 265 °C; change the variant, or the entries that forbid it\n");
        warned("abrasive through a plain nozzle of the other position",
               {{"jobs.yaml", "part: abs-grey, support: acr-clear, part-nozzle: h04", "part: pa-black, support: acr-clear, part-nozzle: s04"}},
               "jobs.yaml:12:9: warning: variant `fine` of job `7412` cannot be printed: nozzle type `s04` does not fit the part position; "
               "`pa-black` is abrasive and nozzle type `s04` is not hardened; change the variant, or the entries that forbid it\n");
        warned("a material that the printer does not take", {{"fleet.yaml", "    platform-cover: sheet\n", "    materials: [pa-black]\n"}},
               "jobs.yaml:12:9: warning: no printer can take variant `fine` of job `7412`: bay-1: `abs-grey` is not among its materials; "
               "bay-2: not among the job's printers; change the variant, or the limits of a printer type\n");
    }
    static void materialsAndSpools() {
        slip("supports of a support", {{"materials.yaml", "leaves: soluble,", "leaves: soluble, supports: [acr-clear],"}},
             "materials.yaml:9:125: a support material has no supports of its own; list it under `supports` of the part materials that it "
             "goes with\n");
        warned("dried where it softens", {{"materials.yaml", "drying-c: 80", "drying-c: 105"}},
               "materials.yaml:4:64: warning: `drying-c` is not below `softening-c`; the strand may fuse on the spool; check the supplier's "
               "sheet\n");
        warned("abrasive through a nozzle that is not hardened", {{"nozzles.yaml", "run-cm3: 0,", "run-cm3: 0, run-abrasive-cm3: 5,"}},
               "nozzles.yaml:10:62: warning: `N-044` ran abrasive material though its type `s04` is not hardened; check the figure, and "
               "measure the orifice\n");
        slip("dried after the example begins", {{"spools.yaml", "dried: 2026-03-01T18:00", "dried: 2027-01-01T18:00"}},
             "spools.yaml:3:61: `dried` lies after `example-clock`; it has not happened yet when the example begins\n");
        slip("expired when it came", {{"spools.yaml", "expires: 2027-01-12", "expires: 2026-01-12"}},
             "spools.yaml:3:88: `expires` is not after `received`; check both\n");
    }
    static void setups() {
        slip("a retired nozzle in a printer", {{"nozzles.yaml", "place: bench, state: used", "place: bench, state: retired"}},
             "setups.yaml:2:71: `N-031` is retired; a retired nozzle is not mounted; check nozzles.yaml\n");
        slip("a last print of tomorrow", {{"setups.yaml", lastPrint, "last-print: 2026-03-03T14:00}"}},
             "setups.yaml:4:40: `last-print` lies after `example-clock`; it has not happened yet when the example begins\n");
        warned("worn with a chamber that this printer does not reach", {{"fleet.yaml", "chamber-max-c: 110", "chamber-max-c: 85"}},
               "setups.yaml:2:28: warning: `abs-grey` wants a chamber at 90 °C, above the 85 °C of `low`; check both figures\n"
               "jobs.yaml:12:9: warning: no printer can take variant `fine` of job `7412`: bay-1: chamber 90 °C above its 85 °C; bay-2: not "
               "among the job's printers; change the variant, or the limits of a printer type\n");
    }
    static void runningPrints() {
        constexpr const char* running = "last-print: 2026-02-27T14:00, print: {job: 7412, started: 2026-03-02T02:10}}";
        slip("one job in two places",
             {{"jobs.yaml", "printers: [bay-1]", "printers: [bay-1, bay-2]"},
              {"setups.yaml", lastPrint, running},
              {"setups.yaml", bay2, "{printer: bay-2, part: abs-grey, print: {job: 7412, started: 2026-03-02T03:10}}"}},
             "setups.yaml:5:5: `support` is not given, but the running print is made with acr-clear; check the setup, and job and variant "
             "of the print\n"
             "setups.yaml:5:5: `part-nozzle` is not given, but the running print is made with a nozzle of type `h04`; check the setup, and "
             "job and variant of the print\n"
             "setups.yaml:5:5: `support-nozzle` is not given, but the running print is made with a nozzle of type `s04`; check the setup, "
             "and job and variant of the print\n"
             "setups.yaml:5:51: job `7412` is printed in two places; line 4 has it already\n");
        slip("with a nozzle of another type",
             {{"nozzles.yaml", "nozzles:\n", "  - {id: h06, orifice-mm: 0.6, hardened: true, roles: [part], rated-life-cm3: 9000, max-c: 450, melt-zone-mm3: 400}\nnozzles:\n"},
              {"nozzles.yaml", "N-031, type: h04", "N-031, type: h06"},
              {"setups.yaml", lastPrint, running}},
             "setups.yaml:2:71: `part-nozzle` is `N-031` of type `h06`, but the running print is made with a nozzle of type `h04`; check "
             "the setup, and job and variant of the print\n");
    }
};

INTERLUDE_TEST(SlipsTest)
#include "slips_test.moc"
