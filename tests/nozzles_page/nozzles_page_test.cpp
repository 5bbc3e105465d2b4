// The page of nozzles, by keyboard alone, on the sample fleet.
#include "tests/harness/run_tests.h"
#include "tests/lists/list_page_keys.h"
#include "views/nozzles/nozzle_acts.h"
#include "views/nozzles/nozzle_rows.h"
#include "views/nozzles/nozzles_page.h"

#include <QtTest>
#include <QtWidgets>

using namespace interlude;
using namespace interlude::tests;

class NozzlesPageTest : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void init() {
        m_shop = openedShop();
        m_page = std::make_unique<NozzlesPage>(*m_shop->bench);
        QVERIFY(showActive(*m_page, {1366, 660}));
        m_page->list()->view()->setFocus();
        m_shop->bench->signIn(m_shop->somebody());
    }
    void cleanup() {
        m_page.reset();
        m_shop.reset();
    }

    void noHistoryIsShownAsSuchAndNeverAsZero() {
        int unknown = 0;
        for (const Nozzle& n : nozzles()) {
            if (n.run.known || n.where == NozzleWhere::Retired) continue;
            ++unknown;
            const NozzleRow row = nozzleRow(*m_shop->bench, n);
            QCOMPARE(row.use, QString("no history"));
            QCOMPARE(row.life, QString("? no history"));
            QVERIFY(!row.left.has_value());
        }
        QVERIFY(unknown > 0);
        m_page->list()->filterField()->setText("no history");
        QCOMPARE(m_page->list()->visibleRows(), unknown);
    }

    void lifeLeftIsAWordAndAShare() {
        // Hand arithmetic on a type with known ratings: 1 − 1200/4000 − 100/1000 = 0.6.
        NozzleType type;
        type.ratedLife = Volume::fromCm3(4000);
        type.ratedLifeAbrasive = Volume::fromCm3(1000);
        Nozzle n;
        n.run = {true, Volume::fromCm3(1200), Volume::fromCm3(100)};
        QVERIFY(std::abs(1.0 - *lifeUsed(n, type) - 0.6) < 1e-9);
        int worded = 0;
        for (const Nozzle& each : nozzles()) {
            const NozzleRow row = nozzleRow(*m_shop->bench, each);
            if (!row.left) continue;
            ++worded;
            QVERIFY(row.life.contains('%') || row.life.contains("worn"));
            QVERIFY(*row.left >= 0.0 && *row.left <= 1.0);
            // Nearly worn has its own shape, not only a colour.
            if (*row.left < 0.15) QVERIFY(row.life.startsWith(QString("▲")) || row.life.startsWith(QString("■")));
        }
        QVERIFY(worded > 0);
    }

    void receivesANewNozzle() {
        ActDialog* dialog = start(Qt::Key_R);
        QCOMPARE(focusName(), QString("Serial"));
        scan("N-900");
        for (int i = 0; i < 3; ++i) press(Qt::Key_Return); // type, place, melt family as proposed
        QCOMPARE(focusName(), QString("Use so far, plain (cm³)"));
        press(Qt::Key_Return);
        press(Qt::Key_Return);
        QVERIFY2(dialog->acceptButton()->isEnabled(), qPrintable(dialog->objectionsShown().join('\n')));
        press(Qt::Key_Return);
        QVERIFY(nozzles().contains("N-900"));
        QVERIFY(nozzles().value("N-900").run.known);
        QCOMPARE(nozzles().value("N-900").run.plain.mm3(), 0);
        QVERIFY(nozzles().value("N-900").meltFamily.isEmpty());
        QCOMPARE(m_page->list()->currentKey(), QString("N-900"));
    }

    void statesTheUseSoFar() {
        NozzleSerial serial;
        for (const Nozzle& n : nozzles())
            if (!n.run.known && n.where != NozzleWhere::Retired) serial = n.serial;
        QVERIFY(m_page->list()->select(serial));
        ActDialog* dialog = start(Qt::Key_U);
        auto* none = dialog->findChild<QCheckBox*>();
        QVERIFY(none->isChecked());
        QVERIFY(!dialog->findChild<QLineEdit*>("usePlain")->isEnabled());
        press(Qt::Key_Return); // the number fields are out of use: straight to the check box
        QCOMPARE(focusName(), none->accessibleName());
        press(Qt::Key_Space);
        auto* plain = dialog->findChild<QLineEdit*>("usePlain");
        plain->setFocus();
        plain->selectAll();
        scan("412");
        press(Qt::Key_Return);
        press(Qt::Key_Return);
        QVERIFY2(!openDialog<ActDialog>(), qPrintable(dialog->objectionsShown().join('\n')));
        QVERIFY(nozzles().value(serial).run.known);
        QCOMPARE(nozzles().value(serial).run.plain.cm3(), 412.0);
    }

    void theUseShownIsThatOfTheNozzleScanned() {
        m_shop->bench->signIn(m_shop->somebody());
        const auto receive = [this](const char* serial, RunVolume run) {
            Nozzle n;
            n.serial = QString::fromLatin1(serial);
            n.type = nozzles().first().type;
            n.place = m_shop->bench->catalogue().fleet.places.first().id;
            n.run = run;
            QVERIFY(m_shop->bench->perform(act::NozzleReceived{n}).has_value());
        };
        receive("N-801", {true, Volume::fromMm3(12345678), Volume::fromMm3(5500)});
        receive("N-802", {true, Volume::fromMm3(7000), Volume::fromMm3(0)});
        receive("N-803", {false, {}, {}});
        QVERIFY(m_page->list()->select("N-802"));
        ActDialog* dialog = start(Qt::Key_U);
        auto* plain = dialog->findChild<QLineEdit*>("usePlain");
        QCOMPARE(plain->text(), QString("7"));
        dialog->idField()->selectAll();
        scan("N-801");
        QCOMPARE(plain->text(), QString("12345.678"));
        QCOMPARE(dialog->findChild<QLineEdit*>("useAbrasive")->text(), QString("5.5"));
        dialog->idField()->setText("N-803");
        QVERIFY(dialog->findChild<QCheckBox*>("useUnknown")->isChecked());
        // What a person has typed is not put aside for another serial.
        dialog->idField()->setText("N-801");
        plain->selectAll();
        plain->setFocus();
        type("99");
        dialog->idField()->setText("N-802");
        QCOMPARE(plain->text(), QString("99"));
        dialog->reject();
    }

    void entersAMeasurement() {
        const NozzleSerial serial = shelfNozzle();
        m_page->list()->select(serial);
        const auto before = nozzles().value(serial).measurements.size();
        start(Qt::Key_E);
        // Nothing was measured yet: what the shop's procedure gauges a bore with, and no thermometer.
        QCOMPARE(openDialog<ActDialog>()->findChild<QComboBox*>("measureInstrument")->currentData().toString(), QString("pins-1"));
        openDialog<ActDialog>()->findChild<QComboBox*>("measureInstrument")->setCurrentIndex(3); // another one this time
        press(Qt::Key_Return);
        scan("0.412");
        press(Qt::Key_Return); // instrument as it stands: performs
        QVERIFY(!openDialog<ActDialog>());
        QCOMPARE(nozzles().value(serial).measurements.size(), before + 1);
        QCOMPARE(nozzles().value(serial).measurements.last().orifice.micrometres(), 412);
        QCOMPARE(nozzles().value(serial).measurements.last().who, m_shop->somebody());
        const QString used = nozzles().value(serial).measurements.last().instrument;
        QVERIFY(used != QString("pins-1"));
        ActDialog* next = nozzle_acts::measure(*m_shop->bench, serial, m_page.get());
        QCOMPARE(next->findChild<QComboBox*>("measureInstrument")->currentData().toString(), used);
        next->reject();
    }

    void retiresWithAReason() {
        const NozzleSerial serial = shelfNozzle();
        m_page->list()->select(serial);
        start(Qt::Key_T);
        press(Qt::Key_Return);
        scan("worn out");
        QVERIFY(!openDialog<ActDialog>());
        QVERIFY(nozzles().value(serial).where == NozzleWhere::Retired);
        QCOMPARE(nozzles().value(serial).retiredWhy, QString("worn out"));
    }

    void aMountedNozzleIsNotRetired() {
        NozzleSerial serial;
        for (const Nozzle& n : nozzles())
            if (n.where == NozzleWhere::Mounted) serial = n.serial;
        QVERIFY(!serial.isEmpty());
        m_page->list()->select(serial);
        ActDialog* dialog = start(Qt::Key_T);
        press(Qt::Key_Return);
        type("why not");
        QVERIFY(!dialog->acceptButton()->isEnabled());
        QVERIFY(!dialog->objectionsShown().isEmpty());
        press(Qt::Key_Escape);
    }

    void everyFocusableWidgetHasANameAndARole() {
        m_page->list()->select(shelfNozzle());
        const AccessibleWalk walk = walkWithActs(
            *m_page, {Qt::Key_R, Qt::Key_U, Qt::Key_E, Qt::Key_T});
        QVERIFY2(walk.faults.isEmpty(), qPrintable(walk.faults.join('\n')));
    }

private:
    const QMap<NozzleSerial, Nozzle>& nozzles() const { return m_shop->bench->shop().stock().nozzles; }
    ActDialog* start(Qt::Key mnemonic) { return startAct(*m_page, mnemonic); }
    NozzleSerial shelfNozzle() const {
        for (const Nozzle& n : nozzles())
            if (n.where == NozzleWhere::Shelf) return n.serial;
        return {};
    }

    std::unique_ptr<OpenedShop> m_shop;
    std::unique_ptr<NozzlesPage> m_page;
};

INTERLUDE_TEST(NozzlesPageTest)
#include "nozzles_page_test.moc"
