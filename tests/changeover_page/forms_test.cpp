// Forms and fields of the Changeover page while time goes on and other things happen: what a person has chosen or typed stays,
// and nothing is done that a person did not mean.

#include "tests/changeover_page/on_page.h"
#include "tests/harness/run_tests.h"

#include "model/session/work.h"
#include "views/asking/job_dialog.h"
#include "views/bench/remembered.h"
#include "views/changeover/countdown_panel.h"
#include "views/changeover/draft.h"
#include "views/changeover/job_list.h"

#include <QCheckBox>
#include <QComboBox>
#include <QDateTimeEdit>
#include <QFileDialog>
#include <QLabel>
#include <QPlainTextEdit>
#include <QPointer>
#include <QRadioButton>
#include <QSignalSpy>
#include <QTableWidget>

using namespace interlude;
using namespace interlude::tests;

namespace {
const QString bay = QStringLiteral("bay-1"), job = QStringLiteral("7402");
} // namespace

namespace {
/// A ledger that takes nothing while its disk is full.
class FullStore final : public EventStore {
public:
    explicit FullStore(std::unique_ptr<EventStore> store) : m_store(std::move(store)) {}
    qint64 lastSequence() const override { return m_store->lastSequence(); }
    QByteArray lastHash() const override { return m_store->lastHash(); }
    Outcome<Event> append(Event e) override {
        if (room == 0) return refusal(QStringLiteral("store"), QStringLiteral("the disk is full"));
        if (room > 0) --room;
        return m_store->append(std::move(e));
    }
    Outcome<qint64> read(qint64 after, const std::function<bool(const Event&)>& each) const override { return m_store->read(after, each); }
    std::optional<Misfit> verify() const override { return m_store->verify(); }
    QString location() const override { return m_store->location(); }
    int room = -1; ///< for so many events; less than none = for any

private:
    std::unique_ptr<EventStore> m_store;
};
} // namespace

class FormsTest final : public OnPage {
    Q_OBJECT
private:
    void begin() {
        d->choose(bay, job, 1);
        d->start();
        QVERIFY(d->session());
    }
    void toTheEnd() {
        for (int guard = 0; guard < 120 && d->session() && !d->desk().guide().finished; ++guard) d->doStep();
        QVERIFY(d->session() && d->desk().guide().finished);
    }
    /// On a printer other than the first, one that can be begun now.
    void beginElsewhere() {
        for (const Printer& p : sample->catalogue->fleet.printers)
            for (const Job& j : printableJobs(sample->shop()))
                for (int v = 0; p.id != bay && v < static_cast<int>(j.variants.size()); ++v) {
                    if (sample->shop().printer(p.id)->activity != Activity::Idle) continue;
                    d->choose(p.id, j.id, v);
                    const auto& result = d->page->startPanel().result();
                    if (!result || !result->changeover) continue;
                    d->start();
                    if (d->session() && d->session()->printer == p.id) return;
                }
        QFAIL("no other printer can be begun with");
    }
    void addJob(const Job& j) { QVERIFY(sample->bench->perform(act::JobAdded{j}).has_value()); }
    JobDialog* change(const JobId& id) {
        d->choose(bay, id);
        d->click(QStringLiteral("changeJob"));
        return dialog<JobDialog>(QStringLiteral("jobDialog"));
    }
    static void accept(AskDialog* a) {
        QTest::mouseClick(a->acceptButton(), Qt::LeftButton);
        QCoreApplication::processEvents();
    }

private Q_SLOTS:
    void theSensorThatAPersonChoseStaysWhileTheyType() {
        begin();
        for (int guard = 0; guard < 120 && d->desk().guide().waits.isEmpty(); ++guard) d->doStep();
        auto* sensor = d->find<QComboBox>(QStringLiteral("logSensor"));
        auto* value = d->find<QLineEdit>(QStringLiteral("logValue"));
        QVERIFY(sensor && value);
        const int platform = sensor->findData(static_cast<int>(Sensor::Platform));
        while (sensor->currentIndex() < platform) QTest::keyClick(sensor, Qt::Key_Down);
        value->setFocus();
        QTest::keyClicks(value, QStringLiteral("61"));
        for (int i = 0; i < 20; ++i) sample->advance(Seconds(1));
        QCOMPARE(sensor->currentIndex(), platform);
        QTest::keyClick(value, Qt::Key_Return);
        QCOMPARE(d->session()->readings.last().value, Temperature::fromCelsius(61));
        QCOMPARE(d->session()->readings.last().sensor, Sensor::Platform);
    }
    void whatIsNoTemperatureStaysToBePutRight() {
        begin();
        auto* value = d->find<QLineEdit>(QStringLiteral("logValue"));
        value->setFocus();
        QTest::keyClicks(value, QStringLiteral("88c"));
        QTest::keyClick(value, Qt::Key_Return);
        QVERIFY(d->message().startsWith(QStringLiteral("▲")));
        QCOMPARE(value->text(), QStringLiteral("88c"));
        value->setText(QStringLiteral("88"));
        value->setFocus();
        QTest::keyClick(value, Qt::Key_Return);
        QCOMPARE(d->session()->readings.last().value, Temperature::fromCelsius(88));
        QCOMPARE(value->text(), QString());
    }

    void enterOnCancelCancels() {
        d->choose(bay, QStringLiteral("7401"));
        d->click(QStringLiteral("withdrawJob"));
        QPointer<AskDialog> a = dialog<AskDialog>(QStringLiteral("withdrawDialog"));
        QVERIFY(a);
        a->findChild<QLineEdit*>(QStringLiteral("withdrawReason"))->setText(QStringLiteral("cancelled"));
        auto* cancel = a->findChild<QPushButton*>(QStringLiteral("askCancel"));
        cancel->setFocus();
        QTest::keyClick(cancel, Qt::Key_Return);
        QVERIFY(!a || !a->isVisible());
        QCOMPARE(sample->shop().job(QStringLiteral("7401"))->state, JobState::Open);
    }
    void enterOnAnotherButtonOfAFormDoesWhatThatButtonSays() {
        d->click(QStringLiteral("addJob"));
        auto* a = dialog<JobDialog>(QStringLiteral("jobDialog"));
        QVERIFY(a);
        auto* table = a->findChild<QTableWidget*>(QStringLiteral("jobVariants"));
        auto* more = a->findChild<QPushButton*>(QStringLiteral("addVariant"));
        const int before = table->rowCount();
        more->setFocus();
        QTest::keyClick(more, Qt::Key_Enter, Qt::KeypadModifier);
        QCOMPARE(table->rowCount(), before + 1);
        QVERIFY2(a->objectionsShown().isEmpty(), "the form was not handed in");
    }

    void aNoteBelongsToItsOwnSession() {
        begin();
        toTheEnd();
        const PrinterId first = d->session()->printer;
        auto* note = d->find<QLineEdit>(QStringLiteral("closingNote"));
        QVERIFY(note);
        note->setText(QStringLiteral("seal of the first bay is worn"));
        d->page->showPrinter({});
        beginElsewhere();
        toTheEnd();
        QCOMPARE(d->find<QLineEdit>(QStringLiteral("closingNote"))->text(), QString());
        d->page->showPrinter(first);
        QCOMPARE(d->find<QLineEdit>(QStringLiteral("closingNote"))->text(), QStringLiteral("seal of the first bay is worn"));
    }
    void aProblemAtTheEndTakesBackTheRelease() {
        begin();
        toTheEnd();
        const auto chosen = [&] {
            for (int i = 0; i < 3; ++i)
                if (d->find<QAbstractButton>(QStringLiteral("disposition%1").arg(i))->isChecked()) return i;
            return -1;
        };
        QCOMPARE(chosen(), -1);
        d->click(QStringLiteral("disposition0"));
        QCOMPARE(chosen(), 0);
        d->click(QStringLiteral("problemButton"));
        auto* a = dialog<AskDialog>(QStringLiteral("problemDialog"));
        QVERIFY(a);
        a->findChild<QPlainTextEdit*>(QStringLiteral("problemNote"))->setPlainText(QStringLiteral("the door does not close"));
        accept(a);
        QCOMPARE(d->session()->problems.size(), 1);
        QCOMPARE(chosen(), -1);
        // What is chosen after that stays.
        d->click(QStringLiteral("disposition2"));
        sample->advance(Minutes(1));
        QCOMPARE(chosen(), 2);
    }

    void whatTheFormDoesNotChangeStaysToTheCent() {
        Job j = *sample->shop().job(QStringLiteral("7401"));
        j.id = QStringLiteral("9001");
        j.lateCostPerHour = Money::fromCents(123456789);
        addJob(j);
        JobDialog* a = change(j.id);
        QVERIFY(a);
        a->findChild<QLineEdit*>(QStringLiteral("jobTitle"))->setText(QStringLiteral("another title"));
        accept(a);
        const Job* now = sample->shop().job(j.id);
        QCOMPARE(now->title, QStringLiteral("another title"));
        QCOMPARE(now->lateCostPerHour.cents(), j.lateCostPerHour.cents());
    }
    void aVariantRenamedKeepsItsMinutesOnEachPrinter() {
        Job j = *sample->shop().job(QStringLiteral("7401"));
        j.id = QStringLiteral("9002");
        j.variants.first().print = Minutes(0);
        j.variants.first().printOn = {{QStringLiteral("bay-1"), Minutes(54)}, {QStringLiteral("bay-2"), Minutes(61)}};
        addJob(j);
        JobDialog* a = change(j.id);
        QVERIFY(a);
        a->findChild<QTableWidget*>(QStringLiteral("jobVariants"))->item(0, 0)->setText(QStringLiteral("as ordered"));
        accept(a);
        const Variant& now = sample->shop().job(j.id)->variants.first();
        QCOMPARE(now.name, QStringLiteral("as ordered"));
        QCOMPARE(now.printOn, j.variants.first().printOn);
        QCOMPARE(now.print, Minutes(0));
        a = change(j.id);
        QVERIFY(a);
        auto* table = a->findChild<QTableWidget*>(QStringLiteral("jobVariants"));
        QCOMPARE(table->item(0, 5)->text(), QStringLiteral("bay-1: 54; bay-2: 61"));
        for (const QString& wrong : {QStringLiteral("bay-1: 54; bay-99: 61"), QStringLiteral("bay-1: soon"), QStringLiteral("54; 61")}) {
            table->item(0, 5)->setText(wrong);
            accept(a);
            QVERIFY2(a->isVisible(), qPrintable(wrong));
        }
        table->item(0, 5)->setText(QStringLiteral("bay-1: 50; bay-2: 70"));
        accept(a);
        QCOMPARE(sample->shop().job(j.id)->variants.first().printOn.at(QStringLiteral("bay-2")), Minutes(70));
    }
    void aJobKnownByItsLabelCanBeChanged() {
        Job j;
        j.id = QStringLiteral("9003");
        Variant v;
        v.setup.label = QStringLiteral("A");
        v.print = Minutes(40);
        j.variants = {v};
        addJob(j);
        QPointer<JobDialog> a = change(j.id); // its message is asked for when it has closed, too
        QVERIFY(a);
        a->findChild<QCheckBox*>(QStringLiteral("jobDueHas"))->setChecked(true);
        a->findChild<QTableWidget*>(QStringLiteral("jobVariants"))->item(0, 5)->setText(QStringLiteral("45"));
        accept(a);
        const Job* now = sample->shop().job(j.id);
        QVERIFY2(now->due.has_value(), qPrintable(a ? a->objectionsShown().join(QLatin1Char(' ')) : QString()));
        QCOMPARE(now->variants.size(), 1);
        QCOMPARE(now->variants.first().setup.label, QStringLiteral("A"));
        QCOMPARE(now->variants.first().print, Minutes(45));
    }
    void anAnswerIsGivenOnlyToAQuestionThatIsSeen() {
        begin();
        const auto wantsAnswer = [&] { return !d->desk().missing().isEmpty() && d->desk().missing().first().what == Missing::What::Answer; };
        for (int guard = 0; guard < 60 && !wantsAnswer(); ++guard)
            if (!d->giveNext()) d->doStep();
        QVERIFY(wantsAnswer());
        QVERIFY(sample->bench->perform(act::SessionPaused{d->session()->number, QStringLiteral("break"), false}).has_value());
        d->scanField()->setFocus();
        d->key(Qt::Key_F2);
        d->key(Qt::Key_F3);
        d->key(Qt::Key_Return);
        QCOMPARE(d->session()->phase, SessionPhase::Open);
        QVERIFY(wantsAnswer());
    }
    void aScanIntoTheClosingNoteDoesNotFinish() {
        begin();
        toTheEnd();
        const qint64 number = d->session()->number;
        d->click(QStringLiteral("disposition0"));
        auto* note = d->find<QLineEdit>(QStringLiteral("closingNote"));
        note->setFocus();
        d->scan(QStringLiteral("S-101"));
        QCOMPARE(sample->shop().session(number)->phase, SessionPhase::Open);
        QVERIFY(d->scanField()->hasFocus());
        d->key(Qt::Key_Return);
        QCOMPARE(sample->shop().session(number)->phase, SessionPhase::Finished);
    }
    void aWaitThatCouldNotBeginBeginsOnceTheLedgerTakesIt() {
        d.reset();
        sample->bench.reset();
        auto store = std::make_unique<FullStore>(makeMemoryStore(sample->catalogue->fleet.id));
        FullStore& disk = *store;
        auto opened = Workbench::open(sample->catalogue, std::move(store), sample->clock, QStringLiteral("bench-pc"));
        QVERIFY(opened);
        sample->workbench = std::move(*opened);
        sample->bench = std::make_unique<Bench>(*sample->workbench);
        sample->bench->signIn(QStringLiteral("ML"));
        d = std::make_unique<PageDriver>(*sample);
        begin();
        for (int guard = 0; guard < 120 && d->desk().guide().waits.isEmpty(); ++guard) {
            while (d->giveNext()) {}
            // Only this step's confirmation is taken, not what follows from it.
            disk.room = 1;
            d->key(Qt::Key_Return);
            if (!startableWaits(sample->shop(), *d->session()).isEmpty()) break;
            disk.room = -1;
            sample->advance(Minutes(1));
        }
        QCOMPARE(disk.room, 0);
        QVERIFY(!startableWaits(sample->shop(), *d->session()).isEmpty());
        disk.room = -1;
        QVERIFY(sample->bench->perform(act::TemperatureRead{d->session()->number, Sensor::Chamber, Temperature::fromCelsius(80), {}}).has_value());
        sample->advance(Seconds(1));
        QVERIFY2(startableWaits(sample->shop(), *d->session()).isEmpty(), "there is no button for it: it begins by itself");
    }
    void theKeypadsEnterChoosesACountdown() {
        begin();
        for (int guard = 0; guard < 120 && d->desk().guide().waits.isEmpty(); ++guard) d->doStep();
        auto* panel = d->page->findChild<CountdownPanel*>();
        QVERIFY(panel);
        QSignalSpy chosen(panel, &CountdownPanel::chosen);
        QTest::keyClick(panel, Qt::Key_Enter, Qt::KeypadModifier);
        QCOMPARE(chosen.size(), 1);
    }
    void aJobsIdMakesNoFolder() {
        Job j = *sample->shop().job(QStringLiteral("7402"));
        j.id = QStringLiteral("2026/114");
        addJob(j);
        d->choose(bay, j.id, 1);
        remembered()->setValue(QStringLiteral("paper/where"), QStringLiteral("pdf"));
        d->click(QStringLiteral("printSummary"));
        auto* where = dialog<AskDialog>(QStringLiteral("paperDialog"));
        QVERIFY(where);
        accept(where);
        auto* file = dialog<QFileDialog>(QStringLiteral("pdfDialog"));
        QVERIFY(file);
        QCOMPARE(file->selectedFiles().size(), 1);
        QCOMPARE(QFileInfo(file->selectedFiles().first()).fileName(), QStringLiteral("changeover-summary-bay-1-2026-114.pdf"));
        file->reject();
    }
    void whatWouldBeRefusedToNobodyIsNotOffered() {
        d->choose(bay, job, 1);
        sample->bench->signIn({});
        for (const char* name : {"addJob", "changeJob", "withdrawJob"}) {
            auto* b = d->find<QPushButton>(QString::fromLatin1(name));
            QVERIFY2(b && !b->isEnabled() && b->toolTip().contains(QStringLiteral("Sign in")), name);
        }
        sample->bench->signIn(QStringLiteral("ML"));
        QVERIFY(d->find<QPushButton>(QStringLiteral("changeJob"))->isEnabled());
        begin();
        sample->bench->signIn({});
        for (const char* name : {"takeBackButton", "problemButton", "handOverButton", "moreButton"}) {
            auto* b = d->find<QPushButton>(QString::fromLatin1(name));
            QVERIFY2(b && !b->isEnabled() && b->toolTip().contains(QStringLiteral("Sign in")), name);
        }
        sample->bench->signIn(QStringLiteral("ML"));
        QVERIFY(d->find<QPushButton>(QStringLiteral("takeBackButton"))->isEnabled());
    }
    void anAmpersandInANameIsShown() {
        Job j = *sample->shop().job(QStringLiteral("7401"));
        j.id = QStringLiteral("9004");
        j.variants.first().name = QStringLiteral("R&D");
        addJob(j);
        d->choose(bay, j.id);
        auto* choice = d->find<QRadioButton>(QStringLiteral("variant0"));
        QVERIFY(choice);
        QVERIFY2(choice->text().startsWith(QStringLiteral("R&&D: ")), qPrintable(choice->text()));
        QVERIFY2(choice->accessibleName().startsWith(QStringLiteral("R&D: ")), qPrintable(choice->accessibleName()));
    }

    void whenThePrinterWouldBeReadyGoesOnWithTheClock() {
        d->choose(bay, job, 1);
        const auto says = [&](Instant ready) {
            for (const QLabel* l : d->page->startPanel().findChildren<QLabel*>())
                if (l->isVisibleTo(d->page) && l->text() == sample->bench->shortTime(ready)) return true;
            return false;
        };
        const Instant before = *d->page->startPanel().result()->ready;
        QVERIFY(says(before));
        QPointer<QComboBox> nozzle = d->find<QComboBox>(QStringLiteral("choosePartNozzle"));
        QVERIFY(nozzle);
        nozzle->setFocus();
        for (int i = 0; i < 5; ++i) sample->advance(Minutes(1));
        QCoreApplication::processEvents();
        QVERIFY2(says(before + Minutes(5)), "begun five minutes later it is ready five minutes later");
        QVERIFY2(nozzle && nozzle->hasFocus(), "a person may be choosing here");
        // What is judged by the clock is judged anew: no spool in the open stays dry for a month.
        sample->advance(std::chrono::hours(24 * 31));
        QCOMPARE(d->page->startPanel().result()->transition.verdicts.size(),
                 assemble(sample->shop(), d->page->startPanel().draft(), sample->bench->now())->transition.verdicts.size());
    }
};
INTERLUDE_TEST(FormsTest)
#include "forms_test.moc"
