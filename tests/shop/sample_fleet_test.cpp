// The whole way with a real fleet folder: open, carry out a changeover, replay from the texts that the ledger kept.

#include "model/catalogue/reader.h"
#include "tests/harness/run_tests.h"
#include "tests/shop/fixture.h"

using namespace interlude;
using namespace interlude::tests;

namespace {

/// Everything that the step asks for, as a careful person would give it.
act::StepConfirmed careful(const Workbench& bench, qint64 number, const PlannedStep& s) {
    act::StepConfirmed x;
    x.session = number;
    x.step = s.step.id;
    for (qsizetype i = 0; i < s.step.confirm.scans.size(); ++i) {
        QString id = s.expectedScans.value(i);
        if (id.isEmpty() && s.step.confirm.scans[i].target == ScanTarget::Place)
            id = bench.catalogue().fleet.places.first().id;
        x.scans.append({id.isEmpty() ? QStringLiteral("cover") : id, false});
    }
    for (const AnswerWanted& a : s.step.confirm.answers)
        x.answers.append(act::AnswerDone{a.mustBe.value_or(true)});
    for (const ReadingWanted& r : s.step.confirm.readings)
        for (int i = 0; i < r.times; ++i) {
            const double value = r.min && r.max ? (*r.min + *r.max) / 2 : r.min.value_or(r.max.value_or(0));
            x.readings.append({r.name, std::llround(value * 1000), r.unit, r.instrument, bench.now()});
        }
    if (s.step.onlyBelow) {
        x.measured = s.step.onlyBelow;
        x.measuredAt = bench.now();
    }
    if (s.step.effect == Effect::MountNozzlePart || s.step.effect == Effect::MountNozzleSupport)
        for (const act::ScanDone& scan : x.scans)
            if (const auto n = bench.shop().stock().nozzles.constFind(scan.value);
                n != bench.shop().stock().nozzles.constEnd() && !n->run.known)
                x.useSoFar = RunVolume{false, {}, {}};
    return x;
}

/// The first changeover of the shop that is possible as it stands.
std::optional<act::SessionStarted> firstPossible(const Workbench& bench, const QStringList& notThese) {
    const Shop& shop = bench.shop();
    for (const PrinterNow& p : shop.printers()) {
        if (notThese.contains(p.id))
            continue;
        for (const Job& j : shop.jobs())
            for (const Variant& v : j.variants) {
                if (j.state != JobState::Open)
                    continue;
                const Transition t = judgeTransition(shop.catalogue(), shop.stock(), requestFor(p, j, v), bench.now());
                if (!t.possible() || !t.has(fact::partNozzle))
                    continue;
                if (auto c = planChangeover(shop.catalogue(), shop.stock(), t, bench.now()))
                    return act::SessionStarted{shop.nextSession(), p.id, *c, {}, false};
            }
    }
    return {};
}

} // namespace

class SampleFleetShopTest : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void aWholeChangeover() {
        const CatalogueReading reading = readFleetFolder(QStringLiteral(INTERLUDE_SOURCE_DIR "/sample-fleet"));
        QVERIFY(reading.catalogue);
        ManualClock clock(interlude::tests::at(0));
        const QString who = reading.catalogue->fleet.people.first().initials;
        auto store = makeMemoryStore(reading.catalogue->fleet.id);
        EventStore* ledger = store.get();
        auto opened = Workbench::open(reading.catalogue, std::move(store), clock, QStringLiteral("bench"));
        QVERIFY2(opened, opened ? "" : qPrintable(sentence(opened.error())));
        Workbench& bench = **opened;
        for (const Problem& p : bench.openingDifferences())
            QFAIL(qPrintable(p.text()));
        QStringList used;
        for (int round = 0; round < 2; ++round) {
            const auto start = firstPossible(bench, used);
            QVERIFY2(start, "no changeover with a nozzle exchange is possible in the sample fleet");
            used.append(start->printer);
            const auto begun = bench.perform(*start, who);
            QVERIFY2(begun, begun ? "" : qPrintable(sentence(begun.error())));
            if (bench.shop().printer(start->printer)->activity == Activity::Printing) {
                const auto ended =
                    bench.perform(act::PrintEnded{start->printer, PrintOutcome::Good, true, {}, {}, {}}, who);
                QVERIFY2(ended, ended ? "" : qPrintable(sentence(ended.error())));
            }
            for (const PlannedStep& s : start->changeover.steps) {
                clock.advance(Seconds(90));
                const auto done = bench.perform(careful(bench, start->session, s), who);
                QVERIFY2(done, done ? "" : qPrintable(s.step.id + QStringLiteral(": ") + sentence(done.error())));
            }
            const auto finished =
                bench.perform(act::SessionFinished{start->session, QStringLiteral("released"), {}}, who);
            QVERIFY2(finished, finished ? "" : qPrintable(sentence(finished.error())));
            const PrinterNow& p = *bench.shop().printer(start->printer);
            QVERIFY(p.activity == Activity::Printing && !p.open);
            QCOMPARE(p.part.loaded, start->changeover.transition.request.wanted.part);
        }

        // From nothing, with the texts that the ledger kept instead of the folder.
        Shop again;
        const auto read = ledger->read(0, [&](const Event& e) {
            const auto folded = again.apply(e);
            if (!folded)
                qWarning("%s", qUtf8Printable(sentence(folded.error())));
            return folded.has_value();
        });
        QVERIFY(read);
        QCOMPARE(World::digestOf(again), World::digestOf(bench.shop()));
        QCOMPARE(again.catalogue().fleet.name, reading.catalogue->fleet.name);
        QVERIFY(!ledger->verify());
    }
};

INTERLUDE_TEST(SampleFleetShopTest)
#include "sample_fleet_test.moc"
