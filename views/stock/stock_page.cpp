#include "views/stock/stock_page.h"

namespace interlude {

StockPage::StockPage(Bench& bench, QWidget* parent) : QWidget(parent), m_bench(bench) {
    static_cast<void>(m_bench);
}

} // namespace interlude
