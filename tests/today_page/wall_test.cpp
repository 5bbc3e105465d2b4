// The wall view: sizes in millimetres at several densities, pages, what stays in view, and the picture itself.

#include "tests/changeover_page/page_driver.h"
#include "tests/harness/run_tests.h"

#include "views/look/look.h"
#include "views/today/wall_text.h"
#include "views/today/wall_view.h"

#include <QApplication>
#include <QPainter>

#include <cmath>

using namespace interlude;
using namespace interlude::tests;

namespace {

constexpr double perInch = 25.4;

/// Height of the ink of a text painted by `paint`, in pixels.
int inkHeight(const std::function<void(QPainter&)>& paint) {
    QImage image(2400, 800, QImage::Format_RGB32);
    image.fill(Qt::white);
    QPainter p(&image);
    p.setPen(Qt::black);
    paint(p);
    p.end();
    int top = image.height(), bottom = -1;
    for (int y = 0; y < image.height(); ++y)
        for (int x = 0; x < image.width(); ++x)
            if (qGray(image.pixel(x, y)) < 128) {
                top = std::min(top, y);
                bottom = std::max(bottom, y);
            }
    return bottom - top + 1;
}

} // namespace

class WallTest final : public QObject {
    Q_OBJECT
private:
    std::unique_ptr<SampleBench> sample;

    void down(const QString& printer) {
        QVERIFY(sample->bench->perform(act::DowntimeBegun{printer, QStringLiteral("door seal"), sample->bench->now() + Minutes(10)}));
    }

private Q_SLOTS:
    void init() {
        sample = std::make_unique<SampleBench>();
        QVERIFY2(sample->catalogue, qPrintable(sample->problems));
    }
    void cleanup() { sample.reset(); }

    void aScreenIsBelievedOnlyWhereItCanBe() {
        // 1920 × 1080 on 527 × 296 mm: 92.5 dpi.
        const Density desk = wallDensity({1920, 1080}, {527, 296});
        QCOMPARE(desk.from, Density::From::Screen);
        QVERIFY(std::abs(desk.perMm * perInch - 92.7) < 0.5);
        // A television set that says 160 × 90 mm would be of 305 dpi; one that says nothing; one that is not square.
        for (const QSizeF said : {QSizeF(160, 90), QSizeF(), QSizeF(0, 0), QSizeF(527, 200), QSizeF(-1, -1)}) {
            const Density d = wallDensity({1920, 1080}, said);
            QCOMPARE(d.from, Density::From::Assumed);
            QCOMPARE(d.perMm * perInch, 96.0);
        }
        // Measured with a ruler: 1,218 mm wide (a 55 inch set).
        const Density measured = wallDensity({1920, 1080}, {160, 90}, 1218);
        QCOMPARE(measured.from, Density::From::Measured);
        QCOMPARE(measured.perMm, 1920.0 / 1218.0);
    }
    void aMeasuredWidthIsKeptForEachScreen() {
        WallView::keepMeasuredWidth(QStringLiteral("HDMI/1"), 1218);
        QCOMPARE(WallView::measuredWidth(QStringLiteral("HDMI/1")), std::optional(1218.0));
        QCOMPARE(WallView::measuredWidth(QStringLiteral("DP-2")), std::nullopt);
        WallView::keepMeasuredWidth(QStringLiteral("HDMI/1"), 0);
        QCOMPARE(WallView::measuredWidth(QStringLiteral("HDMI/1")), std::nullopt);
    }

    void charactersAreHighEnoughAtEveryDensity_data() {
        QTest::addColumn<double>("dpi");
        for (const double dpi : {40.0, 72.0, 92.5, 96.0, 110.0, 141.0, 163.0}) QTest::addRow("%.1f dpi", dpi) << dpi;
    }
    void charactersAreHighEnoughAtEveryDensity() {
        QFETCH(double, dpi);
        const double perMm = dpi / perInch;
        const WallSizes s = wallSizes(perMm);
        // 22 minutes of arc at 2 m: 2000 mm · tan(22/60°) = 12.80 mm; 13 are shown.
        QVERIFY(2000.0 * std::tan(22.0 / 60.0 * M_PI / 180.0) <= wallCapitalMm);
        for (const bool bold : {false, true}) {
            const double mm = QFontMetricsF(look::fontOfHeight(s.capital, bold)).capHeight() / perMm;
            QVERIFY2(mm >= wallCapitalMm, qPrintable(QString::number(mm)));
            QVERIFY2(mm <= wallCapitalMm * 1.12, qPrintable(QString::number(mm)));
        }
        // The ink itself, of every digit, to the pixel that edges are smoothed over.
        for (const QString text : {"0", "1", "2", "3", "4", "5", "6", "7", "8", "9"}) {
            const int pixels = inkHeight([&](QPainter& p) { paintFigure(p, text, {20, 700}, 2000, s.digit, s.capital); });
            QVERIFY2((pixels + 1) / perMm >= wallDigitMm, qPrintable(QStringLiteral("%1: %2 mm").arg(text).arg(pixels / perMm)));
        }
        const int word = inkHeight([&](QPainter& p) {
            p.setFont(look::fontOfHeight(s.capital));
            p.drawText(QPointF(20, 700), QStringLiteral("H"));
        });
        QVERIFY2((word + 1) / perMm >= wallCapitalMm, qPrintable(QString::number(word / perMm)));
    }
    void smallWordsBesideDigitsAreNoSmallerThanText() {
        const WallSizes s = wallSizes(96 / perInch);
        QVERIFY((inkHeight([&](QPainter& p) { paintFigure(p, QStringLiteral("h"), {20, 700}, 60, s.digit, s.capital); }) + 1) >= s.capital);
    }
    void wordsGiveWayInsteadOfLetters() {
        const QFont font = look::fontOfHeight(49);
        const QStringList ways{QStringLiteral("part of 7402 waits since"), QStringLiteral("part waits since")};
        QCOMPARE(firstFitting(ways, font, 5000), ways.first());
        const double room = QFontMetricsF(font).horizontalAdvance(ways.last());
        QCOMPARE(firstFitting(ways, font, room), ways.last());
        QVERIFY(firstFitting(ways, font, room * 0.6).endsWith(QChar(0x2026)));
        QCOMPARE(firstFitting({}, font, 100), QString());
    }

    void gridsHoldWhatFitsAndGrowWithTheRoom() {
        const WallSizes s = wallSizes(96 / perInch);
        QCOMPARE(wallGrid(QSizeF(1366, 768 - s.foot()), s, 60).capacity(), 4);
        QCOMPARE(wallGrid(QSizeF(1920, 1080 - s.foot()), s, 60).capacity(), 6);
        QCOMPARE(wallGrid(QSizeF(3840, 2160 - s.foot()), s, 60).capacity(), 36);
        QVERIFY(wallGrid(QSizeF(1920, 1000), s, 2).larger > 1.2);
        QCOMPARE(wallGrid(QSizeF(300, 200), s, 5).capacity(), 1); // the least, even where nothing fits
        QCOMPARE(wallGrid(QSizeF(1366, 700), s, 0).capacity(), 1);
    }
    void whatIsWrongStaysAndTheOthersTakeTurns() {
        for (int printers = 1; printers <= 12; ++printers)
            for (int capacity = 1; capacity <= 6; ++capacity)
                for (int wrong = 0; wrong <= printers; ++wrong) {
                    QList<int> bad;
                    for (int i = 0; i < wrong; ++i) bad.append(printers - 1 - i);
                    std::sort(bad.begin(), bad.end());
                    QSet<int> seen;
                    const int of = wallPage(printers, bad, capacity, 0).of;
                    for (int turn = 0; turn < of; ++turn) {
                        const WallPage page = wallPage(printers, bad, capacity, turn);
                        QVERIFY(page.shown.size() <= std::max(1, capacity));
                        for (const int i : page.shown) seen.insert(i);
                        // In view, or named in words: nothing that is wrong is ever out of sight.
                        for (const int b : bad) QVERIFY(page.shown.contains(b) != page.wrongElsewhere.contains(b));
                        if (wrong < capacity) QVERIFY(page.wrongElsewhere.isEmpty());
                    }
                    QCOMPARE(seen.size(), printers);
                    if (printers <= capacity) QCOMPARE(of, 1);
                }
    }

    void pagesTurnOnTheClockAndOnlyWhereTheyMust() {
        WallView wall(*sample->bench, 96 / perInch);
        wall.resize(1366, 768);
        QCOMPARE(wall.page().of, 2); // six printers, four places
        const QStringList first = wall.shown();
        QCOMPARE(first.size(), 4);
        sample->advance(std::chrono::seconds(14));
        QCOMPARE(wall.shown(), first);
        sample->advance(std::chrono::seconds(2));
        QVERIFY(wall.shown() != first);
        wall.resize(1920, 1080);
        QCOMPARE(wall.page().of, 1);
        const QStringList all = wall.shown();
        sample->advance(std::chrono::seconds(60));
        QCOMPARE(wall.shown(), all);
    }
    void whatBecomesWrongComesIntoView() {
        WallView wall(*sample->bench, 96 / perInch);
        wall.resize(1366, 768);
        const QString last = sample->catalogue->fleet.printers.last().id;
        const QString name = sample->catalogue->fleet.printers.last().name;
        down(last);
        QVERIFY(!wall.shown().contains(name)); // down as foreseen is not wrong
        sample->advance(Minutes(11));
        for (int page = 0; page < 6; ++page) {
            QVERIFY(wall.shown().contains(name));
            sample->advance(std::chrono::seconds(15));
        }
        QVERIFY(wall.accessibleName().contains(QStringLiteral("should be back")));
    }
    void aChangeoverSaysWhoIsNeeded() {
        PageDriver d(*sample);
        d.choose(QStringLiteral("bay-1"), QStringLiteral("7402"), 1);
        d.start();
        const auto all = allNeedsNow();
        const WallFace f = wallFace(*sample->bench, *sample->shop().printer(QStringLiteral("bay-1")), nullptr, all);
        QVERIFY(f.inHand && !f.wrong);
        QVERIFY2(f.people.first().contains(QStringLiteral("now")), qPrintable(f.people.join('|')));
        QVERIFY(f.next.first().contains(QStringLiteral("7402")));
        QVERIFY(f.big.contains(QStringLiteral("min")));
    }
    void bothThemesPaintAtBothSizes() {
        for (const look::Theme theme : {look::Theme::Dark, look::Theme::Light}) {
            look::apply(*qApp, theme);
            WallView wall(*sample->bench, 96 / perInch);
            for (const QSize size : {QSize(1366, 768), QSize(1920, 1080), QSize(320, 200)}) {
                wall.resize(size);
                const QImage picture = wall.grab().toImage();
                QCOMPARE(picture.pixelColor(1, 1), look::colours().ground);
            }
        }
    }

private:
    QList<Need> allNeedsNow() {
        return needs(sample->shop(), sample->bench->now(), sample->bench->now() + std::chrono::hours(16));
    }
};
INTERLUDE_TEST(WallTest)
#include "wall_test.moc"
