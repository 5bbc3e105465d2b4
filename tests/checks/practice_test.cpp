// Domain reference, section 12: practice facts, all common practice, no source. Checked on the sample fleet: its step
// library, and every changeover that its printers can make to its jobs, planned as the window plans them.
#include "model/catalogue/reader.h"
#include "model/changeover/changeover.h"
#include "model/shop/shop.h"
#include "tests/harness/run_tests.h"

#include <QTest>

using namespace interlude;

namespace {

CataloguePtr sampleFleet() {
    static const CatalogueReading reading = readFleetFolder(QStringLiteral(INTERLUDE_SOURCE_DIR "/sample-fleet"));
    return reading.catalogue;
}

/// The shop as the sample fleet opens.
Shop opened() {
    Shop shop(sampleFleet());
    qint64 sequence = 0;
    const auto apply = [&](const Happening& h) {
        Event e;
        e.sequence = ++sequence;
        e.recordedAt = e.happenedAt = instantOf(*sampleFleet()->fleet.exampleClock);
        e.kind = kindOf(h);
        e.payload = toPayload(h);
        const auto applied = shop.apply(e);
        if (!applied) qFatal("%s", qPrintable(applied.error().reason));
    };
    const Openings& o = sampleFleet()->openings;
    for (const Nozzle& n : o.nozzles) apply(act::NozzleOpening{n});
    for (const Spool& s : o.spools) apply(act::SpoolOpening{s});
    for (const OpeningSetup& s : o.setups) apply(act::SetupOpening{s});
    for (const Job& j : o.jobs) apply(act::JobOpening{j});
    return shop;
}

/// Every changeover that is possible from the opening state.
const QList<Changeover>& allChangeovers() {
    static const QList<Changeover> all = [] {
        QList<Changeover> found;
        const Shop shop = opened();
        const Instant now = instantOf(*sampleFleet()->fleet.exampleClock);
        for (const PrinterNow& printer : shop.printers())
            for (const Job& job : shop.jobs())
                for (const Variant& v : job.variants) {
                    const Transition t =
                        judgeTransition(shop.catalogue(), shop.stock(), requestFor(printer, job, v), now);
                    if (const auto c = planChangeover(shop.catalogue(), shop.stock(), t, now)) found.append(*c);
                }
        return found;
    }();
    return all;
}

const PlannedStep* withEffect(const Changeover& c, Effect effect) {
    for (const PlannedStep& p : c.steps)
        if (p.step.effect == effect) return &p;
    return nullptr;
}

bool asks(const StepTemplate& s, const QString& about) {
    for (const AnswerWanted& a : s.confirm.answers)
        if (a.mustBe && a.question.contains(about, Qt::CaseInsensitive)) return true;
    return false;
}

} // namespace

class PracticeTest : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void initTestCase() {
        QVERIFY2(sampleFleet(), "the sample fleet does not read");
        QVERIFY2(allChangeovers().size() >= 40, qPrintable(QString::number(allChangeovers().size())));
        int exchanges = 0, cleanOuts = 0;
        for (const Changeover& c : allChangeovers()) {
            exchanges += c.transition.has(fact::partNozzle);
            cleanOuts += c.transition.chamber.level == CleanOut::Mandatory;
        }
        QVERIFY2(exchanges >= 10 && cleanOuts >= 5, qPrintable(QString::number(exchanges)));
    }

    void unloadingTakesAboutEightMinutes() {
        int found = 0;
        for (const StepTemplate& s : sampleFleet()->procedures.steps)
            if (s.effect == Effect::UnloadPart || s.effect == Effect::UnloadSupport) {
                QCOMPARE(s.minutes, Minutes(8));
                ++found;
            }
        QVERIFY(found >= 2);
    }

    void beforeANozzleExchangeTheFeedstockIsUnloaded() {
        for (const Changeover& c : allChangeovers()) {
            const PlannedStep* out = withEffect(c, Effect::RemoveNozzlePart);
            if (!out || c.transition.request.now.part.loaded.isEmpty()) continue;
            const PlannedStep* unload = withEffect(c, Effect::UnloadPart);
            QVERIFY(unload && unload->end <= out->start);
        }
    }

    void aPoweredMeltZoneNeverStandsBelowHundredDegrees() {
        // so a step that lets a head become cooler than that must not ask for power
        for (const StepTemplate& s : sampleFleet()->procedures.steps) {
            const bool head = s.subject == Subject::HeadPart || s.subject == Subject::HeadSupport;
            const std::optional<Temperature> end = s.to ? s.to : s.onlyBelow;
            if (s.duration == DurationKind::Cool && head && end && *end < Temperature::fromCelsius(100))
                QVERIFY2(s.power == Power::Off || s.power == Power::Isolated, qPrintable(s.id));
        }
    }

    void retainingScrewsAreBackedOffAnEighthOfAnInch() {
        QCOMPARE(Length::fromMm(25.4 / 8).micrometres(), 3175); // 1 in = 25.4 mm exactly
        for (const StepTemplate& s : sampleFleet()->procedures.steps)
            if (s.effect == Effect::RemoveNozzlePart || s.effect == Effect::RemoveNozzleSupport)
                QVERIFY2(s.detail.contains(QStringLiteral("1/8 in")) && s.detail.contains(QStringLiteral("3")) &&
                             s.detail.contains(QStringLiteral("mm")),
                         qPrintable(s.id)); // both units
    }

    void screwsAreSnuggedNotTorqued() {
        bool ticked = false;
        for (const StepTemplate& s : sampleFleet()->procedures.steps) {
            for (const ReadingWanted& r : s.confirm.readings)
                QVERIFY2(!r.unit.contains(QStringLiteral("N")) && !r.name.contains(QStringLiteral("orque")),
                         qPrintable(s.id));
            if (s.effect == Effect::MountNozzlePart) ticked = asks(s, QStringLiteral("snugged"));
        }
        QVERIFY(ticked);
    }

    void seatingAndPlayAreTwoConfirmations() {
        for (const Changeover& c : allChangeovers()) {
            if (!withEffect(c, Effect::MountNozzlePart)) continue;
            const PlannedStep *seat = nullptr, *play = nullptr;
            for (const PlannedStep& p : c.steps) {
                if (p.step.detail.contains(QStringLiteral("locating pins"))) seat = &p;
                if (asks(p.step, QStringLiteral("play"))) play = &p;
            }
            QVERIFY(seat && play && seat != play);
            QVERIFY(seat->end <= play->start);
        }
    }

    void noHistoryIsNotZero() {
        const NozzleType* type = sampleFleet()->nozzleType(sampleFleet()->openings.nozzles.first().type);
        QVERIFY(type);
        Nozzle n;
        n.type = type->id;
        QCOMPARE(lifeLeft(n, *type, false), std::optional(type->ratedLife)); // zero is a number, and allowed
        n.run.known = false;
        QVERIFY(!lifeLeft(n, *type, false));
    }

    void noPartIsLeftBeforeTheChamberIsOpenedForTheHead() {
        for (const Changeover& c : allChangeovers()) {
            const PlannedStep* out = withEffect(c, Effect::RemoveNozzlePart);
            if (!out) continue;
            bool asked = false;
            for (const PlannedStep& p : c.steps)
                if (p.end <= out->start && asks(p.step, QStringLiteral("no part left"))) asked = true;
            QVERIFY(asked);
        }
    }

    void cleanOutIsImperativeGoingUpOnly() {
        for (const Changeover& c : allChangeovers()) {
            const Transition& t = c.transition;
            bool unknown = false;
            for (const ResidueItem& item : t.request.now.residue) unknown = unknown || item.material.isEmpty();
            if (unknown) QCOMPARE(t.chamber.level, CleanOut::Mandatory);
            else if (t.chamberAfter <= t.chamberBefore) QVERIFY(t.chamber.level != CleanOut::Mandatory);
        }
    }

    void calibrationComesAfterLoading() {
        int checked = 0;
        for (const Changeover& c : allChangeovers()) {
            const PlannedStep* align = withEffect(c, Effect::Align);
            if (!align) continue;
            for (Effect load : {Effect::LoadPart, Effect::LoadSupport})
                if (const PlannedStep* p = withEffect(c, load)) {
                    QVERIFY(p->end <= align->start);
                    ++checked;
                }
        }
        QVERIFY(checked > 0);
    }

    void everyChangeoverEndsWithTheStart() {
        for (const Changeover& c : allChangeovers()) {
            QCOMPARE(c.steps.last().step.effect, Effect::StartPrint);
            QCOMPARE(c.segments.last().kind, SegmentKind::HandsOn);
            QVERIFY(c.segments.last().steps.contains(c.steps.last().step.id));
            QVERIFY(c.handsOn >= Minutes(5)); // start-minutes
        }
    }
};

INTERLUDE_TEST(PracticeTest)
#include "practice_test.moc"
