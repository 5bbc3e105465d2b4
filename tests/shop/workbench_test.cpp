// Opening, performing, reloading, and clocks that misbehave.

#include "tests/harness/run_tests.h"
#include "tests/shop/fixture.h"

#include <QSignalSpy>

using namespace interlude;
using namespace interlude::tests;

namespace {

/// A store whose events outlive the workbench that uses it, and that can fail.
struct Shelf {
    std::unique_ptr<EventStore> kept = makeMemoryStore(QStringLiteral("tiny"));
    bool full = false;
};
class Borrowed final : public EventStore {
public:
    explicit Borrowed(Shelf& shelf) : m_shelf(shelf) {}
    qint64 lastSequence() const override { return m_shelf.kept->lastSequence(); }
    QByteArray lastHash() const override { return m_shelf.kept->lastHash(); }
    Outcome<Event> append(Event e) override {
        if (m_shelf.full)
            return refusal(QStringLiteral("disk"), QStringLiteral("the disk is full"));
        return m_shelf.kept->append(std::move(e));
    }
    Outcome<qint64> read(qint64 after, const std::function<bool(const Event&)>& each) const override {
        return m_shelf.kept->read(after, each);
    }
    std::optional<Misfit> verify() const override { return m_shelf.kept->verify(); }
    QString location() const override { return QStringLiteral("a shelf"); }

private:
    Shelf& m_shelf;
};

std::unique_ptr<Workbench> open(Shelf& shelf, const Clock& clock, CataloguePtr c = tinyCatalogue()) {
    auto bench = Workbench::open(std::move(c), std::make_unique<Borrowed>(shelf), clock, QStringLiteral("bench"));
    if (!bench)
        qFatal("open: %s", qUtf8Printable(sentence(bench.error())));
    return std::move(*bench);
}

QStringList kinds(const Shelf& shelf, qint64 after = 0) {
    QStringList out;
    (void)shelf.kept->read(after, [&](const Event& e) {
        out.append(e.kind);
        return true;
    });
    return out;
}

act::SessionStarted startJ2(const Workbench& bench) {
    const Shop& shop = bench.shop();
    const Job j = *shop.job(QStringLiteral("J2"));
    const Transition t =
        judgeTransition(shop.catalogue(), shop.stock(),
                        requestFor(*shop.printer(QStringLiteral("bay-1")), j, j.variants.first()), bench.now());
    return {shop.nextSession(),
            QStringLiteral("bay-1"),
            *planChangeover(shop.catalogue(), shop.stock(), t, bench.now()),
            {},
            false};
}

} // namespace

class WorkbenchTest : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void openingImportsOnce() {
        Shelf shelf;
        ManualClock clock(interlude::tests::at(0));
        {
            const auto bench = open(shelf, clock);
            QCOMPARE(kinds(shelf).first(), text("program-started"));
            QCOMPARE(kinds(shelf).at(1), text("catalogue-read"));
            QCOMPARE(kinds(shelf).size(), 2 + 4 + 5 + 2 + 1); // spools, nozzles, jobs, setup
            QVERIFY(bench->openingDifferences().isEmpty());
            QCOMPARE(bench->shop().printer(text("bay-1"))->part.nozzle, text("N-1"));
        }
        const qint64 before = shelf.kept->lastSequence();
        const auto again = open(shelf, clock);
        QCOMPARE(kinds(shelf, before), QStringList{text("program-started")});
        QVERIFY(again->openingDifferences().isEmpty());
        QCOMPARE(again->shop().stock().spools.size(), 4);
    }

    void laterDifferencesAreReportedNotApplied() {
        Shelf shelf;
        ManualClock clock(interlude::tests::at(0));
        (void)open(shelf, clock)
            ->perform(act::SpoolReceived{[] {
                          Spool s;
                          s.id = text("S-5");
                          s.material = text("pc");
                          return s;
                      }()},
                      text("ML"));
        auto c = tinyCatalogue();
        c->openings.spools[2].left = grams(700);
        Spool known;
        known.id = text("S-5");
        known.material = text("pc");
        Spool fresh = c->openings.spools[2];
        fresh.id = text("P-9");
        c->openings.spools << known << fresh;
        OpeningSetup two;
        two.printer = text("bay-2");
        two.partNozzle = text("N-1"); // which hangs in bay-1
        c->openings.setups << two;
        const qint64 before = shelf.kept->lastSequence();
        const auto bench = open(shelf, clock, c);
        QCOMPARE(kinds(shelf, before), (QStringList{text("program-started"), text("spool-opening")}));
        QCOMPARE(bench->shop().stock().spools.value(text("P-1")).left->milligrams(), 900'000);
        QVERIFY(bench->shop().stock().spools.contains(text("P-9")));
        QCOMPARE(bench->openingDifferences().size(), 3);
        QStringList told;
        for (const Problem& p : bench->openingDifferences()) {
            QVERIFY(p.warning);
            told.append(p.text());
        }
        const QString all = told.join(QLatin1Char('\n'));
        QVERIFY2(all.contains(text("grams was 900, is 700")), qPrintable(all));
        QVERIFY2(all.contains(text("S-5")) && all.contains(text("bay-2")), qPrintable(all));
    }

    void differencesAreSaidAsTheFolderWritesThem() {
        Shelf shelf;
        ManualClock clock(interlude::tests::at(0));
        const auto c = tinyCatalogue();
        (void)open(shelf, clock, c);
        auto other = tinyCatalogue();
        other->fleet.zone = QTimeZone("Europe/Vienna");
        Job& job = other->openings.jobs[0];
        job.due = interlude::tests::at(60);
        job.lateCostPerHour = Money::fromCents(1250);
        job.variants[0].print = Minutes(77);
        job.variants[0].name = text("fine");
        job.printers = QStringList{text("bay-1"), text("bay-2")};
        other->files[text("jobs.yaml")] = text("# ours\njobs:\n  - {id: other}\n  - id: %1\n    title: x\n    due: soon\n").arg(job.id);
        const auto bench = open(shelf, clock, other);
        QCOMPARE(bench->openingDifferences().size(), 1);
        const Problem p = bench->openingDifferences().first();
        const Job& was = c->openings.jobs[0];
        QVERIFY(!was.due && was.printers.isEmpty());
        const QString due = toZone(*job.due, other->fleet.zone).toString(text("yyyy-MM-dd HH:mm"));
        QVERIFY2(p.what.contains(text("due was nothing, is %1").arg(due)), qPrintable(p.what));
        QVERIFY2(p.what.contains(text("late-cost-per-hour was %1, is 12.50").arg(static_cast<double>(was.lateCostPerHour.cents()) / 100, 0, 'f', 2)), qPrintable(p.what));
        QVERIFY2(p.what.contains(text("variant `fine`: print-minutes was %1, is 77").arg(was.variants[0].print.count())), qPrintable(p.what));
        QVERIFY2(p.what.contains(text("printers was nothing, is bay-1, bay-2")), qPrintable(p.what));
        QVERIFY2(!p.what.contains(text("-ms")) && !p.what.contains(text("cents")), qPrintable(p.what));
        QVERIFY2(p.text().startsWith(text("jobs.yaml:6:10: warning: Job %1 differs").arg(job.id)), qPrintable(p.text()));
    }

    void performChecksWritesFoldsAndTells() {
        Shelf shelf;
        ManualClock clock(interlude::tests::at(0));
        const auto bench = open(shelf, clock);
        QSignalSpy spy(bench.get(), &Workbench::changed);
        clock.advance(Minutes(3));
        const auto e = bench->perform(act::JobWithdrawn{text("J1"), text("cancelled")}, text("ML"));
        QVERIFY(e);
        QCOMPARE(toMs(e->recordedAt), toMs(interlude::tests::at(3)));
        QCOMPARE(e->who, text("ML"));
        QCOMPARE(e->station, text("bench"));
        QCOMPARE(spy.size(), 1);
        QVERIFY(bench->shop().job(text("J1"))->state == JobState::Withdrawn);
        QCOMPARE(bench->shop().lastHash(), shelf.kept->lastHash());
        QVERIFY(!shelf.kept->verify());
    }

    void aRefusalLeavesAllAsItWas() {
        Shelf shelf;
        ManualClock clock(interlude::tests::at(0));
        const auto bench = open(shelf, clock);
        const QByteArray before = World::digestOf(bench->shop());
        QSignalSpy spy(bench.get(), &Workbench::changed);
        QCOMPARE(bench->perform(act::JobWithdrawn{text("J1"), {}}, text("ML")).error().rule, text("blank"));
        shelf.full = true;
        QCOMPARE(bench->perform(act::JobWithdrawn{text("J1"), text("x")}, text("ML")).error().rule, text("disk"));
        QCOMPARE(World::digestOf(bench->shop()), before);
        QVERIFY(spy.isEmpty());
        shelf.full = false;
        QVERIFY(bench->perform(act::JobWithdrawn{text("J1"), text("x")}, text("ML")));
    }

    void whatHappenedEarlierIsMarkedLate() {
        Shelf shelf;
        ManualClock clock(interlude::tests::at(0));
        const auto bench = open(shelf, clock);
        QVERIFY(bench->perform(startJ2(*bench), text("ML")));
        clock.advance(Minutes(30));
        const auto e = bench->perform(act::StepConfirmed{1, text("fetch"), {}, {}, {}, {}, {}, {}, {}, {}, false},
                                      text("ML"), interlude::tests::at(4));
        QVERIFY2(e, e ? "" : qPrintable(sentence(e.error())));
        QCOMPARE(toMs(e->happenedAt), toMs(interlude::tests::at(4)));
        QCOMPARE(toMs(e->recordedAt), toMs(interlude::tests::at(30)));
        QVERIFY(bench->shop().session(1)->progress(text("fetch")).enteredLate);
        QCOMPARE(toMs(*bench->shop().session(1)->progress(text("fetch")).ended), toMs(interlude::tests::at(4)));
    }

    void theExamplesOffsetIsKept() {
        Shelf shelf;
        auto c = tinyCatalogue();
        c->fleet.exampleClock = toUtc(interlude::tests::at(0));
        ManualClock machine(interlude::tests::at(100'000));
        {
            const auto bench = open(shelf, machine, c);
            QVERIFY(bench->isExample());
            QCOMPARE(toMs(bench->now()), toMs(interlude::tests::at(0)));
            QCOMPARE(kinds(shelf).first(), text("example-started"));
        }
        machine.advance(Minutes(90));
        const auto again = open(shelf, machine, c);
        QCOMPARE(toMs(again->now()), toMs(interlude::tests::at(90)));
        QCOMPARE(kinds(shelf).count(text("example-started")), 1);
        QCOMPARE(toMs(*again->shop().lastRecorded()), toMs(interlude::tests::at(90)));
    }

    void aJumpOfTheWallClockIsRecorded() {
        Shelf shelf;
        ManualClock clock(interlude::tests::at(0));
        const auto bench = open(shelf, clock);
        QVERIFY(bench->perform(startJ2(*bench), text("ML")));
        QSignalSpy spy(bench.get(), &Workbench::clockJumped);
        const qint64 before = shelf.kept->lastSequence();
        for (int i = 0; i < 30; ++i) {
            clock.advance(Seconds(1));
            bench->watchClock();
        }
        clock.setWall(clock.now() + Seconds(4)); // within what a time service corrects
        bench->watchClock();
        QCOMPARE(shelf.kept->lastSequence(), before);
        clock.advance(Seconds(1));
        clock.setWall(clock.now() - Minutes(60));
        bench->watchClock();
        QCOMPARE(kinds(shelf, before), QStringList{text("clock-jumped")});
        QCOMPARE(spy.size(), 1);
        QCOMPARE(spy.first().first().toLongLong(), -3'600'000);
        QCOMPARE(bench->shop().session(1)->interruptions.last().cause, text("clock"));
        clock.advance(Seconds(1));
        bench->watchClock(); // told once
        QCOMPARE(spy.size(), 1);
        QVERIFY(*bench->shop().lastRecorded() < interlude::tests::at(0)); // the wall time as it is
    }

    void anActNoticesAJumpFirst() {
        Shelf shelf;
        ManualClock clock(interlude::tests::at(0));
        const auto bench = open(shelf, clock);
        const qint64 before = shelf.kept->lastSequence();
        clock.setWall(interlude::tests::at(45));
        QVERIFY(bench->perform(act::JobWithdrawn{text("J1"), text("x")}, text("ML")));
        QCOMPARE(kinds(shelf, before), (QStringList{text("clock-jumped"), text("job-withdrawn")}));
        clock.advance(Minutes(20)); // time that goes by between two acts is no jump
        QVERIFY(bench->perform(act::JobWithdrawn{text("J2"), text("x")}, text("ML")));
        QCOMPARE(kinds(shelf, before).size(), 3);
    }

    void sleepIsRecorded() {
        Shelf shelf;
        ManualClock clock(interlude::tests::at(0));
        const auto bench = open(shelf, clock);
        QVERIFY(bench->perform(startJ2(*bench), text("ML")));
        bench->watchClock();
        const qint64 before = shelf.kept->lastSequence();
        clock.advance(Seconds(60));
        bench->watchClock();
        QCOMPARE(shelf.kept->lastSequence(), before);
        clock.advance(Minutes(10));
        bench->watchClock();
        QCOMPARE(kinds(shelf, before), QStringList{text("clock-jumped")});
        const Interruption& i = bench->shop().session(1)->interruptions.last();
        QCOMPARE(i.cause, text("suspend"));
        QCOMPARE((*i.to - i.from).count(), 600'000);
    }

    void aRestartInterruptsAndAClockSetBackMeanwhileIsFound() {
        Shelf shelf;
        ManualClock clock(interlude::tests::at(0));
        QVERIFY(open(shelf, clock) != nullptr);
        {
            const auto bench = open(shelf, clock);
            clock.advance(Minutes(5));
            QVERIFY(bench->perform(startJ2(*bench), text("ML")));
        }
        clock.advance(Minutes(12));
        {
            const auto bench = open(shelf, clock);
            const Interruption& i = bench->shop().session(1)->interruptions.last();
            QCOMPARE(i.cause, text("restart"));
            QCOMPARE((*i.to - i.from).count(), 12LL * 60'000);
        }
        clock.setWall(interlude::tests::at(2)); // 15 minutes before the last event
        const auto bench = open(shelf, clock);
        QCOMPARE(bench->shop().session(1)->interruptions.last().cause, text("clock"));
        QCOMPARE(kinds(shelf).last(), text("clock-jumped"));
        Shop again(tinyCatalogue());
        (void)shelf.kept->read(0, [&](const Event& e) { return again.apply(e).has_value(); });
        QCOMPARE(World::digestOf(again), World::digestOf(bench->shop()));
    }

    void reloadTakesOverACatalogue() {
        Shelf shelf;
        ManualClock clock(interlude::tests::at(0));
        const auto bench = open(shelf, clock);
        QCOMPARE(bench->reload(tinyCatalogue()).error().rule, text("reload-unchanged"));
        auto c = tinyCatalogue();
        c->hash = text("tiny-2");
        c->fleet.name = text("Tiny, renamed");
        const auto e = bench->reload(c);
        QVERIFY(e);
        QCOMPARE(e->kind, text("catalogue-read"));
        QCOMPARE(bench->catalogue().fleet.name, text("Tiny, renamed"));
        QVERIFY(bench->shop().catalogueByHash(text("tiny-1")));
        QVERIFY(bench->perform(startJ2(*bench), text("ML")));
        QCOMPARE(bench->shop().session(1)->catalogueHash, text("tiny-2"));
        auto without = tinyCatalogue();
        without->hash = text("tiny-3");
        without->fleet.printers.removeFirst();
        QCOMPARE(bench->reload(without).error().rule, text("reload"));
        auto other = tinyCatalogue();
        other->fleet.id = text("another");
        QCOMPARE(bench->reload(other).error().rule, text("reload"));
    }

    void lookingWritesNothing() {
        Shelf shelf;
        ManualClock clock(interlude::tests::at(0));
        auto look = Workbench::look(tinyCatalogue(), std::make_unique<Borrowed>(shelf), clock);
        QVERIFY(look);
        QCOMPARE(shelf.kept->lastSequence(), 0);
        QCOMPARE((*look)->shop().lastSequence(), 0);
        QCOMPARE((*look)->shop().stock().spools.size(), 4); // as opening would make it
        QCOMPARE((*look)->perform(act::JobWithdrawn{text("J1"), text("x")}, text("ML")).error().rule,
                 text("read-only"));
        (*look)->watchClock();
        QCOMPARE(shelf.kept->lastSequence(), 0);
        const qint64 written = [&] {
            (void)open(shelf, clock);
            return shelf.kept->lastSequence();
        }();
        auto again = Workbench::look(tinyCatalogue(), std::make_unique<Borrowed>(shelf), clock);
        QVERIFY(again);
        QCOMPARE((*again)->shop().lastSequence(), written);
        QCOMPARE((*again)->shop().lastHash(), shelf.kept->lastHash());
    }

    void aLedgerThatCannotBeReadIsRefused() {
        Shelf shelf;
        ManualClock clock(interlude::tests::at(0));
        Event e;
        e.recordedAt = e.happenedAt = interlude::tests::at(0);
        e.kind = text("moon-phase");
        QVERIFY(shelf.kept->append(e));
        const auto bench = Workbench::open(tinyCatalogue(), std::make_unique<Borrowed>(shelf), clock, text("bench"));
        QVERIFY(!bench);
        QVERIFY(bench.error().reason.contains(text("moon-phase")));
        QCOMPARE(shelf.kept->lastSequence(), 1);
    }
};

INTERLUDE_TEST(WorkbenchTest)
#include "workbench_test.moc"
