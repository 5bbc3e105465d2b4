// The page of spools, by keyboard alone, on the sample fleet.
#include "tests/harness/run_tests.h"
#include "tests/lists/list_page_keys.h"
#include "views/stock/spool_rows.h"
#include "views/stock/stock_page.h"

#include <QtTest>
#include <QtWidgets>

using namespace interlude;
using namespace interlude::tests;

class StockPageTest : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void init() {
        m_shop = openedShop();
        m_page = std::make_unique<StockPage>(*m_shop->bench);
        QVERIFY(showActive(*m_page, {1366, 660}));
        m_page->list()->view()->setFocus();
    }
    void cleanup() {
        m_page.reset();
        m_shop.reset();
    }

    void listsEverySpoolOfTheShop() {
        int inHand = 0;
        for (const Spool& s : stock().spools) inHand += s.where != SpoolWhere::Retired;
        QVERIFY(inHand >= 40);
        QCOMPARE(m_page->list()->visibleRows(), inHand);
    }

    void nobodySignedInMayOnlyRead() {
        for (const QPushButton* b : actButtons()) {
            if (b->text() == "La&bels…" || b->text() == "&Import CSV…") continue;
            QVERIFY2(!b->isEnabled(), qPrintable(b->text()));
            QVERIFY(b->toolTip().contains("Sign in"));
        }
        m_shop->bench->signIn(m_shop->somebody());
        for (const QPushButton* b : actButtons()) QVERIFY2(b->isEnabled(), qPrintable(b->text()));
    }

    void receivesByScannerAndKeyboard() {
        const qint64 before = signInAndCount();
        ActDialog* dialog = start(Qt::Key_R);
        QVERIFY(dialog);
        QCOMPARE(focusName(), QString("Spool"));
        QVERIFY(!dialog->acceptButton()->isEnabled()); // nothing typed yet
        scan("S-900");
        QCOMPARE(focusName(), QString("Material"));
        press(Qt::Key_Down);
        press(Qt::Key_Return);
        scan("L-2031");
        scan("750,5");
        scan("3");
        scan("240");
        scan("2027-03-01");
        QCOMPARE(focusName(), QString("Place"));
        press(Qt::Key_Return); // the first place
        QVERIFY2(dialog->acceptButton()->isEnabled(), qPrintable(dialog->objectionsShown().join('\n')));
        press(Qt::Key_Return); // on the check box, the last field: performs
        QVERIFY(stock().spools.contains("S-900"));
        const Spool s = stock().spools.value("S-900");
        QCOMPARE(s.lot, QString("L-2031"));
        QCOMPARE(s.material, m_shop->bench->catalogue().materials.at(1).id);
        QCOMPARE(s.left->milligrams(), 750500);
        QCOMPARE(s.leftSe.milligrams(), 3000);
        QCOMPARE(spoolRow(*m_shop->bench, s).left, QString("751 ± 3"));
        Spool plain = s;
        plain.leftSe = {};
        QCOMPARE(spoolRow(*m_shop->bench, plain).left, QString("751")); // nobody has said that it is exact
        QCOMPARE(s.tare->grams(), 240.0);
        QCOMPARE(m_shop->events(), before + 1);
        QCOMPARE(m_page->list()->currentKey(), QString("S-900"));
    }

    void anIdThatIsTakenIsRefusedWhileTyping() {
        const qint64 before = signInAndCount();
        ActDialog* dialog = start(Qt::Key_R);
        type(stock().spools.firstKey());
        QVERIFY(!dialog->acceptButton()->isEnabled());
        QVERIFY(!dialog->objectionsShown().isEmpty());
        QVERIFY2(dialog->objectionsShown().join(' ').contains(stock().spools.firstKey()),
                 qPrintable(dialog->objectionsShown().join(' ')));
        press(Qt::Key_Escape);
        QCOMPARE(m_shop->events(), before);
    }

    void weighsTheChosenSpool() {
        signInAndCount();
        const SpoolId id = shelfSpool(true);
        QVERIFY(m_page->list()->select(id));
        const double tare = stock().spools.value(id).tare->grams();
        ActDialog* dialog = start(Qt::Key_W);
        QCOMPARE(dialog->id(), id);
        press(Qt::Key_Return);
        scan(QString::number(tare + 321.0));
        press(Qt::Key_Return); // tare as known
        press(Qt::Key_Return); // uncertainty as proposed: performs
        QVERIFY(!openDialog<ActDialog>());
        // gross − tare = net
        QCOMPARE(stock().spools.value(id).left->grams(), 321.0);
        QCOMPARE(m_page->list()->currentKey(), id);
    }

    void badNumbersAreExplainedAndNothingHappens() {
        const qint64 before = signInAndCount();
        m_page->list()->select(shelfSpool(true));
        ActDialog* dialog = start(Qt::Key_W);
        press(Qt::Key_Return);
        for (const QString bad : {"abc", "-5", "1e99", "nan"}) {
            auto* field = dialog->findChild<QLineEdit*>("weighGross");
            field->selectAll();
            type(bad);
            QVERIFY2(!dialog->acceptButton()->isEnabled(), qPrintable(bad));
            QVERIFY2(dialog->objectionsShown().join(' ').contains(bad) || bad == "1e99", qPrintable(bad));
        }
        press(Qt::Key_Escape);
        QCOMPARE(m_shop->events(), before);
    }

    void entersADrying() {
        signInAndCount();
        const SpoolId id = shelfSpool(true);
        m_page->list()->select(id);
        ActDialog* dialog = start(Qt::Key_D);
        press(Qt::Key_Return);
        const Material* m = m_shop->bench->catalogue().material(stock().spools.value(id).material);
        scan(m->drying ? QString::number(m->drying->celsius()) : QString("60"));
        // The fields show the shop's wall time; what is recorded is that moment, whatever the PC's zone.
        auto* to = dialog->findChild<QDateTimeEdit*>("dryTo");
        const Instant shown = zoned(*to, m_shop->bench->catalogue().fleet.zone);
        QVERIFY(std::abs(toMs(shown) - toMs(m_shop->bench->now())) < 60000);
        press(Qt::Key_Return);
        press(Qt::Key_Return);
        QVERIFY2(!openDialog<ActDialog>(), qPrintable(dialog->objectionsShown().join('\n')));
        QCOMPARE(*stock().spools.value(id).dried, shown);
    }

    void retiresWithAReason() {
        signInAndCount();
        const SpoolId id = shelfSpool(true);
        m_page->list()->select(id);
        const int rows = m_page->list()->visibleRows();
        ActDialog* dialog = start(Qt::Key_T);
        press(Qt::Key_Return);
        QVERIFY(!dialog->acceptButton()->isEnabled()); // no reason yet
        scan("used up");
        QVERIFY(!openDialog<ActDialog>());
        QVERIFY(stock().spools.value(id).where == SpoolWhere::Retired);
        QCOMPARE(stock().spools.value(id).retiredWhy, QString("used up"));
        QCOMPARE(m_page->list()->visibleRows(), rows - 1);
        m_page->findChild<QCheckBox*>()->setChecked(true);
        QVERIFY(m_page->list()->select(id));
    }

    void anUnknownIdIsRefused() {
        signInAndCount();
        ActDialog* dialog = start(Qt::Key_T);
        type("S-404x");
        press(Qt::Key_Return);
        type("why not");
        QVERIFY(!dialog->acceptButton()->isEnabled());
        QVERIFY(dialog->objectionsShown().join(' ').contains("S-404x"));
        press(Qt::Key_Return); // Enter on a refused act leaves everything as it is
        QVERIFY(openDialog<ActDialog>());
        press(Qt::Key_Escape);
    }

    void exposureGrowsWithTheClock() {
        SpoolId id;
        for (const Spool& s : stock().spools)
            if (s.exposedFrom && s.where != SpoolWhere::Retired) id = s.id;
        if (id.isEmpty()) QSKIP("no spool of the sample lies in the open");
        const Milliseconds before = exposure(stock().spools.value(id), m_shop->bench->now());
        m_shop->clock.advance(std::chrono::hours(2));
        m_shop->bench->tick();
        m_page->list()->filterField()->setText(id);
        QVERIFY(m_page->list()->shownRows().at(1).contains(hours(before + std::chrono::hours(2))));
    }

    void everyFocusableWidgetHasANameAndARole() {
        m_shop->bench->signIn(m_shop->somebody());
        m_page->list()->select(stock().spools.firstKey());
        const AccessibleWalk walk = walkWithActs(
            *m_page, {Qt::Key_R, Qt::Key_W, Qt::Key_D, Qt::Key_V, Qt::Key_L, Qt::Key_U, Qt::Key_T});
        QVERIFY2(walk.faults.isEmpty(), qPrintable(walk.faults.join('\n')));
        QVERIFY(walk.focusable > 8);
    }

private:
    const Stock& stock() const { return m_shop->bench->shop().stock(); }

    qint64 signInAndCount() {
        m_shop->bench->signIn(m_shop->somebody());
        return m_shop->events();
    }
    QList<QPushButton*> actButtons() const {
        QList<QPushButton*> out;
        for (QPushButton* b : m_page->findChildren<QPushButton*>())
            if (b->text().contains('&')) out.append(b);
        return out;
    }
    ActDialog* start(Qt::Key mnemonic) { return startAct(*m_page, mnemonic); }
    SpoolId shelfSpool(bool withTare) const {
        for (const Spool& s : stock().spools)
            if (s.where == SpoolWhere::Shelf && (!withTare || s.tare)) return s.id;
        return {};
    }

    std::unique_ptr<OpenedShop> m_shop;
    std::unique_ptr<StockPage> m_page;
};

INTERLUDE_TEST(StockPageTest)
#include "stock_page_test.moc"
