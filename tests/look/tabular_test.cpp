// Digits do not jump.
#include "tests/harness/run_tests.h"
#include "views/look/look.h"
#include "views/look/tabular.h"

#include <QtGui>
#include <QtTest>

using namespace interlude::look;

class TabularTest : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void digitsAreOfOneWidth_data() {
        QTest::addColumn<int>("text");
        QTest::addColumn<bool>("bold");
        for (const Text t : {Text::Small, Text::Body, Text::Detail, Text::PanelTitle, Text::StepTitle, Text::Countdown})
            for (const bool bold : {false, true})
                QTest::addRow("%d %s", int(t), bold ? "bold" : "plain") << int(t) << bold;
    }
    void digitsAreOfOneWidth() {
        QFETCH(int, text);
        QFETCH(bool, bold);
        const QFontMetricsF metrics(font(static_cast<Text>(text), bold));
        const double zero = metrics.horizontalAdvance("0");
        QVERIFY(zero > 1.0);
        // Inter's own tabular glyphs differ by up to 3 of 2816 units after hinting; its plain 1 is narrower by a quarter.
        const double allowed = 0.002 * font(static_cast<Text>(text)).pixelSize();
        for (char digit = '1'; digit <= '9'; ++digit) {
            const double width = metrics.horizontalAdvance(QChar(digit));
            QVERIFY2(std::abs(width - zero) <= allowed, qPrintable(QString("%1: %2, zero %3").arg(digit).arg(width).arg(zero)));
        }
        // What a person could see: a clock that moves by half a pixel.
        QVERIFY(std::abs(metrics.horizontalAdvance("11:11") - metrics.horizontalAdvance("08:40")) < 0.5);
    }

    void interItselfWouldJump() {
        // The reason for all this; if it ever fails, tabular.cpp can go.
        QFont inter("Inter");
        if (QFontInfo(inter).family() != "Inter") QSKIP("Inter is not installed");
        inter.setPixelSize(72);
        const QFontMetricsF metrics(inter);
        QVERIFY(metrics.horizontalAdvance("1") < metrics.horizontalAdvance("0"));
    }

    void weightsStayApart() {
        QFont inter("Inter");
        if (QFontInfo(inter).family() != "Inter") QSKIP("Inter is not installed");
        QVERIFY(QFontInfo(font(Text::Body)).family().startsWith("Interlude"));
        QCOMPARE(QFontInfo(font(Text::Body)).weight(), int(QFont::Normal));
        QCOMPARE(QFontInfo(font(Text::Body, true)).weight(), int(QFont::DemiBold));
    }

    void lettersAreLeftAlone() {
        QFont inter("Inter");
        if (QFontInfo(inter).family() != "Inter") QSKIP("Inter is not installed");
        inter.setPixelSize(100);
        QFont own = font(Text::Body);
        own.setPixelSize(100);
        for (const QString& text : {QString("Hamburgefonstiv äöü"), QString("cm³ °C ± → ▲"), QString("Łódź Ωμ")})
            QCOMPARE(QFontMetricsF(own).horizontalAdvance(text), QFontMetricsF(inter).horizontalAdvance(text));
    }

    void damagedTablesGiveNothing() {
        const QByteArray gsub = QRawFont::fromFont(QFont("Inter")).fontTable("GSUB");
        const QByteArray cmap = QRawFont::fromFont(QFont("Inter")).fontTable("cmap");
        for (qsizetype length = 0; length < qMin<qsizetype>(gsub.size(), 400); ++length) tabularGlyphs(gsub.first(length));
        for (qsizetype length = 0; length < qMin<qsizetype>(cmap.size(), 400); ++length) charactersOf(cmap.first(length));
        QVERIFY(tabularGlyphs({}).isEmpty());
        QVERIFY(charactersOf({}).isEmpty());
        QVERIFY(tabularGlyphs(QByteArray(1000, '\xFF')).isEmpty());
    }
};

INTERLUDE_TEST(TabularTest)
#include "tabular_test.moc"
