#pragma once
// A table of rows of one kind. A page says, per column, what a cell says and by which value it sorts; everything else
// (filter, sort, copy, export) is the list's. Rows are values, copied in; nothing here knows the shop.

#include <QAbstractTableModel>
#include <QList>
#include <QString>
#include <QVariant>

#include <concepts>
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

Q_SIGNALS:
    /// Around all that new rows change: whoever shows them keeps the person's place.
    void refreshing();
    void refreshed();
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

    /// Takes new rows, and tells only what is different: rows that say something else (where T can be compared), and those
    /// that have come or gone in one place. More than a few of these make a new list.
    void setRows(QList<T> rows) {
        const auto sameKey = [&](qsizetype was, qsizetype is) { return m_key(m_rows[was]) == m_key(rows[is]); };
        const qsizetype common = std::min(m_rows.size(), rows.size());
        qsizetype head = 0, tail = 0; // rows that stay, before and after those that come or go
        while (head < common && sameKey(head, head)) ++head;
        while (tail < common - head && sameKey(m_rows.size() - 1 - tail, rows.size() - 1 - tail)) ++tail;
        const qsizetype go = m_rows.size() - head - tail, come = rows.size() - head - tail;
        Q_EMIT refreshing();
        if (go + come > fewRows) {
            beginResetModel();
            m_rows = std::move(rows);
            endResetModel();
        } else {
            takeSame(rows, 0, 0, head);
            takeSame(rows, m_rows.size() - tail, rows.size() - tail, tail);
            if (go > 0) takeOut(head, go);
            if (come > 0) putIn(head, rows.mid(head, come));
        }
        Q_EMIT refreshed();
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
    static constexpr qsizetype fewRows = 50;

    /// Rows `was` … become rows `is` … of the same keys.
    void takeSame(const QList<T>& rows, qsizetype was, qsizetype is, qsizetype count) {
        qsizetype first = -1, last = -1; // changed and not told yet
        const auto tell = [&] {
            if (first >= 0) Q_EMIT dataChanged(index(static_cast<int>(first), 0), index(static_cast<int>(last), columnCount() - 1));
            first = -1;
        };
        for (qsizetype i = 0; i < count; ++i) {
            if constexpr (std::equality_comparable<T>)
                if (m_rows[was + i] == rows[is + i]) continue;
            // Told together where little lies between.
            if (first >= 0 && was + i - last > fewRows) tell();
            m_rows[was + i] = rows[is + i];
            if (first < 0) first = was + i;
            last = was + i;
        }
        tell();
    }
    void takeOut(qsizetype first, qsizetype count) {
        beginRemoveRows({}, static_cast<int>(first), static_cast<int>(first + count - 1));
        m_rows.remove(first, count);
        endRemoveRows();
    }
    void putIn(qsizetype first, const QList<T>& rows) {
        beginInsertRows({}, static_cast<int>(first), static_cast<int>(first + rows.size() - 1));
        m_rows = m_rows.mid(0, first) + rows + m_rows.mid(first);
        endInsertRows();
    }

    QList<Column<T>> m_columns;
    std::function<QString(const T&)> m_key;
    QList<T> m_rows;
};

} // namespace interlude::lists
