// The start panel: jobs, choices, refusals that can be lifted.

#include "tests/changeover_page/on_page.h"
#include "tests/harness/run_tests.h"

#include "views/asking/job_dialog.h"
#include "views/asking/on_paper.h"
#include "views/asking/time_field.h"
#include "views/changeover/draft.h"
#include "views/lists/list_view.h"

#include <QCheckBox>
#include <QComboBox>
#include <QFileDialog>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QPrintDialog>
#include <QPrinter>
#include <QTableWidget>
#include <QTemporaryDir>

using namespace interlude;
using namespace interlude::tests;

class StartTest final : public OnPage {
    Q_OBJECT
private Q_SLOTS:
    void nothingChosenSaysWhatToDo() {
        auto* start = d->find<QPushButton>(QStringLiteral("startButton"));
        QVERIFY(!start->isEnabled());
        QCOMPARE(start->text(), QStringLiteral("Choose a job first"));
    }
    void thePlannedJobIsProposedForAPrinterThatIsShownAlready() {
        StartPanel& start = d->page->startPanel();
        start.choosePrinter(QStringLiteral("bay-2"));
        QVERIFY(start.draft().job.isEmpty());
        // Published behind its back, as on the Plan tab; then "Start a changeover" on the card.
        Plan plan;
        plan.goal = QStringLiteral("cost");
        const Job& job = *sample->shop().job(QStringLiteral("7439"));
        plan.printers = {{QStringLiteral("bay-2"), {{job.id, job.variants.last().name, false, sample->bench->now(), sample->bench->now(), sample->bench->now()}}}};
        const auto done = sample->bench->perform(act::PlanPublished{plan});
        QVERIFY2(done, qPrintable(done ? QString() : sentence(done.error())));
        QVERIFY(start.draft().job.isEmpty());
        start.choosePrinter(QStringLiteral("bay-2"));
        QCOMPARE(start.draft().job, job.id);
        QCOMPARE(start.draft().variant, static_cast<int>(job.variants.size()) - 1);
        // What a person has chosen meanwhile stays.
        start.chooseJob(QStringLiteral("7401"), 0);
        start.choosePrinter(QStringLiteral("bay-2"));
        QCOMPARE(start.draft().job, QStringLiteral("7401"));
    }
    void atATimeThatCannotBeReadNothingIsRecorded() {
        d->choose(QStringLiteral("bay-1"), QStringLiteral("7402"), 1);
        d->find<QCheckBox>(QStringLiteral("enterLate"))->setChecked(true);
        auto* from = d->find<TimeField>(QStringLiteral("lateStart"));
        from->setFocus(Qt::TabFocusReason);
        QTest::keyClicks(from, QStringLiteral("yesterday"));
        d->start();
        QVERIFY(sample->shop().sessions().isEmpty());
        const QString said = d->find<QLabel>(QStringLiteral("startMessage"))->text();
        QVERIFY2(said.contains(QStringLiteral("“yesterday”")), qPrintable(said));
        const QTimeZone zone = sample->catalogue->fleet.zone;
        const Instant begun = sample->bench->now() - std::chrono::hours(3);
        from->setFocus(Qt::TabFocusReason);
        QTest::keyClicks(from, toZone(begun, zone).toString(QStringLiteral("yyyy-MM-dd HH:mm")));
        d->start();
        QVERIFY(d->session());
        const StepId first = d->desk().shown()->step.id;
        while (d->giveNext()) {}
        auto* when = d->find<TimeField>(QStringLiteral("lateTime"));
        QVERIFY(when);
        when->setFocus(Qt::TabFocusReason);
        QTest::keyClicks(when, QStringLiteral("soon after"));
        d->desk().confirm();
        QVERIFY(d->session()->progress(first).state != StepState::Done);
        QVERIFY2(d->message().contains(QStringLiteral("“soon after”")), qPrintable(d->message()));
        const QString done = toZone(begun + Minutes(7), zone).toString(QStringLiteral("yyyy-MM-dd HH:mm"));
        when->findChild<QLineEdit*>()->selectAll(); // it has the focus still
        QTest::keyClicks(when, done);
        d->desk().confirm();
        QVERIFY(d->session()->progress(first).state == StepState::Done);
        QCOMPARE(toZone(*d->session()->progress(first).ended, zone).toString(QStringLiteral("yyyy-MM-dd HH:mm")), done);
    }
    void addsAJob() {
        d->click(QStringLiteral("addJob"));
        auto* a = d->page->findChild<JobDialog*>(QStringLiteral("jobDialog"));
        QVERIFY(a);
        QTest::mouseClick(a->acceptButton(), Qt::LeftButton);
        QVERIFY2(a->isVisible(), "an id is needed");
        a->findChild<QLineEdit*>(QStringLiteral("jobId"))->setText(QStringLiteral("7401"));
        QTest::mouseClick(a->acceptButton(), Qt::LeftButton);
        QVERIFY2(a->isVisible(), "7401 exists");
        a->findChild<QLineEdit*>(QStringLiteral("jobId"))->setText(QStringLiteral("9001"));
        a->findChild<QLineEdit*>(QStringLiteral("jobTitle"))->setText(QStringLiteral("clip"));
        auto* table = a->findChild<QTableWidget*>(QStringLiteral("jobVariants"));
        const auto choose = [&](int column, const QString& id) {
            auto* box = qobject_cast<QComboBox*>(table->cellWidget(0, column));
            box->setCurrentIndex(box->findData(id));
        };
        choose(1, QStringLiteral("abs-ivory"));
        choose(3, QStringLiteral("b04"));
        table->item(0, 5)->setText(QStringLiteral("30"));
        table->item(0, 6)->setText(QStringLiteral("4"));
        QTest::mouseClick(a->acceptButton(), Qt::LeftButton);
        const Job* job = sample->shop().job(QStringLiteral("9001"));
        QVERIFY(job);
        QCOMPARE(job->variants.first().print.count(), 30);
        QCOMPARE(sample->events(QStringLiteral("job-added")), 1);
    }
    void changesAndWithdrawsAJob() {
        d->choose(QStringLiteral("bay-1"), QStringLiteral("7401"));
        d->click(QStringLiteral("changeJob"));
        auto* a = d->page->findChild<JobDialog*>(QStringLiteral("jobDialog"));
        a->findChild<QLineEdit*>(QStringLiteral("jobQuantity"))->setText(QStringLiteral("5"));
        QTest::mouseClick(a->acceptButton(), Qt::LeftButton);
        const Job* job = sample->shop().job(QStringLiteral("7401"));
        QCOMPARE(job->quantity, 5);
        QCOMPARE(job->variants.size(), 2);
        QCOMPARE(job->envelope.has_value(), true); // what the form does not show stays
        d->click(QStringLiteral("withdrawJob"));
        auto* w = d->page->findChild<AskDialog*>(QStringLiteral("withdrawDialog"));
        w->findChild<QLineEdit*>(QStringLiteral("withdrawReason"))->setText(QStringLiteral("cancelled"));
        QTest::mouseClick(w->acceptButton(), Qt::LeftButton);
        QCOMPARE(sample->shop().job(QStringLiteral("7401"))->state, JobState::Withdrawn);
    }
    void anotherNozzleCanBeChosen() {
        d->choose(QStringLiteral("bay-1"), QStringLiteral("7402"), 1);
        auto* box = d->find<QComboBox>(QStringLiteral("choosePartNozzle"));
        QVERIFY(box);
        QVERIFY2(box->count() > 1, "the sample has several of that type");
        const QString other = box->itemData(1).toString();
        box->setCurrentIndex(1);
        Q_EMIT box->activated(1);
        QCoreApplication::processEvents();
        QCOMPARE(d->page->startPanel().draft().partNozzle, other);
        const auto& t = d->page->startPanel().result()->transition;
        QCOMPARE(t.nozzles.first().in, other);
    }
    void thePlannedJobIsProposed() {
        const Instant at = sample->bench->now();
        const Plan plan{QStringLiteral("cost"),
                        {{QStringLiteral("bay-2"), {{QStringLiteral("7402"), QStringLiteral("coarse"), false, at, at, at}}}},
                        {}};
        QVERIFY(sample->bench->perform(act::PlanPublished{plan}));
        d->page->showPrinter(QStringLiteral("bay-2"));
        QCOMPARE(d->page->startPanel().draft().job, QStringLiteral("7402"));
        QCOMPARE(d->page->startPanel().draft().variant, 1);
        // Nothing is planned for another printer: the job that was looked at stays.
        d->page->showPrinter(QStringLiteral("bay-1"));
        QCOMPARE(d->page->startPanel().draft().job, QStringLiteral("7402"));
    }
    void filteringLeavesTheChosenJobAlone() {
        d->choose(QStringLiteral("bay-5"), QStringLiteral("7455"));
        auto* list = d->page->findChild<lists::ListView*>(QStringLiteral("jobList"));
        QVERIFY(list->select(QStringLiteral("7455")));
        list->filterField()->setFocus();
        for (const char key : {'7', '4', '2', '6', 'z'}) {
            QTest::keyClick(list->filterField(), key);
            QCoreApplication::processEvents();
            QCOMPARE(d->page->startPanel().draft().job, QStringLiteral("7455"));
        }
        QCOMPARE(list->visibleRows(), 0);
        QTest::keyClick(list->filterField(), Qt::Key_Escape);
        QCoreApplication::processEvents();
        QCOMPARE(list->currentKey(), QStringLiteral("7455"));
        QVERIFY(d->find<QLabel>(QStringLiteral("summaryTitle"))->text().contains(QStringLiteral("7455")));
    }
    void aCardOpensItsOwnPrinter() {
        for (const char* bay : {"bay-5", "bay-6", "bay-2"}) {
            Q_EMIT sample->bench->openChangeover(QString::fromLatin1(bay));
            QCOMPARE(d->page->startPanel().draft().printer, QString::fromLatin1(bay));
            auto* printers = d->page->findChild<QListWidget*>(QStringLiteral("printerList"));
            QCOMPARE(printers->currentItem()->data(Qt::UserRole).toString(), QString::fromLatin1(bay));
        }
    }
    void impossibleSaysWhy() {
        // The high-temperature bay takes no ABS.
        d->choose(QStringLiteral("bay-5"), QStringLiteral("7401"));
        auto* start = d->find<QPushButton>(QStringLiteral("startButton"));
        QVERIFY(!start->isEnabled());
        QVERIFY(!d->page->startPanel().result()->standing.isEmpty());
    }
    void everyJobAndPrinterGivesAnAnswer() {
        // No pair may crash or stay silent: it is either possible or refused with a reason.
        int possible = 0;
        for (const Job& j : sample->shop().jobs())
            for (const Printer& p : sample->catalogue->fleet.printers)
                for (int v = 0; v < static_cast<int>(j.variants.size()); ++v) {
                    Draft draft;
                    draft.printer = p.id;
                    draft.job = j.id;
                    draft.variant = v;
                    const auto r = assemble(sample->shop(), draft, sample->bench->now());
                    QVERIFY(r);
                    QVERIFY(r->changeover || !r->changeover.error().reason.isEmpty());
                    possible += r->changeover ? 1 : 0;
                }
        QVERIFY(possible > 40);
    }
    void papersAreWritten() {
        d->choose(QStringLiteral("bay-1"), QStringLiteral("7402"), 1);
        QTemporaryDir dir;
        QVERIFY(d->page->startPanel().writeSummary(dir.filePath(QStringLiteral("s.pdf"))));
        QVERIFY(d->page->startPanel().writeChecklist(dir.filePath(QStringLiteral("c.pdf"))));
        for (const char* name : {"s.pdf", "c.pdf"}) {
            QFile f(dir.filePath(QString::fromLatin1(name)));
            QVERIFY(f.open(QIODevice::ReadOnly));
            QVERIFY(f.read(5) == "%PDF-");
        }
    }
    /// The button asks where to; "a PDF file" asks for its name, "a printer" for the printer.
    void papersAreAskedFor() {
        d->choose(QStringLiteral("bay-1"), QStringLiteral("7402"), 1);
        StartPanel& panel = d->page->startPanel();
        QTemporaryDir dir;
        for (const auto& [button, words] : {std::pair("printSummary", "Changeover summary"), std::pair("printChecklist", "Empty checklist")}) {
            QTest::mouseClick(panel.findChild<QPushButton*>(QLatin1String(button)), Qt::LeftButton);
            auto* ask = panel.findChild<AskDialog*>(QStringLiteral("paperDialog"));
            QVERIFY(ask && ask->isVisible());
            QCOMPARE(ask->windowTitle(), QLatin1String(words));
            auto* where = ask->findChild<QComboBox*>(QStringLiteral("paperWhere"));
            where->setCurrentIndex(where->findData(QStringLiteral("pdf")));
            QTest::mouseClick(ask->acceptButton(), Qt::LeftButton);
            QTRY_VERIFY(!panel.findChild<AskDialog*>());
            auto* file = panel.findChild<QFileDialog*>(QStringLiteral("pdfDialog"));
            QVERIFY(file && file->isVisible());
            const QString name = dir.filePath(QLatin1String(button) + QStringLiteral(".pdf"));
            file->findChild<QLineEdit*>(QStringLiteral("fileNameEdit"))->setText(name);
            QMetaObject::invokeMethod(file, "accept");
            QTRY_VERIFY(!panel.findChild<QFileDialog*>());
            QVERIFY(QFileInfo(name).size() > 1000);
            QVERIFY2(panel.findChild<QLabel*>(QStringLiteral("startMessage"))->text().contains(name), "told where it is");
        }
        // What was chosen last is proposed; the printer's own dialog can be left, and nothing comes of it.
        QTest::mouseClick(panel.findChild<QPushButton*>(QStringLiteral("printSummary")), Qt::LeftButton);
        auto* ask = panel.findChild<AskDialog*>(QStringLiteral("paperDialog"));
        auto* where = ask->findChild<QComboBox*>(QStringLiteral("paperWhere"));
        QCOMPARE(where->currentData().toString(), QStringLiteral("pdf"));
        where->setCurrentIndex(where->findData(QStringLiteral("printer")));
        QTest::mouseClick(ask->acceptButton(), Qt::LeftButton);
        auto* printing = panel.findChild<QPrintDialog*>(QStringLiteral("printDialog"));
        QVERIFY(printing && printing->isVisible());
        QTest::keyClick(printing, Qt::Key_Escape);
        QTRY_VERIFY(!panel.findChild<QPrintDialog*>());
    }
    void whatAPrinterGetsIsWhatTheFileHolds() {
        d->choose(QStringLiteral("bay-1"), QStringLiteral("7402"), 1);
        QTemporaryDir dir;
        QPrinter printer(QPrinter::HighResolution);
        printer.setOutputFormat(QPrinter::PdfFormat);
        printer.setPageLayout(uprightLayout());
        const StartPanel& panel = d->page->startPanel();
        printer.setOutputFileName(dir.filePath(QStringLiteral("printed.pdf")));
        QCOMPARE(panel.printSummary(printer).value(), panel.writeSummary(dir.filePath(QStringLiteral("file.pdf"))).value());
        printer.setOutputFileName(dir.filePath(QStringLiteral("printed-list.pdf")));
        QCOMPARE(panel.printChecklist(printer).value(), panel.writeChecklist(dir.filePath(QStringLiteral("list.pdf"))).value());
        printer.setOutputFileName(QStringLiteral("/nonexistent/x.pdf"));
        QCOMPARE(panel.printSummary(printer).value(), 0); // no page: told as a refusal where it is asked for
    }
};
INTERLUDE_TEST(StartTest)
#include "start_test.moc"
