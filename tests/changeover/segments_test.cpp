// Timing: segments, start, part removal, preparation, critical path, measured tables.
#include "tests/changeover/small_shop.h"
#include "tests/harness/run_tests.h"

#include <QTest>

using namespace interlude;
using namespace interlude::tests;

namespace {

QStringList cut(const QStringList& lines) { return inWords(shopWith(lines).planned().segments); }

} // namespace

class SegmentsTest : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void handsOnAndWaiting() {
        QCOMPARE(cut({"a 3m", "b 2m", "cool 10m wait after=b", "c 4m", "d 1m after=cool,c"}),
                 QStringList({"hands-on 0-9 x1 [a b c]", "waiting 9-15 x0 [cool]", "hands-on 15-16 x1 [d]"}));
        // a 0–3, b 3–5, cool 5–15, c 5–9: nobody works from 9 to 15
    }

    void aWaitBehindTheWorkIsNoSegment() {
        QCOMPARE(cut({"cool 2m wait", "a 5m", "b 1m after=a,cool"}), QStringList({"hands-on 0-6 x1 [cool a b]"}));
    }

    void whereThePeopleChange() {
        QCOMPARE(cut({"a 3m", "b 2m 2p", "c 2m 2p", "d 1m"}),
                 QStringList({"hands-on 0-3 x1 [a]", "hands-on 3-7 x2 [b c]", "hands-on 7-8 x1 [d]"}));
    }

    void beforeEveryNozzleRemovalAndMounting() {
        QCOMPARE(cut({"a 3m", "out 2m effect=remove-nozzle-part", "b 1m", "in 2m effect=mount-nozzle-part", "c 1m"}),
                 QStringList({"hands-on 0-3 x1 [a]", "hands-on 3-6 x1 [out b]", "hands-on 6-9 x1 [in c] mounts"}));
    }

    void zeroMinutesDoNotExist() {
        QCOMPARE(cut({"look 0m", "a 3m after=look", "tick 0m after=a", "wait0 wait after=tick", "b 2m after=wait0"}),
                 QStringList({"hands-on 0-5 x1 [look a tick wait0 b]"}));
        QCOMPARE(cut({"look 0m", "tick 0m"}), QStringList());
        // a removal of 0 minutes still cuts, and begins the next stretch
        QCOMPARE(cut({"a 3m", "in 0m effect=mount-nozzle-part", "b 2m"}),
                 QStringList({"hands-on 0-3 x1 [a]", "hands-on 3-5 x1 [in b] mounts"}));
        // with a wait behind it, it ends the stretch before
        QCOMPARE(cut({"a 3m", "tick 0m", "cool 4m wait after=tick", "b 2m after=cool"}),
                 QStringList({"hands-on 0-3 x1 [a tick]", "waiting 3-7 x0 [cool]", "hands-on 7-9 x1 [b]"}));
    }

    void toolsOfASegment() {
        const Changeover c = shopWith({"a 3m tools=key,lamp", "b 2m tools=key,key", "cool 3m wait tools=fan after=b"}).planned();
        QCOMPARE(c.segments[0].tools, QStringList({"key", "lamp", "key"})); // two keys at once in b
        QCOMPARE(c.segments[1].tools, QStringList());
    }

    void sums() {
        const Changeover c = shopWith({"prep 4m ext", "a 3m", "b 2m 2p", "cool 10m wait after=b", "c 1m after=cool"}).planned();
        QCOMPARE(c.preparation, Minutes(4));
        QCOMPARE(c.internal, Minutes(16)); // 3 + 2 + 10 + 1
        QCOMPARE(c.handsOn, Minutes(8));   // 3 + 2 · 2 + 1
        QCOMPARE(c.waiting, Minutes(10));
        QCOMPARE(c.partRemoval, Minutes(0));
    }

    void externalWorkIsOneBlockOnItsOwnClock() {
        const Changeover c =
            shopWith({"a 3m after=f2", "f1 4m ext tools=lamp", "f2 5m ext after=f1", "dry 30m ext wait", "b 1m"}).planned();
        QCOMPARE(inWords(c.segments),
                 QStringList({"preparation 0-30 x1 [dry f1 f2]", "hands-on 0-4 x1 [a b]"}));
        QCOMPARE(c.criticalPath, QStringList({"a", "b"})); // external work is off it
        for (const PlannedStep& p : c.steps) QVERIFY(!(p.step.external && p.critical));
    }

    void anExternalStepBehindInternalWorkIsInternal() {
        const Changeover c = shopWith({"a 3m", "f 4m ext after=a"}).planned();
        QCOMPARE(inWords(c.segments), QStringList({"hands-on 0-7 x1 [a f]"}));
        QCOMPARE(c.preparation, Minutes(0));
    }

    void partRemovalComesFirst() {
        SmallShop shop = shopWith({"a 3m", "stand 1m when=part-lying", "cool 5m wait after=stand when=part-lying",
                                   "out 6m after=cool effect=remove-part", "b 1m after=out"});
        shop.bay().activity = Activity::PartLying;
        const Changeover c = shop.planned();
        QCOMPARE(inWords(c.segments),
                 QStringList({"part-removal 0-1 x1 [stand]", "part-removal 1-6 x0 [cool]", "part-removal 6-12 x1 [out]",
                              "hands-on 12-16 x1 [a b]"}));
        QCOMPARE(c.partRemoval, Minutes(12));
        QCOMPARE(c.internal, Minutes(4));
        QCOMPARE(c.criticalPath, QStringList({"stand", "cool", "out", "a", "b"}));
    }

    void partRemovalMinutesServeOnlyWithoutSuchSteps() {
        SmallShop shop = shopWith({"a 3m"});
        shop.type().partRemoval = Minutes(7);
        QCOMPARE(inWords(shop.planned().segments), QStringList({"hands-on 0-3 x1 [a]"}));
        shop.bay().activity = Activity::Printing;
        QCOMPARE(inWords(shop.planned().segments), QStringList({"part-removal 0-7 x1 []", "hands-on 7-10 x1 [a]"}));
        shop.steps({"a 3m", "out 6m effect=remove-part"});
        QCOMPARE(inWords(shop.planned().segments), QStringList({"part-removal 0-6 x1 [out]", "hands-on 6-9 x1 [a]"}));
    }

    void atLeastStartMinutesHandsOn() {
        SmallShop shop = shopWith({"a 3m", "cool 10m wait after=a", "start 1m after=cool effect=start-print"});
        shop.type().start = Minutes(4);
        QCOMPARE(inWords(shop.planned().segments),
                 QStringList({"hands-on 0-3 x1 [a]", "waiting 3-13 x0 [cool]", "hands-on 13-14 x1 [start]"}));
        shop.type().start = Minutes(6); // 2 more, in the last hands-on segment
        QCOMPARE(inWords(shop.planned().segments),
                 QStringList({"hands-on 0-3 x1 [a]", "waiting 3-13 x0 [cool]", "hands-on 13-16 x1 [start]"}));
        shop.steps({"a 3m", "cool 10m wait after=a"});
        const Changeover c = shop.planned(); // what comes behind it moves on
        QCOMPARE(inWords(c.segments), QStringList({"hands-on 0-6 x1 [a]", "waiting 6-16 x0 [cool]"}));
        QCOMPARE(c.step("cool")->start, Minutes(6));
        shop.steps({"cool 10m wait", "start 0m after=cool effect=start-print"});
        QCOMPARE(inWords(shop.planned().segments),
                 QStringList({"waiting 0-10 x0 [cool start]", "hands-on 10-16 x1 [start]"}));
        shop.steps({});
        QCOMPARE(inWords(shop.planned().segments), QStringList({"hands-on 0-6 x1 []"}));
    }

    void unattendedNeedsNobody() {
        SmallShop shop = shopWith({"a 3m", "b 2m 2p", "cool 10m wait after=b"});
        shop.printer().unattended = true;
        shop.type().start = Minutes(5);
        const Changeover c = shop.planned();
        QCOMPARE(inWords(c.segments), QStringList({"waiting 0-15 x0 [a b cool]"}));
        QCOMPARE(c.handsOn, Minutes(0));
        QCOMPARE(c.internal, Minutes(15));
    }

    void criticalPathThroughTheOnePairOfHands() {
        // cool 0–12 in parallel; a 0–5, b 5–9 by hand; c needs both: 12–15. The path runs through the wait …
        QCOMPARE(shopWith({"cool 12m wait", "a 5m", "b 4m", "c 3m after=cool,b"}).planned().criticalPath,
                 QStringList({"cool", "c"}));
        // … until the hands are busier than the clock, though b does not come after a
        QCOMPARE(shopWith({"cool 8m wait", "a 5m", "b 4m", "c 3m after=cool,b"}).planned().criticalPath,
                 QStringList({"a", "b", "c"}));
    }

    void theExampleOfOneTechnicianAndOnePrinter() {
        // domain reference 9e: one technician, one printer: 127 min (= the critical path); Fetch is external here, 7 min
        const Changeover c = shopWith({"fetch 7m ext", "unload 8m", "cool-head 24m wait after=unload",
                                       "cool-chamber 43m wait after=unload", "exchange 6m after=cool-head",
                                       "clean 10m after=cool-chamber", "heat 35m wait after=exchange,clean",
                                       "load 9m after=heat", "purge 4m wait after=load", "print-test 12m wait after=purge",
                                       "measure 6m after=print-test"})
                                 .planned();
        QCOMPARE(c.internal, Minutes(127)); // 8 + 43 + 10 + 35 + 9 + 4 + 12 + 6
        QCOMPARE(c.criticalPath,
                 QStringList({"unload", "cool-chamber", "clean", "heat", "load", "purge", "print-test", "measure"}));
        QCOMPARE(c.handsOn, Minutes(39)); // 8 + 6 + 10 + 9 + 6
    }

    void aMeasuredTableReplacesTheSteps() {
        SmallShop shop = shopWith({"a 3m"});
        shop.type().start = Minutes(5);
        shop.printer().hasMeasured = true;
        shop.printer().measured = {{"A", "B", Minutes(42), Minutes(12)}, {"B", "A", Minutes(20), Minutes(20)}};
        shop.request.wanted = Setup{};
        shop.request.wanted.label = QStringLiteral("B");
        shop.bay().label = QStringLiteral("A");
        const Changeover c = shop.planned();
        QCOMPARE(inWords(c.segments), QStringList({"hands-on 0-12 x1 []", "waiting 12-42 x0 []"}));
        QCOMPARE(c.internal, Minutes(42));
        QVERIFY(c.steps.isEmpty());
        shop.bay().label = QStringLiteral("B"); // the same label costs 0
        QCOMPARE(inWords(shop.planned().segments), QStringList());
        shop.request.wanted.label = QStringLiteral("A");
        QCOMPARE(inWords(shop.planned().segments), QStringList({"hands-on 0-20 x1 []"}));
        shop.printer().unattended = true;
        QCOMPARE(shop.plan()->internal, Minutes(20));
        shop.request.wanted.label = QStringLiteral("C");
        QCOMPARE(shop.plan().error().rule, QStringLiteral("measured-changeover"));
        shop.request.allowedPrinters = {"other"};
        QCOMPARE(shop.plan().error().rule, QStringLiteral("job-printers"));
    }

    void onAnUnattendedPrinterTheTablesFigureWaits() {
        SmallShop shop = shopWith({});
        shop.printer().hasMeasured = shop.printer().unattended = true;
        shop.printer().measured = {{"A", "B", Minutes(20), Minutes(20)}};
        shop.request.wanted = Setup{};
        shop.request.wanted.label = QStringLiteral("B");
        shop.bay().label = QStringLiteral("A");
        QCOMPARE(inWords(shop.planned().segments), QStringList({"waiting 0-20 x0 []"}));
    }
};

INTERLUDE_TEST(SegmentsTest)
#include "segments_test.moc"
