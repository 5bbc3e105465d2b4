#pragma once
// How wide the columns of a list should be: what heading and texts need, and who gives way where the list is too narrow for
// all of them. Texts are measured once, those in view and some beside them; rows that come or change later may widen a column.

#include <QList>

class QTableView;

namespace interlude::lists {

class Heading;
class ListTable;

class ColumnWidths {
public:
    /// All are borrowed; `view` shows `model`, perhaps sorted and filtered.
    ColumnWidths(const QTableView& view, const Heading& heading, const ListTable& model);

    /// What is needed is to be measured anew: another font, another list.
    void forget() { m_needed.clear(); }
    /// Measures heading and texts unless that is known; true when it had to.
    bool measure();
    /// Rows of the view's model have come or say something else; true when a column needs more than it did.
    bool widen(int firstRow, int lastRow);
    /// The width of each column in a list so wide. The longest texts give way first; what may not shrink stands whole, and
    /// the list scrolls sideways.
    QList<int> shared(int room) const;

private:
    const QTableView& m_view;
    const Heading& m_heading;
    const ListTable& m_model;
    QList<int> m_needed; ///< by column; empty: not measured
};

} // namespace interlude::lists
