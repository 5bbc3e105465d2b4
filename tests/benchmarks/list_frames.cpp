// A list of 10^5 rows: filling it, finding in it, sorting it, scrolling through it.

#include "tests/benchmarks/ledger_bench.h"
#include "views/lists/list_view.h"

#include <QApplication>
#include <QElapsedTimer>
#include <QLineEdit>
#include <QScrollBar>
#include <QTableView>

#include <algorithm>
#include <cstdio>

namespace interlude::bench {

namespace {

struct Row {
    int number = 0;
    QString id, material, lot, where;
};

QList<Row> manyRows(int count) {
    QList<Row> rows;
    rows.reserve(count);
    for (int i = 0; i < count; ++i)
        rows.append({i, QStringLiteral("S-%1").arg(i), i % 3 ? QStringLiteral("ABS, Marlow 20") : QStringLiteral("PA12, Tarn 5"),
                     QStringLiteral("L%1").arg(2000 + i / 6), i % 5 ? QStringLiteral("Drying cabinet 1") : QStringLiteral("Bench")});
    return rows;
}

lists::ListModel<Row>* model() {
    const auto text = [](QString Row::*field) { return [field](const Row& r) { return lists::textCell(r.*field); }; };
    const auto number = [](const Row& r) {
        lists::Cell c;
        c.text = QString::number(r.number);
        c.sort = r.number;
        return c;
    };
    return new lists::ListModel<Row>({{QStringLiteral("No."), number, true, 6}, {QStringLiteral("Spool"), text(&Row::id), false, 8},
                                      {QStringLiteral("Material"), text(&Row::material), false, 16}, {QStringLiteral("Lot"), text(&Row::lot), false, 8},
                                      {QStringLiteral("Where"), text(&Row::where), false, 16}},
                                     [](const Row& r) { return r.id; });
}

template <typename F> double taken(F&& what) {
    QElapsedTimer t;
    t.start();
    what();
    QCoreApplication::processEvents();
    return static_cast<double>(t.nsecsElapsed()) / 1e6;
}

} // namespace

void listFrames() {
    auto* table = model();
    lists::ListView list(QStringLiteral("bench"), QStringLiteral("Bench"), table);
    list.resize(1200, 800);
    list.show();
    QCoreApplication::processEvents();
    QList<Row> rows = manyRows(100'000);
    std::printf("a list of 10^5 rows: filled in %.0f ms", taken([&] { table->setRows(rows); }));
    rows[77].where = QStringLiteral("Bench");
    std::printf(", refreshed with one row changed in %.0f ms", taken([&] { table->setRows(rows); }));
    for (const char* letters : {"l", "l2", "l29"})
        std::printf(", filtered by \"%s\" in %.0f ms", letters, taken([&] { list.filterField()->setText(QString::fromLatin1(letters)); }));
    std::printf(" (%d rows)", list.visibleRows());
    std::printf(", filter taken away in %.0f ms", taken([&] { list.filterField()->clear(); }));
    std::printf(", sorted by a text in %.0f ms", taken([&] { list.view()->sortByColumn(3, Qt::DescendingOrder); }));
    QList<double> frames;
    QScrollBar* bar = list.view()->verticalScrollBar();
    for (int i = 0; i < 200; ++i)
        frames.append(taken([&] {
            bar->setValue(bar->maximum() / 200 * i);
            list.view()->viewport()->repaint();
        }));
    std::sort(frames.begin(), frames.end());
    std::printf(", scrolled: a frame within %.1f ms at the 95th percentile\n", frames[190]);
}

} // namespace interlude::bench
