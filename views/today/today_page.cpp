#include "views/today/today_page.h"

namespace interlude {

TodayPage::TodayPage(Bench& bench, QWidget* parent) : QWidget(parent), m_bench(bench) {
    static_cast<void>(m_bench);
}

} // namespace interlude
