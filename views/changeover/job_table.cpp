#include "views/changeover/job_table.h"

#include "views/words/words.h"

namespace interlude {

JobTable::JobTable(Bench& bench, QObject* parent) : QAbstractTableModel(parent), m_bench(bench) {
    reload();
}

void JobTable::reload() {
    beginResetModel();
    m_jobs.clear();
    for (const Job& j : m_bench.shop().jobs())
        if (j.state == JobState::Open || j.state == JobState::Failed) m_jobs.append(j);
    endResetModel();
}

JobId JobTable::jobAt(int row) const {
    return row >= 0 && row < m_jobs.size() ? m_jobs.at(row).id : JobId();
}

int JobTable::rowOf(const JobId& id) const {
    for (int i = 0; i < static_cast<int>(m_jobs.size()); ++i)
        if (m_jobs.at(i).id == id) return i;
    return -1;
}

int JobTable::rowCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(m_jobs.size());
}

int JobTable::columnCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : ColumnCount;
}

QString JobTable::text(const Job& j, int column) const {
    switch (column) {
    case Id: return j.id;
    case Title: return j.title;
    case Setups: {
        QStringList all;
        for (const Variant& v : j.variants) {
            const QString s = words::setupWanted(m_bench.catalogue(), v.setup);
            if (!all.contains(s)) all.append(s);
        }
        return all.join(tr(" or "));
    }
    case Quantity: return QString::number(j.quantity);
    case Due: return j.due ? m_bench.shortTime(*j.due) : QString();
    case LateCost: return j.lateCostPerHour.cents() == 0 ? QString() : words::number(j.lateCostPerHour.units());
    default: return {};
    }
}

QVariant JobTable::sortKey(const Job& j, int column) const {
    switch (column) {
    case Quantity: return j.quantity;
    case Due: return j.due ? toMs(*j.due) : std::numeric_limits<qint64>::max();
    case LateCost: return j.lateCostPerHour.cents();
    default: return text(j, column);
    }
}

QVariant JobTable::data(const QModelIndex& index, int role) const {
    if (!index.isValid() || index.row() >= m_jobs.size()) return {};
    const Job& j = m_jobs.at(index.row());
    if (role == Qt::DisplayRole) return text(j, index.column());
    if (role == Qt::UserRole) return sortKey(j, index.column());
    if (role == Qt::ToolTipRole && index.column() == Due && j.due) return m_bench.longTime(*j.due);
    if (role == Qt::ToolTipRole) return text(j, index.column());
    if (role == Qt::TextAlignmentRole && (index.column() == Quantity || index.column() == LateCost))
        return QVariant::fromValue(Qt::AlignRight | Qt::AlignVCenter);
    return {};
}

QVariant JobTable::headerData(int section, Qt::Orientation orientation, int role) const {
    if (orientation != Qt::Horizontal || role != Qt::DisplayRole) return {};
    switch (section) {
    case Id: return tr("Job");
    case Title: return tr("Title");
    case Setups: return tr("Setup");
    case Quantity: return tr("Qty");
    case Due: return tr("Due");
    case LateCost: return tr("Late cost/h");
    default: return {};
    }
}

JobFilter::JobFilter(QObject* parent) : QSortFilterProxyModel(parent) {
    setSortRole(Qt::UserRole);
    setSortCaseSensitivity(Qt::CaseInsensitive);
}

void JobFilter::setWords(const QString& text) {
    m_words = text.simplified().split(QLatin1Char(' '), Qt::SkipEmptyParts);
    invalidateFilter();
}

bool JobFilter::filterAcceptsRow(int row, const QModelIndex& parent) const {
    QString all;
    for (int c = 0; c < sourceModel()->columnCount(parent); ++c)
        all += sourceModel()->index(row, c, parent).data().toString() + QLatin1Char(' ');
    return std::all_of(m_words.begin(), m_words.end(),
                       [&](const QString& w) { return all.contains(w, Qt::CaseInsensitive); });
}

} // namespace interlude
