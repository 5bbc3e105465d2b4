#pragma once
// A table of rows of one kind. A page says, per column, what a cell says and by which value it sorts; everything else
// (filter, sort, copy, export) is the list's. Rows are values, copied in; nothing here knows the shop.

#include <QAbstractTableModel>
#include <QList>
#include <QString>
#include <QVariant>

#include <functional>
#include <optional>

namespace interlude::lists {

/// What one cell says. The text alone must tell everything: colour, bar and chip only repeat it.
struct Cell {
    QString text;
    QVariant sort;               ///< value to sort by; invalid = by text (an empty text comes last); `sortLast` = last
    QString tip;                 ///< tooltip; may be empty
    QString tone;                ///< name of a text colour, see look::setTone; empty = plain
    std::optional<double> share; ///< 0 … 1: a bar under the text
    int family = -1;             ///< position of a chip's family tint; -1 = no chip
    QString chip;                ///< the family's initials, on the chip
};

/// A cell that says only this, and sorts by it.
inline Cell textCell(const QString& text) {
    Cell c;
    c.text = text;
    return c;
}

/// For Cell::sort: has no value to sort by, stands last whichever way the column is sorted ("unknown").
inline QVariant sortLast() { return QVariant::fromValue(nullptr); }

enum ListRole { SortRole = Qt::UserRole + 1, KeyRole, ShareRole, FamilyRole, ChipRole, ToneRole };

/// The part that needs no type of row.
class ListTable : public QAbstractTableModel {
    Q_OBJECT
public:
    using QAbstractTableModel::QAbstractTableModel;

    /// Identifies a row across refreshes (an id or serial).
    virtual QString key(int row) const = 0;
    virtual Cell cell(int row, int column) const = 0;
    virtual QString title(int column) const = 0;
    virtual bool alignedRight(int column) const = 0;
    /// Where the list is too narrow for all its texts, the column may shrink to so many characters; 0 = it never may.
    virtual int width(int column) const = 0;

    QVariant data(const QModelIndex& index, int role) const override;
    QVariant headerData(int section, Qt::Orientation orientation, int role) const override;
    /// The row of this key, or -1.
    int rowOf(const QString& key) const;
};

template <typename T> struct Column {
    QString title;
    std::function<Cell(const T&)> cell;
    bool right = false; ///< numbers stand right
    int width = 0;
};

template <typename T> class ListModel final : public ListTable {
public:
    ListModel(QList<Column<T>> columns, std::function<QString(const T&)> key, QObject* parent = nullptr)
        : ListTable(parent), m_columns(std::move(columns)), m_key(std::move(key)) {}

    /// Takes new rows. Where the keys are the same in the same order the view keeps everything in place.
    void setRows(QList<T> rows) {
        bool same = rows.size() == m_rows.size();
        for (qsizetype i = 0; same && i < rows.size(); ++i) same = m_key(rows[i]) == m_key(m_rows[i]);
        if (same) {
            m_rows = std::move(rows);
            if (!m_rows.isEmpty()) Q_EMIT dataChanged(index(0, 0), index(rowCount() - 1, columnCount() - 1));
            return;
        }
        beginResetModel();
        m_rows = std::move(rows);
        endResetModel();
    }
    const QList<T>& rows() const { return m_rows; }

    int rowCount(const QModelIndex& parent = {}) const override {
        return parent.isValid() ? 0 : static_cast<int>(m_rows.size());
    }
    int columnCount(const QModelIndex& parent = {}) const override {
        return parent.isValid() ? 0 : static_cast<int>(m_columns.size());
    }
    QString key(int row) const override { return m_key(m_rows[row]); }
    Cell cell(int row, int column) const override { return m_columns[column].cell(m_rows[row]); }
    QString title(int column) const override { return m_columns[column].title; }
    bool alignedRight(int column) const override { return m_columns[column].right; }
    int width(int column) const override { return m_columns[column].width; }

private:
    QList<Column<T>> m_columns;
    std::function<QString(const T&)> m_key;
    QList<T> m_rows;
};

} // namespace interlude::lists
