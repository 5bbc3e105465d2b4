// What-ifs, comparisons, what a changeover is worth, and what leaves the page as file or paper.

#include "model/catalogue/csv.h"
#include "tests/harness/accessible.h"
#include "tests/harness/run_tests.h"
#include "tests/paper/pdf_reader.h"
#include "tests/plan_page/opened_page.h"
#include "views/plan/compare_dialog.h"
#include "views/plan/print_dialog.h"
#include "views/plan/what_if_dialog.h"
#include "views/plan/worth_dialog.h"

using namespace interlude;
using namespace interlude::tests;

class PageDialogsTest final : public QObject {
    Q_OBJECT
private:
    std::unique_ptr<OpenedPage> o;

    template <typename T> T* child(AskDialog* d, const char* name) { return d->findChild<T*>(QString::fromLatin1(name)); }
    AskDialog* whatIf(int kind) {
        o->key(Qt::Key_T);
        AskDialog* d = o->dialog("whatIfDialog");
        if (d) child<QComboBox>(d, "whatIfKind")->setCurrentIndex(kind);
        return d;
    }

private Q_SLOTS:
    void init() {
        o = std::make_unique<OpenedPage>();
        QVERIFY2(o->page, qPrintable(o->problems));
        o->key(Qt::Key_G);
    }
    void cleanup() { o.reset(); }

    void anAbsenceChangesFiguresAndCannotBePublished() {
        const planning::Minute before = o->desk().figures().turnaround;
        const qint64 events = o->shop.events();
        AskDialog* d = whatIf(0);
        QVERIFY(d);
        child<QLineEdit>(d, "whatIfPeople")->setText("none");
        OpenedPage::accept(d);
        QVERIFY2(d->isVisible(), "people are a number");
        child<QLineEdit>(d, "whatIfPeople")->setText("2");
        child<QDateTimeEdit>(d, "whatIfTo")->setDateTime(child<QDateTimeEdit>(d, "whatIfFrom")->dateTime().addDays(2));
        OpenedPage::accept(d);
        QVERIFY(o->desk().figures().turnaround > before);
        QVERIFY2(o->page->state().contains("1 absence"), qPrintable(o->page->state()));
        QVERIFY(!o->page->actions().button("planPublish")->isEnabled());
        o->key(Qt::Key_Return);
        QVERIFY(!o->dialog("publishDialog"));
        QVERIFY2(o->page->said().contains("assumptions"), qPrintable(o->page->said()));
        QCOMPARE(o->shop.events(), events);
        // It is listed, and withdrawing it gives the figures back.
        d = whatIf(0);
        auto* known = child<QListWidget>(d, "whatIfKnown");
        QCOMPARE(known->count(), 1);
        known->setCurrentRow(0);
        QTest::mouseClick(child<QPushButton>(d, "whatIfWithdraw"), Qt::LeftButton);
        QCOMPARE(known->count(), 0);
        QTest::keyClick(d, Qt::Key_Escape);
        QCOMPARE(o->desk().figures().turnaround, before);
    }

    void aDowntimeForTheShopIsOneEvent() {
        const qint64 before = o->shop.events();
        AskDialog* d = whatIf(1);
        QVERIFY(d);
        QTest::mouseClick(child<QCheckBox>(d, "whatIfReal"), Qt::LeftButton, {}, QPoint(12, 12));
        QVERIFY(child<QCheckBox>(d, "whatIfReal")->isChecked());
        OpenedPage::accept(d);
        QVERIFY2(d->isVisible(), "why it is down is asked for");
        QCOMPARE(o->shop.events(), before);
        child<QLineEdit>(d, "whatIfWhy")->setText("service");
        OpenedPage::accept(d);
        QCOMPARE(o->shop.events(), before + 1);
        QCOMPARE(o->shop.bench->shop().downtimes().size(), 1);
        QVERIFY(o->desk().draft().whatIf().isEmpty());
        const PrinterId down = o->shop.bench->shop().downtimes().first().printer;
        QVERIFY(!o->desk().problem().problem.printers[static_cast<std::size_t>(o->desk().problem().printerNumbers.value(down))].down.empty());
        d = whatIf(0);
        child<QListWidget>(d, "whatIfKnown")->setCurrentRow(0);
        QTest::mouseClick(child<QPushButton>(d, "whatIfWithdraw"), Qt::LeftButton);
        QCOMPARE(o->shop.bench->shop().downtimes().size(), 0);
        QCOMPARE(o->shop.events(), before + 2);
    }

    void oneJobIsSaidAsOne() {
        o->desk().discard();
        const std::vector<int> all = o->orders().leftOut;
        for (const int job : all) {
            if (!o->orders().printers.front().empty()) break;
            if (!o->desk().drop({job}, {0, 0, {}}) && !o->desk().timed(job)) o->desk().undo();
        }
        QCOMPARE(o->orders().printers.front().size(), 1U);
        AskDialog* d = o->page->actions().publish();
        QVERIFY(d);
        QString text;
        for (const QLabel* l : d->findChildren<QLabel*>()) text += l->text() + QLatin1Char('\n');
        QVERIFY2(text.contains("1 job is planned"), qPrintable(text));
        QVERIFY2(!text.contains(QRegularExpression("\\b1 jobs")), qPrintable(text));
        d->reject();
    }

    void aRushJobIsDescribedInTheJobForm() {
        const qint64 before = o->shop.events();
        AskDialog* d = whatIf(2);
        QVERIFY(d);
        OpenedPage::accept(d);
        AskDialog* form = o->dialog("jobDialog");
        QVERIFY(form);
        child<QLineEdit>(form, "jobId")->setText("7999");
        auto* variants = child<QTableWidget>(form, "jobVariants");
        const auto pick = [&](int column, const QString& id) {
            auto* box = qobject_cast<QComboBox*>(variants->cellWidget(0, column));
            box->setCurrentIndex(box->findData(id));
        };
        pick(1, "abs-ivory");
        pick(3, "b04");
        variants->item(0, 5)->setText("120");
        variants->item(0, 6)->setText("30");
        OpenedPage::accept(form);
        QVERIFY2(!o->dialog("jobDialog"), "it is taken");
        QCOMPARE(o->shop.events(), before);
        const int job = o->desk().problem().jobNumbers.value("7999", -1);
        QVERIFY(job >= 0 && o->isLeftOut(job) && o->row(job));
        QVERIFY(!o->shop.bench->shop().job("7999"));
        o->page->actions().takeBackAssumptions();
        QCOMPARE(o->desk().problem().jobNumbers.value("7999", -1), -1);
    }

    void worthItNamesEveryVariantOnEveryPrinter() {
        const int job = o->orders().printers.front().front().job;
        o->desk().select({job});
        o->key(Qt::Key_E);
        auto* d = o->page->findChild<WorthDialog*>();
        QVERIFY(d && d->isVisible());
        QSignalSpy there(d, &WorthDialog::reckoned);
        QVERIFY(there.wait(60000));
        const auto variants = o->desk().problem().jobs[job].variants.size();
        QCOMPARE(d->lines().size(), variants * static_cast<qsizetype>(o->orders().printers.size()));
        qsizetype best = 0;
        qint64 least = std::numeric_limits<qint64>::max();
        for (const WorthLine& l : d->lines()) {
            if (l.row.impossible.isEmpty()) least = std::min<qint64>(least, l.row.total());
            best += l.row.best ? 1 : 0;
        }
        QCOMPARE(best, qsizetype(1));
        for (const WorthLine& l : d->lines())
            if (l.row.best) QCOMPARE(static_cast<qint64>(l.row.total()), least);
        const AccessibleWalk walk = walkAccessible(d);
        QVERIFY2(walk.faults.isEmpty(), qPrintable(walk.faults.join('\n')));
        d->close();
    }

    void comparedJobByJob() {
        o->publish();
        const int moved = o->orders().printers.front().back().job;
        QVERIFY(!o->desk().drop({moved}, {}));
        o->key(Qt::Key_K);
        auto* d = o->page->findChild<CompareDialog*>();
        QVERIFY(d && d->isVisible());
        QSignalSpy there(d, &CompareDialog::reckoned);
        QVERIFY(there.wait(60000));
        QCOMPARE(d->figures()->item(0, 0)->text(), plan_words::money(o->desk().figures().cost));
        QCOMPARE(d->figures()->item(1, 0)->text(), plan_words::money(o->desk().publishedFigures()->cost));
        bool listed = false;
        for (const ComparedJob& j : d->jobs()) {
            QVERIFY(!j.same());
            if (j.job.id != o->desk().problem().jobs[moved].id) continue;
            listed = true;
            QCOMPARE(j.draft.printer, -1);
            QCOMPARE(j.other.printer, 0);
        }
        QVERIFY(listed);
        d->against()->setCurrentIndex(1);
        QVERIFY(d->jobs().size() > 5);
        d->close();
    }

    void replanKeepsTheFirstHours() {
        o->key(Qt::Key_R);
        AskDialog* d = o->dialog("replanDialog");
        QVERIFY(d);
        child<QLineEdit>(d, "replanHours")->setText("-1");
        OpenedPage::accept(d);
        QVERIFY(d->isVisible());
        child<QLineEdit>(d, "replanHours")->setText("12");
        OpenedPage::accept(d);
        int locked = 0;
        for (const auto& list : o->desk().timetable().printers)
            for (const planning::TimedJob& j : list) {
                if (j.running || j.session) continue;
                const bool isLocked = o->orders().locked[static_cast<std::size_t>(j.job)];
                QCOMPARE(isLocked, j.printStart < 12 * 60);
                locked += isLocked ? 1 : 0;
            }
        QVERIFY(locked > 0);
    }

    void exportsAreRead() {
        const QTemporaryDir dir;
        const auto bytesOf = [&](const QString& name) {
            const auto done = o->page->actions().exportTo(dir.filePath(name));
            QFile f(dir.filePath(name));
            return done && f.open(QIODevice::ReadOnly) ? f.readAll() : QByteArray();
        };
        const QJsonObject json = QJsonDocument::fromJson(bytesOf("plan.json")).object();
        QCOMPARE(json.value("goal").toString(), QString("cost"));
        std::size_t jobs = 0;
        for (const QJsonValue& p : json.value("printers").toArray()) jobs += static_cast<std::size_t>(p.toObject().value("jobs").toArray().size());
        std::size_t timed = 0, known = 0;
        for (const auto& list : o->desk().timetable().printers) {
            timed += list.size();
            known += static_cast<std::size_t>(std::count_if(list.begin(), list.end(), [](const planning::TimedJob& j) { return j.job >= 0; }));
        }
        QCOMPARE(jobs, timed);
        Problems problems;
        const CsvTable csv = readCsv("plan.csv", QString::fromUtf8(bytesOf("plan.csv")), problems);
        QVERIFY(problems.isEmpty());
        QCOMPARE(csv.records.size(), known);
        const QByteArray calendar = bytesOf("plan.ics");
        QVERIFY(calendar.startsWith("BEGIN:VCALENDAR\r\n") && calendar.endsWith("END:VCALENDAR\r\n"));
        QCOMPARE(calendar.count("BEGIN:VEVENT"), calendar.count("END:VEVENT"));
        QVERIFY(calendar.count("BEGIN:VEVENT") > 5);
        for (const QByteArray& line : calendar.split('\n')) QVERIFY(line.size() <= 76);
        QVERIFY(!o->page->actions().exportTo(dir.filePath("plan.txt")));
        QVERIFY(!o->page->actions().exportTo("/nonexistent/plan.json"));
    }

    void weekAndDayOnPaper() {
        const QTemporaryDir dir;
        o->key(Qt::Key_P);
        auto* d = o->page->findChild<PrintDialog*>();
        QVERIFY(d && d->isVisible());
        const auto pages = d->writePdf(dir.filePath("week.pdf"));
        QVERIFY2(pages.has_value(), pages ? "" : qPrintable(sentence(pages.error())));
        const PdfReader week(dir.filePath("week.pdf"));
        QCOMPARE(week.pages(), *pages);
        QVERIFY2(week.pageSize().startsWith("842 x 595"), qPrintable(week.pageSize()));
        const QString text = week.text();
        for (const Printer& p : o->shop.bench->catalogue().fleet.printers) QVERIFY2(text.contains(p.name), qPrintable(text));
        QVERIFY(text.contains("draft, not published"));
        d->findChild<QComboBox*>("printPaper")->setCurrentIndex(1);
        QVERIFY(d->writePdf(dir.filePath("week3.pdf")));
        QVERIFY2(PdfReader(dir.filePath("week3.pdf")).pageSize().startsWith("1191 x 842"), qPrintable(PdfReader(dir.filePath("week3.pdf")).pageSize()));
        d->findChild<QComboBox*>("printWhat")->setCurrentIndex(1);
        QVERIFY(d->writePdf(dir.filePath("day.pdf")));
        const QString day = PdfReader(dir.filePath("day.pdf")).text();
        QVERIFY2(day.contains("PRINT") && day.contains("people"), qPrintable(day));
        if (const QString pictures = qEnvironmentVariable("INTERLUDE_PICTURES"); !pictures.isEmpty()) {
            QDir().mkpath(pictures);
            week.picture(1, 110).save(pictures + "/paper-week.png");
            PdfReader(dir.filePath("day.pdf")).picture(1, 110).save(pictures + "/paper-day.png");
        }
        QVERIFY(!d->writePdf("/nonexistent/x.pdf"));
        d->close();
    }

    void whatIsAnExampleSaysSoOnEveryPaper() {
        auto other = std::make_shared<Catalogue>(o->shop.bench->catalogue());
        other->fleet.name = "Northfield";
        other->hash = QString(64, QLatin1Char('b'));
        QVERIFY(other->fleet.exampleClock.has_value());
        QVERIFY(o->shop.workbench->reload(other).has_value());
        const QTemporaryDir dir;
        o->key(Qt::Key_P);
        auto* d = o->page->findChild<PrintDialog*>();
        QVERIFY(d);
        for (const int what : {0, 1}) {
            d->findChild<QComboBox*>("printWhat")->setCurrentIndex(what);
            QVERIFY(d->writePdf(dir.filePath("plan.pdf")));
            const PdfReader pdf(dir.filePath("plan.pdf"));
            for (int page = 1; page <= pdf.pages(); ++page) QVERIFY2(pdf.text(page).contains("example", Qt::CaseInsensitive), qPrintable(pdf.text(page)));
        }
        d->close();
    }

    void aFilterThatLeavesNothingSaysSo() {
        o->desk().discard();
        const auto said = [this] {
            QString text;
            for (const QLabel* l : o->page->jobs().findChildren<QLabel*>())
                if (l->isVisibleTo(o->page.get())) text += l->text() + '\n';
            return text;
        };
        o->page->jobs().filterField()->setText("nosuchjob");
        QVERIFY2(said().contains("Nothing matches"), qPrintable(said()));
        QVERIFY(o->page->jobs().filterField()->isVisible());
        o->page->jobs().filterField()->clear();
        QVERIFY2(!said().contains("Nothing matches"), qPrintable(said()));
        QVERIFY(o->rows()->isVisible());
    }
};

INTERLUDE_TEST(PageDialogsTest)
#include "page_dialogs_test.moc"
