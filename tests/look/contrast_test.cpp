// Contrast of every text with what it stands on, in both themes. Formula: WCAG 2.2, relative luminance and contrast
// ratio (W3C Recommendation, definitions), limits of success criteria 1.4.3 (4.5, large text 3) and 1.4.11 (3).
#include "tests/harness/run_tests.h"
#include "tests/look/wcag.h"
#include "views/look/look.h"
#include "views/look/style_sheet.h"

#include <QtTest>

using namespace interlude;
using namespace interlude::look;

using interlude::tests::contrast;

class ContrastTest : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void formulaKnowsTheExtremes() {
        // Black on white is 21:1 by definition; a colour on itself is 1:1.
        QVERIFY(std::abs(contrast(Qt::black, Qt::white) - 21.0) < 1e-6);
        QVERIFY(std::abs(contrast(Qt::red, Qt::red) - 1.0) < 1e-9);
        // #767676 on white is the well-known lightest grey that passes: 4.54.
        QVERIFY(std::abs(contrast(QColor(0x76, 0x76, 0x76), Qt::white) - 4.54) < 0.01);
    }

    void textOnSurfaces_data() {
        QTest::addColumn<QColor>("ink");
        QTest::addColumn<QColor>("under");
        QTest::addColumn<double>("least");
        for (const Theme theme : {Theme::Light, Theme::Dark}) {
            const Colours c = coloursOf(theme);
            const QList<std::pair<QString, QColor>> inks = {
                {"muted", c.muted},   {"soft", c.soft},     {"text", c.text},       {"accent", c.accent},
                {"alarm", c.alarm},   {"good", c.good},     {"danger", c.danger},   {"warning", c.warning},
                {"caution", c.caution}, {"notice", c.notice}};
            const QList<std::pair<QString, QColor>> unders = {
                {"ground", c.ground}, {"panel", c.panel}, {"selected", c.selected}};
            for (const auto& [inkName, ink] : inks)
                for (const auto& [underName, under] : unders) add(theme, inkName + " on " + underName, ink, under, 4.5);
            add(theme, "on accent", c.onAccent, c.accent, 4.5);
            add(theme, "text on band", c.text, c.band, 4.5);
            add(theme, "soft on line (disabled primary)", c.soft, c.line, 4.5);
            for (int i = 0; i < 8; ++i) {
                add(theme, QString("text on tint %1").arg(i), c.text, familyTint(i, theme), 4.5);
                add(theme, QString("soft on tint %1").arg(i), c.soft, familyTint(i, theme), 4.5);
                // Initials are bold and stand on the hatch: they must pass on its strokes too.
                add(theme, QString("text on hatch %1").arg(i), c.text, familyHatch(i, theme).color(), 4.5);
            }
            add(theme, "edge of fields on panel", edgeColour(c), c.panel, 3.0);
            add(theme, "edge of fields on ground", edgeColour(c), c.ground, 3.0);
            add(theme, "focus ring on panel", c.accent, c.panel, 3.0);
            add(theme, "focus ring on ground", c.accent, c.ground, 3.0);
            add(theme, "focus ring of the primary button", c.text, c.panel, 3.0);
        }
    }

    void textOnSurfaces() {
        QFETCH(QColor, ink);
        QFETCH(QColor, under);
        QFETCH(double, least);
        const double found = contrast(ink, under);
        QVERIFY2(found >= least, qPrintable(QString("%1 on %2: %3").arg(ink.name(), under.name()).arg(found)));
    }

    void tintsAreOpaqueAndDiffer() {
        for (const Theme theme : {Theme::Light, Theme::Dark}) {
            QSet<QRgb> seen;
            QSet<int> hatches;
            for (int i = 0; i < 7; ++i) {
                QCOMPARE(familyTint(i, theme).alpha(), 255);
                seen.insert(familyTint(i, theme).rgb());
                hatches.insert(familyHatch(i, theme).style());
            }
            QCOMPARE(seen.size(), 7);
            QCOMPARE(hatches.size(), 7);
            QCOMPARE(familyTint(7, theme), familyTint(0, theme));
        }
    }

    void initialsTellTheFamiliesOfPolymersApart() {
        const QList<std::pair<QString, QString>> known = {
            {"styrenics", "ST"},       {"polycarbonates", "PC"}, {"polycarbonate-blends", "PCB"},
            {"polyamides", "PA"},      {"polyesters", "PE"},     {"sulfones", "SU"},
            {"polyetherimides", "PEI"}, {"acrylics", "AC"},       {"polyaryletherketones", "PAEK"},
            {"polyolefins", "PO"},     {"", ""}};
        for (const auto& [family, initials] : known) QCOMPARE(familyInitials(family), initials);
    }

private:
    static void add(Theme theme, const QString& name, const QColor& ink, const QColor& under, double least) {
        QTest::newRow(qPrintable((theme == Theme::Light ? "light: " : "dark: ") + name)) << ink << under << least;
    }
};

INTERLUDE_TEST(ContrastTest)
#include "contrast_test.moc"
