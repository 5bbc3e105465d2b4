// The real Today page on the sample fleet.

#include "tests/changeover_page/page_driver.h"
#include "tests/harness/run_tests.h"
#include "views/asking/ask_dialog.h"

#include "views/today/crew_list.h"
#include "views/today/outlook.h"
#include "views/today/printer_card.h"
#include "views/today/today_page.h"

#include <QComboBox>
#include <QMenu>
#include <QScrollArea>
#include <QScrollBar>
#include <QSignalSpy>

using namespace interlude;
using namespace interlude::tests;

namespace {
const QString bay = QStringLiteral("bay-1");
} // namespace

class TodayTest final : public QObject {
    Q_OBJECT
private:
    std::unique_ptr<SampleBench> sample;
    std::unique_ptr<TodayPage> page;
    int readings = 0;

    PrinterCard* card() { return page->card(bay); }
    QString text(const QString& name) {
        if (auto* l = card()->findChild<QLabel*>(name)) return l->text();
        return card()->findChild<QWidget*>(name)->accessibleName();
    }
    void clickAct() {
        QTest::mouseClick(card()->findChild<QPushButton*>(QStringLiteral("cardAct")), Qt::LeftButton);
        QCoreApplication::processEvents();
    }
    QAction* action(const QString& name) {
        auto* menu = card()->findChild<QMenu*>();
        Q_EMIT menu->aboutToShow();
        for (QAction* a : menu->actions())
            if (a->objectName() == name) return a;
        return nullptr;
    }
    AskDialog* dialog(const QString& name) {
        AskDialog* found = card()->findChild<AskDialog*>(name);
        return found && found->isVisible() ? found : nullptr;
    }
    void accept(AskDialog* a) {
        QTest::mouseClick(a->acceptButton(), Qt::LeftButton);
        QCoreApplication::processEvents();
        QCoreApplication::sendPostedEvents(nullptr, QEvent::DeferredDelete);
    }
    /// A whole changeover in the guide, so that the printer prints.
    void print() {
        PageDriver d(*sample);
        d.choose(bay, QStringLiteral("7402"), 1);
        d.start();
        QVERIFY(d.session());
        for (int guard = 0; guard < 120 && d.session() && !d.desk().guide().finished; ++guard) d.doStep();
        d.click(QStringLiteral("disposition0"));
        d.key(Qt::Key_Return);
        QCOMPARE(sample->shop().printer(bay)->activity, Activity::Printing);
    }

    /// The folder as another reading of it gives it.
    void reload(const std::function<void(Catalogue&)>& change) {
        auto other = std::make_shared<Catalogue>(*sample->workbench->shop().cataloguePtr());
        change(*other);
        other->hash = QString::number(++readings).rightJustified(64, QLatin1Char('0'));
        QVERIFY(sample->workbench->reload(other).has_value());
        QCoreApplication::processEvents();
    }
    QString crewTitle() { return page->findChild<QLabel*>(QStringLiteral("crewTitle"))->text(); }
    QStringList crewWords() {
        QStringList out;
        for (const QLabel* l : page->findChild<CrewList*>()->findChildren<QLabel*>())
            if (l->isVisibleTo(page.get())) out << l->text();
        return out;
    }
    void withCrew(int crew) {
        reload([crew](Catalogue& c) {
            c.fleet.crewUnlimited = false;
            c.fleet.closed.clear();
            c.fleet.shifts = {Shift{{}, {1, 2, 3, 4, 5, 6, 7}, QTime(6, 0), QTime(22, 0), crew}};
        });
    }

private Q_SLOTS:
    void init() {
        sample = std::make_unique<SampleBench>();
        QVERIFY2(sample->catalogue, qPrintable(sample->problems));
        page = std::make_unique<TodayPage>(*sample->bench);
        page->resize(1366, 690);
        page->show();
        Q_UNUSED(QTest::qWaitForWindowActive(page.get()));
    }
    void cleanup() {
        page.reset();
        sample.reset();
    }

    void sixPrintersFitWithoutScrolling() {
        for (const Printer& p : sample->catalogue->fleet.printers) QVERIFY(page->card(p.id));
        QCoreApplication::processEvents();
        auto* scroll = page->findChild<QScrollArea*>();
        QCOMPARE(scroll->verticalScrollBar()->maximum(), 0);
    }
    void cardStartsTheChangeover() {
        QSignalSpy open(sample->bench.get(), &Bench::openChangeover);
        clickAct();
        QCOMPARE(open.size(), 1);
        QCOMPARE(open.first().first().toString(), bay);
    }
    void printEndedAndPartRemoved() {
        print();
        QVERIFY2(text(QStringLiteral("cardState")).startsWith(QStringLiteral("prints 7402")), qPrintable(text(QStringLiteral("cardState"))));
        sample->advance(std::chrono::hours(12));
        QVERIFY2(text(QStringLiteral("cardWrong")).contains(QStringLiteral("overdue")), "the print's time is over");
        clickAct();
        AskDialog* a = dialog(QStringLiteral("printEndDialog"));
        QVERIFY(a);
        a->findChild<QComboBox*>(QStringLiteral("endOutcome"))->setCurrentIndex(1);
        QTest::mouseClick(a->acceptButton(), Qt::LeftButton);
        QVERIFY2(a->isVisible(), "a failed print needs a note");
        a->findChild<QLineEdit*>(QStringLiteral("endPartCm3"))->setText(QStringLiteral("lots"));
        a->findChild<QLineEdit*>(QStringLiteral("endNote"))->setText(QStringLiteral("lifted corner"));
        QTest::mouseClick(a->acceptButton(), Qt::LeftButton);
        QVERIFY2(a->isVisible(), "a volume is a number");
        a->findChild<QLineEdit*>(QStringLiteral("endPartCm3"))->setText(QStringLiteral("12,5"));
        const NozzleSerial nozzle = sample->shop().printer(bay)->part.nozzle;
        const Volume before = sample->shop().stock().nozzles.value(nozzle).run.plain;
        accept(a);
        QCOMPARE(sample->shop().printer(bay)->activity, Activity::PartLying);
        QCOMPARE(sample->shop().stock().nozzles.value(nozzle).run.plain - before, Volume::fromCm3(12.5));
        QVERIFY2(text(QStringLiteral("cardWrong")).contains(QStringLiteral("part waits since")), qPrintable(text(QStringLiteral("cardWrong"))));
        QVERIFY(!needs(sample->shop(), sample->bench->now(), sample->bench->now() + Minutes(1)).isEmpty());
        clickAct();
        QCOMPARE(sample->shop().printer(bay)->activity, Activity::Idle);
    }
    void downAndUpAgain() {
        action(QStringLiteral("actDown"))->trigger();
        AskDialog* a = dialog(QStringLiteral("downtimeDialog"));
        QVERIFY(a);
        QTest::mouseClick(a->acceptButton(), Qt::LeftButton);
        QVERIFY2(a->isVisible(), "a reason is needed");
        a->findChild<QLineEdit*>(QStringLiteral("downWhy"))->setText(QStringLiteral("door seal"));
        accept(a);
        QCOMPARE(sample->shop().printer(bay)->activity, Activity::Down);
        QVERIFY(text(QStringLiteral("cardState")).contains(QStringLiteral("door seal")));
        clickAct();
        QCOMPARE(sample->shop().printer(bay)->activity, Activity::Idle);
    }
    void declareWhatItWears() {
        action(QStringLiteral("actDeclare"))->trigger();
        AskDialog* a = dialog(QStringLiteral("declareDialog"));
        QVERIFY(a);
        auto* support = a->findChild<QComboBox*>(QStringLiteral("declareSupportNozzle"));
        QCOMPARE(support->currentData().toString(), sample->shop().printer(bay)->support.nozzle);
        support->setCurrentIndex(0);
        QTest::mouseClick(a->acceptButton(), Qt::LeftButton);
        QVERIFY2(a->isVisible(), "a reason is needed");
        a->findChild<QLineEdit*>(QStringLiteral("declareWhy"))->setText(QStringLiteral("found without it"));
        accept(a);
        const PrinterNow* p = sample->shop().printer(bay);
        QVERIFY(p->support.nozzle.isEmpty());
        QCOMPARE(p->part.nozzle, QStringLiteral("N-001")); // what was not touched stays
        QCOMPARE(p->residue.size(), 2);
    }
    void anOpenSessionShowsOnTheCardAndInTheCrewsList() {
        PageDriver d(*sample);
        d.choose(bay, QStringLiteral("7402"), 1);
        d.start();
        QVERIFY(d.session());
        QVERIFY(text(QStringLiteral("cardState")).contains(QStringLiteral("needs you now")));
        const auto all = needs(sample->shop(), sample->bench->now(), sample->bench->now() + std::chrono::hours(16));
        QVERIFY(!all.isEmpty());
        QVERIFY(all.first().waitsNow);
        QCOMPARE(all.first().printer, bay);
        // Hands-on minutes in the list are those of the guide: nothing is lost, nothing counted twice.
        Minutes sum{0};
        for (const Need& n : all)
            if (n.printer == bay) sum += n.length * n.people;
        QCOMPARE(sum.count(), guide(sample->shop(), *d.session(), sample->bench->now()).handsOnLeft.count());
        // Stretches follow the clock and no two hands-on ones overlap.
        std::optional<Instant> end;
        for (const Stretch& s : outlook(sample->shop(), *sample->shop().printer(bay), sample->bench->now())) {
            QVERIFY(s.to >= s.from);
            if (s.kind != Stretch::Kind::HandsOn) continue;
            QVERIFY(!end || s.from >= *end);
            end = s.to;
        }
    }
    void theCrewsListStaysScrolledWhenItChanges() {
        PageDriver d(*sample);
        d.choose(bay, QStringLiteral("7402"), 1);
        d.start();
        QVERIFY(d.session());
        page->resize(1366, 420);
        QCoreApplication::processEvents();
        auto* calls = page->findChild<CrewList*>()->findChild<QScrollArea*>();
        QVERIFY(calls->verticalScrollBar()->maximum() >= 4);
        const int to = calls->verticalScrollBar()->maximum() / 2;
        calls->verticalScrollBar()->setValue(to);
        const QWidget* before = calls->widget();
        d.doStep();
        QCoreApplication::processEvents();
        QVERIFY(calls->widget() != before); // it did change
        QCOMPARE(calls->verticalScrollBar()->value(), to);
    }
    void aPrinterThatTookAnothersPlaceHasItsCard() {
        reload([](Catalogue& c) {
            c.fleet.printers.last().id = QStringLiteral("bay-9");
            c.fleet.printers.last().name = QStringLiteral("Bay 9");
        });
        QVERIFY(page->card(QStringLiteral("bay-9")));
        for (const PrinterNow& p : sample->shop().printers()) QVERIFY2(page->card(p.id), qPrintable(p.id));
    }
    void aPrinterRenamedIsNamedSoInTheCrewsList() {
        PageDriver d(*sample);
        d.choose(bay, QStringLiteral("7402"), 1);
        d.start();
        QVERIFY(d.session());
        QVERIFY(!crewWords().filter(sample->workbench->catalogue().printerName(bay)).isEmpty());
        reload([](Catalogue& c) { c.fleet.printers.first().name = QStringLiteral("Window side"); });
        QVERIFY2(!crewWords().filter(QStringLiteral("Window side")).isEmpty(), qPrintable(crewWords().join(QLatin1Char('|'))));
    }
    void theCrewIsThoseWhoAreThere() {
        withCrew(1);
        QVERIFY2(crewTitle().contains(QStringLiteral("1 person until 22:00")), qPrintable(crewTitle()));
        withCrew(3);
        QVERIFY2(crewTitle().contains(QStringLiteral("3 people until 22:00")), qPrintable(crewTitle()));
        const Instant now = sample->bench->now();
        const auto away = [&](const QString& id, int people, Instant from, Instant to) {
            QVERIFY(sample->bench->perform(act::AbsenceEntered{{id, people, from, to, QStringLiteral("training")}}).has_value());
        };
        away(QStringLiteral("absence-1"), 1, now - Minutes(30), now + Minutes(60));
        QVERIFY2(crewTitle().contains(QStringLiteral("2 people until %1").arg(sample->bench->shortTime(now + Minutes(60)))), qPrintable(crewTitle()));
        away(QStringLiteral("absence-2"), 2, now - Minutes(30), now + Minutes(30));
        QVERIFY2(crewTitle().contains(QStringLiteral("nobody on shift until %1").arg(sample->bench->shortTime(now + Minutes(30)))), qPrintable(crewTitle()));
        sample->advance(Minutes(31));
        QVERIFY2(crewTitle().contains(QStringLiteral("2 people")), qPrintable(crewTitle()));
        sample->advance(Minutes(31));
        QVERIFY2(crewTitle().contains(QStringLiteral("3 people until 22:00")), qPrintable(crewTitle()));
    }
    void aStepIsNamedWhole() {
        reload([](Catalogue& c) {
            for (StepTemplate& s : c.procedures.steps) s.title = QStringLiteral("Vacuum + wipe");
        });
        PageDriver d(*sample);
        d.choose(bay, QStringLiteral("7402"), 1);
        d.start();
        QVERIFY(d.session());
        for (const Need& n : needs(sample->shop(), sample->bench->now(), sample->bench->now() + std::chrono::hours(16)))
            QVERIFY2(n.what.startsWith(QStringLiteral("Vacuum + wipe")), qPrintable(n.what));
    }
    void thePrintOfAChangeoverFollowsItOnTheStrip() {
        PageDriver d(*sample);
        d.choose(bay, QStringLiteral("7402"), 1);
        d.start();
        QVERIFY(d.session());
        const Minutes print = d.session()->changeover.transition.request.print;
        QVERIFY(print.count() > 0);
        const auto prints = [&] {
            QList<Stretch> out;
            for (const Stretch& s : outlook(sample->shop(), *sample->shop().printer(bay), sample->bench->now()))
                if (s.kind == Stretch::Kind::Print) out.append(s);
            return out;
        };
        QCOMPARE(prints().size(), 1);
        for (const Stretch& s : outlook(sample->shop(), *sample->shop().printer(bay), sample->bench->now()))
            if (s.kind != Stretch::Kind::Print) QVERIFY(s.to <= prints().first().from);
        QCOMPARE(prints().first().to - prints().first().from, Milliseconds(print));
        QVERIFY(prints().first().text.contains(QStringLiteral("7402")));
        for (int guard = 0; guard < 120 && d.session() && !d.desk().guide().finished; ++guard) {
            d.doStep();
            QCOMPARE(prints().size(), 1); // the running one takes its place
        }
        QCOMPARE(sample->shop().printer(bay)->activity, Activity::Printing);
    }
    void withoutAPersonNoActIsOffered() {
        action(QStringLiteral("actDown"))->trigger();
        AskDialog* a = dialog(QStringLiteral("downtimeDialog"));
        a->findChild<QLineEdit*>(QStringLiteral("downWhy"))->setText(QStringLiteral("door seal"));
        accept(a);
        sample->bench->signIn({});
        auto* up = card()->findChild<QPushButton*>(QStringLiteral("cardAct"));
        QVERIFY(!up->isEnabled());
        QVERIFY2(up->toolTip().contains(QStringLiteral("Sign in")) && up->accessibleDescription() == up->toolTip(), qPrintable(up->toolTip()));
        QVERIFY(!action(QStringLiteral("actDeclare"))->isEnabled());
        QVERIFY(action(QStringLiteral("actChangeover"))->isEnabled()); // nothing is recorded by looking
        sample->bench->signIn(QStringLiteral("ML"));
        QVERIFY(up->isEnabled());
        QVERIFY(up->toolTip().isEmpty());
        clickAct();
        QCOMPARE(sample->shop().printer(bay)->activity, Activity::Idle);
    }
};
INTERLUDE_TEST(TodayTest)
#include "today_test.moc"
