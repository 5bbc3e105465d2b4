// A changeover from its choice to its end in windows of several sizes: everything can be got at, the confirm button is always in
// sight and says its text whole, and the question in hand is seen when its step opens. INTERLUDE_PICTURES: a folder for pictures.
#include "tests/changeover_page/page_driver.h"
#include "tests/harness/in_reach.h"
#include "tests/harness/run_tests.h"

#include "views/asking/ask_dialog.h"
#include "views/asking/job_dialog.h"
#include "views/changeover/session_dialogs.h"
#include "views/changeover/step_panel.h"
#include "views/look/look.h"
#include "views/window/main_window.h"

using namespace interlude;
using namespace interlude::tests;

class SmallGuideTest : public QObject {
    Q_OBJECT
private:
    QStringList m_faults;
    QSize m_size;

    static void settle() {
        for (int i = 0; i < 3; ++i) {
            QTest::qWait(0);
            QCoreApplication::sendPostedEvents(nullptr, QEvent::DeferredDelete);
        }
    }
    void view(QWidget& widget, const QString& what) {
        settle();
        for (const QString& fault : outOfReach(&widget)) m_faults.append(what + ": " + fault);
        const QString dir = qEnvironmentVariable("INTERLUDE_PICTURES");
        if (dir.isEmpty()) return;
        QDir().mkpath(dir);
        QVERIFY(widget.grab().save(QStringLiteral("%1/%2-%3x%4.png").arg(dir, what).arg(m_size.width()).arg(m_size.height())));
    }
    /// Seen now, without any scrolling.
    static bool inSight(const QWidget* w) {
        return w->visibleRegion().boundingRect() == w->rect();
    }

private Q_SLOTS:
    void initTestCase() { look::apply(*qApp, look::Theme::Light); }
    void aWholeChangeover_data() {
        QTest::addColumn<QSize>("size");
        QTest::newRow("960x500") << QSize(960, 500);
        QTest::newRow("1024x640") << QSize(1024, 640);
        QTest::newRow("1366x768") << QSize(1366, 768);
        QTest::newRow("1920x1080") << QSize(1920, 1080);
    }
    void aWholeChangeover() {
        QFETCH(QSize, size);
        m_faults.clear();
        m_size = size;
        SampleBench sample;
        MainWindow window(*sample.bench);
        window.resize(size);
        window.show();
        QVERIFY(QTest::qWaitForWindowActive(&window));
        window.showTab(QStringLiteral("changeover"));
        PageDriver d(sample, qobject_cast<ChangeoverPage*>(window.page(QStringLiteral("changeover"))));
        d.choose(QStringLiteral("bay-3"), QStringLiteral("7402"), 1);
        view(window, QStringLiteral("start"));
        const QStringList ofStart = std::exchange(m_faults, {});
        for (const QString& fault : ofStart) qInfo("%s", qPrintable(fault));
        QEXPECT_FAIL("960x500", "the page is not told at once how wide the summary is, which is then cut at its right", Continue);
        QVERIFY(ofStart.isEmpty());
        auto* start = d.find<QPushButton>(QStringLiteral("startButton"));
        QVERIFY(start->isEnabled());
        if (!inSight(start)) m_faults.append(QStringLiteral("the start button is out of sight"));
        d.start();
        QVERIFY(d.session());
        StepId before;
        for (int guard = 0; guard < 200 && d.session() && !d.desk().guide().finished && d.desk().shown(); ++guard) {
            const StepId step = d.desk().shown()->step.id;
            if (step != before) {
                view(window, QStringLiteral("guide-%1-%2").arg(guard, 2, 10, QLatin1Char('0')).arg(step));
                checkStep(d, step);
            }
            before = step;
            if (step == QStringLiteral("align-nozzles") && d.desk().entry()) d.desk().read(0, 0, QStringLiteral("0.05"));
            if (!d.giveNext()) d.doStep();
        }
        QVERIFY(d.desk().guide().finished);
        view(window, QStringLiteral("guide-finish"));
        if (!inSight(d.confirmButton())) m_faults.append(QStringLiteral("Finish is out of sight"));
        m_faults.removeDuplicates();
        for (const QString& fault : m_faults) qWarning("%s", qPrintable(fault));
        QVERIFY(m_faults.isEmpty());
    }
    void checkStep(PageDriver& d, const StepId& step) {
        for (const QString& name : {QStringLiteral("confirmButton"), QStringLiteral("takeBackButton"), QStringLiteral("problemButton"),
                                    QStringLiteral("handOverButton"), QStringLiteral("moreButton"), QStringLiteral("scanField")})
            if (const auto* w = d.page->findChild<QWidget*>(name); !inSight(w)) m_faults.append(step + ": out of sight: " + name);
        if (d.confirmButton()->text().contains(QChar(0x2026)))
            m_faults.append(step + ": the confirm button is cut: " + d.confirmButton()->text().replace('\n', '/'));
        const QList<Missing> missing = d.desk().missing();
        if (missing.isEmpty() || missing.first().what != Missing::What::Answer) return;
        const auto* slot = d.page->findChild<QWidget*>(QStringLiteral("answer%1").arg(missing.first().index));
        const auto* area = d.page->findChild<StepPanel*>();
        const QRect seen(slot->mapTo(area->viewport(), QPoint()), slot->size());
        if (!area->viewport()->rect().contains(seen)) m_faults.append(step + ": its question is out of sight");
    }

    void dialogsGrowWithWhatIsSaid() {
        m_faults.clear();
        m_size = {1366, 768};
        SampleBench sample;
        PageDriver d(sample);
        d.choose(QStringLiteral("bay-3"), QStringLiteral("7402"), 1);
        d.start();
        d.until(QStringLiteral("cool-heads"));
        QVERIFY(!d.desk().guide().waits.isEmpty());
        AskDialog* early = askEarlyEnd(d.desk(), d.desk().guide().waits.first(), d.page);
        view(*early, QStringLiteral("dialog-early-before"));
        early->acceptButton()->click();
        QVERIFY(!early->objectionsShown().isEmpty());
        view(*early, QStringLiteral("dialog-early"));
        QVERIFY(early->height() <= early->screen()->availableSize().height());
        early->reject();
        AskDialog* problem = askProblem(d.desk(), false, d.page);
        problem->acceptButton()->click();
        view(*problem, QStringLiteral("dialog-problem"));
        problem->reject();
        // As on a screen of 540 pixels' height: the fields are scrolled, the buttons stay.
        auto* job = new JobDialog(*sample.bench, QStringLiteral("7402"), d.page);
        job->open();
        view(*job, QStringLiteral("dialog-job"));
        QVERIFY(job->height() <= job->screen()->availableSize().height());
        job->resize(job->width(), 460);
        view(*job, QStringLiteral("dialog-job-low"));
        QCOMPARE(job->height(), 460);
        QVERIFY(inSight(job->acceptButton()));
        job->reject();
        for (const QString& fault : m_faults) qWarning("%s", qPrintable(fault));
        QVERIFY(m_faults.isEmpty());
    }
};

INTERLUDE_TEST(SmallGuideTest)
#include "small_guide_test.moc"
