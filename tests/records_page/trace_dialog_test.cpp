// Tracing in the Records tab, driven by keys.

#include "tests/harness/accessible.h"
#include "tests/harness/run_tests.h"
#include "tests/records/told.h"

#include "views/lists/list_view.h"
#include "views/look/look.h"
#include "views/records/records_page.h"
#include "views/records/trace_dialog.h"

#include <QApplication>
#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QSignalSpy>
#include <QTableView>
#include <QTemporaryDir>

using namespace interlude;
using namespace interlude::tests;

class TraceDialogTest final : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void initTestCase() {
        qputenv("XDG_CONFIG_HOME", m_home.path().toUtf8());
        look::apply(*qApp, look::Theme::Light);
    }
    void init() {
        m_told = std::make_unique<Told>();
        m_told->wholeStory();
        m_bench = std::make_unique<Bench>(m_told->bench());
        m_page = std::make_unique<RecordsPage>(*m_bench);
        m_page->show();
        auto* button = m_page->findChild<QPushButton*>(QStringLiteral("traceParts"));
        QVERIFY(button && button->isEnabled()); // looking needs nobody to sign in
        button->click();
        m_dialog = m_page->findChild<TraceDialog*>();
        QVERIFY(m_dialog);
        m_dialog->activateWindow();
        QVERIFY(QTest::qWaitForWindowActive(m_dialog));
    }
    void cleanup() {
        m_page.reset();
        m_bench.reset();
        m_told.reset();
    }

    void aLotTellsItsParts() {
        const PrinterNow& now = *m_told->shop().printer(m_told->session().printer);
        const QString lot = m_told->shop().spool(now.part.spool)->lot;
        QTest::keyClicks(field(), lot);
        QTest::keyClick(field(), Qt::Key_Return);
        const auto rows = list()->shownRows();
        QCOMPARE(rows.size(), 2); // heading and one print
        QVERIFY(rows[1].contains(m_told->session().changeover.transition.request.job));
        QVERIFY2(about().contains(now.part.spool), qPrintable(about()));
        // Another scan replaces it: the field's text is selected.
        QTest::keyClicks(field(), QStringLiteral("nothing"));
        QCOMPARE(field()->text(), QStringLiteral("nothing"));
        QTest::keyClick(field(), Qt::Key_Return);
        QCOMPARE(list()->visibleRows(), 0);
        QVERIFY2(about().contains(QStringLiteral("nothing")), qPrintable(about()));
    }

    void aPrintOpensItsRecord() {
        QSignalSpy opened(m_bench.get(), &Bench::openRecord);
        auto* by = m_dialog->findChild<QComboBox*>(QStringLiteral("traceBy"));
        by->setFocus();
        QTest::keyClick(by, Qt::Key_End); // the last: by job
        QTest::keyClicks(field(), m_told->session().changeover.transition.request.job);
        QTest::keyClick(field(), Qt::Key_Return);
        QCOMPARE(list()->visibleRows(), 1);
        list()->view()->setFocus();
        list()->view()->selectRow(0);
        QTest::keyClick(list()->view(), Qt::Key_Return);
        QCOMPARE(opened.size(), 1);
        QCOMPARE(opened[0][0].toLongLong(), 1);
        if (qEnvironmentVariableIsSet("INTERLUDE_PICTURES"))
            m_dialog->grab().save(qEnvironmentVariable("INTERLUDE_PICTURES") + QStringLiteral("/trace.png"));
    }

    void whatCanHaveTheFocusHasAName() { QCOMPARE(walkAccessible(m_dialog).faults, QStringList()); }

private:
    QLineEdit* field() const { return m_dialog->findChild<QLineEdit*>(QStringLiteral("traceId")); }
    lists::ListView* list() const { return m_dialog->findChild<lists::ListView*>(); }
    QString about() const { return m_dialog->findChild<QLabel*>(QStringLiteral("traceAbout"))->text(); }

    QTemporaryDir m_home;
    std::unique_ptr<Told> m_told;
    std::unique_ptr<Bench> m_bench;
    std::unique_ptr<RecordsPage> m_page;
    TraceDialog* m_dialog = nullptr;
};

INTERLUDE_TEST(TraceDialogTest)
#include "trace_dialog_test.moc"
