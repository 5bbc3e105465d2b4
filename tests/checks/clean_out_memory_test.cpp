// Domain reference, section 6, below the table: residue has memory. The history of a chamber is played run by run with
// the rule of design section 5: judge first; then every item that is left has seen the run's chamber temperature, and
// the run adds one item per material.
#include "tests/checks/residue_materials.h"
#include "tests/harness/run_tests.h"

#include <QTest>

using namespace interlude;
using namespace interlude::checks;

namespace {

class Chamber {
public:
    explicit Chamber(CleanOutRule rule = CleanOutRule::GoingUp) { m_question.rule = rule; }

    CleanOut judge(const ResidueMaterial& part, const ResidueMaterial* support = nullptr) const {
        CleanOutQuestion q = m_question;
        q.nextPart = part.name;
        q.nextSupport = support ? support->name : QString();
        q.next = Temperature::fromCelsius(part.chamberC);
        return judgeCleanOut(q).level;
    }

    void run(const ResidueMaterial& part, const ResidueMaterial* support = nullptr) {
        const Temperature chamber = Temperature::fromCelsius(part.chamberC);
        for (ResidueFigures& item : m_question.residue)
            item.seen = std::max(item.seen.value_or(chamber), chamber);
        m_question.residue.append(deposit(part, part.chamberC));
        if (support)
            m_question.residue.append(deposit(*support, part.chamberC));
        m_question.lastPart = part.name;
        m_question.lastSupport = support ? support->name : QString();
    }

    void cleanOut() { m_question.residue.clear(); }

private:
    CleanOutQuestion m_question;
};

const ResidueMaterial absGrade = residueMaterial(QStringLiteral("ABS"));
const ResidueMaterial pcGrade = residueMaterial(QStringLiteral("PC"));
const ResidueMaterial peiGrade = residueMaterial(QStringLiteral("PEI"));
const ResidueMaterial ppsuGrade = residueMaterial(QStringLiteral("PPSU"));

/// The row of a part material with a support: M or A for each other part material (printed without support).
QByteArray row(const ResidueMaterial& from, const ResidueMaterial* support, CleanOutRule rule = CleanOutRule::GoingUp) {
    Chamber chamber(rule);
    chamber.run(from, support);
    QByteArray cells;
    for (const ResidueMaterial& to : residueMaterials())
        cells.append(to.name == from.name ? '.' : chamber.judge(to) == CleanOut::Mandatory ? 'M' : 'A');
    return cells;
}

} // namespace

class CleanOutMemoryTest : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void aSkippedAdvisedCleanOutComesBack() {
        Chamber chamber;
        chamber.run(peiGrade);
        QCOMPARE(chamber.judge(absGrade), CleanOut::Advised); // 90 < 217 − 10
        chamber.run(absGrade);                                // skipped
        // the pair ABS → PEI: 190 >= 105 − 10 and 190 > 90, the hottest that the ABS has seen
        QCOMPARE(chamber.judge(peiGrade), CleanOut::Mandatory);
    }

    void afterTheCleanOutItIsForgotten() {
        Chamber chamber;
        chamber.run(absGrade);
        chamber.cleanOut();
        QCOMPARE(chamber.judge(peiGrade), CleanOut::None);
        chamber.run(peiGrade);
        QCOMPARE(chamber.judge(peiGrade), CleanOut::None);
    }

    void theSamePairWithSomethingElseLeftIsNotNone() {
        Chamber chamber;
        chamber.run(peiGrade);
        chamber.run(absGrade);
        QCOMPARE(chamber.judge(absGrade), CleanOut::Advised);
        // both have now seen 190 if somebody runs PEI all the same; then PEI → PEI is the same pair, but ABS is left
        chamber.run(peiGrade);
        QCOMPARE(chamber.judge(peiGrade), CleanOut::Advised); // 190 is not above the 190 that all of it has seen
    }

    void thereAndBackTwice() {
        // ABS → PEI → ABS → PEI, every clean-out skipped: the second deposit of ABS has seen 90 only
        Chamber chamber;
        chamber.run(absGrade);
        QCOMPARE(chamber.judge(peiGrade), CleanOut::Mandatory);
        chamber.run(peiGrade);
        QCOMPARE(chamber.judge(absGrade), CleanOut::Advised);
        chamber.run(absGrade);
        QCOMPARE(chamber.judge(peiGrade), CleanOut::Mandatory);
    }

    void itemsMergedByMaterialKeepTheLowest() {
        CleanOutQuestion q;
        q.lastPart = absGrade.name;
        q.nextPart = peiGrade.name;
        q.next = Temperature::fromCelsius(190);
        q.residue = {deposit(absGrade, std::min(190.0, 90.0)), deposit(peiGrade, 190)};
        QCOMPARE(judgeCleanOut(q).level, CleanOut::Mandatory);
        // what keeping the highest would have said: the trap that the reference names
        q.residue = {deposit(absGrade, std::max(190.0, 90.0)), deposit(peiGrade, 190)};
        QCOMPARE(judgeCleanOut(q).level, CleanOut::Advised);
    }

    void bothConditionsMustHoldForTheSameItem() {
        // one item is soft at 125 but has seen 130; the other has seen only 90 but softens far above
        CleanOutQuestion q;
        q.residue = {deposit(absGrade, 130), deposit(peiGrade, 90)};
        q.lastPart = peiGrade.name;
        q.nextPart = pcGrade.name;
        q.next = Temperature::fromCelsius(125);
        QCOMPARE(judgeCleanOut(q).level, CleanOut::Advised);
        q.rule = CleanOutRule::Strict;
        QCOMPARE(judgeCleanOut(q).level, CleanOut::Mandatory);
    }

    void supportsOfAbsChangeNothing() {
        QCOMPARE(row(absGrade, nullptr), QByteArray("A.MMAMMMMM"));
        QCOMPARE(row(absGrade, &polystyreneSupport), row(absGrade, nullptr));
        QCOMPARE(row(absGrade, &acrylicSupport), row(absGrade, nullptr));
    }

    void polystyreneUnderPolycarbonate() {
        // the support already lives above its softening temperature there, so going up adds nothing …
        QCOMPARE(row(pcGrade, nullptr), QByteArray("AAA.AAMMMM"));
        QCOMPARE(row(pcGrade, &polystyreneSupport), row(pcGrade, nullptr));
        // … while the strict rule makes every change mandatory, even down to 90 °C
        QCOMPARE(row(pcGrade, &polystyreneSupport, CleanOutRule::Strict), QByteArray("MMM.MMMMMM"));
    }

    void polysulfoneSupportTurnsOneCell() {
        // PEI → PPSU: 205 >= 185 − 10 and 205 > 190; nothing else changes
        QCOMPARE(row(peiGrade, nullptr), QByteArray("AAAAAAA.AA"));
        QCOMPARE(row(peiGrade, &polysulfoneSupport), QByteArray("AAAAAAM.AA"));
        // PPSU → PEI goes down
        QCOMPARE(row(ppsuGrade, &polysulfoneSupport), QByteArray("AAAAAA.AAA"));
    }

    void theSamePairIsTestedFirst() {
        // 90 >= 100 − 10, yet the same pair follows and nothing else is left
        Chamber strict(CleanOutRule::Strict);
        strict.run(absGrade, &polystyreneSupport);
        QCOMPARE(strict.judge(absGrade, &polystyreneSupport), CleanOut::None);
        QCOMPARE(strict.judge(absGrade), CleanOut::Mandatory); // without its support it is another pair
    }
};

INTERLUDE_TEST(CleanOutMemoryTest)
#include "clean_out_memory_test.moc"
