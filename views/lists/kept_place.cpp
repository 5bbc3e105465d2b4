#include "views/lists/kept_place.h"

#include "views/lists/list_model.h"

#include <QScrollBar>
#include <QTableView>

namespace interlude::lists {

void KeptPlace::note() {
    const QAbstractItemModel* shown = m_view.model();
    m_currentKey = m_view.currentIndex().data(KeyRole).toString();
    const int top = m_view.verticalScrollBar()->value();
    m_top = top > 0 ? shown->index(top, 0) : QModelIndex();
    m_topKey = m_top.data(KeyRole).toString();
    m_selected.clear();
    for (const QModelIndex& at : m_view.selectionModel()->selectedRows()) m_selected.insert(at.data(KeyRole).toString());
}

int KeptPlace::rowOf(const QString& key) const {
    const QAbstractItemModel* shown = m_view.model();
    for (int row = 0; !key.isEmpty() && row < shown->rowCount(); ++row)
        if (shown->index(row, 0).data(KeyRole).toString() == key) return row;
    return -1;
}

/// After a new list: rows that stayed have kept their selection by themselves.
void KeptPlace::selectAgain() {
    const QAbstractItemModel* shown = m_view.model();
    QItemSelection again;
    for (int row = 0; row < shown->rowCount(); ++row) {
        const QModelIndex at = shown->index(row, 0);
        if (m_selected.contains(at.data(KeyRole).toString())) again.select(at, at);
    }
    m_view.selectionModel()->select(again, QItemSelectionModel::ClearAndSelect | QItemSelectionModel::Rows);
}

void KeptPlace::restore() {
    QItemSelectionModel* chosen = m_view.selectionModel();
    if (!m_selected.isEmpty() && !chosen->hasSelection()) selectAgain();
    if (m_view.currentIndex().data(KeyRole).toString() != m_currentKey) {
        const int row = rowOf(m_currentKey);
        if (row >= 0) chosen->setCurrentIndex(m_view.model()->index(row, 0), QItemSelectionModel::NoUpdate);
        else chosen->clearCurrentIndex();
    }
    if (m_topKey.isEmpty()) return;
    const int top = m_top.isValid() ? m_top.row() : rowOf(m_topKey);
    if (top < 0 || top == m_view.verticalScrollBar()->value()) return;
    m_view.doItemsLayout(); // the scroll bar knows the new rows only then
    m_view.verticalScrollBar()->setValue(top);
}

} // namespace interlude::lists
