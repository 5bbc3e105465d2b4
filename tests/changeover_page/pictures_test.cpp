// Pictures of both tabs in both themes and two sizes, written where INTERLUDE_PICTURES says; without it the same views
// are only drawn. Whatever is drawn, no button may be narrower than its text.

#include "tests/changeover_page/page_driver.h"
#include "tests/harness/run_tests.h"

#include "views/look/look.h"
#include "views/today/today_page.h"
#include "views/today/wall_view.h"

#include <QDir>

using namespace interlude;
using namespace interlude::tests;

class PicturesTest final : public QObject {
    Q_OBJECT
private:
    void shoot(QWidget& page, const QString& name) {
        const QString dir = qEnvironmentVariable("INTERLUDE_PICTURES");
        for (const QSize size : {QSize(1366, 690), QSize(1920, 1002)}) {
            page.resize(size);
            QCoreApplication::processEvents();
            QCoreApplication::sendPostedEvents(nullptr, QEvent::DeferredDelete);
            QCoreApplication::processEvents();
            const QPixmap picture = page.grab();
            QVERIFY(!picture.isNull());
            for (QPushButton* b : page.findChildren<QPushButton*>())
                for (const QString& line : b->text().split(QLatin1Char('\n')))
                    if (b->isVisible())
                        QVERIFY2(b->width() >= b->fontMetrics().horizontalAdvance(line), qPrintable(b->text()));
            if (dir.isEmpty()) continue;
            QDir().mkpath(dir);
            picture.save(QStringLiteral("%1/%2-%3-%4.png")
                             .arg(dir, name, look::theme() == look::Theme::Dark ? QStringLiteral("dark")
                                                                               : QStringLiteral("light"))
                             .arg(size.width()));
        }
    }

private Q_SLOTS:
    void both_data() {
        QTest::addColumn<bool>("dark");
        QTest::newRow("light") << false;
        QTest::newRow("dark") << true;
    }
    void both() {
        QFETCH(bool, dark);
        look::apply(*qobject_cast<QApplication*>(QCoreApplication::instance()),
                    dark ? look::Theme::Dark : look::Theme::Light);
        SampleBench sample;
        QVERIFY2(sample.catalogue, qPrintable(sample.problems));
        TodayPage today(*sample.bench);
        today.show();
        shoot(today, QStringLiteral("today-morning"));
        PageDriver d(sample);
        shoot(*d.page, QStringLiteral("start-empty"));
        d.choose(QStringLiteral("bay-3"), QStringLiteral("7402"), 1);
        d.choose(QStringLiteral("bay-1"), QStringLiteral("7402"), 1);
        shoot(*d.page, QStringLiteral("start-summary"));
        d.start();
        QVERIFY(d.session());
        d.until(QStringLiteral("cool-heads"));
        d.desk().logTemperature(Sensor::Head, QStringLiteral("231"));
        sample.advance(Minutes(4));
        d.desk().logTemperature(Sensor::Head, QStringLiteral("178"));
        sample.advance(Minutes(3));
        shoot(*d.page, QStringLiteral("guide-waiting"));
        d.until(QStringLiteral("mount-part-nozzle"));
        d.giveNext();
        shoot(*d.page, QStringLiteral("guide-exchange"));
        d.scan(QStringLiteral("S-107"));
        shoot(*d.page, QStringLiteral("guide-wrong-scan"));
        d.until(QStringLiteral("align-nozzles"));
        d.type(QStringLiteral("0.3"));
        shoot(*d.page, QStringLiteral("guide-readings"));
        shoot(today, QStringLiteral("today-changeover"));
        while (d.session() && !d.desk().guide().finished && d.desk().shown()) {
            if (d.desk().shown()->step.id == QStringLiteral("align-nozzles")) d.desk().read(0, 0, QStringLiteral("0.05"));
            d.doStep();
        }
        shoot(*d.page, QStringLiteral("guide-finish"));
        d.click(QStringLiteral("disposition0"));
        d.key(Qt::Key_Return);
        sample.advance(Minutes(30));
        shoot(today, QStringLiteral("today-printing"));
        WallView wall(*sample.bench, 96 / 25.4);
        shoot(wall, QStringLiteral("today-wall"));
        look::apply(*qobject_cast<QApplication*>(QCoreApplication::instance()), look::Theme::Light);
    }
};
INTERLUDE_TEST(PicturesTest)
#include "pictures_test.moc"
