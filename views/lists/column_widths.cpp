#include "views/lists/column_widths.h"

#include "views/lists/heading.h"
#include "views/lists/list_model.h"
#include "views/look/look.h"

#include <QTableView>

namespace interlude::lists {

namespace {
constexpr int fewRows = 50;
} // namespace

ColumnWidths::ColumnWidths(const QTableView& view, const Heading& heading, const ListTable& model)
    : m_view(view), m_heading(heading), m_model(model) {}

bool ColumnWidths::measure() {
    if (!m_needed.isEmpty()) return false;
    const QAbstractItemView& texts = m_view; // public there
    for (int c = 0; c < m_model.columnCount(); ++c)
        m_needed.append(std::max(m_heading.wantedWidth(c), texts.sizeHintForColumn(c)));
    return true;
}

bool ColumnWidths::widen(int first, int last) {
    bool wider = false;
    const QAbstractItemModel* shown = m_view.model();
    if (last - first > fewRows) { // then those that are seen
        first = std::max(first, m_view.rowAt(0));
        const int lowest = m_view.rowAt(m_view.viewport()->height() - 1);
        last = std::min({last, first + fewRows, lowest < 0 ? last : lowest});
    }
    for (int row = first; row <= last; ++row)
        for (int c = 0; c < static_cast<int>(m_needed.size()); ++c) {
            const int needs = m_view.sizeHintForIndex(shown->index(row, c)).width();
            wider = wider || needs > m_needed[c];
            m_needed[c] = std::max(m_needed[c], needs);
        }
    return wider;
}

QList<int> ColumnWidths::shared(int room) const {
    QList<int> widths = m_needed, least;
    int over = -room;
    for (int c = 0; c < static_cast<int>(widths.size()); ++c) {
        const int suggested = m_model.width(c) * m_view.fontMetrics().averageCharWidth() + 2 * look::unit;
        least.append(m_model.width(c) == 0 ? widths[c] : std::clamp(suggested, m_heading.wantedWidth(c), widths[c]));
        over += widths[c];
    }
    while (over > 0) {
        int widest = -1;
        for (int c = 0; c < static_cast<int>(widths.size()); ++c)
            if (widths[c] > least[c] && (widest < 0 || widths[c] > widths[widest])) widest = c;
        if (widest < 0) break;
        const int cut = std::min({over, widths[widest] - least[widest], look::unit});
        widths[widest] -= cut;
        over -= cut;
    }
    return widths;
}

} // namespace interlude::lists
