#include "views/lists/heading.h"

#include "views/look/look.h"

namespace interlude::lists {

namespace {
/// Rows beside those in view: a list may have them by the ten thousand.
constexpr int mostMeasured = 200;

QString arrow(Qt::SortOrder order) {
    return order == Qt::AscendingOrder ? QStringLiteral(" ▲") : QStringLiteral(" ▼");
}
} // namespace

Heading::Heading(QWidget* parent) : QHeaderView(Qt::Horizontal, parent) {
    setSectionsClickable(true);
    setResizeContentsPrecision(mostMeasured);
}

int Heading::wantedWidth(int section) const {
    const QString title = model()->headerData(section, Qt::Horizontal).toString();
    // As the style sheet draws it: bold, with a padding on both sides and a line to the next heading.
    const QFontMetrics metrics(look::font(look::Text::Body, true));
    return metrics.horizontalAdvance(title + arrow(Qt::DescendingOrder)) + 3 * look::unit;
}

void Heading::initStyleOptionForIndex(QStyleOptionHeader* option, int section) const {
    QHeaderView::initStyleOptionForIndex(option, section);
    if (option->sortIndicator == QStyleOptionHeader::None) return;
    option->sortIndicator = QStyleOptionHeader::None;
    option->text += arrow(sortIndicatorOrder());
}

} // namespace interlude::lists
