#include "views/lists/list_delegate.h"

#include "views/lists/list_model.h"
#include "views/look/look.h"

#include <QApplication>
#include <QPainter>

namespace interlude::lists {

namespace {
constexpr int chipWidth = 44;
constexpr int chipHeight = 20;
constexpr int barHeight = 4;
} // namespace

void ListDelegate::initStyleOption(QStyleOptionViewItem* option, const QModelIndex& index) const {
    QStyledItemDelegate::initStyleOption(option, index);
    // The style sheet paints selected rows in one text colour; a tone must survive the selection.
    const QVariant ink = index.data(Qt::ForegroundRole);
    if (ink.isValid()) option->palette.setColor(QPalette::HighlightedText, ink.value<QColor>());
}

void ListDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const {
    const int family = index.data(FamilyRole).toInt();
    const QVariant share = index.data(ShareRole);
    if (family < 0 && !share.isValid()) {
        QStyledItemDelegate::paint(painter, option, index);
        return;
    }
    QStyleOptionViewItem own = option;
    initStyleOption(&own, index);
    const QString text = own.text;
    own.text.clear();
    QApplication::style()->drawControl(QStyle::CE_ItemViewItem, &own, painter, own.widget);

    QRect inner = option.rect.adjusted(look::unit, 0, -look::unit, 0);
    if (family >= 0) {
        const QRect chip(inner.left(), inner.center().y() - chipHeight / 2, chipWidth, chipHeight);
        paintChip(painter, chip, family, index.data(ChipRole).toString());
        inner.setLeft(chip.right() + look::unit);
    }
    if (share.isValid()) {
        const QRect bar(inner.left(), inner.bottom() - barHeight - 4, inner.width(), barHeight);
        paintBar(painter, bar, share.toDouble(), index.data(ToneRole).toString());
        inner.setBottom(bar.top());
    }
    const QVariant ink = index.data(Qt::ForegroundRole);
    painter->save();
    painter->setFont(own.font);
    painter->setPen(ink.isValid() ? ink.value<QColor>() : look::colours().text);
    painter->drawText(inner, static_cast<int>(own.displayAlignment),
                      own.fontMetrics.elidedText(text, Qt::ElideRight, inner.width()));
    painter->restore();
}

QSize ListDelegate::sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const {
    // Measured by the text itself: the style sheet's padding is not part of every style's hint.
    const int text = option.fontMetrics.horizontalAdvance(index.data().toString()) + 2 * look::unit + 2;
    const int chip = index.data(FamilyRole).toInt() < 0 ? 0 : chipWidth + look::unit;
    return {text + chip, QStyledItemDelegate::sizeHint(option, index).height()};
}

void paintChip(QPainter* painter, const QRect& rect, int family, const QString& initials) {
    painter->save();
    painter->setPen(Qt::NoPen);
    painter->setBrush(look::familyTint(family, look::theme()));
    painter->drawRoundedRect(rect, look::radius, look::radius);
    painter->setBrush(look::familyHatch(family, look::theme()));
    painter->drawRoundedRect(rect, look::radius, look::radius);
    painter->setFont(look::font(look::Text::Small, true));
    painter->setPen(look::colours().text);
    painter->drawText(rect, Qt::AlignCenter, initials);
    painter->restore();
}

void paintBar(QPainter* painter, const QRect& rect, double share, const QString& tone) {
    painter->save();
    painter->setPen(Qt::NoPen);
    painter->setBrush(look::colours().line);
    painter->drawRect(rect);
    QRect filled = rect;
    filled.setWidth(static_cast<int>(rect.width() * std::clamp(share, 0.0, 1.0)));
    painter->setBrush(tone.isEmpty() ? look::colours().muted : look::toneColour(tone));
    painter->drawRect(filled);
    painter->restore();
}

} // namespace interlude::lists
