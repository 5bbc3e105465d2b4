#include "views/window/problems_dialog.h"

#include "views/lists/list_view.h"
#include "views/look/widgets.h"

#include <QVBoxLayout>

namespace interlude {

namespace {
struct Row {
    int number;
    Problem problem;
};
lists::Cell text(const QString& s) {
    lists::Cell c;
    c.text = s;
    c.tip = s;
    return c;
}
} // namespace

ProblemsDialog::ProblemsDialog(const Problems& problems, QWidget* parent) : QDialog(parent) {
    setAttribute(Qt::WA_DeleteOnClose);
    setWindowTitle(tr("Problems"));
    setAccessibleName(windowTitle());
    auto* model = new lists::ListModel<Row>(
        {{tr("Where"),
          [](const Row& r) {
              const Problem& p = r.problem;
              lists::Cell c = text(p.line > 0 ? QStringLiteral("%1:%2:%3").arg(p.file).arg(p.line).arg(p.column) : p.file);
              c.sort = QStringLiteral("%1 %2").arg(p.file).arg(p.line, 8, 10, QLatin1Char('0'));
              return c;
          },
          false, 22},
         {tr("What"), [](const Row& r) { return text(r.problem.what); }, false, 60},
         {tr("What would be right"), [](const Row& r) { return text(r.problem.right); }, false, 40}},
        [](const Row& r) { return QString::number(r.number); });
    QList<Row> rows;
    for (const Problem& p : problems) rows.append({static_cast<int>(rows.size()), p});
    model->setRows(rows);
    auto* list = new lists::ListView(QStringLiteral("problems"), tr("Problems"), model);
    list->setEmptyText(tr("There is no problem."));
    auto* all = new QVBoxLayout(this);
    all->addWidget(look::label(look::Text::PanelTitle, windowTitle()));
    all->addWidget(look::mutedLabel(look::Text::Body, tr("The shop goes on with the fleet folder as it was last read without "
                                                         "errors. Correct the files, then reload with F5.")));
    all->addWidget(list, 1);
    auto* close = look::button(tr("Close"));
    connect(close, &QPushButton::clicked, this, &QDialog::accept);
    all->addWidget(close, 0, Qt::AlignRight);
    resize(120 * look::unit, 60 * look::unit);
}

} // namespace interlude
