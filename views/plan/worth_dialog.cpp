#include "views/plan/worth_dialog.h"

#include "views/lists/list_view.h"
#include "views/look/widgets.h"
#include "views/plan/plan_words.h"
#include "views/words/words.h"

#include <QDialogButtonBox>
#include <QPushButton>
#include <QThread>
#include <QVBoxLayout>

namespace interlude {

using lists::Cell;
using planning::Minute;
using planning::WorthRow;

namespace {

/// An amount that only counts where the row is possible; sorts by its value, what is impossible last.
lists::Column<WorthLine> amount(const QString& title, std::function<qint64(const WorthRow&)> value, QString (*said)(qint64)) {
    return {title,
            [value, said](const WorthLine& l) {
                Cell c;
                if (!l.row.impossible.isEmpty()) {
                    c.sort = lists::sortLast();
                    return c;
                }
                const qint64 v = value(l.row);
                c.text = said(v);
                c.sort = v;
                return c;
            },
            true, 0};
}

/// A text that may be cut where the list is narrow: pointed at, it stands whole.
Cell whole(const QString& text) {
    Cell c = lists::textCell(text);
    c.tip = text;
    return c;
}

Cell breakEven(const WorthRow& r) {
    Cell c;
    c.sort = lists::sortLast();
    if (!r.impossible.isEmpty()) return c;
    if (r.breakEven) {
        c.text = WorthDialog::tr("from %1").arg(words::cm3(*r.breakEven));
        c.sort = static_cast<qint64>(r.breakEven->mm3());
    } else {
        c.text = r.neverPays ? WorthDialog::tr("never pays") : WorthDialog::tr("least change");
    }
    return c;
}

QString noteOf(const WorthRow& r) {
    if (!r.impossible.isEmpty()) return WorthDialog::tr("not possible: %1").arg(r.impossible);
    QStringList notes;
    if (!r.displaces.isEmpty()) notes << r.displaces;
    if (r.best) notes << WorthDialog::tr("● least in all");
    if (r.cleanOutThere) notes << WorthDialog::tr("clean-out there");
    if (r.cleanOutBack) notes << WorthDialog::tr("clean-out back");
    if (r.noWayBack) notes << WorthDialog::tr("no way back to what it wears: counted one way");
    return notes.join(QStringLiteral(", "));
}

} // namespace

WorthDialog::WorthDialog(PlanDesk& desk, int job, QWidget* parent)
    : QDialog(parent), m_desk(desk), m_model(nullptr), m_list(nullptr), m_said(look::mutedLabel(look::Text::Body)) {
    const Job& known = desk.problem().jobs[job];
    setObjectName(QStringLiteral("worthDialog"));
    setAttribute(Qt::WA_DeleteOnClose);
    setWindowTitle(tr("Worth it? · %1").arg(plan_words::job(known)));
    setAccessibleName(windowTitle());
    // As wide as the window at least: thirteen columns, and the setup is what the choice is about.
    resize(std::max(164 * look::unit, parent ? parent->window()->width() - 4 * look::unit : 0), 64 * look::unit);
    m_model = new lists::ListModel<WorthLine>(columns(), [](const WorthLine& l) { return l.key; });
    m_list = new lists::ListView(QStringLiteral("worth"), tr("Variants and printers"), m_model);
    m_list->setEmptyText(tr("Reckoning every variant on every printer…"));
    auto* all = new QVBoxLayout(this);
    all->setContentsMargins(3 * look::unit, 2 * look::unit, 3 * look::unit, 2 * look::unit);
    all->setSpacing(look::unit);
    all->addWidget(look::label(look::Text::PanelTitle, windowTitle(), true));
    all->addWidget(look::mutedLabel(look::Text::Body,
                                    tr("The job goes first on each printer and the printer goes back to what it wears now. Money in %1. Others late: what "
                                       "the other planned jobs lose by it. Pays from: the part's volume from which this variant costs less than the one "
                                       "with the least changing on the same printer.")
                                        .arg(desk.bench().catalogue().fleet.currency)));
    all->addWidget(m_list, 1);
    auto* row = new QHBoxLayout;
    auto* close = look::button(tr("Close"));
    connect(close, &QPushButton::clicked, this, &QDialog::reject);
    row->addWidget(m_said, 1);
    row->addWidget(close);
    all->addLayout(row);
    reckon(job);
}

WorthDialog::~WorthDialog() {
    if (m_thread) m_thread->wait();
}

QList<lists::Column<WorthLine>> WorthDialog::columns() const {
    const auto name = [this](const PrinterId& id) { return m_desk.bench().catalogue().printerName(id); };
    const auto time = [](qint64 m) { return plan_words::length(m); };
    const auto money = [](qint64 cents) { return plan_words::money(cents); };
    return {{tr("Printer"), [name](const WorthLine& l) { return lists::textCell(name(l.row.printer)); }, false, 0},
            {tr("Variant"), [](const WorthLine& l) { return lists::textCell(l.row.variant); }, false, 0},
            {tr("Setup"), [](const WorthLine& l) { return whole(l.row.setup); }, false, 30},
            amount(tr("Print"), [](const WorthRow& r) { return r.print; }, time),
            amount(tr("There"), [](const WorthRow& r) { return r.there; }, time),
            amount(tr("Back"), [](const WorthRow& r) { return r.back; }, time),
            amount(tr("Printing"), [](const WorthRow& r) { return r.printing; }, money),
            amount(tr("Changing"), [](const WorthRow& r) { return r.changing; }, money),
            amount(tr("Material"), [](const WorthRow& r) { return r.material; }, money),
            amount(tr("Others late"), [](const WorthRow& r) { return r.othersLate; }, money),
            amount(tr("Total"), [](const WorthRow& r) { return r.total(); }, money),
            {tr("Pays from"), [](const WorthLine& l) { return breakEven(l.row); }, false, 0},
            {tr("Note"), [](const WorthLine& l) { return whole(noteOf(l.row)); }, false, 24}};
}

void WorthDialog::reckon(int job) {
    // A copy with changes of its own: the table times the whole plan once for each row.
    auto own = std::make_shared<planning::ShopProblem>(m_desk.problem());
    std::shared_ptr<planning::Changes> changes = own->changes->clone();
    own->changes = std::static_pointer_cast<planning::ShopChanges>(changes);
    own->problem.changes = own->changes;
    auto rows = std::make_shared<QList<WorthRow>>();
    m_thread.reset(QThread::create([own, rows, job, plan = m_desk.draft().orders()] { *rows = planning::worthOf(*own, job, plan); }));
    connect(m_thread.get(), &QThread::finished, this, [this, rows] { showRows(*rows); }, Qt::QueuedConnection);
    m_thread->start();
}

void WorthDialog::showRows(const QList<WorthRow>& rows) {
    QList<WorthLine> lines;
    for (const WorthRow& r : rows) lines.append({QStringLiteral("%1/%2").arg(r.printer, r.variant), r});
    m_list->setEmptyText(tr("This job has no variant."));
    m_model->setRows(lines);
    m_list->setFirstSort(10, Qt::AscendingOrder);
    for (const WorthLine& l : lines) {
        if (!l.row.best) continue;
        m_list->select(l.key);
        m_said->setText(tr("Least in all: %1, %2").arg(m_desk.bench().catalogue().printerName(l.row.printer), l.row.variant));
    }
    if (std::none_of(lines.begin(), lines.end(), [](const WorthLine& l) { return l.row.best; }))
        m_said->setText(tr("No printer can take it: the notes say why."));
    Q_EMIT reckoned();
}

} // namespace interlude
