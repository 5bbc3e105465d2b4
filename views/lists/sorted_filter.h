#pragma once
// Sorts by value and filters by words over all columns.

#include <QCollator>
#include <QSortFilterProxyModel>

namespace interlude::lists {

class SortedFilter final : public QSortFilterProxyModel {
    Q_OBJECT
public:
    explicit SortedFilter(QObject* parent = nullptr);

    /// Every word must occur in some column, in any order, whatever the case; empty = all rows.
    void setWords(const QString& text);

protected:
    bool filterAcceptsRow(int row, const QModelIndex& parent) const override;
    /// By number, time or text (numbers inside text count as numbers: N-9 before N-10). What has no value comes last,
    /// whichever way the column is sorted.
    bool lessThan(const QModelIndex& left, const QModelIndex& right) const override;

private:
    QCollator m_collator;
    QStringList m_words;
};

} // namespace interlude::lists
