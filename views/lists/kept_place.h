#pragma once
// Where a person is in a list: the current row, the selected rows and the row at the top. Noted before new rows come and
// found again afterwards, by their keys.

#include <QPersistentModelIndex>
#include <QSet>
#include <QString>

class QTableView;

namespace interlude::lists {

class KeptPlace {
public:
    /// Borrowed; its model tells keys by KeyRole.
    explicit KeptPlace(QTableView& view) : m_view(view) {}

    void note();
    /// A row that is gone is current no more: its neighbour was not chosen by anybody. A list that stood at its very top
    /// stays there.
    void restore();

private:
    int rowOf(const QString& key) const;
    void selectAgain();

    QTableView& m_view;
    QString m_currentKey, m_topKey;
    QPersistentModelIndex m_top;
    QSet<QString> m_selected;
};

} // namespace interlude::lists
