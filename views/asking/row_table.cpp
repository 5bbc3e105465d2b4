#include "views/asking/row_table.h"

#include "views/look/look.h"
#include "views/look/widgets.h"

#include <QHBoxLayout>
#include <QHeaderView>
#include <QPushButton>
#include <QTableWidget>
#include <QVBoxLayout>

namespace interlude {

QWidget* rowTable(QTableWidget* table, const RowButton& more, const RowButton& less, std::function<void()> add, int least) {
    table->verticalHeader()->hide();
    table->verticalHeader()->setDefaultSectionSize(look::buttonHeight);
    auto* box = new QWidget;
    auto* column = new QVBoxLayout(box);
    column->setContentsMargins(0, 0, 0, 0);
    column->addWidget(table);
    auto* row = new QHBoxLayout;
    const auto put = [row](const RowButton& of) {
        QPushButton* b = look::button(of.text);
        b->setObjectName(of.name);
        row->addWidget(b);
        return b;
    };
    QObject::connect(put(more), &QPushButton::clicked, table, std::move(add));
    QObject::connect(put(less), &QPushButton::clicked, table, [table, least] {
        if (table->currentRow() >= 0 && table->rowCount() > least) table->removeRow(table->currentRow());
    });
    row->addStretch();
    column->addLayout(row);
    return box;
}

} // namespace interlude
