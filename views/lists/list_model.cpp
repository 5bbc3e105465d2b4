#include "views/lists/list_model.h"

#include "views/look/look.h"

namespace interlude::lists {

QVariant ListTable::data(const QModelIndex& index, int role) const {
    if (!index.isValid()) return {};
    if (role == KeyRole) return key(index.row());
    if (role == Qt::TextAlignmentRole) {
        return QVariant::fromValue((alignedRight(index.column()) ? Qt::AlignRight : Qt::AlignLeft) | Qt::AlignVCenter);
    }
    const Cell c = cell(index.row(), index.column());
    switch (role) {
    case Qt::DisplayRole: return c.text;
    case Qt::ToolTipRole: return c.tip.isEmpty() ? QVariant() : QVariant(c.tip);
    case Qt::ForegroundRole: return c.tone.isEmpty() ? QVariant() : QVariant(look::toneColour(c.tone));
    case SortRole:
        if (c.sort.typeId() == QMetaType::Nullptr) return {};
        return c.sort.isValid() ? c.sort : c.text.isEmpty() ? QVariant() : QVariant(c.text);
    case ShareRole: return c.share ? QVariant(*c.share) : QVariant();
    case FamilyRole: return c.family;
    case ChipRole: return c.chip;
    case ToneRole: return c.tone;
    default: return {};
    }
}

QVariant ListTable::headerData(int section, Qt::Orientation orientation, int role) const {
    if (orientation != Qt::Horizontal) return QAbstractTableModel::headerData(section, orientation, role);
    if (role == Qt::DisplayRole) return title(section);
    if (role == Qt::TextAlignmentRole) {
        return QVariant::fromValue((alignedRight(section) ? Qt::AlignRight : Qt::AlignLeft) | Qt::AlignVCenter);
    }
    return {};
}

int ListTable::rowOf(const QString& wanted) const {
    for (int row = 0; row < rowCount(); ++row)
        if (key(row) == wanted) return row;
    return -1;
}

} // namespace interlude::lists
