// A row that goes on in further lines: on one line as a QHBoxLayout puts it, nothing ever narrower than it asks.
#include "tests/harness/run_tests.h"
#include "views/look/flow.h"
#include "views/look/look.h"

#include <QtTest>
#include <QtWidgets>

using namespace interlude;

class FlowTest : public QObject {
    Q_OBJECT
private:
    static QWidget* box(int width, int height = 40) {
        auto* w = new QWidget;
        w->setMinimumSize(width, height);
        w->setObjectName(QString::number(width));
        return w;
    }

private Q_SLOTS:
    void onOneLineItIsAnOrdinaryRow() {
        QWidget flow, row;
        auto* a = new look::Flow(&flow);
        auto* b = new QHBoxLayout(&row);
        b->setContentsMargins(0, 0, 0, 0);
        b->setSpacing(8);
        a->add(box(50));
        a->addSpacing(8);
        a->add(box(70), true);
        a->addGap();
        a->add(box(90, 20));
        b->addWidget(box(50));
        b->addSpacing(8);
        b->addWidget(box(70), 1);
        b->addStretch(1);
        b->addWidget(box(90, 20));
        for (QWidget* w : {&flow, &row}) {
            w->resize(400, 40);
            w->show();
            QVERIFY(QTest::qWaitForWindowExposed(w));
        }
        QCOMPARE(flow.sizeHint(), QSize(50 + 8 + 8 + 70 + 8 + 90, 40));
        for (const QString name : {"50", "90"}) QCOMPARE(flow.findChild<QWidget*>(name)->geometry(), row.findChild<QWidget*>(name)->geometry());
        // 400 - 234 left over, half of it for each that grows.
        QCOMPARE(flow.findChild<QWidget*>("70")->geometry(), QRect(66, 0, 70 + 83, 40));
    }

    void whatDoesNotFitGoesOnBelow() {
        QWidget flow;
        auto* layout = new look::Flow(&flow);
        for (const int width : {100, 110, 120, 130}) layout->add(box(width));
        QCOMPARE(layout->minimumSize(), QSize(130, 40));
        QCOMPARE(layout->heightForWidth(500), 40);  // 100 + 8 + 110 + 8 + 120 + 8 + 130 = 484
        QCOMPARE(layout->heightForWidth(483), 88);
        QCOMPARE(layout->heightForWidth(250), 136); // 218; 120; 130, as 258 is too wide
        QCOMPARE(layout->heightForWidth(130), 184); // one a line
        flow.resize(300, 88);
        flow.show();
        QVERIFY(QTest::qWaitForWindowExposed(&flow));
        QCOMPARE(flow.findChild<QWidget*>("110")->geometry(), QRect(108, 0, 110, 40));
        QCOMPARE(flow.findChild<QWidget*>("120")->geometry(), QRect(0, 48, 120, 40));
        QCOMPARE(flow.findChild<QWidget*>("130")->geometry(), QRect(128, 48, 130, 40));
    }

    void whatIsHiddenTakesNoRoom() {
        QWidget flow;
        auto* layout = new look::Flow(&flow);
        for (const int width : {100, 110, 120}) layout->add(box(width));
        flow.findChild<QWidget*>("110")->hide();
        QCOMPARE(layout->sizeHint(), QSize(228, 40));
        delete flow.findChild<QWidget*>("100");
        QCOMPARE(layout->count(), 2);
        QCOMPARE(layout->sizeHint(), QSize(120, 40));
    }
};

INTERLUDE_TEST(FlowTest)
#include "flow_test.moc"
