// Two people at one printer: how long the steps take side by side, and which of them decide it.
#include "model/changeover/crew_layout.h"
#include "tests/changeover/small_shop.h"
#include "tests/harness/run_tests.h"

#include <QTest>

#include <random>

using namespace interlude;
using namespace interlude::tests;

namespace {

std::optional<CrewLayout> twoAt(const QStringList& lines, int people = 2) {
    SmallShop shop = shopWith(lines);
    const Changeover c = shop.planned();
    return layOutFor(c, shop.catalogue, people);
}

int startOf(const CrewLayout& layout, const QString& id) {
    for (const CrewStep& s : layout.steps)
        if (s.step == id) return static_cast<int>(s.start.count());
    return -1;
}

/// The shortest length over every order of the steps, by trying them all minute by minute.
int shortest(const QList<int>& minutes, const QList<int>& people, const QList<QList<int>>& after, int crew) {
    const int n = static_cast<int>(minutes.size());
    int best = 0;
    for (int m : minutes) best += m;
    QList<int> begun(n, -1);
    const std::function<void(int, int)> go = [&](int now, int left) {
        int end = now, busy = 0, next = -1;
        for (int i = 0; i < n; ++i) {
            if (begun[i] < 0) continue;
            const int stop = begun[i] + minutes[i];
            end = std::max(end, stop);
            if (stop > now) {
                busy += people[i];
                if (next < 0 || stop < next) next = stop;
            }
        }
        if (end >= best && left > 0) return;
        if (left == 0) {
            best = std::min(best, end);
            return;
        }
        for (int i = 0; i < n; ++i) {
            if (begun[i] >= 0 || busy + people[i] > crew) continue;
            const bool ready = std::all_of(after[i].begin(), after[i].end(),
                                           [&](int b) { return begun[b] >= 0 && begun[b] + minutes[b] <= now; });
            if (!ready) continue;
            begun[i] = now;
            go(now, left - 1);
            begun[i] = -1;
        }
        if (next >= 0) go(next, left);
    };
    go(0, n);
    return best;
}

} // namespace

class CrewLayoutTest : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void onePersonTakesWhatTheTeamTakes() {
        SmallShop shop = shopWith({"cool 12m wait", "a 5m", "b 4m", "c 3m after=cool,b"});
        const Changeover c = shop.planned();
        const auto one = layOutFor(c, shop.catalogue, 1);
        QVERIFY(one);
        QCOMPARE(one->length, c.internal);
    }

    void whatNothingPutsInOrderGoesSideBySide() {
        const auto two = twoAt({"a 5m", "b 4m", "c 3m after=a,b"});
        QVERIFY(two);
        QCOMPARE(two->length, Minutes(8)); // a and b from 0, c from 5 to 8
        QCOMPARE(two->chain, QStringList({"a", "c"}));
        QVERIFY(two->shortest);
    }

    void aStepForTwoWaitsForBoth() {
        const auto two = twoAt({"a 5m", "b 2m", "lift 4m 2p", "c 3m"});
        QVERIFY(two);
        // 5 + 2 + 8 + 3 minutes of people by two is 9; a beside b and c, then both lift
        QCOMPARE(two->length, Minutes(9));
        QVERIFY(two->shortest);
        const int lift = startOf(*two, "lift");
        QVERIFY(lift == 0 || lift == 5);
    }

    void tooFewPeopleIsSaid() { QVERIFY(!twoAt({"a 5m", "lift 4m 3p"})); }

    void oneToolIsInOnePlace() {
        const auto two = twoAt({"a 5m tools=hook", "b 4m tools=hook"});
        QVERIFY(two);
        QCOMPARE(two->length, Minutes(9));
    }

    void powerCannotBeOnAndIsolated() {
        const auto two = twoAt({"a 5m power=isolated", "b 4m power=on"});
        QVERIFY(two);
        QCOMPARE(two->length, Minutes(9));
        QCOMPARE(twoAt({"a 5m power=isolated", "b 4m"})->length, Minutes(5));
    }

    void externalStepsAndThePartAreOutside() {
        const auto two = twoAt({"fetch 30m ext", "out 6m effect=remove-part", "a 5m after=out", "b 4m after=out"});
        QVERIFY(two);
        QCOMPARE(startOf(*two, "fetch"), -1);
        QCOMPARE(startOf(*two, "out"), -1);
        QCOMPARE(two->length, Minutes(5));
    }

    void randomNetworksAgainstEveryOrder() {
        int equal = 0, all = 0;
        std::mt19937 random(7);
        for (int round = 0; round < (longRun() ? 600 : 150); ++round) {
            const int n = 3 + static_cast<int>(random() % 5);
            QStringList lines;
            QList<int> minutes, people;
            QList<QList<int>> after;
            for (int i = 0; i < n; ++i) {
                minutes.append(1 + static_cast<int>(random() % 9));
                people.append(static_cast<int>(random() % 3));
                after.append(QList<int>());
                QStringList names;
                for (int b = 0; b < i; ++b)
                    if (random() % 4 == 0) {
                        after[i].append(b);
                        names.append(QString("s%1").arg(b));
                    }
                lines.append(QString("s%1 %2m %3%4").arg(i).arg(minutes[i]).arg(people[i] == 0 ? QString("wait") : QString("%1p").arg(people[i]),
                                                                             names.isEmpty() ? QString() : " after=" + names.join(',')));
            }
            const auto two = twoAt(lines);
            QVERIFY(two);
            const int least = shortest(minutes, people, after, 2);
            QVERIFY2(two->length >= Minutes(least), qPrintable(lines.join("; ")));
            if (two->shortest) QCOMPARE(two->length, Minutes(least));
            // The chain leads from the start to the end without a gap.
            Minutes at{0};
            for (const StepId& id : two->chain)
                for (const CrewStep& s : two->steps)
                    if (s.step == id) {
                        QCOMPARE(s.start, at);
                        at = s.end;
                    }
            QCOMPARE(at, two->length);
            ++all;
            equal += two->length == Minutes(least) ? 1 : 0;
        }
        QVERIFY2(equal >= all * 98 / 100, qPrintable(QString("%1 of %2").arg(equal).arg(all)));
    }
};

INTERLUDE_TEST(CrewLayoutTest)
#include "crew_layout_test.moc"
