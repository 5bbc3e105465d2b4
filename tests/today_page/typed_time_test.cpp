// A date and a time, typed: whole or part by part; what cannot be read is said and never replaced.
#include "tests/changeover_page/sample_bench.h"
#include "tests/harness/run_tests.h"
#include "views/asking/ask_dialog.h"
#include "views/asking/job_dialog.h"
#include "views/asking/time_field.h"
#include "views/today/printer_dialogs.h"

#include <QtWidgets>

using namespace interlude;
using namespace interlude::tests;

class TypedTimeTest final : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void whatIsReadAndWhatIsNot_data() {
        QTest::addColumn<QString>("text");
        QTest::addColumn<QDateTime>("moment");
        const auto at = [](int y, int m, int d, int h, int min) { return QDateTime(QDate(y, m, d), QTime(h, min), Qt::UTC); };
        QTest::newRow("plain") << "2026-11-27 08:00" << at(2026, 11, 27, 8, 0);
        QTest::newRow("as shown") << "Fri 2026-11-27 08:00" << at(2026, 11, 27, 8, 0);
        QTest::newRow("another weekday: the date decides") << "Mon 2026-11-27 08:00" << at(2026, 11, 27, 8, 0);
        QTest::newRow("ISO 8601") << "2026-11-27T08:00" << at(2026, 11, 27, 8, 0);
        QTest::newRow("few digits") << " 2026-3-2  8:05 " << at(2026, 3, 2, 8, 5);
        for (const char* wrong : {"", "2026-11-27", "08:00", "2026-13-01 08:00", "2026-02-30 08:00", "2026-11-27 24:10", "2026-11-27 08:7",
                                  "0026-11-27 08:00", "27.11.2026 08:00", "2026-11-27 08:00 or so", "Fri 2026-11-272 08:00"})
            QTest::newRow(wrong[0] ? wrong : "nothing") << wrong << QDateTime();
    }
    void whatIsReadAndWhatIsNot() {
        QFETCH(QString, text);
        QFETCH(QDateTime, moment);
        const auto read = readMoment(text);
        QCOMPARE(read.has_value(), moment.isValid());
        if (read) QCOMPARE(*read, moment);
    }
    void aWholeMomentIsTyped() {
        Open o;
        o.reach();
        QTest::keyClicks(o.field, "2026-11-27 08:00");
        QCOMPARE(shown(o.field), QString("2026-11-27 08:00"));
        o.act();
        QCOMPARE(o.down()->downUntil, std::optional(o.zoned(2026, 11, 27, 8, 0)));
    }
    void onLeavingItIsShownWithItsWeekday() {
        Open o;
        o.reach();
        QTest::keyClicks(o.field, "2026-11-27 8:00");
        o.dialog->acceptButton()->setFocus(Qt::TabFocusReason);
        QCOMPARE(shown(o.field), o.field->locale().toString(QDate(2026, 11, 27), "ddd") + QString(" 2026-11-27 08:00"));
    }
    void partByPart() {
        Open o;
        setZoned(*o.field, o.zoned(2026, 11, 26, 8, 0), o.zone());
        o.reach();
        // All is selected: on to its last part, and back by one.
        QTest::keyClick(o.field, Qt::Key_Left);
        QTest::keyClick(o.field, Qt::Key_Left);
        QTest::keyClicks(o.field, "19");
        QCOMPARE(o.field->dateTime().time(), QTime(19, 0));
        QTest::keyClick(o.field, Qt::Key_Right); // past the colon, into the minutes
        QTest::keyClick(o.field, Qt::Key_Up);
        QCOMPARE(o.field->dateTime().time(), QTime(19, 1));
        QTest::keyClick(o.field, Qt::Key_Left); // the minutes are selected now: on to the hours
        QTest::keyClick(o.field, Qt::Key_Down);
        QCOMPARE(o.field->dateTime().time(), QTime(18, 1));
        QTest::keyClick(o.field, Qt::Key_Left);
        QTest::keyClick(o.field, Qt::Key_Up);
        QCOMPARE(o.field->dateTime().date(), QDate(2026, 11, 27));
        o.act();
        QCOMPARE(o.down()->downUntil, std::optional(o.zoned(2026, 11, 27, 18, 1)));
    }
    void whatCannotBeReadIsRefusedAndStays() {
        Open o;
        const QDateTime proposed = o.field->dateTime();
        o.reach();
        QTest::keyClicks(o.field, "27.11. at eight");
        QTest::keyClick(o.field, Qt::Key_Return, Qt::ControlModifier);
        QVERIFY(o.dialog);
        QCOMPARE(o.sample.events("downtime-begun"), 0);
        QVERIFY2(o.dialog->objectionsShown().join(' ').contains("27.11. at eight"), qPrintable(o.dialog->objectionsShown().join(' ')));
        o.dialog->acceptButton()->setFocus(Qt::TabFocusReason);
        QCOMPARE(shown(o.field), QString("27.11. at eight"));
        QVERIFY(o.field->isUnreadable());
        o.dialog->acceptButton()->click();
        QCOMPARE(o.sample.events("downtime-begun"), 0);
        QCOMPARE(o.field->dateTime(), proposed);
        o.reach();
        QTest::keyClicks(o.field, "2026-11-27 08:00");
        o.act();
        QCOMPARE(o.down()->downUntil, std::optional(o.zoned(2026, 11, 27, 8, 0)));
    }
    void aFieldThatTakesNoEntryStandsAgainstNothing() {
        Open o;
        o.reach();
        QTest::keyClicks(o.field, "nonsense");
        o.dialog->findChild<QCheckBox*>("downUntilKnown")->setChecked(false);
        o.act();
        QVERIFY(!o.down()->downUntil);
    }
    void aDueDateIsTyped() {
        SampleBench sample;
        QPointer<JobDialog> dialog = new JobDialog(*sample.bench, QStringLiteral("7401"), nullptr);
        dialog->show();
        QVERIFY(QTest::qWaitForWindowActive(dialog));
        dialog->findChild<QCheckBox*>("jobDueHas")->setChecked(true);
        auto* due = dialog->findChild<TimeField*>("jobDue");
        due->setFocus(Qt::TabFocusReason);
        QTest::keyClicks(due, "2026-11-27 08:00");
        dialog->acceptButton()->click();
        QVERIFY(!dialog || !dialog->isVisible());
        QCOMPARE(sample.shop().job("7401")->due, std::optional(instantOf(QDateTime(QDate(2026, 11, 27), QTime(8, 0), sample.catalogue->fleet.zone))));
    }

private:
    static QString shown(const TimeField* f) { return f->findChild<QLineEdit*>()->text(); }

    /// The form that declares a printer down, with its reason given and its end stated.
    struct Open {
        SampleBench sample;
        QPointer<AskDialog> dialog;
        TimeField* field = nullptr;
        Open() {
            dialog = askDowntime(*sample.bench, QStringLiteral("bay-2"), nullptr);
            Q_UNUSED(QTest::qWaitForWindowActive(dialog));
            dialog->findChild<QLineEdit*>("downWhy")->setText("fan");
            dialog->findChild<QCheckBox*>("downUntilKnown")->setChecked(true);
            field = dialog->findChild<TimeField*>("downUntil");
        }
        ~Open() { delete dialog; }
        QTimeZone zone() const { return sample.catalogue->fleet.zone; }
        Instant zoned(int y, int m, int d, int h, int min) const { return instantOf(QDateTime(QDate(y, m, d), QTime(h, min), zone())); }
        void reach() { field->setFocus(Qt::TabFocusReason); }
        void act() {
            QTest::keyClick(field, Qt::Key_Return, Qt::ControlModifier);
            if (dialog && dialog->isVisible()) qWarning("%s", qPrintable(dialog->objectionsShown().join('\n')));
        }
        const PrinterNow* down() const { return sample.shop().printer(QStringLiteral("bay-2")); }
    };
};

INTERLUDE_TEST(TypedTimeTest)
#include "typed_time_test.moc"
