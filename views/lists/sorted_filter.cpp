#include "views/lists/sorted_filter.h"

#include "views/lists/list_model.h"

namespace interlude::lists {

SortedFilter::SortedFilter(QObject* parent) : QSortFilterProxyModel(parent), m_collator(QLocale(QLocale::English)) {
    // A named locale: the "C" locale knows no numbers inside text.
    m_collator.setNumericMode(true);
    m_collator.setCaseSensitivity(Qt::CaseInsensitive);
    setSortRole(SortRole);
}

void SortedFilter::setWords(const QString& text) {
    m_words = text.split(QLatin1Char(' '), Qt::SkipEmptyParts);
    invalidateFilter();
}

bool SortedFilter::filterAcceptsRow(int row, const QModelIndex& parent) const {
    for (const QString& word : m_words) {
        bool found = false;
        for (int column = 0; !found && column < sourceModel()->columnCount(parent); ++column)
            found = sourceModel()->index(row, column, parent).data().toString().contains(word, Qt::CaseInsensitive);
        if (!found) return false;
    }
    return true;
}

bool SortedFilter::lessThan(const QModelIndex& left, const QModelIndex& right) const {
    const QVariant a = left.data(SortRole), b = right.data(SortRole);
    if (!a.isValid() || !b.isValid()) {
        if (a.isValid() == b.isValid()) return false;
        return (sortOrder() == Qt::AscendingOrder) == a.isValid();
    }
    if (a.typeId() == QMetaType::QString || b.typeId() == QMetaType::QString)
        return m_collator.compare(a.toString(), b.toString()) < 0;
    return QVariant::compare(a, b) == QPartialOrdering::Less;
}

} // namespace interlude::lists
