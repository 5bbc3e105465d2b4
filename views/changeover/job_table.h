#pragma once
// The list of open jobs: sorts, filters as you type, copies.

#include "views/bench/bench.h"

#include <QAbstractTableModel>
#include <QSortFilterProxyModel>

namespace interlude {

class JobTable final : public QAbstractTableModel {
    Q_OBJECT
public:
    enum Column { Id, Title, Setups, Quantity, Due, LateCost, ColumnCount };
    explicit JobTable(Bench& bench, QObject* parent = nullptr);
    /// Reads the shop anew; only jobs that can still be printed.
    void reload();
    /// Empty for a row that is not there.
    JobId jobAt(int row) const;
    int rowOf(const JobId& id) const;

    int rowCount(const QModelIndex& parent = {}) const override;
    int columnCount(const QModelIndex& parent = {}) const override;
    QVariant data(const QModelIndex& index, int role) const override;
    QVariant headerData(int section, Qt::Orientation orientation, int role) const override;

private:
    QVariant sortKey(const Job& job, int column) const;
    QString text(const Job& job, int column) const;
    Bench& m_bench;
    QList<Job> m_jobs;
};

/// Keeps rows in which every typed word occurs in some column.
class JobFilter final : public QSortFilterProxyModel {
    Q_OBJECT
public:
    explicit JobFilter(QObject* parent = nullptr);
    void setWords(const QString& text);

protected:
    bool filterAcceptsRow(int row, const QModelIndex& parent) const override;

private:
    QStringList m_words;
};

} // namespace interlude
