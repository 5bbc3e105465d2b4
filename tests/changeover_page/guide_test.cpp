// The real Changeover page on the sample fleet: whole changeovers by keys and scans, by mouse, and everything that goes
// wrong on the way.

#include "tests/changeover_page/on_page.h"
#include "tests/harness/run_tests.h"
#include "views/asking/ask_dialog.h"

#include <QCheckBox>
#include <QComboBox>
#include <QDateTimeEdit>
#include <QPlainTextEdit>
#include <QSignalSpy>

using namespace interlude;
using namespace interlude::tests;

namespace {
const QString bay = QStringLiteral("bay-1");
/// Another part material, a coarser nozzle at both positions.
const QString job = QStringLiteral("7402");
constexpr int coarse = 1;
} // namespace

class GuideTest final : public OnPage {
    Q_OBJECT
private:
    void fill(AskDialog* a, const QString& field, const QString& text) {
        if (auto* line = a->findChild<QLineEdit*>(field)) line->setText(text);
        else if (auto* note = a->findChild<QPlainTextEdit*>(field)) note->setPlainText(text);
        else QFAIL(qPrintable(field));
    }
    void accept(AskDialog* a) {
        QTest::mouseClick(a->acceptButton(), Qt::LeftButton);
        QCoreApplication::processEvents();
        QCoreApplication::sendPostedEvents(nullptr, QEvent::DeferredDelete);
        d->scanField()->setFocus();
    }
    void begin() {
        d->choose(bay, job, coarse);
        QVERIFY2(d->page->startPanel().result()->changeover.has_value(),
                 "this bay can get there");
        d->start();
        QVERIFY(d->session());
    }

    /// Stops at the first wait that nothing but its end confirms, and whose temperature runs down.
    void toARunningWait() {
        for (int guard = 0; guard < 120; ++guard) {
            const PlannedStep* shown = d->desk().shown();
            QVERIFY(shown);
            for (const Countdown& c : d->desk().guide().waits)
                if (c.step == shown->step.id && c.sensor && d->desk().missing().isEmpty() && *c.left(sample->bench->now()) > Seconds(60)) return;
            d->doStep();
        }
        QFAIL("no wait");
    }

private Q_SLOTS:
    void aWaitThatStillRunsDownAsksHowItIsKnownToBeOver() {
        begin();
        toARunningWait();
        const StepId step = d->desk().shown()->step.id;
        d->key(Qt::Key_Return);
        AskDialog* ask = dialog(QStringLiteral("earlyEndDialog"));
        QVERIFY2(ask, "Enter alone does not end it");
        QCOMPARE(d->desk().shown()->step.id, step);
        QTest::mouseClick(ask->acceptButton(), Qt::LeftButton);
        QVERIFY2(ask->isVisible(), "how it is known is not optional");
        auto* why = ask->findChild<QComboBox*>(QStringLiteral("earlyEndWhy"));
        why->setCurrentIndex(why->findText(QStringLiteral("seen at the printer")));
        fill(ask, QStringLiteral("earlyEndNote"), QStringLiteral("gauge"));
        accept(ask);
        const StepProgress& p = d->session()->progress(step);
        QVERIFY(p.state == StepState::Done);
        QVERIFY2(p.confirmed.note.endsWith(QStringLiteral("left by the prediction: seen at the printer, gauge")), qPrintable(p.confirmed.note));
        // Whoever has just said so stands there, and is not called.
        QSignalSpy called(sample->bench.get(), &Bench::attention);
        sample->advance(Seconds(1));
        QCOMPARE(called.count(), 0);
    }
    void workPlannedElsewhereIsSaidMeanwhile() {
        begin();
        const Shop& shop = sample->shop();
        const auto printers = shop.printers();
        const auto other = std::find_if(printers.begin(), printers.end(), [&](const PrinterNow& p) {
            return p.id != d->session()->printer && p.activity == Activity::Idle && !shop.openSession(p.id);
        });
        QVERIFY(other != printers.end());
        std::optional<Job> job;
        for (const Job& each : shop.jobs())
            if (each.state == JobState::Open && each.id != d->session()->changeover.transition.request.job) job = each;
        QVERIFY(job);
        const auto said = [&] {
            return std::count_if(d->desk().guide().meanwhile.begin(), d->desk().guide().meanwhile.end(), [&](const Meanwhile& m) {
                return m.printer == other->id && m.text.contains(job->id) && m.text.contains(QStringLiteral("planned for"));
            });
        };
        const Instant now = sample->bench->now();
        for (const auto& [ahead, times] : {std::pair(Minutes(90), 0), std::pair(Minutes(40), 1)}) {
            Plan plan{QStringLiteral("cost"), {{other->id, {{job->id, job->variants.first().name, false, now + ahead, now + ahead + Minutes(60), now + ahead + Minutes(120)}}}}, {}};
            const auto done = sample->bench->perform(act::PlanPublished{plan});
            QVERIFY2(done, done ? "" : qPrintable(sentence(done.error())));
            sample->advance(Seconds(1));
            QCOMPARE(said(), times);
        }
    }
    void aNumberTypedDuringAWaitIsItsReading() {
        begin();
        toARunningWait();
        const auto before = d->session()->readings.size();
        d->type(QStringLiteral("88,5"));
        QCOMPARE(d->session()->readings.size(), before + 1);
        QCOMPARE(d->session()->readings.last().value, Temperature::fromCelsius(88.5));
        // A word is no reading, and still a wrong scan.
        d->type(QStringLiteral("N-999"));
        QCOMPARE(d->session()->readings.size(), before + 1);
        QVERIFY(d->message().startsWith(QStringLiteral("▲")));
    }
    void anAnswerMayBeTyped() {
        begin();
        const auto wantsAnswer = [&] { return !d->desk().missing().isEmpty() && d->desk().missing().first().what == Missing::What::Answer; };
        for (int guard = 0; guard < 60 && !wantsAnswer(); ++guard)
            if (!d->giveNext()) d->doStep();
        QVERIFY(wantsAnswer());
        const int index = d->desk().missing().first().index;
        const bool yes = d->desk().shown()->step.confirm.answers.at(index).mustBe.value_or(false);
        d->type(yes ? QStringLiteral("Yes") : QStringLiteral("no"));
        QVERIFY(!wantsAnswer() || d->desk().missing().first().index != index);
    }

    void wholeByScannerAndKeys() {
        begin();
        QSignalSpy record(sample->bench.get(), &Bench::openRecord);
        const qint64 number = d->session()->number;
        for (int guard = 0; guard < 120 && d->session() && !d->desk().guide().finished; ++guard) {
            QVERIFY2(d->desk().shown(), "something is left, so something is shown");
            QCOMPARE(QApplication::focusWidget(), d->scanField());
            const StepId step = d->desk().shown()->step.id;
            d->doStep();
            const StepState state = sample->shop().session(number)->progress(step).state;
            QVERIFY2(state == StepState::Done, qPrintable(step + QStringLiteral(": ") + d->message()));
        }
        QVERIFY(d->session());
        QCOMPARE(d->confirmText(), QStringLiteral("Finish"));
        // One Enter more releases nothing: somebody says whether it may print, by keys too.
        d->key(Qt::Key_Return);
        QCOMPARE(sample->shop().session(number)->phase, SessionPhase::Open);
        QVERIFY2(d->message().contains(QStringLiteral("Disposition")), qPrintable(d->message()));
        d->key(Qt::Key_Return);
        QCOMPARE(sample->shop().session(number)->phase, SessionPhase::Open);
        d->key(Qt::Key_Space);
        d->key(Qt::Key_Return);
        const SessionState* done = sample->shop().session(number);
        QCOMPARE(done->phase, SessionPhase::Finished);
        QCOMPARE(record.size(), 1);
        QCOMPARE(record.first().first().toLongLong(), number);
        QCOMPARE(sample->shop().printer(bay)->activity, Activity::Printing);
        // Everything but the typed numbers came from the scanner.
        for (const StepProgress& p : done->steps)
            for (const act::ScanDone& s : p.confirmed.scans) QVERIFY2(!s.typed, qPrintable(s.value));
    }

    void whatIsWantedNextIsInSight() {
        begin();
        d->until(QStringLiteral("mount-part-nozzle"));
        const auto inSight = [&](const QString& name) {
            const auto whole = [&] {
                auto* slot = d->find<QWidget>(name);
                return slot && slot->height() > 0 &&
                       slot->visibleRegion().boundingRect().height() == slot->height();
            };
            QTRY_VERIFY2(whole(), qPrintable(name));
        };
        QVERIFY(!d->desk().missing().isEmpty());
        inSight(QStringLiteral("scan0"));
        d->giveNext();
        QCOMPARE(d->desk().missing().first().what, Missing::What::Answer);
        inSight(QStringLiteral("answer0"));
    }
    void wholeByMouse() {
        begin();
        const qint64 number = d->session()->number;
        for (int guard = 0; guard < 120 && d->session() && !d->desk().guide().finished; ++guard) {
            const PlannedStep step = *d->desk().shown();
            if (d->desk().isWaiting()) d->waitOut(step.step.id);
            for (int i = 0; i < static_cast<int>(step.step.confirm.scans.size()); ++i) d->scan(d->idFor(i));
            if (d->find<QPushButton>(QStringLiteral("noHistory"))) d->click(QStringLiteral("noHistory"));
            for (int i = 0; i < static_cast<int>(step.step.confirm.answers.size()); ++i)
                d->click(QStringLiteral("answer%1%2").arg(i).arg(
                    step.step.confirm.answers.at(i).mustBe.value_or(false) ? QStringLiteral("Yes") : QStringLiteral("No")));
            for (int i = 0; i < static_cast<int>(step.step.confirm.readings.size()); ++i) {
                auto* field = d->find<QLineEdit>(QStringLiteral("reading%1_0").arg(i));
                QVERIFY(field);
                QTest::mouseClick(field, Qt::LeftButton);
                QTest::keyClicks(field, PageDriver::middle(step.step.confirm.readings.at(i)));
                QTest::keyClick(field, Qt::Key_Return);
            }
            if (step.step.onlyBelow) {
                d->waitOut(step.step.id);
                auto* field = d->find<QLineEdit>(QStringLiteral("measured"));
                QVERIFY(field);
                QTest::mouseClick(field, Qt::LeftButton);
                QTest::keyClicks(field, QString::number(static_cast<int>(step.step.onlyBelow->celsius()) - 3));
                QTest::keyClick(field, Qt::Key_Return);
            }
            QVERIFY2(d->confirmButton()->isEnabled(), qPrintable(step.step.id + d->confirmText()));
            QVERIFY(d->confirmButton()->height() >= 64);
            d->click(QStringLiteral("confirmButton"));
            QVERIFY2(sample->shop().session(number)->progress(step.step.id).state == StepState::Done,
                     qPrintable(step.step.id + d->message()));
        }
        d->click(QStringLiteral("disposition0"));
        d->click(QStringLiteral("confirmButton"));
        QCOMPARE(sample->shop().session(number)->phase, SessionPhase::Finished);
    }
    /// Whatever the prediction says: a measured temperature is stronger than "the printer shows it".
    void aWaitDoesNotEndAgainstItsLastReading() {
        begin();
        toARunningWait();
        const PlannedStep step = *d->desk().shown();
        QVERIFY(step.target || step.step.to);
        const double target = (step.target ? *step.target : *step.step.to).celsius();
        const bool cooling = step.step.duration == DurationKind::Cool;
        d->type(QString::number(target + (cooling ? 60 : -60)));
        d->key(Qt::Key_Return);
        QVERIFY(!dialog(QStringLiteral("earlyEndDialog")));
        AskDialog* ask = dialog(QStringLiteral("overrideDialog"));
        QVERIFY2(ask, qPrintable(d->message()));
        QTest::keyClick(ask, Qt::Key_Escape);
        QVERIFY(d->session()->progress(step.step.id).state == StepState::Started);
        d->type(QString::number(target + (cooling ? -1 : 1)));
        d->key(Qt::Key_Return);
        QVERIFY(!dialog(QStringLiteral("overrideDialog")));
        if (AskDialog* early = dialog(QStringLiteral("earlyEndDialog"))) {
            early->findChild<QComboBox*>(QStringLiteral("earlyEndWhy"))->setCurrentIndex(1);
            accept(early);
        }
        QVERIFY(d->session()->progress(step.step.id).state == StepState::Done);
    }
    /// Before the step closes, another reading takes the place of the first.
    void aSecondMeasuredTemperatureIsTaken() {
        begin();
        for (int guard = 0; guard < 60 && !(d->desk().shown()->step.onlyBelow && d->desk().missing().isEmpty()); ++guard)
            if (!d->giveNext()) d->doStep();
        const PlannedStep step = *d->desk().shown();
        QVERIFY(step.step.onlyBelow && d->desk().missing().isEmpty());
        const double second = step.step.onlyBelow->celsius() - 7;
        d->type(QString::number(second));
        QVERIFY2(!d->message().startsWith(QStringLiteral("▲")), qPrintable(d->message()));
        d->key(Qt::Key_Return);
        const StepProgress& p = d->session()->progress(step.step.id);
        QVERIFY(p.state == StepState::Done);
        QCOMPARE(p.confirmed.measured, std::optional(Temperature::fromCelsius(second)));
    }

    /// Typed with a finger's slip, or from the wrong display: kept as read, and asked about.
    void aTemperatureThatThePrinterCannotReachIsAskedAbout() {
        begin();
        const auto kept = [&] { return d->session()->readings.size(); };
        const qsizetype before = kept();
        d->desk().logTemperature(Sensor::Chamber, QStringLiteral("95"));
        QVERIFY2(!d->message().contains(QStringLiteral("Noted, but")), qPrintable(d->message()));
        d->desk().logTemperature(Sensor::Chamber, QStringLiteral("400"));
        QVERIFY2(d->message().contains(QStringLiteral("Noted, but 400 °C")) && d->message().contains(QStringLiteral("read again")),
                 qPrintable(d->message()));
        QCOMPARE(kept(), before + 2);
        d->desk().logTemperature(Sensor::Chamber, QStringLiteral("900"));
        QVERIFY2(d->message().contains(QStringLiteral("no temperature of a printer")), qPrintable(d->message()));
        QCOMPARE(kept(), before + 2); // refused: nothing is on record
    }
    void wrongScanNeverConfirms() {
        begin();
        d->until(QStringLiteral("remove-part-nozzle"));
        QCOMPARE(d->desk().shown()->step.id, QStringLiteral("remove-part-nozzle"));
        while (d->desk().missing().first().what != Missing::What::Scan) QVERIFY(d->giveNext());
        QSignalSpy attention(sample->bench.get(), &Bench::attention);
        const qint64 confirmed = sample->events(QStringLiteral("step-confirmed"));
        d->scan(QStringLiteral("S-101"));
        QCOMPARE(attention.size(), 1);
        QVERIFY2(d->message().contains(QStringLiteral("S-101")) && d->message().contains(QStringLiteral("N-001")),
                 qPrintable(d->message()));
        d->key(Qt::Key_Return);
        QCOMPARE(sample->events(QStringLiteral("step-confirmed")), confirmed);
        QVERIFY(!d->confirmButton()->isEnabled());
        QCOMPARE(d->confirmText(), QStringLiteral("Done: scan N-001 first"));
        // The right one by hand is taken, and marked.
        d->type(QStringLiteral("N-001"));
        QVERIFY2(d->message().contains(QStringLiteral("typed")), qPrintable(d->message()));
        while (d->giveNext()) {}
        d->key(Qt::Key_Return);
        const StepProgress p = d->session()->progress(QStringLiteral("remove-part-nozzle"));
        QCOMPARE(p.state, StepState::Done);
        QVERIFY(p.confirmed.scans.first().typed);
    }

    void countdownNeverConfirms() {
        begin();
        d->until(QStringLiteral("cool-heads"));
        const qint64 confirmed = sample->events(QStringLiteral("step-confirmed"));
        sample->advance(std::chrono::hours(5));
        sample->advance(std::chrono::hours(5));
        QCOMPARE(sample->events(QStringLiteral("step-confirmed")), confirmed);
    }

    void hotterThanAllowedIsRefused() {
        begin();
        d->until(QStringLiteral("remove-part-nozzle"));
        d->type(QStringLiteral("180"));
        QVERIFY2(d->confirmText().startsWith(QStringLiteral("Done: part head at or below")),
                 qPrintable(d->confirmText()));
        d->waitOut(QStringLiteral("remove-part-nozzle"));
        d->type(QStringLiteral("100"));
        QCOMPARE(d->confirmText(), QStringLiteral("Done: scan N-001 first"));
        // Older than a minute is unknown again.
        sample->advance(Seconds(61));
        QCOMPARE(d->confirmText(), QStringLiteral("Done: measure the part head first"));
    }

    void readingOutsideNeedsReasonAndSecondPerson() {
        begin();
        d->until(QStringLiteral("align-nozzles"));
        QCOMPARE(d->desk().shown()->step.id, QStringLiteral("align-nozzles"));
        d->type(QStringLiteral("0.4"));
        while (d->giveNext()) {}
        QVERIFY2(d->confirmText().contains(QStringLiteral("outside its limits")),
                 qPrintable(d->confirmText()));
        d->key(Qt::Key_Return);
        QCOMPARE(d->session()->progress(QStringLiteral("align-nozzles")).state == StepState::Done, false);
        AskDialog* a = dialog(QStringLiteral("overrideDialog"));
        QVERIFY(a);
        QTest::mouseClick(a->acceptButton(), Qt::LeftButton);
        QVERIFY2(a->isVisible(), "without a reason it stays open");
        fill(a, QStringLiteral("overrideReason"), QStringLiteral("test part only"));
        QTest::mouseClick(a->acceptButton(), Qt::LeftButton);
        QVERIFY2(a->isVisible(), "without a second person it stays open");
        auto* second = a->findChild<QComboBox*>(QStringLiteral("overrideApprover"));
        QCOMPARE(second->findData(QStringLiteral("ML")), -1);
        second->setCurrentIndex(second->findData(QStringLiteral("RS")));
        accept(a);
        const StepProgress p = d->session()->progress(QStringLiteral("align-nozzles"));
        QCOMPARE(p.state, StepState::Done);
        QCOMPARE(p.confirmed.overrides.size(), 1);
        QCOMPARE(p.confirmed.overrides.first().approver, QStringLiteral("RS"));
    }

    void pauseAndHandOver() {
        begin();
        d->until(QStringLiteral("bring-head-within-reach"));
        d->click(QStringLiteral("handOverButton"));
        AskDialog* a = dialog(QStringLiteral("handOverDialog"));
        QVERIFY(a);
        a->findChild<QCheckBox*>(QStringLiteral("handOver"))->setChecked(true);
        fill(a, QStringLiteral("handOverNote"), QStringLiteral("head is still warm"));
        accept(a);
        QCOMPARE(d->session()->phase, SessionPhase::Paused);
        QVERIFY(d->find<QWidget>(QStringLiteral("pausePanel")));
        sample->advance(Minutes(12));
        sample->bench->signIn(QStringLiteral("TO"));
        d->scanField()->setFocus();
        QVERIFY2(d->confirmText().startsWith(QStringLiteral("Go on: scan")), qPrintable(d->confirmText()));
        QSignalSpy attention(sample->bench.get(), &Bench::attention);
        d->scan(QStringLiteral("N-999"));
        QCOMPARE(attention.size(), 1);
        d->key(Qt::Key_Return);
        QCOMPARE(d->session()->phase, SessionPhase::Paused);
        d->scan(QStringLiteral("N-001"));
        d->scan(QStringLiteral("N-201"));
        d->key(Qt::Key_Return);
        QCOMPARE(d->session()->phase, SessionPhase::Open);
        QCOMPARE(d->session()->interruptions.last().by, QStringLiteral("TO"));
        QCOMPARE(d->session()->interruptions.last().mounted.value(QStringLiteral("part")), QStringLiteral("N-001"));
        QCOMPARE(d->desk().shown()->step.id, QStringLiteral("bring-head-within-reach"));
    }

    void takeBackKeepsTheClock() {
        begin();
        d->doStep();
        const StepId first = d->session()->confirmedOrder.first();
        d->click(QStringLiteral("takeBackButton"));
        AskDialog* a = dialog(QStringLiteral("takeBackDialog"));
        QVERIFY(a);
        QTest::mouseClick(a->acceptButton(), Qt::LeftButton);
        QVERIFY2(a->isVisible(), "a reason is needed");
        fill(a, QStringLiteral("takeBackReason"), QStringLiteral("wrong shelf"));
        accept(a);
        QVERIFY(d->session()->confirmedOrder.isEmpty());
        QCOMPARE(d->session()->takenBack.size(), 1);
        QCOMPARE(d->session()->takenBack.first().step, first);
        QCOMPARE(d->desk().shown()->step.id, first);
    }

    void correctionStandsBesideTheOriginal() {
        begin();
        d->until(QStringLiteral("bring-head-within-reach"));
        d->page->findChild<QAction*>(QStringLiteral("correctAction"))->trigger();
        AskDialog* a = dialog(QStringLiteral("correctionDialog"));
        QVERIFY(a);
        auto* what = a->findChild<QComboBox*>(QStringLiteral("correctionWhat"));
        QVERIFY(what->count() > 3);
        const QString original = a->findChild<QLineEdit*>(QStringLiteral("correctionOriginal"))->text();
        fill(a, QStringLiteral("correctionValue"), QStringLiteral("something else"));
        fill(a, QStringLiteral("correctionReason"), QStringLiteral("misread"));
        accept(a);
        QCOMPARE(d->session()->corrections.size(), 1);
        QCOMPARE(d->session()->corrections.first().what.original, original);
    }

    void problemIsNoted() {
        begin();
        d->click(QStringLiteral("problemButton"));
        AskDialog* a = dialog(QStringLiteral("problemDialog"));
        QVERIFY(a);
        fill(a, QStringLiteral("problemNote"), QStringLiteral("glove torn"));
        accept(a);
        QCOMPARE(d->session()->problems.size(), 1);
        QCOMPARE(d->session()->phase, SessionPhase::Open);
    }

    void stoppedHalfWayGoesOnFromTheMixedState() {
        begin();
        d->until(QStringLiteral("mount-part-nozzle"));
        const qint64 number = d->session()->number;
        d->page->findChild<QAction*>(QStringLiteral("stopAction"))->trigger();
        AskDialog* a = dialog(QStringLiteral("problemDialog"));
        QVERIFY(a);
        fill(a, QStringLiteral("problemNote"), QStringLiteral("the new nozzle is bent"));
        accept(a);
        QCOMPARE(sample->shop().session(number)->phase, SessionPhase::Stopped);
        const PrinterNow* p = sample->shop().printer(bay);
        QVERIFY(p->part.nozzle.isEmpty());
        QVERIFY(p->open);
        QVERIFY(d->page->printerShown().isEmpty());
        // The next changeover begins with what is there: nothing is removed again, the mounting is still to do.
        d->choose(bay, job, coarse);
        const auto& result = d->page->startPanel().result();
        QVERIFY(result && result->changeover);
        QVERIFY(result->changeover->step(QStringLiteral("mount-part-nozzle")));
        QVERIFY(!result->changeover->step(QStringLiteral("remove-part-nozzle")));
        d->start();
        QVERIFY(d->session());
        for (int guard = 0; guard < 120 && d->session() && !d->desk().guide().finished; ++guard) d->doStep();
        d->click(QStringLiteral("disposition0"));
        d->key(Qt::Key_Return);
        QCOMPARE(sample->shop().printer(bay)->activity, Activity::Printing);
        QVERIFY(!sample->shop().printer(bay)->open);
    }

    void restartLandsOnTheSameStep() {
        begin();
        d->until(QStringLiteral("bring-head-within-reach"));
        const StepId step = d->desk().shown()->step.id;
        const auto confirmed = d->session()->confirmedOrder;
        d.reset();
        sample->restart();
        sample->advance(Minutes(3));
        d = std::make_unique<PageDriver>(*sample);
        QCOMPARE(d->page->printerShown(), bay);
        QVERIFY(d->session());
        QCOMPARE(d->session()->confirmedOrder, confirmed);
        QCOMPARE(d->desk().shown()->step.id, step);
    }

    void enteredLateTakesTimes() {
        d->choose(bay, job, coarse);
        d->find<QCheckBox>(QStringLiteral("enterLate"))->setChecked(true);
        const Instant begun = sample->bench->now() - std::chrono::hours(3);
        auto* from = d->find<QDateTimeEdit>(QStringLiteral("lateStart"));
        setZoned(*from, begun, sample->catalogue->fleet.zone);
        d->start();
        QVERIFY(d->session());
        QVERIFY(d->session()->enteredLate);
        const StepId first = d->desk().shown()->step.id;
        while (d->giveNext()) {}
        auto* when = d->find<QDateTimeEdit>(QStringLiteral("lateTime"));
        QVERIFY(when);
        const Instant done = begun + Minutes(7);
        setZoned(*when, done, sample->catalogue->fleet.zone);
        d->scanField()->setFocus();
        d->key(Qt::Key_Return);
        const StepProgress p = d->session()->progress(first);
        QCOMPARE(p.state, StepState::Done);
        QVERIFY(p.enteredLate);
        QVERIFY(*p.ended == done);
        // The rest follows with the planned minutes as the proposed times; nothing lies in the future.
        for (int guard = 0; guard < 120 && d->session() && !d->desk().guide().finished; ++guard) {
            while (d->giveNext()) {}
            const StepId step = d->desk().shown()->step.id;
            d->key(Qt::Key_Return);
            QVERIFY2(d->session()->progress(step).state == StepState::Done, qPrintable(step + d->message()));
            QVERIFY(*d->session()->progress(step).ended <= sample->bench->now());
        }
        const qint64 number = d->session()->number;
        d->click(QStringLiteral("disposition0"));
        d->key(Qt::Key_Return);
        QCOMPARE(sample->shop().session(number)->phase, SessionPhase::Finished);
    }

    void nobodySignedInIsReadOnly() {
        begin();
        const qint64 before = sample->shop().lastSequence();
        sample->bench->signIn({});
        QVERIFY(!d->confirmButton()->isEnabled());
        QCOMPARE(d->confirmText(), QStringLiteral("Sign in first"));
        d->key(Qt::Key_Return);
        sample->advance(Seconds(5));
        QCOMPARE(sample->shop().lastSequence(), before);
    }
};
INTERLUDE_TEST(GuideTest)
#include "guide_test.moc"
