// What `certainlyBefore` promises, held against the way in which steps are really laid out.
#include "model/catalogue/procedure_order.h"
#include "tests/harness/run_tests.h"

#include <QRandomGenerator>
#include <QTest>

using namespace interlude;

namespace {

StepTemplate step(const QString& id, int people, const QStringList& after) {
    StepTemplate s;
    s.id = id;
    s.people = people;
    s.after = after;
    return s;
}

struct Span {
    int start = 0, end = 0;
};

/// Predecessors of step `i` among the selected ones: a step not selected passes its order through.
QSet<int> effectiveAfter(const QList<StepTemplate>& steps, const QSet<int>& selected, int i) {
    QSet<int> out;
    for (const StepId& id : steps[i].after) {
        const int p = id.mid(1).toInt();
        out += selected.contains(p) ? QSet<int>{p} : effectiveAfter(steps, selected, p);
    }
    return out;
}

/// Design section 5: hands-on steps one at a time in file order once their `after` are done, waiting steps at once.
QMap<int, Span> layOut(const QList<StepTemplate>& steps, const QSet<int>& selected, const QList<int>& minutes) {
    QMap<int, Span> out;
    for (int now = 0, freeAt = 0; out.size() < selected.size(); ++now) {
        bool started = true;
        while (started) {
            started = false;
            for (int i = 0; i < steps.size(); ++i) {
                if (!selected.contains(i) || out.contains(i))
                    continue;
                const QSet<int> after = effectiveAfter(steps, selected, i);
                const bool ready = std::all_of(after.begin(), after.end(),
                                               [&](int p) { return out.contains(p) && out[p].end <= now; });
                if (!ready || (steps[i].handsOn() && freeAt > now))
                    continue;
                out[i] = {now, now + minutes[i]};
                if (steps[i].handsOn())
                    freeAt = now + minutes[i];
                started = true;
                break;
            }
        }
    }
    return out;
}

} // namespace

class ProcedureOrderTest : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void afterIsCertainThroughOthers() {
        const QList<StepTemplate> steps{step("a", 1, {}), step("w", 0, {"a"}), step("b", 1, {"w"})};
        const ProcedureOrder order(steps);
        QVERIFY(order.certainlyBefore(0, 2));
        QVERIFY(!order.certainlyBefore(2, 0));
        QVERIFY(!order.certainlyBefore(0, 0));
    }
    void fileOrderIsCertainAmongHandsOnSteps() {
        const QList<StepTemplate> steps{step("a", 1, {}), step("b", 1, {})};
        QVERIFY(ProcedureOrder(steps).certainlyBefore(0, 1));
        QVERIFY(!ProcedureOrder(steps).certainlyBefore(1, 0));
    }
    void fileOrderIsOvertakenWhileTheFirstWaits() {
        // b may be done while a waits for w …
        const QList<StepTemplate> waits{step("w", 0, {}), step("a", 1, {"w"}), step("b", 1, {})};
        QVERIFY(!ProcedureOrder(waits).certainlyBefore(1, 2));
        // … but not when it waits for the same.
        const QList<StepTemplate> both{step("w", 0, {}), step("a", 1, {"w"}), step("b", 1, {"w"})};
        QVERIFY(ProcedureOrder(both).certainlyBefore(1, 2));
    }
    void aWaitingStepHasNoFileOrder() {
        const QList<StepTemplate> steps{step("a", 1, {}), step("w", 0, {})};
        QVERIFY(!ProcedureOrder(steps).certainlyBefore(0, 1));
    }
    void externalStepsComeFirst() {
        QList<StepTemplate> steps{step("a", 1, {}), step("x", 1, {})};
        steps[1].external = true;
        QVERIFY(ProcedureOrder(steps).certainlyBefore(1, 0));
    }
    void cyclesAreNamed() {
        const QList<StepTemplate> steps{step("a", 1, {"c"}), step("b", 1, {"a"}), step("c", 1, {"b"}),
                                        step("d", 1, {"d", "a", "unknown"})};
        const auto cycles = ProcedureOrder::cycles(steps);
        QCOMPARE(cycles.size(), 2);
        QCOMPARE(cycles[0], QStringList({"a", "c", "b", "a"}));
        QCOMPARE(cycles[1], QStringList({"d", "d"}));
        QVERIFY(ProcedureOrder::cycles({step("a", 1, {}), step("b", 1, {"a"}), step("c", 1, {"a", "b"})}).isEmpty());
    }
    void aLongChainDoesNotExhaustTheStack() {
        QList<StepTemplate> steps;
        for (int i = 0; i < 200'000; ++i)
            steps.append(step(QString::number(i), 1, {QString::number((i + 1) % 200'000)}));
        QCOMPARE(ProcedureOrder::cycles(steps).size(), 1);
    }
    void whatIsCertainHoldsInEveryLayout() {
        QRandomGenerator random(20260302);
        int promises = 0;
        for (int round = 0; round < (tests::longRun() ? 20'000 : 600); ++round) {
            const int n = 3 + random.bounded(6);
            QList<StepTemplate> steps;
            for (int i = 0; i < n; ++i) {
                QStringList after;
                for (int p = 0; p < n; ++p)
                    if (p != i && random.bounded(100) < 18)
                        after.append(QStringLiteral("s%1").arg(p));
                steps.append(step(QStringLiteral("s%1").arg(i), random.bounded(3) == 0 ? 0 : 1, after));
            }
            if (!ProcedureOrder::cycles(steps).isEmpty())
                continue;
            QSet<int> selected;
            QList<int> minutes;
            for (int i = 0; i < n; ++i) {
                if (random.bounded(4) > 0)
                    selected.insert(i);
                minutes.append(1 + random.bounded(9));
            }
            const ProcedureOrder order(steps);
            const auto spans = layOut(steps, selected, minutes);
            for (const int a : selected)
                for (const int b : selected) {
                    if (!order.certainlyBefore(a, b))
                        continue;
                    ++promises;
                    QVERIFY2(spans[a].end <= spans[b].start,
                             qPrintable(QStringLiteral("round %1: %2 before %3").arg(round).arg(a).arg(b)));
                }
        }
        QVERIFY2(promises > 1000, "too few promises to mean anything");
    }
};

INTERLUDE_TEST(ProcedureOrderTest)
#include "procedure_order_test.moc"
