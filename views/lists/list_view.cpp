#include "views/lists/list_view.h"

#include "views/bench/keys.h"
#include "views/bench/remembered.h"
#include "views/lists/column_widths.h"
#include "views/lists/csv.h"
#include "views/lists/heading.h"
#include "views/lists/kept_place.h"
#include "views/lists/list_delegate.h"
#include "views/look/widgets.h"

#include <QClipboard>
#include <QFileDialog>
#include <QGuiApplication>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QKeyEvent>
#include <QLineEdit>
#include <QScopedValueRollback>
#include <QStackedWidget>
#include <QTableView>

namespace interlude::lists {

ListView::ListView(const QString& name, const QString& title, ListTable* model, QWidget* parent)
    : QWidget(parent), m_name(name), m_title(title), m_model(model), m_proxy(new SortedFilter(this)),
      m_tools(new QHBoxLayout), m_filter(new QLineEdit), m_count(look::mutedLabel(look::Text::Body)),
      m_export(look::button(tr("Export CSV"))),
      m_stack(new QStackedWidget), m_view(new QTableView), m_heading(new Heading), m_empty(look::mutedLabel(look::Text::Detail)) {
    m_model->setParent(this);
    m_proxy->setSourceModel(m_model);
    m_widths = std::make_unique<ColumnWidths>(*m_view, *m_heading, *m_model);
    auto* all = new QVBoxLayout(this);
    all->setContentsMargins(0, 0, 0, 0);
    all->setSpacing(look::unit);
    buildTools();
    all->addLayout(m_tools);
    buildView();
    all->addWidget(m_stack, 1);
    restoreColumns();
    orderTabs(nullptr);
    updateState();
}

ListView::~ListView() {
    // What goes away hides first: the heading then lays itself out once more and would tell one who is no longer a list.
    for (QObject* teller : {static_cast<QObject*>(m_heading), static_cast<QObject*>(m_view->selectionModel()),
                            static_cast<QObject*>(m_proxy), static_cast<QObject*>(m_model)})
        teller->disconnect(this);
}

void ListView::buildTools() {
    m_filter->setPlaceholderText(tr("Filter"));
    m_filter->setAccessibleName(tr("Filter %1").arg(m_title));
    m_filter->setClearButtonEnabled(true);
    m_filter->setMinimumWidth(15 * look::unit);
    m_filter->setMaximumWidth(35 * look::unit);
    m_filter->installEventFilter(this);
    m_count->setWordWrap(false);
    m_export->setObjectName(QStringLiteral("export"));
    m_export->setAccessibleName(tr("Export %1 as CSV").arg(m_title));
    m_tools->setSpacing(look::unit);
    m_tools->addWidget(m_filter, 1);
    m_tools->addWidget(m_count);
    m_tools->addStretch(1);
    m_tools->addWidget(m_export);
    connect(m_export, &QPushButton::clicked, this, &ListView::chooseExportFile);
    connect(m_filter, &QLineEdit::textChanged, this, &ListView::filter);
}

/// What a filter hides has not been chosen away: its neighbour becomes current only when a person says so, and nobody is told
/// while the rows are coming and going. What was chosen is current again when it is let in again.
void ListView::filter(const QString& words) {
    const QString chosen = currentKey().isEmpty() ? m_hiddenKey : currentKey();
    {
        const QScopedValueRollback<bool> filtering(m_filtering, true);
        m_place->note();
        m_proxy->setWords(words);
        m_place->restore();
        const int row = chosen.isEmpty() || !currentKey().isEmpty() ? -1 : m_model->rowOf(chosen);
        if (const QModelIndex at = row < 0 ? QModelIndex() : m_proxy->mapFromSource(m_model->index(row, 0)); at.isValid())
            m_view->selectRow(at.row());
    }
    m_hiddenKey = currentKey().isEmpty() ? chosen : QString();
    updateState();
}

void ListView::buildView() {
    m_view->setHorizontalHeader(m_heading);
    m_view->setModel(m_proxy);
    m_view->setItemDelegate(new ListDelegate(m_view));
    m_view->setAccessibleName(m_title);
    m_view->setSelectionBehavior(QAbstractItemView::SelectRows);
    m_view->setSelectionMode(QAbstractItemView::ExtendedSelection);
    m_view->setEditTriggers(QAbstractItemView::NoEditTriggers);
    m_view->setSortingEnabled(true);
    m_view->setShowGrid(false);
    m_view->setWordWrap(false);
    m_view->setTabKeyNavigation(false);
    m_view->setHorizontalScrollMode(QAbstractItemView::ScrollPerPixel);
    m_view->verticalHeader()->hide();
    m_view->verticalHeader()->setDefaultSectionSize(36);
    m_view->horizontalHeader()->setSectionsMovable(true);
    m_view->horizontalHeader()->setHighlightSections(false);
    m_view->horizontalHeader()->setStretchLastSection(true);
    m_view->horizontalHeader()->setAccessibleName(tr("Columns of %1").arg(m_title));
    m_view->installEventFilter(this);
    m_view->viewport()->installEventFilter(this);
    m_empty->setAlignment(Qt::AlignCenter);
    m_stack->addWidget(m_view);
    m_stack->addWidget(m_empty);

    connect(m_view->selectionModel(), &QItemSelectionModel::currentRowChanged, this, &ListView::updateState);
    connect(m_view, &QTableView::doubleClicked, this,
            [this](const QModelIndex& at) { Q_EMIT activated(at.data(KeyRole).toString()); });
    keepPlace();
    connect(m_heading, &QHeaderView::sectionResized, this, [this](int section) {
        // The last column takes what is left over, whatever a person wishes.
        if (m_fitting || !isVisible() || m_heading->visualIndex(section) == m_heading->count() - 1) return;
        m_ownWidths = true;
        rememberColumns();
    });
    connect(m_heading, &QHeaderView::sectionMoved, this, [this] { rememberColumns(); });
    connect(m_heading, &QHeaderView::sortIndicatorChanged, this, [this] { rememberColumns(); });
    connect(m_proxy, &QAbstractItemModel::modelReset, this, [this] {
        m_widths->forget();
        fitColumns();
    });
}

/// A refresh that changes the rows would otherwise lose the person's place.
void ListView::keepPlace() {
    m_place = std::make_unique<KeptPlace>(*m_view);
    connect(m_model, &ListTable::refreshing, this, [this] { m_place->note(); });
    connect(m_proxy, &QAbstractItemModel::dataChanged, this, [this](const QModelIndex& first, const QModelIndex& last) {
        const int current = m_view->currentIndex().row();
        m_currentSaysOther = m_currentSaysOther || (current >= first.row() && current <= last.row());
        widenColumns(first.row(), last.row());
    });
    connect(m_proxy, &QAbstractItemModel::rowsInserted, this,
            [this](const QModelIndex&, int first, int last) { widenColumns(first, last); });
    connect(m_model, &ListTable::refreshed, this, [this] {
        m_place->restore();
        const QString before = m_lastKey;
        updateState();
        if (std::exchange(m_currentSaysOther, false) && m_lastKey == before && !m_telling) tellCurrent();
    });
}

void ListView::setEmptyText(const QString& text) {
    m_emptyText = text;
    updateState();
}

void ListView::setFirstSort(int column, Qt::SortOrder order) {
    if (!m_restored) m_view->sortByColumn(column, order);
}

void ListView::rememberFilter() {
    const QString at = QStringLiteral("lists/%1/filter").arg(m_name);
    m_filter->setText(remembered()->value(at).toString());
    connect(m_filter, &QLineEdit::textChanged, this, [at](const QString& text) { remembered()->setValue(at, text); });
}

void ListView::addTool(QWidget* widget) {
    m_tools->insertWidget(m_tools->count() - 1, widget);
    orderTabs(nullptr);
}

QWidget* ListView::orderTabs(QWidget* after) {
    for (int i = 0; i < m_tools->count(); ++i) {
        QWidget* tool = m_tools->itemAt(i)->widget();
        if (!tool || tool->focusPolicy() == Qt::NoFocus) continue;
        if (after) setTabOrder(after, tool);
        after = tool;
    }
    setTabOrder(after, m_view);
    return m_view;
}

void ListView::focusInEvent(QFocusEvent* event) {
    m_view->setFocus(event->reason());
}

QString ListView::currentKey() const {
    return m_view->currentIndex().data(KeyRole).toString();
}

QStringList ListView::selectedKeys() const {
    QMap<int, QString> byRow;
    for (const QModelIndex& at : m_view->selectionModel()->selectedRows()) byRow[at.row()] = at.data(KeyRole).toString();
    return byRow.values();
}

QStringList ListView::labelKeys() const {
    QStringList keys = selectedKeys();
    if (keys.isEmpty())
        for (int row = 0; row < m_proxy->rowCount(); ++row) keys.append(m_proxy->index(row, 0).data(KeyRole).toString());
    return keys;
}

bool ListView::select(const QString& key, Hidden hidden) {
    const int row = m_model->rowOf(key);
    if (row < 0) return false;
    QModelIndex at = m_proxy->mapFromSource(m_model->index(row, 0));
    if (!at.isValid()) {
        if (hidden == Hidden::StaysHidden) return false;
        m_filter->clear();
        at = m_proxy->mapFromSource(m_model->index(row, 0));
    }
    if (m_view->currentIndex().row() != at.row()) m_view->selectRow(at.row());
    m_view->scrollTo(at);
    return true;
}

int ListView::visibleRows() const {
    return m_proxy->rowCount();
}

QList<QStringList> ListView::shownRows(bool selectedOnly) const {
    const QHeaderView* header = m_view->horizontalHeader();
    QList<int> columns;
    for (int i = 0; i < header->count(); ++i)
        if (!header->isSectionHidden(header->logicalIndex(i))) columns.append(header->logicalIndex(i));
    QList<QStringList> rows;
    QStringList titles;
    for (const int c : columns) titles.append(m_model->title(c));
    rows.append(titles);
    for (int r = 0; r < m_proxy->rowCount(); ++r) {
        if (selectedOnly && !m_view->selectionModel()->isRowSelected(r, {})) continue;
        QStringList row;
        for (const int c : columns) row.append(m_proxy->index(r, c).data().toString());
        rows.append(row);
    }
    return rows;
}

Outcome<int> ListView::exportCsv(const QString& file) const {
    return writeCsv(shownRows(), file);
}

void ListView::copySelection() const {
    const QList<QStringList> rows = shownRows(true);
    if (rows.size() > 1) QGuiApplication::clipboard()->setText(tsvOf(rows));
}

bool ListView::eventFilter(QObject* watched, QEvent* event) {
    if (watched == m_view->viewport()) {
        if (event->type() == QEvent::Resize) fitColumns();
        return QWidget::eventFilter(watched, event);
    }
    if (event->type() != QEvent::KeyPress) return QWidget::eventFilter(watched, event);
    const auto* key = static_cast<QKeyEvent*>(event);
    if (watched == m_view) {
        if (key->matches(QKeySequence::Copy)) {
            copySelection();
            return true;
        }
        if (ownKey(*key)) return true;
        if ((key->key() == Qt::Key_Return || key->key() == Qt::Key_Enter) && !currentKey().isEmpty()) {
            Q_EMIT activated(currentKey());
            return true;
        }
    }
    if (watched == m_filter && (key->key() == Qt::Key_Down || key->key() == Qt::Key_Return)) {
        m_view->setFocus(Qt::OtherFocusReason);
        if (!m_view->currentIndex().isValid() && m_proxy->rowCount() > 0) m_view->selectRow(0);
        return true;
    }
    if (watched == m_filter && key->key() == Qt::Key_Escape && !m_filter->text().isEmpty()) {
        m_filter->clear();
        return true;
    }
    return QWidget::eventFilter(watched, event);
}

bool ListView::ownKey(const QKeyEvent& key) {
    const auto is = [&](const char* id) { return keys().matches(QString::fromLatin1(id), key); };
    const int sorted = m_heading->sortIndicatorSection();
    if (is("list.filter")) m_filter->setFocus(Qt::ShortcutFocusReason);
    else if (is("list.sort-before")) sortByKey(-1);
    else if (is("list.sort-after")) sortByKey(1);
    else if (is("list.sort-up")) m_view->sortByColumn(sorted, Qt::AscendingOrder);
    else if (is("list.sort-down")) m_view->sortByColumn(sorted, Qt::DescendingOrder);
    else return false;
    return true;
}

void ListView::restoreColumns() {
    QHeaderView* header = m_view->horizontalHeader();
    const auto settings = remembered();
    const QString at = QStringLiteral("lists/") + m_name;
    // Columns of another version would land under the wrong headings.
    QStringList titles;
    for (int c = 0; c < m_model->columnCount(); ++c) titles.append(m_model->title(c));
    if (settings->value(at + QStringLiteral("/columns")).toStringList() == titles)
        m_restored = header->restoreState(settings->value(at + QStringLiteral("/header")).toByteArray());
    m_ownWidths = m_restored && settings->value(at + QStringLiteral("/own-widths")).toBool();
    if (m_restored) m_view->sortByColumn(header->sortIndicatorSection(), header->sortIndicatorOrder());
    else m_view->sortByColumn(0, Qt::AscendingOrder);
}

void ListView::rememberColumns() const {
    if (!isVisible()) return; // layout before the first showing is no wish of a person
    QStringList titles;
    for (int c = 0; c < m_model->columnCount(); ++c) titles.append(m_model->title(c));
    const auto settings = remembered();
    const QString at = QStringLiteral("lists/") + m_name;
    settings->setValue(at + QStringLiteral("/columns"), titles);
    settings->setValue(at + QStringLiteral("/header"), m_view->horizontalHeader()->saveState());
    settings->setValue(at + QStringLiteral("/own-widths"), m_ownWidths);
}

void ListView::sortByKey(int columns) {
    const int visual = m_heading->visualIndex(m_heading->sortIndicatorSection()) + columns;
    const int count = m_heading->count();
    m_view->sortByColumn(m_heading->logicalIndex((visual + count) % count), Qt::AscendingOrder);
}

void ListView::fitColumns() {
    // While a filter is typed the columns stand still.
    if (m_ownWidths || (m_fitted && !m_filter->text().isEmpty())) return;
    if (!isVisible()) { // it is measured when it is seen
        m_fitted = false;
        return;
    }
    if (!m_fitted) m_widths->forget();
    m_fitted = m_proxy->rowCount() > 0;
    m_widths->measure();
    const QScopedValueRollback<bool> fitting(m_fitting, true);
    const QList<int> widths = m_widths->shared(m_view->viewport()->width());
    for (int c = 0; c < static_cast<int>(widths.size()); ++c) m_heading->resizeSection(c, widths[c]);
}

void ListView::widenColumns(int first, int last) {
    // Rows that a filter lets in again have been measured, or are as the others.
    if (!m_fitted) fitColumns();
    else if (m_filter->text().isEmpty() && m_widths->widen(first, last)) fitColumns();
}

void ListView::showEvent(QShowEvent* event) {
    QWidget::showEvent(event);
    if (!m_fitted) fitColumns();
}

void ListView::changeEvent(QEvent* event) {
    QWidget::changeEvent(event);
    if (event->type() == QEvent::FontChange || event->type() == QEvent::StyleChange) {
        m_widths->forget();
        fitColumns();
    }
}

void ListView::chooseExportFile() {
    auto* dialog = new QFileDialog(this, tr("Export %1").arg(m_title), documentsFile(m_name + QStringLiteral(".csv")), tr("CSV (*.csv)"));
    dialog->setAcceptMode(QFileDialog::AcceptSave);
    dialog->setDefaultSuffix(QStringLiteral("csv"));
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    connect(dialog, &QFileDialog::fileSelected, this, [this](const QString& file) {
        const auto done = exportCsv(file);
        if (done) Q_EMIT exported(file, *done);
        else Q_EMIT exportFailed(done.error());
    });
    dialog->open();
}

/// Whoever is told may fill the list anew; that it then says the same again is not told.
void ListView::tellCurrent() {
    const QScopedValueRollback<bool> telling(m_telling, true);
    Q_EMIT currentKeyChanged(m_lastKey);
}

void ListView::updateState() {
    if (m_filtering) return;
    if (!currentKey().isEmpty()) m_hiddenKey.clear();
    const int all = m_model->rowCount(), shown = m_proxy->rowCount();
    m_count->setText(shown != all ? tr("%1 of %2").arg(shown).arg(all) : all == 1 ? tr("1 row") : tr("%1 rows").arg(all));
    m_empty->setText(all == 0 ? m_emptyText : tr("Nothing matches “%1”. Esc clears the filter.").arg(m_filter->text()));
    // Nothing to filter or to export: only what to do next.
    for (QWidget* w : {static_cast<QWidget*>(m_filter), static_cast<QWidget*>(m_count), static_cast<QWidget*>(m_export)})
        w->setVisible(all > 0);
    m_stack->setCurrentWidget(shown == 0 ? static_cast<QWidget*>(m_empty) : m_view);
    if (const QString key = currentKey(); key != m_lastKey) {
        m_lastKey = key;
        tellCurrent();
    }
}

} // namespace interlude::lists
