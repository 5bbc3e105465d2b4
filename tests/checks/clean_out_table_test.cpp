// Domain reference, section 6: the 90 cells from one material to another at nominal values, m = 10 K, and the number of
// mandatory cells at other margins. The reference computed them from the rule; the downward and within-class pattern
// agrees with common practice (section 12: imperative going up, optional within a class), no source.
#include "tests/checks/residue_materials.h"
#include "tests/harness/run_tests.h"

#include <QTest>

using namespace interlude;
using namespace interlude::checks;

namespace {

CleanOutVerdict judge(const ResidueMaterial& from, const ResidueMaterial& to, double marginK, CleanOutRule rule) {
    CleanOutQuestion q;
    q.residue = {deposit(from, from.chamberC)};
    q.lastPart = from.name;
    q.nextPart = to.name;
    q.next = Temperature::fromCelsius(to.chamberC);
    q.marginK = marginK;
    q.rule = rule;
    return judgeCleanOut(q);
}

QStringList mandatoryCells(double marginK, CleanOutRule rule) {
    QStringList cells;
    for (const ResidueMaterial& from : residueMaterials())
        for (const ResidueMaterial& to : residueMaterials())
            if (from.name != to.name && judge(from, to, marginK, rule).level == CleanOut::Mandatory)
                cells.append(from.name + QStringLiteral(">") + to.name);
    return cells;
}

/// What `a` has and `b` has not.
QStringList without(const QStringList& a, const QStringList& b) {
    QStringList out;
    for (const QString& cell : a)
        if (!b.contains(cell))
            out.append(cell);
    out.sort();
    return out;
}

QStringList sorted(QStringList cells) {
    cells.sort();
    return cells;
}

} // namespace

class CleanOutTableTest : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void cells_data() {
        // M mandatory by both rules, m by the strict rule only, A advised, - none. Rows from, columns to, both in the
        // order of residueMaterials().
        const QList<QByteArray> rows = {"- m M M m M M M M M", "A - M M A M M M M M", "A A - M A m M M M M",
                                        "A A A - A A M M M M", "A A A M - A M M M M", "A A A M A - M M M M",
                                        "A A A A A A - A A A", "A A A A A A A - A A", "A A A A A A M M - M",
                                        "A A A A A A M M m -"};
        QTest::addColumn<QString>("from");
        QTest::addColumn<QString>("to");
        QTest::addColumn<char>("cell");
        for (int f = 0; f < rows.size(); ++f)
            for (int t = 0; t < rows.size(); ++t)
                QTest::addRow("%s to %s", qPrintable(residueMaterials()[f].name),
                              qPrintable(residueMaterials()[t].name))
                    << residueMaterials()[f].name << residueMaterials()[t].name << rows[f].at(2 * t);
    }

    void cells() {
        QFETCH(QString, from);
        QFETCH(QString, to);
        QFETCH(char, cell);
        const auto level = [&](CleanOutRule rule) {
            return judge(residueMaterial(from), residueMaterial(to), 10, rule).level;
        };
        const CleanOut strict = cell == 'M' || cell == 'm' ? CleanOut::Mandatory
                                : cell == 'A'              ? CleanOut::Advised
                                                           : CleanOut::None;
        QCOMPARE(level(CleanOutRule::Strict), strict);
        QCOMPARE(level(CleanOutRule::GoingUp), cell == 'm' ? CleanOut::Advised : strict);
    }

    void numbersAtOtherMargins() {
        const QList<double> margins = {0, 5, 10, 15, 20};
        QList<int> strict, goingUp;
        for (double m : margins) {
            strict.append(static_cast<int>(mandatoryCells(m, CleanOutRule::Strict).size()));
            goingUp.append(static_cast<int>(mandatoryCells(m, CleanOutRule::GoingUp).size()));
        }
        QCOMPARE(strict, QList<int>({37, 40, 42, 50, 52}));
        QCOMPARE(goingUp, QList<int>({36, 38, 38, 41, 42}));
    }

    void whichCellsChangeWithTheMargin() {
        const auto cells = [](double m) { return mandatoryCells(m, CleanOutRule::Strict); };
        QCOMPARE(without(cells(10), cells(5)), QStringList({"ASA>ABS", "ASA>PA12"}));
        QCOMPARE(without(cells(5), cells(0)), QStringList({"ABS>PA12-CF", "PC-ABS>PA12-CF", "PC>PEKK"}));
        QCOMPARE(without(cells(15), cells(10)), sorted({"PA12>PC-ABS", "PA12-CF>PC-ABS", "PEI>PPSU", "ABS>ASA",
                                                        "ABS>PA12", "PC-ABS>ASA", "PC-ABS>ABS", "PC-ABS>PA12"}));
    }

    void onAnEqualityItIsMandatory_data() {
        QTest::addColumn<QString>("from");
        QTest::addColumn<QString>("to");
        QTest::addColumn<double>("margin");
        // 105 − 5 = 100 = chamber of PA12-CF; 100 − 10 = 90 = chamber of ABS; 217 − 12 = 205 = chamber of PPSU
        QTest::newRow("ABS to PA12-CF") << "ABS"
                                        << "PA12-CF" << 5.0;
        QTest::newRow("ASA to ABS") << "ASA"
                                    << "ABS" << 10.0;
        QTest::newRow("PEI to PPSU") << "PEI"
                                     << "PPSU" << 12.0;
    }

    void onAnEqualityItIsMandatory() {
        QFETCH(QString, from);
        QFETCH(QString, to);
        QFETCH(double, margin);
        const auto level = [&](double m) {
            return judge(residueMaterial(from), residueMaterial(to), m, CleanOutRule::Strict).level;
        };
        QCOMPARE(level(margin), CleanOut::Mandatory);
        QCOMPARE(level(margin - 0.001), CleanOut::Advised);
    }
};

INTERLUDE_TEST(CleanOutTableTest)
#include "clean_out_table_test.moc"
