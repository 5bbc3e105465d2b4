// Every key of the headers' examples, read into the field that it names.
#include "tests/catalogue/folders.h"
#include "tests/harness/run_tests.h"

#include <QTest>

using namespace interlude;
using namespace interlude::tests;

namespace {

CataloguePtr base() {
    static const CataloguePtr read = readFleetTexts(baseTexts()).catalogue;
    return read;
}
/// The base with one replacement, which must read without an error.
CataloguePtr with(const QString& file, const QString& from, const QString& to) {
    const CatalogueReading r = readFleetTexts(baseWith(file, from, to));
    if (!r.catalogue)
        qWarning("%s", qPrintable(linesOf(r.problems)));
    return r.catalogue;
}
double c(const std::optional<Temperature>& t) {
    return t ? t->celsius() : -999;
}
QString utc(const std::optional<Instant>& t) {
    return t ? iso(*t) : QString();
}
const Nozzle& nozzle(const Catalogue& all, const QString& serial) {
    for (const Nozzle& n : all.openings.nozzles)
        if (n.serial == serial)
            return n;
    static const Nozzle none;
    return none;
}

} // namespace

class EveryKeyTest : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void initTestCase() { QVERIFY(base()); }

    void fleet() {
        const Fleet& f = base()->fleet;
        QCOMPARE(f.id, QStringLiteral("small-yard"));
        QCOMPARE(f.name, QStringLiteral("Small Yard (example)"));
        QCOMPARE(f.zone.id(), QByteArray("Europe/Vienna"));
        QCOMPARE(f.exampleClock->toString(Qt::ISODate), QStringLiteral("2026-03-02T06:30:00+01:00"));
        QCOMPARE(f.room.celsius(), 23.0);
        QCOMPARE(c(f.glovedWorkMax), 120.0);
        QCOMPARE(f.cleanOutMarginK, 10.0);
        QCOMPARE(f.longIdleDays, 14);
        QVERIFY(!f.crewUnlimited);
        QCOMPARE(f.shifts.size(), 1);
        QCOMPARE(f.shifts[0].days, QList<int>({1, 2, 3, 4, 5}));
        QCOMPARE(f.shifts[0].from, QTime(6, 0));
        QCOMPARE(f.shifts[0].to, QTime(14, 0));
        QCOMPARE(f.shifts[0].crew, 2);
        QCOMPARE(f.closed, QList<QDate>({QDate(2026, 12, 25)}));
        QCOMPARE(f.people[0].roles, QStringList({"technician", "planner"}));
        QCOMPARE(f.instruments[0].calibrated, QDate(2026, 1, 10));
    }
    void fleetRules() {
        const auto read =
            with(QStringLiteral("fleet.yaml"), QStringLiteral("clean-out-rule: going-up"),
                 QStringLiteral("clean-out-rule: strict\nclean-out-consumables: 6.5\nlong-idle-days: 7\n"
                                "residual-same-polymer: 0.04\nresidual-new-polymer: 0.02\nledger: sqlite:/tmp/x\nbackup-keep: 3\nbackup-folder: /mnt/b"));
        QVERIFY(read);
        QCOMPARE(read->fleet.cleanOutRule, CleanOutRule::Strict);
        QCOMPARE(read->fleet.cleanOutConsumables.cents(), 650);
        QCOMPARE(read->fleet.longIdleDays, 7);
        QCOMPARE(read->fleet.residualSamePolymer, 0.04);
        QCOMPARE(read->fleet.residualNewPolymer, 0.02);
        QCOMPARE(read->fleet.ledger, QStringLiteral("sqlite:/tmp/x"));
        QCOMPARE(read->fleet.backupKeep, 3);
        QCOMPARE(read->fleet.backupFolder, QStringLiteral("/mnt/b"));
    }
    void aShiftThroughTheNight() {
        const auto read = with(QStringLiteral("fleet.yaml"), QStringLiteral("from: \"06:00\", to: \"14:00\""),
                               QStringLiteral("from: 22:00, to: 24:00"));
        QVERIFY(read);
        QCOMPARE(read->fleet.shifts[0].from, QTime(22, 0));
        QCOMPARE(read->fleet.shifts[0].to, QTime(0, 0)); // ends on the next day
    }
    void printerType() {
        const PrinterType& t = *base()->printerType(QStringLiteral("low"));
        QCOMPARE(c(t.chamberMax), 110.0);
        QCOMPARE(c(t.nozzleMax), 300.0);
        QCOMPARE(t.envelope->y.mm(), 250.0);
        QVERIFY(t.supportPosition && t.materials.isEmpty());
        QCOMPARE(t.partRemoval.count(), 6);
        QCOMPARE(t.start.count(), 5);
        QCOMPARE(t.hourlyRate.cents(), 1200);
        QCOMPARE(t.platformCover, QStringLiteral("sheet"));
        QCOMPARE(t.chamberHeat->tau.count(), 1500);
        QCOMPARE(t.chamberHeat->ceiling.celsius(), 160.0);
        QCOMPARE(t.chamberHeat->settle.count(), 8);
        QCOMPARE(t.chamberCool->tauSe.count(), 120);
        QCOMPARE(t.headHeat->tau.count(), 300);
        QCOMPARE(*t.headCool, (HeadCooling{60, 12000, 0.25, 0.01, 6.0, 0.3}));
        QVERIFY(!t.platformHeat);
        const PrinterType& plain = *base()->printerType(QStringLiteral("plain"));
        QVERIFY(!plain.supportPosition && !plain.chamberHeat);
        QCOMPARE(plain.materials, QStringList({"abs-grey"}));
        QVERIFY(base()->printer(QStringLiteral("bay-2"))->unattended &&
                base()->printer(QStringLiteral("bay-2"))->hasMeasured);
    }
    void printerTypeRest() {
        const auto read =
            with(QStringLiteral("fleet.yaml"), QStringLiteral("    platform-cover: sheet\n"),
                 QStringLiteral("    start-minutes: 7\n    nozzle-removal-minutes: 6\n    purge-flow-mm3-per-s: 4.5\n"
                                "    platform-heat: {tau-s: 900, ceiling-c: 240, settle-minutes: 5}\n"));
        QVERIFY(read);
        const PrinterType& t = *read->printerType(QStringLiteral("low"));
        QCOMPARE(t.start.count(), 7);
        QCOMPARE(t.nozzleRemoval.count(), 6);
        QCOMPARE(t.purgeFlowMm3PerS, 4.5);
        QCOMPARE(t.platformHeat->settle.count(), 5);
    }
    void materials() {
        const Material& m = *base()->material(QStringLiteral("abs-grey"));
        QCOMPARE(m.name, QStringLiteral("Marlow 20"));
        QCOMPARE(m.role, Role::Part);
        QCOMPARE(m.chamberFamily, QStringLiteral("styrenics"));
        QCOMPARE(c(m.chamber), 90.0);
        QCOMPARE(m.nozzle.celsius(), 265.0);
        QCOMPARE(m.meltMin.celsius(), 230.0);
        QCOMPARE(m.meltMax.celsius(), 280.0);
        QCOMPARE(m.softening.celsius(), 105.0);
        QCOMPARE(m.densityGPerCm3, 1.04);
        QCOMPARE(m.diameter.mm(), 1.75);
        QCOMPARE(m.supports, QStringList({"acr-clear"}));
        QCOMPARE(m.orifices, QList<Length>({Length::fromMm(0.4), Length::fromMm(0.6)}));
        QCOMPARE(m.flowIndex, 1.0);
        QCOMPARE(c(m.drying), 80.0);
        QCOMPARE(m.dryingTime->count(), 180);
        QCOMPARE(m.exposureLimit->count(), 720);
        QCOMPARE(m.pricePerKg.cents(), 9000);
        QVERIFY(base()->material(QStringLiteral("pa-black"))->abrasive);
        const Material& support = *base()->material(QStringLiteral("acr-clear"));
        QCOMPARE(support.leaves, Leaves::Soluble);
        QVERIFY2(!support.chamber, "a support follows the part material");
    }
    void materialRest() {
        const auto read =
            with(QStringLiteral("materials.yaml"), QStringLiteral("price-per-kg: 90"),
                 QStringLiteral("diameter-mm: 2.85, flow-index: 0.4, emission: \"styrene, in small amounts\""));
        QVERIFY(read);
        const Material& m = *read->material(QStringLiteral("abs-grey"));
        QCOMPARE(m.diameter.mm(), 2.85);
        QCOMPARE(m.flowIndex, 0.4);
        QCOMPARE(m.emission, QStringLiteral("styrene, in small amounts"));
    }
    void nozzleTypesAndNozzles() {
        const NozzleType& t = *base()->nozzleType(QStringLiteral("h04"));
        QCOMPARE(t.orifice.mm(), 0.4);
        QCOMPARE(t.alloy, QStringLiteral("hardened steel"));
        QVERIFY(t.hardened && !t.unitWithMeltZone);
        QCOMPARE(t.roles, QList<Role>({Role::Part}));
        QCOMPARE(t.ratedLife.cm3(), 9000.0);
        QCOMPARE(t.ratedLifeAbrasive.cm3(), 2500.0);
        QCOMPARE(t.max.celsius(), 450.0);
        QCOMPARE(t.meltZone.mm3(), 400);
        QCOMPARE(t.deadSpaceFactor, 2.0);
        QCOMPARE(t.prime.cm3(), 1.5);
        QCOMPARE(t.printerTypes, QStringList({"low"}));
        const Nozzle& used = nozzle(*base(), QStringLiteral("N-031"));
        QCOMPARE(used.run.plain.cm3(), 412.0);
        QCOMPARE(used.run.abrasive.cm3(), 80.0);
        QCOMPARE(used.meltFamily, QStringLiteral("styrenics"));
        QCOMPARE(used.place, QStringLiteral("bench"));
        QVERIFY2(!nozzle(*base(), QStringLiteral("N-032")).run.known, "no history is never zero");
        const Nozzle& fresh = nozzle(*base(), QStringLiteral("N-033"));
        QVERIFY(fresh.run.known && fresh.run.plain == Volume() && fresh.meltFamily.isEmpty());
        QCOMPARE(fresh.order, 2);
        QVERIFY2(nozzle(*base(), QStringLiteral("N-044")).run.known, "zero is allowed");
    }
    void nozzleStates() {
        const QString file = QStringLiteral("nozzles.yaml"),
                      from = QStringLiteral("{serial: N-033, type: h04, place: bench}");
        const auto read =
            with(file, from,
                 QStringLiteral("{serial: N-033, type: h04, run-cm3: 5, state: retired, melt-family: styrenics}\n"
                                "  - {serial: N-050, type: h04, run-cm3: 0, state: to-be-cleaned}"));
        QVERIFY(read);
        QCOMPARE(nozzle(*read, QStringLiteral("N-033")).where, NozzleWhere::Retired);
        QVERIFY(!nozzle(*read, QStringLiteral("N-033")).retiredWhy.isEmpty());
        QVERIFY(nozzle(*read, QStringLiteral("N-050")).toBeCleaned);
    }
    void spools() {
        const QList<Spool>& all = base()->openings.spools;
        QCOMPARE(all.size(), 3);
        QCOMPARE(all[0].lot, QStringLiteral("L2207"));
        QCOMPARE(all[0].left->grams(), 640.0);
        QCOMPARE(all[0].leftSe.grams(), 15.0);
        QCOMPARE(all[0].tare->grams(), 260.0);
        QCOMPARE(utc(all[0].received), QStringLiteral("2026-01-11T23:00:00Z")); // the start of the day in Vienna
        QCOMPARE(utc(all[0].opened), QStringLiteral("2026-02-20T07:00:00Z"));
        QCOMPARE(utc(all[0].dried), QStringLiteral("2026-03-01T17:00:00Z"));
        QVERIFY2(!all[0].exposedFrom, "it lies in a dry place");
        QVERIFY2(!all[1].left, "an unknown stock is not zero");
        QVERIFY2(!all[2].opened && !all[2].exposedFrom, "it is sealed");
    }
    void anOpenedSpoolOnTheBenchIsExposedSinceItsDrying() {
        const auto read =
            with(QStringLiteral("spools.yaml"), QStringLiteral("place: cabinet-1"), QStringLiteral("place: bench"));
        QVERIFY(read);
        QCOMPARE(utc(read->openings.spools[0].exposedFrom), QStringLiteral("2026-03-01T17:00:00Z"));
    }
    void setups() {
        const OpeningSetup& s = base()->openings.setups[0];
        QCOMPARE(s.part, QStringLiteral("abs-grey"));
        QCOMPARE(s.supportNozzle, QStringLiteral("N-044"));
        QCOMPARE(s.partSpool, QStringLiteral("S-12"));
        QCOMPARE(s.platformCover, QStringLiteral("used"));
        QCOMPARE(s.residue.size(), 2);
        QCOMPARE(c(s.residue[0].chamberMax), 90.0);
        QCOMPARE(c(s.residue[0].nozzleMax), 265.0);
        QVERIFY2(s.residue[1].material.isEmpty(), "unknown");
        QCOMPARE(utc(s.lastPrint), QStringLiteral("2026-02-27T13:00:00Z"));
        const auto fresh = with(QStringLiteral("setups.yaml"), QStringLiteral("platform-cover: used"),
                                QStringLiteral("platform-cover: new"));
        QCOMPARE(fresh->openings.setups[0].platformCover, QStringLiteral("fresh"));
    }
    void jobs() {
        const Job& j = base()->openings.jobs[0];
        QCOMPARE(j.title, QStringLiteral("hinge x12"));
        QCOMPARE(j.partNumber, QStringLiteral("PN-204"));
        QCOMPARE(j.quantity, 12);
        QCOMPARE(utc(j.due), QStringLiteral("2026-03-04T13:00:00Z"));
        QCOMPARE(j.holdingCostPerHour.cents(), 100);
        QCOMPARE(j.printers, QStringList({"bay-1"}));
        QCOMPARE(j.envelope->z.mm(), 60.0);
        const Variant& v = j.variants[0];
        QCOMPARE(v.name, QStringLiteral("fine"));
        QCOMPARE(v.setup.part, QStringLiteral("abs-grey"));
        QCOMPARE(v.setup.supportNozzle, QStringLiteral("s04"));
        QCOMPARE(v.print.count(), 840);
        QCOMPARE(v.partVolume.cm3(), 210.0);
        QCOMPARE(v.supportVolume.cm3(), 40.0);
        QVERIFY(!v.setup.chamber);
    }
    void jobRest() {
        const QString sha(64, u'A');
        const auto read =
            with(QStringLiteral("jobs.yaml"), QStringLiteral("    quantity: 12\n"),
                 QStringLiteral("    revision: B\n    order: O-881\n    build-file: hinge_b.build\n    same-lot: true\n"
                                "    holding-cost-per-hour: 2\n    build-sha256: ") +
                     sha + QLatin1Char('\n'));
        QVERIFY(read);
        const Job& j = read->openings.jobs[0];
        QCOMPARE(j.revision, QStringLiteral("B"));
        QCOMPARE(j.order, QStringLiteral("O-881"));
        QCOMPARE(j.buildFile, QStringLiteral("hinge_b.build"));
        QCOMPARE(j.buildSha256, sha.toLower());
        QVERIFY(j.sameLot);
        QCOMPARE(j.holdingCostPerHour.cents(), 200);
    }
    void minutesForSomePrintersLimitTheJobToThem() {
        QCOMPARE(base()->openings.jobs[1].printers, QStringList({"bay-2"}));
    }
    void minutesAreRoundedUp() {
        const auto read = with(QStringLiteral("jobs.yaml"), QStringLiteral("print-minutes: 840"),
                               QStringLiteral("print-minutes: 839.2"));
        QCOMPARE(read->openings.jobs[0].variants[0].print.count(), 840);
    }
    void steps() {
        QCOMPARE(base()->procedures.version, QStringLiteral("3"));
        QCOMPARE(base()->procedures.steps.size(), 12);
        const StepTemplate& kit = *base()->step(QStringLiteral("fetch-kit"));
        QVERIFY(kit.external && kit.mandatory && kit.when == Condition());
        QCOMPARE(kit.minutes.count(), 4);
        const StepTemplate& out = *base()->step(QStringLiteral("take-part-out"));
        QCOMPARE(out.when.terms, QStringList({"part-lying"}));
        QCOMPARE(out.cautions, QList<Caution>({{SignalWord::Warning, "hot-surface",
                                                QStringLiteral("The platform is above 60 °C.")}}));
        QCOMPARE(out.protection, QStringList({"heat-gloves"}));
        QCOMPARE(out.confirm.answers, QList<AnswerWanted>({{"Is the platform empty?", true}}));
        QCOMPARE(out.effect, Effect::RemovePart);
        const StepTemplate& cool = *base()->step(QStringLiteral("cool-chamber"));
        QVERIFY(!cool.handsOn());
        QCOMPARE(cool.duration, DurationKind::Cool);
        QCOMPARE(cool.subject, Subject::Chamber);
        QCOMPARE(c(cool.onlyBelow), 43.0);
        QCOMPARE(cool.measuredAt, Sensor::Chamber);
        const StepTemplate& remove = *base()->step(QStringLiteral("remove-nozzle"));
        QCOMPARE(remove.power, Power::Off);
        QCOMPARE(remove.tools, QStringList({"tweezers"}));
        QCOMPARE(remove.confirm.scans, QList<ScanWanted>({{ScanTarget::NozzleOutPart}}));
        QCOMPARE(base()->step(QStringLiteral("clean-chamber"))->consumables, (QMap<QString, int>{{"wipe", 2}}));
        const StepTemplate& heat = *base()->step(QStringLiteral("heat-chamber"));
        QVERIFY(heat.when.all);
        QCOMPARE(heat.settle.count(), 8);
        const ReadingWanted reading = base()->step(QStringLiteral("align-nozzles"))->confirm.readings.value(0);
        QCOMPARE(reading, (ReadingWanted{"X offset", "mm", -0.1, 0.1, "vernier", 1}));
    }
    void stepRest() {
        const auto read = with(
            QStringLiteral("procedures.yaml"), QStringLiteral("cool: chamber, only-below-c: 43, measured-at: chamber"),
            QStringLiteral(
                "cool: head-part, only-below-c: 60, to-c: 55, group: Exchange, detail: Wait., mandatory: false,\n"
                "     printer-types: [low], confirm: [{reading: head, unit: °C, max: 60, times: 3}]"));
        QVERIFY(read);
        const StepTemplate& s = *read->step(QStringLiteral("cool-chamber"));
        QCOMPARE(s.subject, Subject::HeadPart);
        QCOMPARE(c(s.to), 55.0);
        QVERIFY2(s.measuredAt == Sensor::Head, "a cooling head is measured at the head");
        QCOMPARE(s.group, QStringLiteral("Exchange"));
        QCOMPARE(s.detail, QStringLiteral("Wait."));
        QVERIFY(!s.mandatory);
        QCOMPARE(s.printerTypes, QStringList({"low"}));
        QCOMPARE(s.confirm.readings[0].times, 3);
        QVERIFY(!s.confirm.readings[0].min);
    }
    void everyFileButTheFleetMayBeAbsent() {
        auto texts = baseTexts();
        for (const char* name : {"nozzles.yaml", "spools.yaml", "setups.yaml", "jobs.yaml", "procedures.yaml"})
            texts.remove(QString::fromLatin1(name));
        const CatalogueReading r = readFleetTexts(texts);
        QVERIFY2(r.catalogue, qPrintable(linesOf(r.problems)));
    }
    void markAndLineEndsOfOtherSystemsAreRead() {
        auto texts = baseTexts();
        for (QString& text : texts)
            text = QChar(0xFEFF) + text.replace(QLatin1Char('\n'), QStringLiteral("\r\n"));
        const CatalogueReading r = readFleetTexts(texts);
        QVERIFY2(r.catalogue, qPrintable(linesOf(r.problems)));
        QCOMPARE(r.catalogue->hash, base()->hash);
    }
};

INTERLUDE_TEST(EveryKeyTest)
#include "every_key_test.moc"
