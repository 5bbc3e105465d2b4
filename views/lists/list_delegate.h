#pragma once
// Paints what a cell adds to its text: a chip with a family's tint, hatch and initials, and a bar.

#include <QStyledItemDelegate>

namespace interlude::lists {

class ListDelegate final : public QStyledItemDelegate {
    Q_OBJECT
public:
    using QStyledItemDelegate::QStyledItemDelegate;
    void paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const override;
    QSize sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const override;

protected:
    void initStyleOption(QStyleOptionViewItem* option, const QModelIndex& index) const override;
};

/// Chip of a family: opaque tint, hatch, initials.
void paintChip(QPainter* painter, const QRect& rect, int family, const QString& initials);
/// A bar of `share` (0 … 1) in a frame; `tone` colours the filled part by name, empty = accent.
void paintBar(QPainter* painter, const QRect& rect, double share, const QString& tone);

} // namespace interlude::lists
