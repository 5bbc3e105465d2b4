// Which fleet: what a person sees who starts the program from a menu.
#include "tests/harness/accessible.h"
#include "tests/harness/run_tests.h"
#include "views/window/fleet_chooser.h"

#include <QtTest>
#include <QtWidgets>

using namespace interlude;

class FleetChooserTest : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void init() {
        m_dir = std::make_unique<QTemporaryDir>();
        for (const char* name : {"north", "south"}) {
            QVERIFY(QDir(m_dir->path()).mkpath(name));
            QFile file(folder(name) + "/fleet.yaml");
            QVERIFY(file.open(QIODevice::WriteOnly));
        }
    }

    void theLastOpenedStandsFirstOnceAndIsOpenedByEnter() {
        FleetChooser::remember(folder("north"));
        FleetChooser::remember(folder("south"));
        FleetChooser::remember(folder("north"));
        QCOMPARE(FleetChooser::recent().first(2), QStringList({folder("north"), folder("south")}));
        FleetChooser chooser({});
        chooser.show();
        QVERIFY(QTest::qWaitForWindowActive(&chooser));
        QTest::keyClick(&chooser, Qt::Key_Return);
        QCOMPARE(chooser.result(), static_cast<int>(QDialog::Accepted));
        QCOMPARE(chooser.folder(), folder("north"));
        QVERIFY(!chooser.isNew());
    }

    void enterOnAButtonMeansThatButton() {
        FleetChooser::remember(folder("south"));
        FleetChooser chooser(folder("north"));
        chooser.show();
        QVERIFY(QTest::qWaitForWindowActive(&chooser));
        for (QPushButton* b : chooser.findChildren<QPushButton*>()) {
            if (b->text() != "Look at the example") continue;
            b->setFocus();
            QTest::keyClick(b, Qt::Key_Return);
        }
        QCOMPARE(chooser.folder(), folder("north"));
    }

    void whatIsNoLongerThereIsNotOffered() {
        FleetChooser::remember(folder("south"));
        QVERIFY(QFile::remove(folder("south") + "/fleet.yaml"));
        QVERIFY(!FleetChooser::recent().contains(folder("south")));
    }

    void theExampleIsOfferedOnlyWhereThereIsOne() {
        const auto labels = [](const FleetChooser& chooser) {
            QStringList texts;
            for (const QPushButton* b : chooser.findChildren<QPushButton*>()) texts.append(b->text());
            return texts;
        };
        QVERIFY(!labels(FleetChooser({})).contains("Look at the example"));
        FleetChooser chooser(folder("north"));
        QVERIFY(labels(chooser).contains("Look at the example"));
        for (QPushButton* b : chooser.findChildren<QPushButton*>())
            if (b->text() == "Look at the example") b->click();
        QCOMPARE(chooser.folder(), folder("north"));
    }

    void saysWhyAFolderWasNotOpenedWithoutGrowingPastTheScreen() {
        FleetChooser chooser({});
        QStringList reasons;
        for (int i = 0; i < 200; ++i) reasons.append(QString("jobs.yaml:%1:3: unknown key; write release").arg(i));
        chooser.showReasons(folder("north"), reasons);
        chooser.show();
        QVERIFY(QTest::qWaitForWindowActive(&chooser));
        QVERIFY(chooser.height() <= 768);
        bool told = false;
        for (const QLabel* l : chooser.findChildren<QLabel*>())
            told = told || (l->isVisible() && l->text().contains("jobs.yaml:0:3") && l->text().contains("188 more"));
        QVERIFY(told);
        if (const QByteArray to = qgetenv("INTERLUDE_PICTURES"); !to.isEmpty()) chooser.grab().save(QString::fromUtf8(to) + "/fleet-chooser.png");
    }

    void whateverCanHaveTheFocusHasAName() {
        FleetChooser::remember(folder("north"));
        FleetChooser chooser(folder("south"));
        chooser.show();
        QVERIFY(QTest::qWaitForWindowActive(&chooser));
        for (const QWidget* w : chooser.findChildren<QWidget*>())
            if (w->focusPolicy() != Qt::NoFocus && w->isVisible())
                QVERIFY2(!QAccessible::queryAccessibleInterface(const_cast<QWidget*>(w))->text(QAccessible::Name).isEmpty(),
                         w->metaObject()->className());
    }

private:
    QString folder(const char* name) const { return m_dir->filePath(name); }
    std::unique_ptr<QTemporaryDir> m_dir;
};

INTERLUDE_TEST(FleetChooserTest)
#include "fleet_chooser_test.moc"
