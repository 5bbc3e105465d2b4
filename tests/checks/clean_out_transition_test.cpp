// Domain reference, section 6: the same 90 cells and the same numbers at other margins as clean_out_table_test, here the
// way that the window goes: a printer's present state and a wanted setup, judged by judgeTransition.
#include "model/changeover/transition.h"
#include "tests/checks/residue_materials.h"
#include "tests/harness/run_tests.h"

#include <QTest>

using namespace interlude;
using namespace interlude::checks;

namespace {

Catalogue catalogueOf(double marginK, CleanOutRule rule) {
    Catalogue c;
    c.fleet.cleanOutMarginK = marginK;
    c.fleet.cleanOutRule = rule;
    PrinterType type;
    type.id = QStringLiteral("any");
    Printer printer;
    printer.id = QStringLiteral("bay");
    printer.type = type.id;
    c.fleet.printerTypes = {type};
    c.fleet.printers = {printer};
    for (const ResidueMaterial& row : residueMaterials()) {
        Material m;
        m.id = m.polymer = row.name;
        m.softening = Temperature::fromCelsius(row.softeningC);
        m.chamber = Temperature::fromCelsius(row.chamberC);
        m.nozzle = Temperature::fromCelsius(300);
        m.meltMax = Temperature::fromCelsius(500); // wiper and bin are not in question here
        c.materials.append(m);
    }
    return c;
}

/// One print of `from` at its nominal set-point since the last clean-out; then `to`.
CleanOut judge(const Catalogue& c, const QString& from, const QString& to) {
    TransitionRequest r;
    r.now.id = QStringLiteral("bay");
    r.now.part.loaded = r.now.lastPart = from;
    r.now.chamberSet = c.material(from)->chamber;
    r.now.residue = {{from, c.material(from)->chamber, c.material(from)->nozzle}};
    r.now.wiper = r.now.residue;
    r.wanted.part = to;
    const Transition t = judgeTransition(c, {}, r, Instant{});
    const bool mandatory = t.chamber.level == CleanOut::Mandatory;
    for (const Finding& f : t.verdicts) // what the window shows says the same
        if (f.rule == QStringLiteral("clean-out") && (f.severity == Severity::Mandatory) != mandatory)
            qFatal("the finding and the verdict differ");
    return t.chamber.level;
}

int mandatoryCells(double marginK, CleanOutRule rule) {
    const Catalogue c = catalogueOf(marginK, rule);
    int n = 0;
    for (const Material& from : c.materials)
        for (const Material& to : c.materials)
            n += from.id != to.id && judge(c, from.id, to.id) == CleanOut::Mandatory;
    return n;
}

} // namespace

class CleanOutTransitionTest : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void cells() {
        const QList<QByteArray> rows = {"- m M M m M M M M M", "A - M M A M M M M M", "A A - M A m M M M M",
                                        "A A A - A A M M M M", "A A A M - A M M M M", "A A A M A - M M M M",
                                        "A A A A A A - A A A", "A A A A A A A - A A", "A A A A A A M M - M",
                                        "A A A A A A M M m -"};
        const Catalogue up = catalogueOf(10, CleanOutRule::GoingUp), strict = catalogueOf(10, CleanOutRule::Strict);
        for (int f = 0; f < rows.size(); ++f)
            for (int t = 0; t < rows.size(); ++t) {
                const char cell = rows[f].at(2 * t);
                const QString from = residueMaterials()[f].name, to = residueMaterials()[t].name;
                const CleanOut byUp = cell == 'M' ? CleanOut::Mandatory : cell == '-' ? CleanOut::None : CleanOut::Advised;
                const CleanOut byStrict = cell == 'm' ? CleanOut::Mandatory : byUp;
                QVERIFY2(judge(up, from, to) == byUp, qPrintable(from + " to " + to));
                QVERIFY2(judge(strict, from, to) == byStrict, qPrintable(from + " to " + to));
            }
    }

    void numbersAtOtherMargins() {
        QList<int> strict, goingUp;
        for (double m : {0.0, 5.0, 10.0, 15.0, 20.0}) {
            strict.append(mandatoryCells(m, CleanOutRule::Strict));
            goingUp.append(mandatoryCells(m, CleanOutRule::GoingUp));
        }
        QCOMPARE(strict, QList<int>({37, 40, 42, 50, 52}));
        QCOMPARE(goingUp, QList<int>({36, 38, 38, 41, 42}));
    }

    void goingDownItIsNeverMandatory() {
        const Catalogue c = catalogueOf(10, CleanOutRule::GoingUp);
        for (const Material& from : c.materials)
            for (const Material& to : c.materials)
                if (*to.chamber <= *from.chamber) QVERIFY(judge(c, from.id, to.id) != CleanOut::Mandatory);
    }
};

INTERLUDE_TEST(CleanOutTransitionTest)
#include "clean_out_transition_test.moc"
