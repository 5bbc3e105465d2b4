// The border or mark by which a control is known, as it is really painted, against what it stands on: WCAG 2.2, success
// criterion 1.4.11, at least 3:1. Targets: 2.5.8, at least 24 by 24 px.
#include "tests/harness/run_tests.h"
#include "tests/look/wcag.h"
#include "views/look/widgets.h"

#include <QtTest>
#include <QtWidgets>

using namespace interlude;
using namespace interlude::look;
using interlude::tests::contrast;

namespace {

/// The highest contrast with `ground` among the pixels on the way across the middle of the control.
double edgeContrast(const QImage& picture, const QRect& control, const QColor& ground, int depth) {
    double best = 0.0;
    const int y = control.center().y();
    for (int x = control.left(); x < control.left() + depth; ++x) best = std::max(best, contrast(picture.pixelColor(x, y), ground));
    return best;
}

QStringList kinds() {
    return {"button", "primary button", "line", "note", "choice", "spin box", "date and time", "check box", "checked box",
            "half-checked box", "radio button", "chosen radio button", "scroll bar"};
}

QWidget* make(const QString& kind) {
    if (kind == "button") return button("Weigh");
    if (kind == "primary button") return primaryButton("Receive");
    if (kind == "line") return new QLineEdit;
    if (kind == "note") return new QPlainTextEdit;
    if (kind == "choice") return new QComboBox;
    if (kind == "spin box") return new QSpinBox;
    if (kind == "date and time") return new QDateTimeEdit;
    if (kind.endsWith("radio button")) {
        auto* radio = new QRadioButton("Fine");
        radio->setAutoExclusive(false);
        radio->setChecked(kind.startsWith("chosen"));
        return radio;
    }
    if (kind == "scroll bar") {
        auto* bar = new QScrollBar(Qt::Vertical);
        bar->setRange(0, 10);
        bar->setValue(5);
        bar->setFixedWidth(12);
        return bar;
    }
    auto* box = new QCheckBox("Show retired");
    box->setTristate(kind.startsWith("half"));
    box->setCheckState(kind.startsWith("half") ? Qt::PartiallyChecked : kind.startsWith("checked") ? Qt::Checked : Qt::Unchecked);
    return box;
}

} // namespace

class ControlsTest : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void cleanup() { apply(*qApp, Theme::Light); }

    /// The wheel is for scrolling: over a field it changes nothing, and is left to what the field stands in.
    void theWheelChangesNoField() {
        apply(*qApp, Theme::Light);
        QComboBox choice;
        choice.addItems({"front left", "front right", "rear left", "rear right"});
        choice.setCurrentIndex(1);
        QSpinBox number;
        number.setValue(5);
        QDateTimeEdit when(QDateTime(QDate(2026, 3, 2), QTime(10, 0)));
        for (QWidget* w : {static_cast<QWidget*>(&choice), static_cast<QWidget*>(&number), static_cast<QWidget*>(&when)}) {
            w->show();
            w->setFocus();
            const QPointF middle = w->rect().center();
            QWheelEvent down(middle, w->mapToGlobal(middle), {}, {0, -120}, Qt::NoButton, Qt::NoModifier, Qt::NoScrollPhase, false);
            QApplication::sendEvent(w, &down);
            QVERIFY2(!down.isAccepted(), w->metaObject()->className());
        }
        QCOMPARE(choice.currentIndex(), 1);
        QCOMPARE(number.value(), 5);
        QCOMPARE(when.time(), QTime(10, 0));
    }
    void bordersCanBeSeen_data() {
        QTest::addColumn<QString>("kind");
        QTest::addColumn<bool>("dark");
        QTest::addColumn<bool>("onPanel");
        for (const QString& kind : kinds())
            for (const bool dark : {false, true})
                for (const bool onPanel : {false, true})
                    QTest::addRow("%s, %s, on %s", qPrintable(kind), dark ? "dark" : "light", onPanel ? "panel" : "ground")
                        << kind << dark << onPanel;
    }
    void bordersCanBeSeen() {
        QFETCH(QString, kind);
        QFETCH(bool, dark);
        QFETCH(bool, onPanel);
        apply(*qApp, dark ? Theme::Dark : Theme::Light);
        QDialog ground;
        auto* column = new QVBoxLayout(&ground);
        auto* panel = new Panel;
        if (onPanel) column->addWidget(panel);
        QWidget* control = make(kind);
        control->setFocusPolicy(Qt::NoFocus);
        (onPanel ? panel->body() : column)->addWidget(control);
        ground.resize(400, 200);
        ground.show();
        QVERIFY(QTest::qWaitForWindowExposed(&ground));
        const QImage picture = ground.grab().toImage();
        const QColor under = onPanel ? colours().panel : colours().ground;
        const QRect where(control->mapTo(&ground, QPoint(0, 0)), control->size());
        const double found = edgeContrast(picture, where, under, std::min(where.width(), 24));
        QVERIFY2(found >= 3.0, qPrintable(QString("contrast %1").arg(found)));
    }

    void aTickStandsOutFromItsBox_data() {
        QTest::addColumn<bool>("dark");
        QTest::newRow("light") << false;
        QTest::newRow("dark") << true;
    }
    void aTickStandsOutFromItsBox() {
        QFETCH(bool, dark);
        apply(*qApp, dark ? Theme::Dark : Theme::Light);
        // On and off differ by a shape, not by colour alone.
        QVERIFY(contrast(colours().onAccent, colours().accent) >= 3.0);
        QCheckBox box("Show retired");
        box.setChecked(true);
        box.show();
        QVERIFY(QTest::qWaitForWindowExposed(&box));
        QStyleOptionButton option;
        option.initFrom(&box);
        const QRect mark = box.style()->subElementRect(QStyle::SE_CheckBoxIndicator, &option, &box);
        const QImage picture = box.grab().toImage();
        int tick = 0, full = 0;
        for (int x = mark.left() + 3; x < mark.right() - 2; ++x)
            for (int y = mark.top() + 3; y < mark.bottom() - 2; ++y) {
                tick += contrast(picture.pixelColor(x, y), colours().accent) >= 3.0;
                full += picture.pixelColor(x, y) == colours().accent;
            }
        QVERIFY2(tick >= 12 && full >= 40, qPrintable(QString("%1 of tick, %2 of box").arg(tick).arg(full)));
    }

    void targetsAreLargeEnough() {
        for (const QString& kind : kinds()) {
            if (kind == "scroll bar") continue; // moved by keys, wheel and page as well
            const std::unique_ptr<QWidget> control(make(kind));
            control->ensurePolished();
            const QSize size = control->sizeHint().expandedTo(control->minimumSizeHint());
            QVERIFY2(size.height() >= 24 && size.width() >= 24,
                     qPrintable(QString("%1: %2x%3").arg(kind).arg(size.width()).arg(size.height())));
        }
        const std::unique_ptr<QPushButton> quiet(quietButton("F1 help"));
        quiet->ensurePolished();
        QVERIFY(quiet->sizeHint().height() >= 24);
    }
};

INTERLUDE_TEST(ControlsTest)
#include "controls_test.moc"
