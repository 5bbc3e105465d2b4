// The list that every page uses, driven through its real widgets.
#include "tests/harness/run_tests.h"
#include "tests/window/keys_page.h"
#include "views/bench/remembered.h"
#include "views/lists/csv.h"
#include "views/lists/heading.h"
#include "views/lists/list_view.h"
#include "views/look/look.h"

#include <QtTest>
#include <QtWidgets>

using namespace interlude;
using namespace interlude::lists;
using interlude::tests::keysBelow;

namespace {

struct Thing {
    QString id;
    std::optional<double> grams;
    QString note;
};

Cell gramsCell(const Thing& t) {
    Cell c;
    c.text = t.grams ? QString::number(*t.grams) + " g" : QString("unknown");
    // Unknown has no value to sort by, but a text to read: it must still come last.
    c.sort = t.grams ? QVariant(*t.grams) : sortLast();
    return c;
}

ListModel<Thing>* makeModel() {
    QList<Column<Thing>> columns;
    columns.append({"Id", [](const Thing& t) { return Cell{t.id, {}, {}, {}, {}, -1, {}}; }, false, 10});
    columns.append({"Left", gramsCell, true, 10});
    columns.append({"Note", [](const Thing& t) { return Cell{t.note, {}, {}, {}, {}, -1, {}}; }, false, 20});
    return new ListModel<Thing>(columns, [](const Thing& t) { return t.id; });
}

QList<Thing> things() {
    return {{"S-10", 640, "blue, \"wide\""}, {"S-9", 1000, "red"}, {"S-11", {}, "two\nlines"}, {"S-2", 90, ""}};
}

QStringList idsOf(const ListView& list) {
    QStringList ids;
    for (const QStringList& row : list.shownRows().mid(1)) ids.append(row.value(0));
    return ids;
}

} // namespace

class ListViewTest : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void init() {
        remembered()->clear();
        m_model = makeModel();
        m_list = std::make_unique<ListView>("things", "Things", m_model);
        m_model->setRows(things());
        m_list->resize(800, 400);
        m_list->show();
        QVERIFY(QTest::qWaitForWindowExposed(m_list.get()));
    }
    void cleanup() { m_list.reset(); }

    void sortsNumbersInsideTextAsNumbers() {
        m_list->view()->sortByColumn(0, Qt::AscendingOrder);
        QCOMPARE(idsOf(*m_list), QStringList({"S-2", "S-9", "S-10", "S-11"}));
    }

    void sortsByValueNotText() {
        // As text "1000 g" would stand before "640 g" and "90 g".
        m_list->view()->sortByColumn(1, Qt::AscendingOrder);
        QCOMPARE(idsOf(*m_list).first(3), QStringList({"S-2", "S-10", "S-9"}));
        m_list->view()->sortByColumn(1, Qt::DescendingOrder);
        QCOMPARE(idsOf(*m_list).first(), QString("S-9"));
    }

    void whatHasNoValueComesLastBothWays() {
        for (const auto order : {Qt::AscendingOrder, Qt::DescendingOrder}) {
            m_list->view()->sortByColumn(2, order);
            QCOMPARE(idsOf(*m_list).last(), QString("S-2"));
            m_list->view()->sortByColumn(1, order);
            QCOMPARE(idsOf(*m_list).last(), QString("S-11"));
        }
    }

    void filtersAsYouTypeOverAllColumns() {
        m_list->filterField()->setFocus();
        QTest::keyClicks(m_list->filterField(), "s-1 BLUE");
        QCOMPARE(idsOf(*m_list), QStringList({"S-10"}));
        QTest::keyClick(m_list->filterField(), Qt::Key_Escape);
        QCOMPARE(m_list->visibleRows(), 4);
    }

    void saysWhenNothingMatchesAndWhatToDoWhenEmpty() {
        m_list->setEmptyText("Receive the first thing.");
        QTest::keyClicks(m_list->filterField(), "zzz");
        QCOMPARE(shownMessage(), QString("Nothing matches “zzz”. Esc clears the filter."));
        m_list->filterField()->clear();
        m_model->setRows({});
        QCOMPARE(shownMessage(), QString("Receive the first thing."));
        m_model->setRows(things());
        QVERIFY(m_list->view()->isVisible());
    }

    void copiesTheSelectionAsTabSeparatedText() {
        m_list->view()->sortByColumn(0, Qt::AscendingOrder);
        m_list->view()->setFocus();
        m_list->view()->selectRow(2);
        QTest::keyClick(m_list->view(), Qt::Key_Down, Qt::ShiftModifier);
        QTest::keyClick(m_list->view(), Qt::Key_C, Qt::ControlModifier);
        QCOMPARE(QGuiApplication::clipboard()->text(),
                 QString("Id\tLeft\tNote\nS-10\t640 g\tblue, \"wide\"\nS-11\tunknown\ttwo lines"));
    }

    void csvFollowsRfc4180() {
        QCOMPARE(csvOf({{"a", "b"}, {"x,y", "say \"no\""}, {"l1\nl2", ""}}),
                 QString("a,b\r\n\"x,y\",\"say \"\"no\"\"\"\r\n\"l1\nl2\",\r\n"));
    }

    void exportsWhatIsShownInItsOrder() {
        m_list->view()->sortByColumn(1, Qt::DescendingOrder);
        m_list->view()->horizontalHeader()->moveSection(1, 0);
        m_list->filterField()->setText("g");
        QTemporaryDir dir;
        const auto done = m_list->exportCsv(dir.filePath("out.csv"));
        QVERIFY(done.has_value());
        QCOMPARE(*done, 3);
        QFile file(dir.filePath("out.csv"));
        QVERIFY(file.open(QIODevice::ReadOnly));
        QCOMPARE(QString::fromUtf8(file.readAll()), QString("Left,Id,Note\r\n1000 g,S-9,red\r\n640 g,S-10,\"blue, \"\"wide\"\"\"\r\n"
                                                            "90 g,S-2,\r\n"));
    }

    void exportToAPlaceThatCannotBeWrittenIsRefused() {
        const auto done = m_list->exportCsv("/nowhere/at/all/out.csv");
        QVERIFY(!done.has_value());
        QCOMPARE(done.error().rule, QString("csv-file"));
        QVERIFY(done.error().reason.contains("/nowhere/at/all/out.csv"));
    }

    void remembersColumnsAndSorting() {
        m_list->view()->horizontalHeader()->resizeSection(0, 222);
        m_list->view()->horizontalHeader()->moveSection(2, 0);
        m_list->view()->sortByColumn(1, Qt::DescendingOrder);
        m_list = std::make_unique<ListView>("things", "Things", m_model = makeModel());
        m_list->setFirstSort(0, Qt::AscendingOrder); // a person's choice outranks it
        m_model->setRows(things());
        QCOMPARE(m_list->view()->horizontalHeader()->sectionSize(0), 222);
        QCOMPARE(m_list->shownRows().first(), QStringList({"Note", "Id", "Left"}));
        QCOMPARE(m_list->view()->horizontalHeader()->sortIndicatorSection(), 1);
        QCOMPARE(m_list->shownRows().at(1).at(1), QString("S-9"));
    }

    void aRememberedFilterStandsThereAgain() {
        m_list->rememberFilter();
        m_list->filterField()->setText("S-1");
        auto* again = makeModel();
        ListView next("things", "Things", again);
        next.rememberFilter();
        again->setRows(things());
        next.resize(800, 400);
        next.show();
        QCOMPARE(next.filterField()->text(), QString("S-1"));
        QCOMPARE(idsOf(next), QStringList({"S-10", "S-11"}));
        // Its columns are fitted all the same: a heading stands whole.
        for (int c = 0; c < again->columnCount(); ++c)
            QVERIFY(next.view()->columnWidth(c) >= next.view()->fontMetrics().horizontalAdvance(again->title(c)));
        next.filterField()->clear();
        QVERIFY(remembered()->value("lists/things/filter").toString().isEmpty());
        ListView other("things", "Things", makeModel()); // one that was not asked to
        remembered()->setValue("lists/things/filter", "S-1");
        QVERIFY(other.filterField()->text().isEmpty());
    }
    void keepsThePlaceWhenRowsChange() {
        QVERIFY(m_list->select("S-9"));
        QSignalSpy spy(m_list.get(), &ListView::currentKeyChanged);
        QList<Thing> more = things();
        more.prepend({"S-1", 5, "new"});
        m_model->setRows(more);
        QCOMPARE(m_list->currentKey(), QString("S-9"));
        QCOMPARE(m_list->selectedKeys(), QStringList({"S-9"}));
    }

    void sameRowsWithOtherValuesOnlyRepaint() {
        QVERIFY(m_list->select("S-9"));
        QSignalSpy resets(m_model, &QAbstractItemModel::modelReset);
        QList<Thing> same = things();
        same[1].grams = 1;
        m_model->setRows(same);
        QCOMPARE(resets.count(), 0);
        QCOMPARE(m_list->currentKey(), QString("S-9"));
        QVERIFY(m_list->shownRows(true).at(1).contains("1 g"));
    }

    void onlyWhatIsDifferentIsTold() {
        QSignalSpy resets(m_model, &QAbstractItemModel::modelReset), came(m_model, &QAbstractItemModel::rowsInserted),
            went(m_model, &QAbstractItemModel::rowsRemoved);
        QList<Thing> rows = things();
        rows.insert(2, {"S-3", 7, "between"});
        m_model->setRows(rows);
        QCOMPARE(came.count(), 1);
        QCOMPARE(came[0][1].toInt(), 2);
        rows.removeFirst();
        m_model->setRows(rows);
        QCOMPARE(went.count(), 1);
        QCOMPARE(went[0][1].toInt(), 0);
        QCOMPARE(resets.count(), 0);
        QStringList keys;
        for (int r = 0; r < m_model->rowCount(); ++r) keys.append(m_model->key(r));
        QStringList wanted;
        for (const Thing& t : rows) wanted.append(t.id);
        QCOMPARE(keys, wanted);
    }

    void anotherListKeepsSelectionAndPlace() {
        QList<Thing> rows;
        for (int i = 0; i < 300; ++i) rows.append({QString("T-%1").arg(1000 + i), i, "one of many"});
        m_model->setRows(rows);
        m_list->view()->sortByColumn(0, Qt::AscendingOrder);
        m_list->view()->selectRow(150);
        QTest::keyClick(m_list->view(), Qt::Key_Down, Qt::ShiftModifier);
        m_list->view()->verticalScrollBar()->setValue(120);
        const QStringList selected = m_list->selectedKeys();
        QCOMPARE(selected, QStringList({"T-1150", "T-1151"}));
        QSignalSpy resets(m_model, &QAbstractItemModel::modelReset);
        // So many come all over the list that it is a new one.
        QList<Thing> more;
        for (const Thing& t : rows) {
            more.append({t.id + "a", t.grams, "new"});
            more.append(t);
        }
        m_model->setRows(more);
        QCOMPARE(resets.count(), 1);
        QCOMPARE(m_list->selectedKeys(), selected);
        QCOMPARE(m_list->currentKey(), QString("T-1151"));
        const int top = m_list->view()->verticalScrollBar()->value();
        QCOMPARE(m_list->view()->model()->index(top, 0).data(KeyRole).toString(), QString("T-1120"));
    }

    void aLongerTextWidensItsColumnAndStaysSo() {
        QList<Thing> rows = things();
        const int before = m_list->view()->columnWidth(0);
        rows.append({"S-100000000000000000", 1, "a note"});
        m_model->setRows(rows);
        QVERIFY(m_list->view()->columnWidth(0) > before);
        rows.last().id = "S-7";
        m_model->setRows(rows);
        QVERIFY(m_list->view()->columnWidth(0) > before); // it does not jump back
    }

    void whatAFilterHidesIsNotChosenAway() {
        m_list->select("S-9");
        QStringList told;
        bool filling = false;
        // Whoever is told fills the list anew: nothing may be told while rows come and go.
        connect(m_list.get(), &ListView::currentKeyChanged, this, [&](const QString& key) {
            if (filling) return;
            told << key;
            const QScopedValueRollback<bool> once(filling, true);
            m_model->setRows(things());
        });
        for (const char* words : {"S-1", "S-10", "nothing", "S-1"}) m_list->filterField()->setText(words);
        QVERIFY2(m_list->currentKey().isEmpty(), "nobody has chosen a neighbour");
        QVERIFY(!m_list->select("S-9", ListView::Hidden::StaysHidden));
        m_list->filterField()->setText("S-9");
        QCOMPARE(m_list->currentKey(), QString("S-9"));
        QCOMPARE(told, (QStringList{"", "S-9"}));
        m_list->filterField()->setText("S-10");
        m_list->view()->selectRow(0);
        m_list->filterField()->clear();
        QCOMPARE(m_list->currentKey(), QString("S-10"));
        QCOMPARE(m_list->visibleRows(), 4);
    }
    void selectClearsAFilterThatHidesTheRow() {
        m_list->filterField()->setText("red");
        QVERIFY(m_list->select("S-2"));
        QCOMPARE(m_list->currentKey(), QString("S-2"));
        QVERIFY(!m_list->select("S-404"));
    }

    void enterOnARowActivatesIt() {
        QSignalSpy spy(m_list.get(), &ListView::activated);
        m_list->select("S-10");
        m_list->view()->setFocus();
        QTest::keyClick(m_list->view(), Qt::Key_Return);
        QCOMPARE(spy.count(), 1);
        QCOMPARE(spy.first().first().toString(), QString("S-10"));
    }

    void sortsByKeysAlone() {
        QTableView* view = m_list->view();
        view->sortByColumn(0, Qt::AscendingOrder);
        view->setFocus();
        const auto press = [view](Qt::Key key) { QTest::keyClick(view, key, Qt::ControlModifier | Qt::ShiftModifier); };
        press(Qt::Key_Right);
        QCOMPARE(view->horizontalHeader()->sortIndicatorSection(), 1);
        QCOMPARE(idsOf(*m_list).first(), QString("S-2"));
        press(Qt::Key_Down);
        QCOMPARE(idsOf(*m_list).first(), QString("S-9"));
        press(Qt::Key_Up);
        QCOMPARE(idsOf(*m_list).first(), QString("S-2"));
        press(Qt::Key_Left);
        press(Qt::Key_Left); // round to the last one
        QCOMPARE(view->horizontalHeader()->sortIndicatorSection(), 2);
    }

    void theHelpPageNamesExactlyTheseKeys() {
        // Each of them has its test in this file.
        QCOMPARE(keysBelow("In lists"), QSet<QString>({"Ctrl+F", "Ctrl+C", "Ctrl+Shift+Left", "Ctrl+Shift+Right", "Ctrl+Shift+Up",
                                                       "Ctrl+Shift+Down", "Enter", "Esc"}));
        m_list->view()->setFocus();
        QTest::keyClick(m_list->view(), Qt::Key_F, Qt::ControlModifier);
        QVERIFY(m_list->filterField()->hasFocus());
    }

    void headingsAndTextsStandWhole() {
        QList<Thing> wide = things();
        wide.append({"S-100000000000", 1, "a note"});
        m_model->setRows(wide);
        auto* heading = qobject_cast<Heading*>(m_list->view()->horizontalHeader());
        const QAbstractItemView* view = m_list->view();
        for (int c = 0; c < heading->count(); ++c) {
            QVERIFY(heading->sectionSize(c) >= view->sizeHintForColumn(c));
            QVERIFY(heading->sectionSize(c) >= heading->wantedWidth(c));
            // The arrow has its room before the column is sorted.
            const QFontMetrics metrics(look::font(look::Text::Body, true));
            QVERIFY(heading->wantedWidth(c) >= metrics.horizontalAdvance(m_model->title(c) + " ▼") + 16);
        }
    }

    void whereRoomIsShortOnlyLongTextsGiveWay() {
        QList<Thing> wide = things();
        wide[1].note = QString("a very long note ").repeated(20);
        m_model->setRows(wide);
        QHeaderView* heading = m_list->view()->horizontalHeader();
        const QAbstractItemView* view = m_list->view();
        QVERIFY(heading->length() <= m_list->view()->viewport()->width());
        QVERIFY(heading->sectionSize(0) >= view->sizeHintForColumn(0));
        QVERIFY(heading->sectionSize(1) >= view->sizeHintForColumn(1));
        QVERIFY(heading->sectionSize(2) < view->sizeHintForColumn(2));
    }

    void hasAccessibleNames() {
        QCOMPARE(m_list->view()->accessibleName(), QString("Things"));
        QCOMPARE(m_list->filterField()->accessibleName(), QString("Filter Things"));
    }

private:
    QString shownMessage() const {
        for (const QLabel* l : m_list->findChildren<QLabel*>())
            if (l->isVisible() && l->parentWidget()->inherits("QStackedWidget")) return l->text();
        return {};
    }

    ListModel<Thing>* m_model = nullptr;
    std::unique_ptr<ListView> m_list;
};

INTERLUDE_TEST(ListViewTest)
#include "list_view_test.moc"
